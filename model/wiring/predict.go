package wiring

import (
	"sync"

	"coilwalk/model/rotor"
	"coilwalk/sequence"
)

// How often an answer to each test is wrong altogether. People err more than
// meters do; common practice, no source. An answer that is wrong may be any of
// the other words alike.
var wrongShare = map[Test]float64{Kick: 0.12, Run: 0.12, Pulse: 0.10, Stiff: 0.12, Short: 0.15}

// guessed is the share of answers that are guesses where gears hide what the test
// is about: a tick, or how firmly the rotor is held.
const guessed = 0.98

// predict gives the odds of each word that answers a question under a mapping,
// from the field and the statics of the rotor; the words in the order of
// outcomes.
func (s *Sitting) predict(q Question, m mapping) []float64 {
	odds := make([]float64, len(s.topology.outcomes(q.Test)))
	at := s.places(q)
	switch q.Test {
	case Kick:
		odds[kicks()[m[at[0]]][m[at[1]]]] = 1
	case Stiff:
		if sumOf(m, at).None() {
			odds[1] = 1
		} else {
			odds[0] = 1
		}
	case Pulse:
		odds[induced(s.topology, m, at)] = 1
	case Short:
		odds[1] = 1
		if s.topology.other[at[0]] == at[1] {
			odds[0], odds[1] = 1, 0
		}
	case Run:
		odds = ran(m, at)
	}
	if one, two, ok := s.topology.alike(q.Test); ok {
		both := odds[one] + odds[two]
		odds[one], odds[two] = both/2, both/2
	}
	// What is seen may be told wrong.
	wrong, words := wrongShare[q.Test], float64(len(odds))
	for i := range odds {
		odds[i] = odds[i]*(1-wrong) + (1-odds[i])*wrong/(words-1)
		if !s.topology.can(q.Test) {
			odds[i] = guessed/words + odds[i]*(1-guessed)
		}
	}
	return odds
}

// axis gives the field of a lead energised alone, by its quarter.
func axis(quarter int) sequence.Field {
	var row sequence.Row
	row[quarter] = 1
	return row.Field()
}

func sumOf(m mapping, at []int) (f sequence.Field) {
	for _, i := range at {
		one := axis(m[i])
		f.A += one.A
		f.B += one.B
	}
	return f
}

// kicks are the answers to a kick by the fields of both leads, in quarters: at
// rest under the first, then under both, as the rotor model has it. 0 for
// clockwise, 1 for counter-clockwise; where it does not turn, 2 for slack and 3
// for held.
var kicks = sync.OnceValue(func() (table [4][4]int) {
	machine := rotor.Machine{PolePairs: 1, Friction: 0.02}
	for first := range 4 {
		home := rotor.Position{Deg: float64(90 * first)}
		for second := range 4 {
			both, add := axis(first), axis(second)
			both.A += add.A
			both.B += add.B
			where, _ := machine.Follow(rotor.At(home), both)
			to, known := where.Known()
			table[first][second] = 2
			switch by := to.From(home); {
			case known && by > 10:
				table[first][second] = 0
			case known && by < -10:
				table[first][second] = 1
			case !both.None():
				table[first][second] = 3
			}
		}
	}
	return table
})

// induced says what a meter across the half of one lead shows when a cell is
// touched to that of another: 0 up, 1 down, 2 nothing. Halves of one phase are
// coupled like the windings of a transformer; those of two phases, a quarter
// apart, are not. With a common or taps only the ends of one phase are, and their
// sense tells nothing.
func induced(t *Topology, m mapping, at []int) int {
	between := (m[at[1]] - m[at[0]] + 4) % 4
	switch {
	case between%2 == 1:
		return 2
	case t.Kind() == FiveLead || t.Kind() == SixLead || between == 0:
		return 0
	}
	return 1
}

// ran gives the odds of cw, ccw, buzz and still for four leads energised in turn,
// both ways.
func ran(m mapping, at []int) []float64 {
	var key [4]int
	for k, i := range at {
		key[k] = (m[i] - m[at[0]] + 4) % 4
	}
	odds := runs()[key]
	return odds[:]
}

// runs are the answers to a run by the fields of its leads against the first, in
// quarters: a motor that turns does so both ways, and one that turns by chance or
// with a load seldom does.
var runs = sync.OnceValue(func() map[[4]int][4]float64 {
	table := map[[4]int][4]float64{}
	for code := range 64 {
		key := [4]int{0, code & 3, code >> 2 & 3, code >> 4}
		var shares [2]map[Does]float64
		for way := range shares {
			rows := make([]sequence.Row, len(key))
			for k := range key {
				from := k
				if way == 1 {
					from = (len(key) - k) % len(key)
				}
				rows[k][key[from]] = 1
			}
			shares[way] = behaveIn(rows, 1).Share
		}
		cw := shares[0][Clockwise] * shares[1][CounterClockwise]
		ccw := shares[0][CounterClockwise] * shares[1][Clockwise]
		still := shares[0][Still] * shares[1][Still]
		table[key] = [4]float64{cw, ccw, 1 - cw - ccw - still, still}
	}
	return table
})

// places gives where the leads of a question stand among those of the topology.
func (s *Sitting) places(q Question) []int {
	at := make([]int, len(q.Leads))
	for i, l := range q.Leads {
		at[i] = s.index[l]
	}
	return at
}
