package rotor

import (
	"testing"

	"coilwalk/sequence"
)

// Every point of a curve is the edge of what starts under its own load, also where
// it was sought from that of a lighter one. The loads are at the output shaft, up to
// what one phase holds there.
func TestEveryPointIsAnEdge(t *testing.T) {
	p := plantOf(t, "geared-can", "darlington")
	n := 8
	if raced {
		n = 6 // more than one search goes through
	}
	loads := CurveLoads(p, n)
	if last := p.OnePhase() * p.Ratio; loads[0] != 0 || !near(loads[n-1], last, 1e-12*last) {
		t.Fatalf("loads from %g to %g, want from 0 to %g N·m", loads[0], loads[n-1], last)
	}
	told, most := 0.0, 0.0
	points, ok := Curve(p, sequence.Half, loads, func(done float64) bool {
		if done < told || done > 1 {
			t.Errorf("%g are told to be done after %g", done, told)
		}
		told, most = done, max(most, done)
		return true
	})
	if !ok || most < 0.5 {
		t.Errorf("whole: %t; at most %g were told to be done", ok, most)
	}
	for i, at := range points {
		trials := NewTrials(p, sequence.Half)
		trials.Load(at.Load)
		switch {
		case i > 0 && at.StartStop > points[i-1].StartStop:
			t.Errorf("%g N·m: starts at %g rows/s, faster than under %g N·m", at.Load, at.StartStop, points[i-1].Load)
		case at.StartStop == 0:
			if trials.Start(2) {
				t.Errorf("%g N·m: is told not to start, and starts", at.Load)
			}
		case !trials.Start(at.StartStop) || trials.Start(1.03*at.StartStop):
			t.Errorf("%g N·m: %g rows/s is no edge of what starts", at.Load, at.StartStop)
		}
	}
}
