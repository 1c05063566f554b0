package travel

import (
	"math"
	"testing"
)

// With remainders carried, whole numbers stay within two ticks of the recurrence that
// is not rounded, on ramps of thousands of rows and with short intervals too; without
// them it would be hundreds.
func TestRemaindersAreCarried(t *testing.T) {
	for _, first := range []int64{2000, 10_000, 50_000, 200_000} {
		c, rest, exact := first, int64(0), float64(first)
		for n := int64(1); n < 4000; n++ {
			c, rest = next(c, rest, n)
			if exact -= 2 * exact / float64(4*n+1); math.Abs(float64(c)-exact) > 2 {
				t.Fatalf("from %d: interval %d is %d ticks, want %.1f", first, n, c, exact)
			}
		}
	}
}

// A move that turns half way is itself again seen from its end, but for a longer
// interval each: speeding up, step n takes (4n − 1)/(4n + 1) of the interval before,
// slowing down just the inverse, and with m rows either way the steps are 1 to m − 1
// and m to 1. So it never brakes harder than it speeds up (hand derivation).
func TestRecurrenceSeenFromItsEnd(t *testing.T) {
	const m = 50
	p := planned(t, Wish{Rows: 2*m + 1, Top: 1e4, Accel: 400})
	got := p.Recurrence(Timer{Clock: 1e9, Bits: 32}) // so fine that whole ticks do not matter
	for j := range got {
		if by := float64(got[len(got)-1-j]) / float64(got[j]); j < m && math.Abs(by-(4*m+1.0)/(4*m-1)) > 1e-4 {
			t.Errorf("interval %d from the end is %.5f times the one from the beginning", j, by)
		}
	}
}

// From 600 rows/s at 1200 rows/s² it takes v²/2d = 150 rows to a stand: so many
// intervals at the end grow, and the one before them is of the even middle.
func TestRecurrenceSlowsDownInTime(t *testing.T) {
	p := planned(t, Wish{Rows: 2001, Top: 600, Accel: 400, Decel: 1200})
	got := p.Recurrence(Timer{Clock: 1e6, Bits: 32})
	for k := 1500; k < len(got); k++ {
		if grows := got[k] > got[k-1]; grows != (k >= 2000-150) {
			t.Errorf("after interval %d, %d ticks, comes one of %d", k-1, got[k-1], got[k])
		}
	}
}

// The note's counts (2.3.2, as beside turns), reckoned by hand. A move that does not
// reach its rate has no even middle: what is over when the rows are parted goes to
// slowing down.
func TestTurns(t *testing.T) {
	for _, c := range []struct {
		w        Wish
		up, down int64
	}{
		{Wish{Rows: 2, Top: 20, Accel: 100}, 1, 0},
		{Wish{Rows: 3, Top: 20, Accel: 100}, 1, 1},
		{Wish{Rows: 5, Top: 20, Accel: 100}, 2, 2}, // 20²/(2·100) = 2
		{Wish{Rows: 6, Top: 20, Accel: 100}, 2, 3},
		{Wish{Rows: 7, Top: 20, Accel: 100}, 2, 2}, // and two that are even
		{Wish{Rows: 301, Top: 5000, Accel: 400, Decel: 800}, 200, 100},
		{Wish{Rows: 2001, Top: 600, Accel: 400, Decel: 1200}, 450, 150},
		{Wish{Rows: 1001, Top: 20, Accel: 100, Decel: 1e4}, 2, 1},
	} {
		p := planned(t, c.w)
		if up, down := p.turns(); up != c.up || down != c.down {
			t.Errorf("%+v: %d rows up and %d down, want %d and %d", c.w, up, down, c.up, c.down)
		}
	}
}

// Once the ramp is over the rate is the one that was asked for, wherever the
// recurrence's whole numbers ended: after so short a ramp it kept 18638 ticks for
// 10000, and the move took 81 % longer.
func TestRecurrenceReachesItsRate(t *testing.T) {
	clock := Timer{Clock: 1e6, Bits: 32}
	for _, c := range []struct {
		wish  Wish
		ticks int64
	}{{Wish{Rows: 100, Top: 100, Accel: 2631}, 10000}, {Wish{Rows: 500, Top: 300, Accel: 30000}, 3333}, {Wish{Rows: 2000, Top: 600, Accel: 400}, 1666}} {
		p := planned(t, c.wish)
		all := p.Recurrence(clock)
		up, down := p.turns()
		for k := up; k < p.Rows-1-down; k++ {
			if all[k] != c.ticks {
				t.Fatalf("%+v: interval %d of the even middle is %d ticks, not %d", c.wish, k, all[k], c.ticks)
			}
		}
		if whole, _ := Apart(p.Intervals(clock), all); math.Abs(whole) > 0.05 {
			t.Errorf("%+v: the whole is %.1f %% apart from the planned move", c.wish, 100*whole)
		}
	}
}
