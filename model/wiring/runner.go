package wiring

import (
	"math"
	"math/bits"
	"slices"
	"sort"

	"coilwalk/model/rotor"
	"coilwalk/sequence"
)

// runner walks a distribution of rotor positions through a cycle again and again.
type runner struct {
	holds []bool // of each row of the cycle: it has a field
	load  float64
	drift bool
	grain float64 // degrees within which two rests are one place to be seen
	rest  func(row int, deg float64) restWay

	byChance bool // it fell to a side by chance, and may do so again
}

// restWay is where a row takes the rotor from an angle: degrees further, twice
// where it can fall to either side.
type restWay struct {
	by   [2]float64
	ways int // 1 or 2; 0 when it is driven on without end
}

// state is a rotor in a run: where, how far it has come in all, which way it went
// last, and the rests of this cycle.
type state struct {
	deg   float64 // within a pitch, to 10⁻³ degrees
	total float64 // electrical degrees since the counting began
	last  int
	moved bool
	rests places // of the last cycle
}

// places is a set of angles within a pitch, to a degree.
type places [6]uint64

func (p *places) add(deg float64) {
	at := int(math.Round(deg)) % 360
	p[at/64] |= 1 << (at % 64)
}

func (p *places) count() (n int) {
	for _, w := range p {
		n += bits.OnesCount64(w)
	}
	return n
}

func (r *runner) run(weight float64, b *Behaviour, rests map[int]float64) {
	const starts = 8
	now := map[state]float64{}
	for k := range starts {
		now[state{deg: float64(k) * 360 / starts, last: 1 - 2*(k%2)}] = weight / starts
	}
	for cycle := range warmUp + counted {
		if cycle == warmUp {
			now = recount(now)
		}
		now = fresh(now)
		for row := range r.holds {
			now = r.step(now, row)
		}
	}
	full := 360.0 * counted
	cw, ccw, mean := 0.0, 0.0, 0.0
	for _, s := range inOrder(now) {
		mean += now[s] / weight * s.total / full
	}
	for _, s := range inOrder(now) {
		w := now[s]
		share := s.total / full
		if r.byChance {
			share = mean // watched for longer than these cycles, what chance does evens out
		}
		switch {
		case share >= turnsFully:
			b.Share[Clockwise] += w
			cw += w
		case share <= -turnsFully:
			b.Share[CounterClockwise] += w
			ccw += w
		case math.Abs(share) >= turnsAtAll:
			b.Share[Skips] += w
		case !s.moved:
			b.Share[Still] += w
		default:
			b.Share[Buzzes] += w
			rests[s.rests.count()] += w
		}
	}
	if r.drift && cw > 0 && ccw > 0 {
		b.Either = true
	}
}

// recount begins to count from here.
func recount(now map[state]float64) map[state]float64 {
	next := map[state]float64{}
	for _, s := range inOrder(now) {
		next[state{deg: s.deg, last: s.last}] += now[s]
	}
	return next
}

// fresh begins the list of rests anew.
func fresh(now map[state]float64) map[state]float64 {
	next := map[state]float64{}
	for _, s := range inOrder(now) {
		w := now[s]
		s.rests = places{}
		next[s] += w
	}
	return next
}

// inOrder lists states always in the same order, so that sums come out alike.
func inOrder(now map[state]float64) []state {
	all := make([]state, 0, len(now))
	for s := range now {
		all = append(all, s)
	}
	sort.Slice(all, func(i, k int) bool {
		a, b := all[i], all[k]
		switch {
		case a.deg != b.deg:
			return a.deg < b.deg
		case a.total != b.total:
			return a.total < b.total
		case a.last != b.last:
			return a.last < b.last
		case a.moved != b.moved:
			return b.moved
		}
		return slices.Compare(a.rests[:], b.rests[:]) < 0
	})
	return all
}

func (r *runner) step(now map[state]float64, row int) map[state]float64 {
	next := map[state]float64{}
	for _, s := range inOrder(now) {
		w := now[s]
		to := r.rest(row, s.deg)
		switch {
		case to.ways == 0:
			s.moved, s.total = true, s.total-math.Copysign(90, r.load) // driven on by the load
			next[s] += w
		case to.ways == 1:
			next[r.to(s, to.by[0], row)] += w
		case r.drift:
			by := to.by[0]
			if by*float64(s.last) < 0 {
				by = to.by[1]
			}
			next[r.to(s, by, row)] += w
		default:
			r.byChance = true
			next[r.to(s, to.by[0], row)] += w / 2
			next[r.to(s, to.by[1], row)] += w / 2
		}
	}
	if len(next) > mostTracked {
		next = likeliest(next)
	}
	return next
}

// likeliest keeps the states that matter, with the weight of all.
func likeliest(now map[state]float64) map[state]float64 {
	all := inOrder(now)
	sort.SliceStable(all, func(i, k int) bool { return now[all[i]] > now[all[k]] })
	kept, sum, total := map[state]float64{}, 0.0, 0.0
	for i, s := range all {
		total += now[s]
		if i < mostTracked {
			kept[s] = now[s]
			sum += now[s]
		}
	}
	for s := range kept {
		kept[s] *= total / sum
	}
	return kept
}

// to gives the state after a row turned the rotor by some degrees. Where it only
// fell into a detent is no place that a person would count.
func (r *runner) to(s state, by float64, row int) state {
	s.total = rounded(s.total + by)
	s.deg = within(s.deg + by)
	if math.Abs(by) > 1 {
		s.moved, s.last = true, 1
		if by < 0 {
			s.last = -1
		}
	}
	if r.holds[row] {
		s.rests.add(math.Round(s.deg/r.grain) * r.grain)
	}
	return s
}

// within gives an angle within a pitch, rounded.
func within(deg float64) float64 {
	deg = rounded(math.Mod(deg, 360))
	if deg < 0 {
		deg = rounded(deg + 360)
	}
	if deg >= 360 {
		return 0
	}
	return deg
}

func rounded(deg float64) float64 { return math.Round(deg*100) / 100 }

// statics asks the rotor's statics where a field takes it, once for each angle.
type statics struct {
	machine rotor.Machine
	fields  []sequence.Field
	rests   map[restKey]restWay
}

type restKey struct {
	a, b, deg float64
}

func (s *statics) rest(row int, deg float64) restWay {
	f := s.fields[row]
	key := restKey{f.A, f.B, deg}
	if way, known := s.rests[key]; known {
		return way
	}
	from := rotor.Position{Deg: deg}
	if f.None() { // the detent and the train hold it against so small a load
		return restWay{ways: 1}
	}
	to, balance := s.machine.Rest(f, from)
	way := restWay{}
	if balance != rotor.Adrift {
		for i, p := range to {
			way.by[i] = p.From(from)
		}
		way.ways = len(to)
	}
	way.order(balance)
	s.rests[key] = way
	return way
}

// order puts the side that rises first.
func (w *restWay) order(balance rotor.Balance) {
	if balance == rotor.Either && w.by[0] < 0 {
		w.by[0], w.by[1] = w.by[1], w.by[0]
	}
}
