package rotor

import (
	"math"
	"testing"

	"coilwalk/sequence"
)

// Slowly the shaft stands for the rows that its play is (what "shaft" says by the
// angle alone), but for a row of counting; and nothing is lost.
func TestASlowReversalTakesUpThePlay(t *testing.T) {
	for _, inertia := range []float64{0, 16 * 3e-7} {
		for _, play := range []float64{0, 0.5, 3, 8} {
			p := smallMotor(t)
			p.Ratio, p.Load.Inertia, p.Damping = 4, inertia, 4e-5
			p.Load.Friction = 4 * 3e-3 // without it the load is thrown ahead into the gap at each row
			r, err := Reverse(p, play, sequence.Half, 40)
			if err != nil {
				t.Fatal(err)
			}
			want := play * 4 * 16 / 45
			if r.Lost != 0 || r.Before || math.Abs(r.Play-want) > 1e-9 || r.Stands < want-0.6 || r.Stands > want+1.2 {
				t.Errorf("inertia %g, %g° of play: %+v, want %.2f rows", inertia, play, r, want)
			}
		}
	}
}

// The faster, and the heavier what hangs in the gap, the harder they meet: a light
// load costs nothing at a rate at which a heavy one throws the rotor out of step.
func TestAHeavyLoadIsLostOverTheImpact(t *testing.T) {
	p := smallMotor(t)
	p.Ratio = 4
	lost := func(share, rate float64) int64 {
		p.Load.Inertia = 16 * share * p.Inertia
		r, err := Reverse(p, 3, sequence.Half, rate)
		if err != nil {
			t.Fatal(err)
		}
		return r.Lost
	}
	if n := lost(0.2, 500); n != 0 {
		t.Errorf("a light load at 500 rows/s: %d rows lost", n)
	}
	if n := lost(6, 500); n == 0 {
		t.Error("a load of six times the rotor's inertia is turned round at 500 rows/s")
	}
	if n := lost(6, 200); n != 0 {
		t.Errorf("at 200 rows/s: %d rows lost", n)
	}
}

// A rate that it does not start at is no matter of the reversal.
func TestAReversalNeedsAStart(t *testing.T) {
	r, err := Reverse(smallMotor(t), 0, sequence.Half, 20000)
	if err != nil || !r.Before {
		t.Errorf("%+v, %v", r, err)
	}
}
