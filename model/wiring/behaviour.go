package wiring

import (
	"fmt"
	"math"
	"math/bits"
	"slices"
	"sort"
	"strings"

	"coilwalk/model/motor"
	"coilwalk/model/rotor"
	"coilwalk/sequence"
)

// Trial is one thing to try with a motor: a step mode, and the direction that is
// commanded, at a slow rate and without load.
type Trial struct {
	Mode sequence.Mode
	Way  sequence.Direction
}

// Trials lists the six.
func Trials() []Trial {
	var all []Trial
	for _, m := range sequence.Modes {
		all = append(all, Trial{m, sequence.Forward}, Trial{m, sequence.Reverse})
	}
	return all
}

func (t Trial) String() string { return t.Mode.Name + " " + t.Way.String() }

// Does is what a shaft can be seen to do.
type Does string

const (
	Clockwise        Does = "cw"
	CounterClockwise Does = "ccw"
	Skips            Does = "skips" // turns, but by less than it should
	Buzzes           Does = "buzz"  // moves, and gets nowhere
	Still            Does = "still"
)

// everyDoes lists them.
var everyDoes = []Does{Clockwise, CounterClockwise, Skips, Buzzes, Still}

// Behaviour is what the rotor model says that a motor does in a trial.
type Behaviour struct {
	Share  map[Does]float64 // of all starts, loads and sides of unstable balances
	Places int              // rests in a cycle that are visited most often; 0 where it turns
	Hold   float64          // the weakest hold of a row over what a sound motor has there
	Either bool             // it can be made to run either way, by hand or by chance
}

// Likeliest gives what a person would say of it: what it does more often than
// not, else that it buzzes.
func (b Behaviour) Likeliest() Does {
	for _, d := range everyDoes {
		if b.Share[d] >= 0.5 {
			return d
		}
	}
	return Buzzes
}

// Text puts a behaviour into words.
func (b Behaviour) Text() string {
	var parts []string
	all := slices.Clone(everyDoes)
	sort.SliceStable(all, func(i, k int) bool { return b.Share[all[i]] > b.Share[all[k]] })
	for _, d := range all {
		if b.Share[d] < 0.02 {
			continue
		}
		words := doesWords(d)
		if d == Buzzes && b.Places > 1 {
			words += fmt.Sprintf(", %d places", b.Places)
		}
		if b.Share[d] < 0.98 {
			words += fmt.Sprintf(" %.0f %%", 100*b.Share[d])
		}
		parts = append(parts, words)
	}
	text := strings.Join(parts, ", ")
	if b.Hold < 0.9 && b.Hold > 0 && (b.Share[Clockwise]+b.Share[CounterClockwise] > 0.5) {
		text += ", weakly"
	}
	if b.Either {
		text += "; held by hand, it can be turned round"
	}
	return text
}

func doesWords(d Does) string {
	switch d {
	case Clockwise:
		return "turns clockwise"
	case CounterClockwise:
		return "turns counter-clockwise"
	case Skips:
		return "turns too little"
	case Buzzes:
		return "buzzes"
	}
	return "stays still"
}

// The runs of a trial. Loads and friction stand for what is not known of the
// bench; with drift the rotor goes on the way that it last went when a balance
// is unstable, as a turning rotor does, else it falls to either side alike.
var conditions = []struct {
	load, friction float64 // in T1
	drift          bool
	weight         float64
}{{0, 0.05, false, 0.25}, {0, 0, false, 0.25}, {0.1, 0.05, false, 0.15}, {-0.1, 0.05, false, 0.15}, {0, 0, true, 0.2}}

const (
	warmUp      = 2 // cycles before anything is counted
	counted     = 4 // cycles that are
	turnsFully  = 0.8
	turnsAtAll  = 0.2
	mostTracked = 400 // states of a run; beyond, the least likely are dropped
)

// Behave runs the rotor model on a motor with faults. Statics alone: slow, as
// the rotor would settle after each row; an unstable balance gives each side its
// share.
func Behave(m motor.Motor, faults []Fault, t Trial) Behaviour {
	return BehaveOn(m, m.Wiring, faults, t)
}

// BehaveOn is Behave for leads that sit on the outputs in another way than the
// motor states.
func BehaveOn(m motor.Motor, onOutputs sequence.Permutation, faults []Fault, t Trial) Behaviour {
	order := t.Mode.Order()
	way := t.Way
	if !Obeys(faults) {
		way = sequence.Forward
	}
	n := int64(order.Len())
	fields := make([]sequence.Field, n)
	weakest := math.Inf(1)
	for k := range n {
		row := order.Row(int64(way) * k)
		var out sequence.Row
		for o, end := range m.Wiring {
			out[o] = row[end]
		}
		fields[k] = Coils(faults, out, onOutputs, m.Drive).Field()
		weakest = math.Min(weakest, fields[k].Strength()/row.Field().Strength())
	}
	b := behaveIn(fields, m.PolePairs)
	b.Hold = weakest
	if b.Share[Buzzes] < 0.02 {
		b.Places = 0
	}
	return b
}

// behaveIn runs the statics through a cycle of fields.
func behaveIn(fields []sequence.Field, polePairs int) Behaviour {
	b := Behaviour{Share: map[Does]float64{}}
	rests := map[int]float64{}
	for _, c := range conditions {
		r := runner{fields: fields, drift: c.drift, rests: map[restKey]restWay{},
			machine: rotor.Machine{PolePairs: polePairs, Load: c.load, Friction: c.friction}}
		r.run(c.weight, &b, rests)
	}
	for n, w := range rests {
		if w > rests[b.Places] || w == rests[b.Places] && n < b.Places {
			b.Places = n
		}
	}
	return b
}

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
