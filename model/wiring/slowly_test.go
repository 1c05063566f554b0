package wiring

import (
	"math"
	"slices"
	"testing"

	"coilwalk/model/motor"
	"coilwalk/sequence"
)

// Each of the 24 ways to put four leads on four outputs, row by row in time: four
// turn forward and four in reverse, whatever the mode (combinatorics of a ring of
// four: references, row "Mapping count"); for the other sixteen the direction
// makes no difference, but that chance or a load may turn them either way.
func TestEveryOrderInTime(t *testing.T) {
	for _, name := range []string{"vent-flap", "hybrid-4"} {
		s := NewSlowly(builtIn(t, name))
		counts := map[Does]int{}
		for _, wiring := range sequence.Permutations() {
			var told []Behaviour
			for _, trial := range Trials() {
				told = append(told, s.Behave(wiring, nil, trial))
			}
			for i, b := range told {
				counts[b.Likeliest()]++
				if wiring.Turns() != sequence.Standing {
					continue
				}
				for _, does := range everyDoes {
					if other := told[i^1]; math.Abs(other.Share[does]-b.Share[does]) > 0.05 {
						t.Errorf("%s %v %v: the direction makes a difference: %v, %v", name, wiring, Trials()[i], b.Share, other.Share)
					}
				}
			}
		}
		if counts[Clockwise] != 4*6 || counts[CounterClockwise] != 4*6 {
			t.Errorf("%s: %v; of 24 orders, 4 turn each way in each of 6 trials", name, counts)
		}
	}
}

// Row by row from rest is what a run at the slow rate comes to, where that is
// sure: the same machine run through without a stop.
func TestRestByRestIsARun(t *testing.T) {
	m, p := builtIn(t, "hybrid-4"), plantFor(t, "hybrid-4")
	s := NewSlowly(m)
	sure := 0
	for _, f := range Faults(m) {
		for _, trial := range someTrials() {
			slow := s.Behave(m.Wiring, []Fault{f}, trial)
			for _, does := range everyDoes {
				if slow.Share[does] < 0.99 {
					continue
				}
				sure++
				trial.Rate = slowRate
				if run := BehaveInTime(m, p, []Fault{f}, trial); run.Share[does] < 0.99 || run.Places != slow.Places {
					t.Errorf("%s, %v: %v at %d places rest by rest, %v at %d in a run", f.Text(m), trial, slow.Share, slow.Places, run.Share, run.Places)
				}
			}
		}
	}
	if trials := len(someTrials()); sure < 3*trials {
		t.Errorf("only %d are sure in %d trials", sure, trials)
	}
}

// A motor of equal phases does the same a quarter of a pitch further on, and from
// whichever row it is begun: so a fault is told beside those that no trial parts.
func TestEqualLeadsAreToldTogether(t *testing.T) {
	for _, name := range []string{"vent-flap", "hybrid-4", "hybrid-8"} {
		count := map[FaultKind]int{}
		for _, one := range suspectsOf(t, name).all {
			if len(one.faults) > 0 {
				count[one.faults[0].Kind]++
			}
		}
		for kind, n := range count {
			if n != 1 {
				t.Errorf("%s: %d groups of %s", name, n, kind)
			}
		}
	}
	p := plantFor(t, "vent-flap")
	s := &settler{plant: p, ends: map[settleKey]restWay{}}
	s.motion = newTimed(&s.plant)
	key := settleKey{before: sequence.Row{1, 0, 0, 0}, row: sequence.Row{0, 1, 0, 0}, deg: 3}
	first := s.run(key, 0)
	for range 3 {
		key = settleKey{quarter(key.before), quarter(key.row), quarter(key.broken), within(key.deg - 90)}
		if turned := s.run(key, 0); math.Abs(turned-first) > 0.01 {
			t.Errorf("a quarter further on %.3f° instead of %.3f°", turned, first)
		}
	}
}

// An overshoot counts: a lightly damped rotor that a row throws back by 128°
// swings over the hill 180° beyond its rest, where the statics let it rest. It
// begins √2·(1 − cos 52°) = 0.54 below the hill, in T1 times a radian, and on the
// 308° to it a load of 0.12 adds 0.65. Heavily damped it does not.
func TestAnOvershootCounts(t *testing.T) {
	m := builtIn(t, "hybrid-4")
	s := NewSlowly(m)
	q := *s.plant
	q.Damping /= 50
	q.Detent = 0
	q.Load.Torque = 0.12 * q.OnePhase() * q.Ratio
	throw := func(damping float64) float64 {
		p := q
		p.Damping *= damping
		one := &settler{plant: p, ends: map[settleKey]restWay{}}
		one.motion = newTimed(&one.plant)
		return one.run(settleKey{before: sequence.Row{1, 0, 0, 0}, row: sequence.Row{0, 0, 1, 1}, deg: 353}, 0) // to 225° by way of 360°
	}
	light, heavy := throw(1), throw(500)
	if math.Abs(heavy+128) > 20 && math.Abs(heavy-232) > 20 {
		t.Fatalf("heavily damped it goes by %.0f°", heavy)
	}
	if math.Abs(light-heavy) < 300 {
		t.Errorf("lightly damped it goes by %.0f°, heavily by %.0f°: the hill is passed by neither", light, heavy)
	}
}

// Without the figures for a plant the statics answer.
func TestSlowlyWithoutFigures(t *testing.T) {
	m := builtIn(t, "hybrid-4")
	m.Figures = motor.Figures{}
	s := NewSlowly(m)
	f := Faults(m)[:1]
	for _, trial := range Trials() {
		got, want := s.Behave(m.Wiring, f, trial), Behave(m, f, trial)
		if !slices.EqualFunc(everyDoes, everyDoes, func(a, b Does) bool { return got.Share[a] == want.Share[b] }) {
			t.Errorf("%v: %v, %v", trial, got, want)
		}
	}
}

// In all trials together a mixture shows its shares; what is likelier than not is
// seen in each.
func TestSeenInShowsTheShares(t *testing.T) {
	b := Behaviour{Share: map[Does]float64{Clockwise: 0.3, CounterClockwise: 0.3, Still: 0.4}}
	count := map[Does]int{}
	for k := range 10 {
		count[b.SeenIn(k, 10)]++
	}
	if count[Clockwise] != 3 || count[CounterClockwise] != 3 || count[Still] != 4 {
		t.Errorf("%v", count)
	}
	b.Share = map[Does]float64{Buzzes: 0.6, Still: 0.4}
	if b.SeenIn(0, 2) != Buzzes || b.SeenIn(1, 2) != Buzzes {
		t.Error("what is likeliest is not seen")
	}
}

// A broken lead carries nothing at all: the half beside one that is switched takes
// no induced current, as it does where an output just stays off.
func TestABrokenLeadCarriesNothing(t *testing.T) {
	p := plantFor(t, "vent-flap")
	induced := func(broken bool) float64 {
		m := newTimed(&p)
		m.Feed(Feeds(&p, sequence.Row{1, 0, 0, 0}, [4]bool{2: broken}))
		most := 0.0
		for k := range 100 {
			if err := m.Advance(float64(k+1) * 1e-5); err != nil {
				t.Fatal(err)
			}
			most = max(most, math.Abs(m.State().Currents[2]))
		}
		return most
	}
	if with, without := induced(false), induced(true); with < 0.02 || without != 0 {
		t.Errorf("A− carries %.3f A when its output is off, %.3f A when its lead is broken", with, without)
	}
}
