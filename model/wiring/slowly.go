package wiring

import (
	"fmt"
	"math"
	"slices"
	"sync"

	"coilwalk/model/driver"
	"coilwalk/model/motor"
	"coilwalk/model/quantity"
	"coilwalk/model/rotor"
	"coilwalk/sequence"
)

// slowRate is what "slowly" means in a trial, in rows a second: a rotor comes to
// rest between two rows, and a person can follow it.
const slowRate = 20.0

// Slowly says what a motor does in slow trials. Where the motor gives enough, each
// row is run in time from where the last one left the rotor at rest, so an
// overshoot that carries it over a hill counts; else the statics say where it
// goes. What was run is kept: faults and trials have most of it in common. It may
// be used by several goroutines; one waits for another.
type Slowly struct {
	motor    motor.Motor
	plant    *rotor.Plant // nil without the figures for it
	settlers map[bench]*settler
	cycles   map[string]Behaviour
	lock     sync.Mutex
}

// bench is what is not known of where a motor is tried: load and friction, in T1.
type bench struct{ load, friction float64 }

// NewSlowly makes the trials of a motor.
func NewSlowly(m motor.Motor) *Slowly {
	s := &Slowly{motor: m}
	if p, _, err := rotor.PlantOf(m, driver.Usual(m.Drive, false), quantity.Voltage{}); err == nil {
		s.plant, s.settlers, s.cycles = &p, map[bench]*settler{}, map[string]Behaviour{}
	}
	return s
}

// Motor gives the motor that is tried.
func (s *Slowly) Motor() motor.Motor { return s.motor }

// Behave runs slow trials of a motor with faults, and with its leads on the
// outputs in some way.
func (s *Slowly) Behave(onOutputs sequence.Permutation, faults []Fault, t Trial) Behaviour {
	if s.plant == nil {
		return BehaveOn(s.motor, onOutputs, faults, t)
	}
	s.lock.Lock()
	defer s.lock.Unlock()
	rows, sound := sentTo(s.motor, onOutputs, faults, t)
	c := cycle{rows, Broken(faults, s.motor.Drive)}.first()
	key := fmt.Sprint(c)
	if _, known := s.cycles[key]; !known {
		s.cycles[key] = behaveBy(c.rows, oneSwing, func(at bench) func(row int, deg float64) restWay {
			settler := s.at(at)
			return func(row int, deg float64) restWay {
				return settler.rest(settleKey{c.rows[(row+len(c.rows)-1)%len(c.rows)], c.rows[row], c.broken, deg})
			}
		})
	}
	return s.cycles[key].seen(rows, sound)
}

// cycle is what a trial sends round and round.
type cycle struct {
	rows   []sequence.Row // as they arrive at the coil ends
	broken [4]bool
}

// first gives that cycle of all alike which comes first: begun at another row, or
// a quarter of a pitch further on, a motor of equal phases does the same.
func (c cycle) first() cycle {
	best, least := c, fmt.Sprint(c)
	for range 4 {
		for range c.rows {
			c.rows = append(slices.Clone(c.rows[1:]), c.rows[0])
			if words := fmt.Sprint(c); words < least {
				best, least = c, words
			}
		}
		next := cycle{broken: quarter(c.broken)}
		for _, r := range c.rows {
			next.rows = append(next.rows, quarter(r))
		}
		c = next
	}
	return best
}

// trials runs all of Trials with some faults.
func (s *Slowly) trials(with []Fault) (does []Behaviour) {
	for _, t := range Trials() {
		does = append(does, s.Behave(s.motor.Wiring, with, t))
	}
	return does
}

// at gives the machine on a bench.
func (s *Slowly) at(at bench) *settler {
	if s.settlers[at] == nil {
		p, t1 := *s.plant, s.plant.OnePhase()
		p.Load.Torque += at.load * t1 * p.Ratio
		p.Friction = max(p.Friction, at.friction*t1)
		one := &settler{plant: p, ends: map[settleKey]restWay{}}
		one.motion = newTimed(&one.plant)
		s.settlers[at] = one
	}
	return s.settlers[at]
}

// settler runs one row from rest, and keeps what came of it.
type settler struct {
	plant  rotor.Plant
	motion *rotor.Motion
	ends   map[settleKey]restWay
}

type settleKey struct {
	before, row sequence.Row
	broken      [4]bool
	deg         float64
}

// nudge is how far to either side of a hill a rotor begins that balances on it:
// noise does the rest.
const nudge = 1.0 // electrical degrees

// oneRest is how near to each other two places of rest are taken for one.
const oneRest = 0.5 // electrical degrees

// rest says where a row takes a rotor that came to rest on the row before. The
// phases are equal, so a quarter turned on it is the same again.
func (s *settler) rest(key settleKey) restWay {
	key.deg = within(math.Round(key.deg/oneRest) * oneRest)
	key = key.turned()
	if way, known := s.ends[key]; known {
		return way
	}
	from := rotor.Position{Deg: key.deg}
	machine, field := s.plant.Machine(), s.plant.Field(key.row)
	way := restWay{ways: 1}
	if _, balance := machine.Rest(field, from); balance == rotor.Either {
		way = restWay{by: [2]float64{s.run(key, nudge) + nudge, s.run(key, -nudge) - nudge}, ways: 2}
		way.order(balance)
	} else {
		way.by[0] = s.run(key, 0)
	}
	s.ends[key] = way
	return way
}

// run gives the degrees that a row turns the rotor by from a place beside where it
// was at rest.
func (s *settler) run(key settleKey, beside float64) float64 {
	from := rotor.Position{Deg: math.Mod(key.deg+beside+360, 360)}
	m := s.motion
	m.Start(rotor.State{Place: from, Currents: s.plant.Currents(key.before)})
	m.Feed(Feeds(&s.plant, key.row, key.broken))
	to, ok, err := m.Settle(key.row, 1/slowRate)
	if err != nil {
		return 0
	}
	if !ok { // it still swings, or is driven on
		to = m.State().Place
	}
	return to.From(from)
}

// turned gives the quarter turn of a key that comes first of all four.
func (k settleKey) turned() settleKey {
	best := k
	for range 3 {
		k = settleKey{quarter(k.before), quarter(k.row), quarter(k.broken), within(k.deg - 90)}
		if k.less(best) {
			best = k
		}
	}
	return best
}

// quarter moves what stands at the coil ends back by a quarter of a pitch.
func quarter[T any](at [4]T) [4]T { return [4]T{at[1], at[2], at[3], at[0]} }

func (k settleKey) less(other settleKey) bool {
	for e := range k.row {
		if k.row[e] != other.row[e] {
			return k.row[e] > other.row[e]
		}
	}
	for e := range k.broken {
		if k.broken[e] != other.broken[e] {
			return k.broken[e]
		}
	}
	for e := range k.before {
		if k.before[e] != other.before[e] {
			return k.before[e] > other.before[e]
		}
	}
	return k.deg < other.deg
}
