package travel

import "math"

// Recurrence gives the intervals of a move from a stand by the usual recurrence in
// whole numbers, cn = c(n−1) − 2·c(n−1)/(4n + 1), its first interval 0.676·c0 (an
// application note on linear speed control of stepper motors, 2.3.1; the factor
// makes up for its error at n = 1). Remainders are carried, as the note does.
//
// It is no better than Intervals, only cheaper for a small processor: each
// interval is reckoned while the motor runs. Trapezoid alone has such a form.
func (p *Profile) Recurrence(t Timer) []int64 {
	n := p.Rows - 1
	if n <= 0 {
		return nil
	}
	out := make([]int64, 0, n)
	first := int64(firstFactor * t.Ticks() * math.Sqrt(2/p.Accel))
	top := int64(t.Ticks() / p.Top)
	up, down := p.turns()
	c, rest := first, int64(0)
	for k := int64(0); k < n; k++ {
		switch {
		case k == 0:
		case k < up:
			// From a rate on, the count of rows is where a stand would have begun.
			c, rest = next(c, rest, k)
			c = max(c, top)
		case k < n-down:
			c, rest = top, 0 // the ramp is over, wherever its whole numbers ended
		default:
			c, rest = next(c, rest, -(n - k))
		}
		out = append(out, c)
	}
	return out
}

// firstFactor makes up for the recurrence's error at its first step.
const firstFactor = 0.676

// next is one step of the recurrence; n counts up while it speeds up, and from
// below zero up while it slows down.
func next(c, rest, n int64) (int64, int64) {
	by := 4*n + 1
	return c - (2*c+rest)/by, (2*c + rest) % by
}

// turns gives the rows that the note's count gives to speeding up and to slowing
// down: n = v²/(2a), at least one; where it does not reach its rate,
// n1 = (n1 + n2)·d/(a + d) (2.3.2).
func (p *Profile) turns() (up, down int64) {
	n := p.Rows - 1
	toTop := max(1, int64(p.Top*p.Top/(2*p.Accel)))
	limit := max(1, int64(float64(n)*p.Decel/(p.Accel+p.Decel)))
	if limit <= toTop {
		return limit, n - limit
	}
	return toTop, min(n-1, max(1, int64(float64(toTop)*p.Accel/p.Decel)))
}

// Apart gives how far two lists of intervals are apart: the difference of the
// whole, as a share of the first, and the greatest of a single interval.
func Apart(exact, other []int64) (whole, worst float64) {
	a, b := int64(0), int64(0)
	for k := range min(len(exact), len(other)) {
		a, b = a+exact[k], b+other[k]
		if exact[k] > 0 {
			worst = max(worst, math.Abs(float64(other[k]-exact[k]))/float64(exact[k]))
		}
	}
	if a == 0 {
		return 0, worst
	}
	return float64(b-a) / float64(a), worst
}
