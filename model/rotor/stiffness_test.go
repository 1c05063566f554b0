package rotor

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"coilwalk/sequence"
)

// The stiffness at rest: T1 + 4Td with one phase on, T2 − 4Td with two, T2 =
// √2·T1, for detents at the one-phase positions; the other way about for
// detents at the two-phase ones. (The root of the small-signal frequency in the
// usual model; computed from it.) In T1 per electrical radian.
func TestStiffnessAtRest(t *testing.T) {
	for _, td := range []float64{0, 0.05, 0.2} {
		for _, c := range []struct {
			f           sequence.Field
			shift, want float64
		}{
			{aPlus, 0, 1 + 4*td}, {bPlus, 0, 1 + 4*td}, {aMinus, 0, 1 + 4*td}, {bMinus, 0, 1 + 4*td},
			{both, 0, math.Sqrt2 - 4*td}, {sequence.Field{A: -1, B: 1}, 0, math.Sqrt2 - 4*td},
			{aPlus, 180, 1 - 4*td}, {both, 180, math.Sqrt2 + 4*td},
		} {
			deg, _ := c.f.Degrees()
			m := Machine{PolePairs: 8, Detent: td, DetentShift: c.shift}
			if got := m.Stiffness(c.f, deg); !near(got, c.want, 1e-12) {
				t.Errorf("detent %v shifted by %v°, %v: %v, want %v", td, c.shift, c.f, got, c.want)
			}
			if got := (Machine{PolePairs: 8, Friction: 0.3, Load: 0.3}).Stiffness(c.f, deg); !near(got, c.f.Strength(), 1e-12) {
				t.Errorf("friction and load change the stiffness to %v", got)
			}
		}
	}
}

// Off the balance it falls as the cosine, and is negative on the hill.
func TestStiffnessOverThePitch(t *testing.T) {
	m := Machine{PolePairs: 8}
	for deg, want := range map[float64]float64{0: 1, 60: 0.5, -60: 0.5, 90: 0, 120: -0.5, 180: -1, 540: -1} {
		if got := m.Stiffness(aPlus, deg); !near(got, want, 1e-12) {
			t.Errorf("at %v°: %v, want %v", deg, got, want)
		}
	}
}

// −dT/dθe, taken by differences of a formula written anew.
func TestStiffnessIsTheSlope(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := random(t)
		m, f, deg := anyMachine(r), anyField(r), r.Float64()*1440-720
		const h = 1e-3 // electrical radians
		at := deg * math.Pi / 180
		want := (plainTorque(m, f, at-h) - plainTorque(m, f, at+h)) / (2 * h)
		if got := m.Stiffness(f, deg); !near(got, want, 1e-4) {
			t.Fatalf("%+v under %v at %v°: %v, want %v", m, f, deg, got, want)
		}
		if got, want := m.Torque(f, deg), plainTorque(m, f, at); !near(got, want, 1e-12) {
			t.Fatalf("%+v under %v at %v°: torque %v, want %v", m, f, deg, got, want)
		}
	})
}

// A hold of 0.4 N·m with two phases on and p = 50 is p·Th = 20 N·m per radian
// of the rotor; behind a train of 64:1 the rotor has its 64th part. Computed.
func TestStiffnessInNewtonMetres(t *testing.T) {
	m := Machine{PolePairs: 50, OnePhase: 0.4 / math.Sqrt2}
	if k, ok := m.StiffnessSI(both, 45); !ok || !near(k, 20, 1e-9) {
		t.Errorf("%v, %v; want 20", k, ok)
	}
	if k, ok := m.StiffnessSI(aPlus, 0); !ok || !near(k, 20/math.Sqrt2, 1e-9) {
		t.Errorf("one phase: %v, %v", k, ok)
	}
	m.OnePhase /= 64
	if k, ok := m.StiffnessSI(both, 45); !ok || !near(k, 20.0/64, 1e-9) {
		t.Errorf("behind 64:1: %v, %v", k, ok)
	}
	if k, ok := (Machine{PolePairs: 50}).StiffnessSI(both, 45); ok || k != 0 {
		t.Errorf("without a torque: %v, %v", k, ok)
	}
}
