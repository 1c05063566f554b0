package rotor

import (
	"math"
	"testing"

	"coilwalk/sequence"
)

// Over whole cycles of a motor that turns evenly nothing is left stored, so what
// comes in goes out, and the load gets its torque times its speed. The parts are
// integrals over a run, each by itself; the sum is within what 96 instants a row
// can tell.
func TestSpendBalances(t *testing.T) {
	for _, c := range []struct {
		stage string
		drive sequence.Drive
		rate  float64
	}{
		{"darlington", sequence.Unipolar, 150}, {"mosfet", sequence.Unipolar, 60}, {"bridge", sequence.Bipolar, 150},
		{"mosfet-bridge-fast", sequence.Bipolar, 220}, {"chopper", sequence.Bipolar, 150},
	} {
		p := smallMotor(t)
		if c.drive == sequence.Unipolar {
			p = unipolarMotor(t)
		}
		p.Stage = stage(t, c.stage)
		p.Supply, p.Load.Torque, p.Friction = 12, 2e-3, 1e-3
		trials := NewTrials(p, sequence.Half)
		s, ok := trials.Spend(c.rate)
		if !ok {
			t.Errorf("%s does not follow %g/s: %v", c.stage, c.rate, trials.Err())
			continue
		}
		out := s.Copper + s.Switch + s.Clamp + s.Viscous + s.Dry + s.Load
		if !near(s.Supply, out, 2e-3*s.Supply) || math.Abs(s.Stored) > 1e-3*s.Supply*s.Seconds || s.Peak < s.Supply {
			t.Errorf("%s: %g W in, %g out, %g J stored, peak %g", c.stage, s.Supply, out, s.Stored, s.Peak)
		}
		shaft := 2e-3 * c.rate / 2 * math.Pi / 2 / float64(p.PolePairs) // half a quarter of an electrical turn to a row
		if !near(s.Load, shaft, 2e-3*shaft) {
			t.Errorf("%s: the load gets %g W, want %g", c.stage, s.Load, shaft)
		}
		squares := s.Squares[0] + s.Squares[1] + s.Squares[2] + s.Squares[3]
		if !near(s.Copper, squares*p.Resistance, 1e-9) {
			t.Errorf("%s: copper %g W, want %g", c.stage, s.Copper, squares*p.Resistance)
		}
	}
	p := smallMotor(t)
	if s, ok := NewTrials(p, sequence.Half).Spend(20000); ok {
		t.Errorf("20,000 rows/s are followed: %+v", s)
	}
}

// Slowly it takes what its rows take at rest: half step at 5 V through an ideal
// switch has one phase on and two in turn, one and a half coils on the mean.
func TestSpendSlowly(t *testing.T) {
	p := smallMotor(t)
	p.Stage, p.Supply, p.Current = stage(t, "ideal"), 5, 0.1
	s, ok := NewTrials(p, sequence.Half).Spend(5)
	if want := 1.5 * 25 / p.Resistance; !ok || !near(s.Supply, want, 0.02*want) {
		t.Errorf("%g W, want %g", s.Supply, want)
	}
	// From one row to the next a coil's ½·L·I² comes and goes; over the cycles nothing does.
	if coil := 0.5 * p.Inductance * 0.1 * 0.1; math.Abs(s.Stored) > 1e-3*coil {
		t.Errorf("%g J stored over whole cycles, a coil having %g", s.Stored, coil)
	}
}
