package rotor

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

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
			if want := (ends[1] - ends[0]) / (2 * dt); !near(got, want, 1e-4*math.Abs(want)+1e-3) {
				t.Fatalf("%s, guard %d of coil %d: slope %g, want %g", s.plant.Stage.Name, g.kind, g.coil, got, want)
			}
			kinds[g.kind]++
		}
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
