package course

import (
	"fmt"
	"math"

	"coilwalk/sequence"
)

// slot is one period of a carrier: what each coil is commanded to, as the duty
// of its plus end less that of its minus end.
type slot struct {
	at   int64
	a, b float64
	row  int // of the course, at its beginning
}

// slots gives what the outputs command, period by period.
func (k carrier) slots(c *Course, wiring sequence.Permutation) (out []slot) {
	if c.n == 0 {
		return nil
	}
	i := 0
	for from := c.Row(0).At; from+k.period <= c.Until && len(out) < mostSlots; from += k.period {
		for i+1 < c.n && c.Row(i+1).At <= from {
			i++
		}
		if i+1 < c.n && c.Row(i+1).At > from+restPeriods*k.period { // nothing moves: the carrier begins anew after it
			from = c.Row(i+1).At - k.period
		}
		to := from + k.period
		var high [4]int64
		for j := i; j < c.n && c.Row(j).At < to; j++ {
			begin, end := max(from, c.Row(j).At), to
			if j+1 < c.n {
				end = min(to, c.Row(j+1).At)
			}
			for pin := range high {
				high[pin] += (end - begin) * int64(c.Row(j).Levels>>pin&1)
			}
		}
		s := slot{at: from, row: i}
		for pin, end := range wiring {
			duty := float64(high[pin]) / float64(k.period)
			switch end {
			case sequence.APlus:
				s.a += duty
			case sequence.AMinus:
				s.a -= duty
			case sequence.BPlus:
				s.b += duty
			case sequence.BMinus:
				s.b -= duty
			}
		}
		out = append(out, s)
	}
	return out
}

const (
	mostSlots   = 4_000_000
	restPeriods = 4    // without an edge: the outputs rest
	alikeDuty   = 0.03 // by which two periods of one row may differ
	leastField  = 0.15 // of the strongest: below it a row has no direction
)

// pairedBy gives the pairing of outputs into coils under which the ends of a coil
// are least on at once, or are each other's complement all the time.
func (k carrier) pairedBy(c *Course) sequence.Permutation {
	best, least := sequence.Straight, math.Inf(1)
	for _, coils := range pairings {
		both, opposite, all := 0.0, 0.0, 0.0
		for i := 0; i < min(c.n, looked); i++ {
			r, long := c.Row(i), float64(min(c.Dwell(i), 4*k.period))
			for _, coil := range coils {
				x, y := r.Levels>>coil[0]&1, r.Levels>>coil[1]&1
				both += long * float64(x&y)
				opposite += long * float64(x^y)
				all += long
			}
		}
		if score := min(both, all-opposite) / max(all, 1); score < least {
			best, least = wiringOf(coils), score
		}
	}
	return best
}

// micro reads microsteps: rows are periods of one duty, the field goes on by the
// same angle from row to row.
func (v *Verdict) micro(c *Course, k carrier, q Question) {
	v.Taken = k.pairedBy(c)
	if q.Wiring != nil {
		v.Taken = *q.Wiring
	}
	slots := k.slots(c, v.Taken)
	if len(slots) == mostSlots {
		v.Notes = append(v.Notes, fmt.Sprintf("Only the first %d periods of the carrier were read.", mostSlots))
	}
	rows := distinct(slots)
	strongest := 0.0
	for _, s := range rows {
		strongest = max(strongest, math.Hypot(s.a, s.b))
	}
	var run *Run
	var last float64
	known, total, steps := false, 0.0, []float64{}
	finish := func() {
		if run != nil && run.Rows > 1 {
			run.Median = float64(run.Rows-1) / c.Seconds(max(1, run.To-run.From))
			run.Least, run.Most = run.Median, run.Median
			v.Runs = append(v.Runs, *run)
		}
		run = nil
	}
	for i, s := range rows {
		if math.Hypot(s.a, s.b) < leastField*strongest {
			known = false
			finish()
			continue
		}
		deg := math.Atan2(s.b, s.a) * 180 / math.Pi
		if known {
			by := sequence.Between(last, deg)
			total += by
			steps = append(steps, math.Abs(by))
			way := sequence.Direction(1)
			if by < 0 {
				way = -1
			}
			if run == nil || run.Direction != way && run.Rows > 1 {
				finish()
				run = &Run{Mode: "micro", From: rows[i-1].at, first: rows[i-1].row, Rows: 1}
			}
			run.Direction, run.To, run.last = way, s.at, s.row
			run.Rows++
		}
		last, known = deg, true
	}
	finish()
	position := total / 90
	v.Position = &position
	v.Notes = append(v.Notes, fmt.Sprintf("The outputs are modulated at %.3g kHz, and were read coil by coil over each period, as the duty of one end less that of the other: that is the voltage that is commanded, not the current.%s", 1e-3/c.Seconds(k.period), divideWords(steps)))
}

// divideWords says how many rows there are to a full step.
func divideWords(steps []float64) string {
	if len(steps) < leastRows {
		return ""
	}
	sum := 0.0
	for _, s := range steps {
		sum += s
	}
	n := 90 * float64(len(steps)) / sum
	if whole := math.Round(n); whole >= 2 && math.Abs(n-whole) < 0.1*whole {
		return fmt.Sprintf(" There are %.0f rows to a full step.", whole)
	}
	return fmt.Sprintf(" There are about %.3g rows to a full step, unevenly.", n)
}

// distinct puts periods of one duty together. One in which the duty changes is
// neither the row before nor the one after.
func distinct(slots []slot) (out []slot) {
	same := func(x, y slot) bool { return math.Hypot(x.a-y.a, x.b-y.b) < alikeDuty }
	for i := 0; i < len(slots); {
		n := 1
		for i+n < len(slots) && same(slots[i], slots[i+n]) {
			n++
		}
		if n > 1 || i+1 < len(slots) && i > 0 && !between(slots[i-1], slots[i], slots[i+1]) {
			if len(out) == 0 || !same(out[len(out)-1], slots[i]) {
				out = append(out, slots[i])
			}
		}
		i += n
	}
	return out
}

// between says whether a period is a mixture of the two about it.
func between(a, m, b slot) bool {
	long := math.Hypot(b.a-a.a, b.b-a.b)
	return long > 0 && math.Abs(math.Hypot(m.a-a.a, m.b-a.b)+math.Hypot(b.a-m.a, b.b-m.b)-long) < 0.02*long+0.005
}
