package travel

import (
	"math"
	"testing"
)

// Before its first row a move is where it begins, and after the last where it ends.
func TestBeyondTheEnds(t *testing.T) {
	for _, shape := range []Shape{Trapezoid, Smooth} {
		for _, start := range []float64{0, 50} {
			p := planned(t, Wish{Rows: 1001, Start: start, Top: 100, Accel: 50, Shape: shape})
			for _, beyond := range []int64{1, 2, 1000} {
				if before, after := p.Rate(-beyond), p.Rate(p.Rows-1+beyond); before != start || after != start {
					t.Errorf("%s from %v rows/s: %v before and %v after it", shape, start, before, after)
				}
				if before, after := p.At(-beyond), p.At(p.Rows-1+beyond); before != 0 || after != p.Seconds {
					t.Errorf("%s from %v rows/s: %v s before and %v s after it, which takes %v s", shape, start, before, after, p.Seconds)
				}
			}
		}
	}
}

// What starts and stops at once has one rate from its first row to its last, whatever
// the shape of ramps that it does not have.
func TestOneRateAtOnce(t *testing.T) {
	for _, shape := range []Shape{Trapezoid, Smooth} {
		p := planned(t, Wish{Rows: 11, Start: 100, Top: 100, Accel: 50, Shape: shape})
		for k := range p.Rows {
			if got := p.Rate(k); got != 100 {
				t.Errorf("%s: %v rows/s at row %d", shape, got, k)
			}
		}
	}
}

// A row may stay for 10⁶ s and no longer, whether it is an even one, the first or the
// last: from a stand, or to it, a row takes √(2/a), 10⁶ s at 2·10⁻¹² rows/s².
func TestLongestRow(t *testing.T) {
	for _, c := range []struct {
		w     Wish
		plans bool
	}{
		{Wish{Rows: 2, Start: 1e-6, Top: 1e-6}, true},
		{Wish{Rows: 400, Start: 1e-6, Top: 1e-6}, true},
		{Wish{Rows: 400, Start: 0.99e-6, Top: 0.99e-6}, false},
		{Wish{Rows: 400, Top: 300, Accel: 2.1e-12, Decel: 100}, true},
		{Wish{Rows: 400, Top: 300, Accel: 1.9e-12, Decel: 100}, false},
		{Wish{Rows: 400, Top: 300, Accel: 100, Decel: 2.1e-12}, true},
		{Wish{Rows: 400, Top: 300, Accel: 100, Decel: 1.9e-12}, false},
	} {
		if p, err := c.w.Plan(); (err == nil) != c.plans || !(err != nil || p.Seconds < math.Inf(1)) {
			t.Errorf("%+v: %+v, %v", c.w, p, err)
		}
	}
}
