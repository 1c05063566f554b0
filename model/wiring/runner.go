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
	machine rotor.Machine
	fields  []sequence.Field
	drift   bool
	rests   map[restKey]restWay

	byChance bool // it fell to a side by chance, and may do so again
}

type restKey struct {
	a, b, deg float64
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
		for _, f := range r.fields {
			now = r.step(now, f)
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

func (r *runner) step(now map[state]float64, f sequence.Field) map[state]float64 {
	next := map[state]float64{}
	for _, s := range inOrder(now) {
		w := now[s]
		to := r.rest(f, s.deg)
		switch {
		case to.ways == 0:
			s.moved, s.total = true, s.total-math.Copysign(90, r.machine.Load) // driven on by the load
			next[s] += w
		case to.ways == 1:
			next[s.to(to.by[0])] += w
		case r.drift:
			by := to.by[0]
			if by*float64(s.last) < 0 {
				by = to.by[1]
			}
			next[s.to(by)] += w
		default:
			r.byChance = true
			next[s.to(to.by[0])] += w / 2
			next[s.to(to.by[1])] += w / 2
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

// to gives the state after the rotor turned by some degrees.
func (s state) to(by float64) state {
	s.total = rounded(s.total + by)
	s.deg = rounded(math.Mod(s.deg+by+720, 360))
	if s.deg >= 360 {
		s.deg = 0
	}
	if math.Abs(by) > 1 {
		s.moved, s.last = true, 1
		if by < 0 {
			s.last = -1
		}
	}
	s.rests.add(s.deg)
	return s
}

func rounded(deg float64) float64 { return math.Round(deg*100) / 100 }

// rest asks the rotor model where a field takes the rotor, once for each angle.
func (r *runner) rest(f sequence.Field, deg float64) restWay {
	key := restKey{f.A, f.B, deg}
	if way, known := r.rests[key]; known {
		return way
	}
	from := rotor.Position{Deg: deg}
	if f.None() { // the detent and the train hold it against so small a load
		return restWay{ways: 1}
	}
	to, balance := r.machine.Rest(f, from)
	way := restWay{}
	if balance != rotor.Adrift {
		for i, p := range to {
			way.by[i] = p.From(from)
		}
		way.ways = len(to)
	}
	if balance == rotor.Either && way.by[0] < 0 { // the side that rises first
		way.by[0], way.by[1] = way.by[1], way.by[0]
	}
	r.rests[key] = way
	return way
}
