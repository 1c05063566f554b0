package rotor

import (
	"math"
	"testing"

	"coilwalk/sequence"
)

// Where a motor that turns falls out of step and starts anew further up, it runs
// above that band and not in it: lightly damped hybrids under load, whose holes let
// nothing through.
func TestWhereATurningMotorFallsOut(t *testing.T) {
	found := 0
	for _, c := range []struct{ ratio, load, detent float64 }{
		{0.0153, 0.35, 0.974e-3}, // its windows are so narrow that it starts in one and does not run on in its middle
		{0.02, 0.3, 0}, {0.01, 0.25, 0}, {0.015, 0.2, 2e-3},
	} {
		p := plantOf(t, "hybrid-4", "current")
		p.Detent, p.Load.Torque = c.detent, c.load*p.OnePhase()
		p.Damping = 2 * c.ratio * p.TotalInertia() * p.RingRadians(1)
		ring := p.RingRadians(1) / (2 * math.Pi)
		trials := NewTrials(p, sequence.Wave)
		r, ok := trials.Follow(Sweep{Most: 15 * ring}, nil)
		if !ok {
			t.Fatal("not swept to its end")
		}
		for _, b := range r.LostAt {
			found++
			if !(b.From < b.To && b.To <= r.PullOut) {
				t.Errorf("%+v: falls out at %v, and its pull-out rate is %v (windows %v)", c, b, r.PullOut, r.Windows)
			}
		}
	}
	if found == 0 {
		t.Error("none falls out below its pull-out rate: the cases try nothing")
	}
}
