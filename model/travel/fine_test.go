package travel

import (
	"context"
	"math"
	"testing"

	"coilwalk/sequence"
)

// A motor that a rate leaves behind is left behind however finely the steps are
// divided: what is left out of the even middle is counted in full steps. Counted in
// rows, a rotor that stood was taken to follow from 1/108 on.
func TestFineStepsLoseAsMuch(t *testing.T) {
	for _, full := range []float64{540, 800} { // full steps a second, from a stand: too many for it
		for _, long := range []int64{100, 1000} {
			for _, divide := range []int{16, 64, 128, 256} {
				if (long > 100) && divide > 64 {
					continue
				}
				mode, err := sequence.Micro(divide, 0)
				if err != nil {
					t.Fatal(err)
				}
				rate := full * float64(divide)
				p := planned(t, Wish{Rows: long * int64(divide), Start: rate, Top: rate})
				f, err := p.Follow(context.Background(), plant(t), mode, sequence.Forward)
				if err != nil || f.Kind != "fast-start" || math.Abs(f.Lost-float64(long)) > 0.12*float64(long) || f.Cut != (long > 300) {
					t.Errorf("1/%d, %g full steps a second, %d of them: %+v, %v", divide, full, long, f, err)
				}
			}
		}
	}
}

// Six full steps from a stand the start is to blame, however finely they are divided,
// and not the ramp that has hardly begun.
func TestStartOfFineStepsIsToBlame(t *testing.T) {
	for _, divide := range []int{2, 16, 64} {
		mode, err := sequence.Micro(divide, 0)
		if err != nil {
			t.Fatal(err)
		}
		d := float64(divide)
		p := planned(t, Wish{Rows: 100 * int64(divide), Start: 800 * d, Top: 900 * d, Accel: 500 * d})
		f, err := p.Follow(context.Background(), plant(t), mode, sequence.Forward)
		if err != nil || f.Kind != "fast-start" || f.At > 6*int64(divide) || divide > 2 && f.At <= firstRows || p.Up < d {
			t.Errorf("1/%d: %+v, %v; the ramp is %g rows", divide, f, err, p.Up)
		}
	}
}
