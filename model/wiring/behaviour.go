package wiring

import (
	"fmt"
	"math"
	"slices"
	"sort"
	"strings"

	"coilwalk/model/motor"
	"coilwalk/model/rotor"
	"coilwalk/sequence"
)

// Trial is one thing to try with a motor: a step mode, and the direction that is
// commanded, without load and slowly, or at a rate.
type Trial struct {
	Mode sequence.Mode
	Way  sequence.Direction
	Rate float64 // rows a second; 0 for slowly, so that the rotor settles after each row
}

// Trials lists those without a rate: each step mode, both ways.
func Trials() []Trial {
	var all []Trial
	for _, m := range sequence.Modes {
		all = append(all, Trial{Mode: m, Way: sequence.Forward}, Trial{Mode: m, Way: sequence.Reverse})
	}
	return all
}

func (t Trial) String() string {
	words := t.Mode.Name + " " + t.Way.String()
	if t.Rate > 0 {
		words += fmt.Sprintf(" at %g rows/s", t.Rate)
	}
	return words
}

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

// SeenIn gives what may be seen in the k-th of n trials that are like this one.
// Where nothing is likelier than not, the trials together show the shares.
func (b Behaviour) SeenIn(k, n int) Does {
	x := (float64(k) + 0.5) / float64(n)
	for _, d := range everyDoes {
		if b.Share[d] >= 0.5 {
			return d
		}
	}
	for _, d := range everyDoes {
		if x -= b.Share[d]; x < 0 {
			return d
		}
	}
	return Still
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
	bench
	drift  bool
	weight float64
}{{bench{0, 0.05}, false, 0.25}, {bench{0, 0}, false, 0.25}, {bench{0.1, 0.05}, false, 0.15}, {bench{-0.1, 0.05}, false, 0.15}, {bench{0, 0}, true, 0.2}}

const (
	warmUp      = 2 // cycles before anything is counted
	counted     = 4 // cycles that are
	turnsFully  = 0.8
	turnsAtAll  = 0.2
	mostTracked = 400 // states of a run; beyond, the least likely are dropped
)

// Behave runs the rotor's statics on a motor with faults: slow, as it would settle
// after each row; an unstable balance gives each side its share. Slowly does the
// same with the motion from rest to rest.
func Behave(m motor.Motor, faults []Fault, t Trial) Behaviour {
	return BehaveOn(m, m.Wiring, faults, t)
}

// BehaveOn is Behave for leads that sit on the outputs in another way than the
// motor states.
func BehaveOn(m motor.Motor, onOutputs sequence.Permutation, faults []Fault, t Trial) Behaviour {
	rows, sound := sentTo(m, onOutputs, faults, t)
	return behaveIn(rows, m.PolePairs).seen(rows, sound)
}

// seen adds what rows say of themselves.
func (b Behaviour) seen(rows, sound []sequence.Row) Behaviour {
	b.Hold = weakest(rows, sound)
	if b.Share[Buzzes] < 0.02 {
		b.Places = 0
	}
	return b
}

// sentTo gives a cycle of a trial as it arrives at the coil ends, and as it would
// without faults.
func sentTo(m motor.Motor, onOutputs sequence.Permutation, faults []Fault, t Trial) (rows, sound []sequence.Row) {
	order := t.Mode.Order()
	way := t.Way
	if !Obeys(faults) {
		way = sequence.Forward
	}
	for k := range int64(order.Len()) {
		row := order.Row(int64(way) * k)
		var out sequence.Row
		for o, end := range m.Wiring {
			out[o] = row[end]
		}
		rows, sound = append(rows, Coils(faults, out, onOutputs, m.Drive)), append(sound, row)
	}
	return rows, sound
}

// weakest gives the weakest field of some rows against that of sound ones.
func weakest(rows, sound []sequence.Row) float64 {
	least := math.Inf(1)
	for k := range rows {
		least = math.Min(least, rows[k].Field().Strength()/sound[k].Field().Strength())
	}
	return least
}

// behaveIn runs the statics through a cycle of rows.
func behaveIn(rows []sequence.Row, polePairs int) Behaviour {
	var fields []sequence.Field
	for _, row := range rows {
		fields = append(fields, row.Field())
	}
	return behaveBy(rows, 1, func(at bench) func(int, float64) restWay {
		s := statics{fields: fields, rests: map[restKey]restWay{}, machine: rotor.Machine{PolePairs: polePairs, Load: at.load, Friction: at.friction}}
		return s.rest
	})
}

// behaveBy runs through a cycle of rows under all conditions, with what says on a
// bench where a row takes a rotor at rest. Rests within a grain, in degrees, are
// one place to be seen.
func behaveBy(rows []sequence.Row, grain float64, on func(bench) func(row int, deg float64) restWay) Behaviour {
	b := Behaviour{Share: map[Does]float64{}}
	rests := map[int]float64{}
	var holds []bool
	for _, row := range rows {
		holds = append(holds, !row.Field().None())
	}
	for _, c := range conditions {
		r := runner{holds: holds, load: c.load, drift: c.drift, grain: grain, rest: on(c.bench)}
		r.run(c.weight, &b, rests)
	}
	for n, w := range rests {
		if w > rests[b.Places] || w == rests[b.Places] && n < b.Places {
			b.Places = n
		}
	}
	return b
}
