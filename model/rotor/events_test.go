package rotor

import (
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// slopesOfMargins compares the slope that goes with each margin with what the margin
// does a little before and after, and counts the kinds that it met.
func slopesOfMargins(t *rapid.T, m *Motion, kinds map[guardKind]int) {
	const dt = 1e-9
	slope := m.stages[0]
	for n := range m.armed {
		g := &m.guards[n]
		var ends [2]float64
		for k, sign := range []float64{-1, 1} {
			y, dy := m.now, vector{}
			for j := range m.places {
				y[j] += sign * dt * slope[j]
			}
			m.slope(&y, &dy)
			ends[k], _ = m.margin(g, &y, &dy)
		}
		_, got := m.margin(g, &m.now, &slope)
		least := 1e-3 // of amperes, volts or radians a second
		if g.kind == pressing {
			least = 1e-5 // of newton metres a second
		}
		if want := (ends[1] - ends[0]) / (2 * dt); !near(got, want, 1e-4*math.Abs(want)+least) {
			t.Fatalf("%s, guard %d of coil %d: slope %g, want %g", m.plant.Stage.Name, g.kind, g.coil, got, want)
		}
		kinds[g.kind]++
	}
}

// The slope that goes with each margin is its slope along the motion: what
// dips within a step is found by it.
func TestSlopeOfAMargin(t *testing.T) {
	tb, kinds := t, map[guardKind]int{}
	all := []guardKind{moving, stuckUp, stuckDown, overHold, underHold, heldDown, heldUp}
	met := func() bool {
		return !slices.ContainsFunc(all, func(k guardKind) bool { return kinds[k] == 0 })
	}
	check := func(t *rapid.T) {
		r := random(t)
		s := anyScript(tb, r)
		s.plant.Load.Gravity = 0
		m := NewMotion(&s.plant)
		s.start.Speed = float64(r.IntN(2)) * (r.Float64()*400 - 200)
		m.Start(s.start)
		m.Energise(s.rows[0])
		if m.Advance(r.Float64()*3e-3) != nil {
			t.Fatal("it fails")
		}
		slopesOfMargins(t, m, kinds)
	}
	for range 20 { // a rotor at rest is drawn seldom
		if rapid.Check(t, check); met() {
			break
		}
	}
	for _, kind := range all {
		if kinds[kind] == 0 {
			t.Errorf("no guard of kind %d was met", kind)
		}
	}
}

// So have the margins of rotor and load that touch or come near: what presses them
// together goes with currents, detent, damping and a load that hangs.
func TestSlopeOfAMarginInThePlay(t *testing.T) {
	tb, kinds := t, map[guardKind]int{}
	rapid.Check(t, func(t *rapid.T) {
		r := random(t)
		s := anyScript(tb, r)
		s.plant.Play = 0.01 + r.Float64()
		half := s.plant.Play / 2 * s.plant.Ratio * float64(s.plant.PolePairs)
		s.start.Lead = []float64{-half, half, half * (2*r.Float64() - 1)}[r.IntN(3)]
		s.start.Speed = 50 + r.Float64()*150
		s.start.LoadSpeed = s.start.Speed * []float64{1, r.Float64()}[r.IntN(2)]
		m := NewMotion(&s.plant)
		m.Start(s.start)
		m.Energise(s.rows[0])
		if m.Advance(s.start.Seconds+r.Float64()*1e-3) != nil {
			t.Fatal("it fails")
		}
		slopesOfMargins(t, m, kinds)
	})
	for _, kind := range []guardKind{pressing, closeUp, closeDown, loadMoving} {
		if kinds[kind] == 0 {
			t.Errorf("no guard of kind %d was met", kind)
		}
	}
}

// parabola makes the speed of a step that is looked at go as (x − at)² − deep over
// the part x of it, and gives the guard that wants it to be above zero.
func parabola(m *Motion, at, deep float64) *guard {
	m.sense, m.curve.ready = 1, true
	m.curve.part = [8]vector{}
	m.curve.part[0][speed], m.curve.part[1][speed], m.curve.part[2][speed] = at*at-deep, 1-2*at, -1 // of 1, x and x·(1 − x)
	return &guard{kind: moving}
}

// A margin that is lost for a thousandth of a step is found wherever in the step
// it lies, and none is where it just stays.
func TestAShortDipIsFound(t *testing.T) {
	p := spring(t)
	m := begun(&p, 0, aRow)
	const half = 0.5e-3
	for at := 2 * half; at < 1-2*half; at += 1.37e-3 {
		if x, ok := m.dip(parabola(m, at, half*half), 1); !ok || math.Abs(x-at) > half {
			t.Errorf("lost about %.5f of the step, found at %v, %t", at, x, ok)
		}
		if x, ok := m.dip(parabola(m, at, -1e-12), 1); ok {
			t.Errorf("never lost, and found at %v", x)
		}
	}
}

// The instant of an event is found however flatly its margin is lost: one that goes
// as (at − x)³ has no slope there for a secant to go by.
func TestAFlatLossIsFound(t *testing.T) {
	p := spring(t)
	m := begun(&p, 0, aRow)
	for at := 0.005; at < 1; at += 0.005 {
		g := parabola(m, 0, 0)
		c := &m.curve.part
		c[0][speed], c[1][speed], c[2][speed], c[3][speed] = at*at*at, 3*at*(1-at)-1, 1-3*at, 1 // of 1, x, x·(1 − x) and x²·(1 − x)
		g.was = at * at * at
		if x := m.loss(g, 1, 1); math.Abs(x-at) > 1e-4 {
			t.Errorf("lost at %.2f of the step, found at %v", at, x)
		}
	}
}

// Events that come one after another with no time between are told, not followed for
// ever. None do by themselves: a motor spun by hand, whose diodes conduct and block
// at each crest, has the measure of "no time" made longer than its whole run.
func TestEndlessEventsAreTold(t *testing.T) {
	p := smallMotor(t)
	p.Stage, p.Damping, p.Inertia = stage(t, "bridge-fast"), 0, 1
	run := func(calmest float64) (int, error) {
		m := NewMotion(&p)
		if calmest > 0 {
			m.calmest = calmest
		}
		m.Tolerance = 1e-5
		m.Start(State{Speed: 120})
		err := m.Advance(0.2)
		return m.Work().Events, err
	}
	if n, err := run(0); n < 2*mostAtOnce || err != nil {
		t.Fatalf("%d events, %v", n, err)
	}
	if n, err := run(1e6); n != mostAtOnce+1 || err == nil || !strings.Contains(err.Error(), "one event after another") {
		t.Errorf("%d events within what counts as no time, %v", n, err)
	}
}
