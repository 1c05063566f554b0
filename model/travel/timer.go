package travel

import (
	"fmt"
	"math"
	"strings"
)

// Timer is a timer of a controller, counting a clock.
type Timer struct {
	Clock    float64 // Hz
	Prescale float64 // the clock is divided by it; 0 for 1
	Bits     int     // of its counter: 8, 16 or 32
}

// Ticks gives how many of the timer's ticks are in a second.
func (t Timer) Ticks() float64 { return t.Clock / max(1, t.Prescale) }

// Most is the longest interval that it counts, in ticks.
func (t Timer) Most() int64 { return 1<<t.Bits - 1 }

// prescales are usual on small controllers.
var prescales = []float64{1, 2, 4, 8, 16, 32, 64, 128, 256, 1024}

// mostPrescale is far beyond what any controller divides by.
const mostPrescale = 1 << 20

// Check says why a timer can not be.
func (t Timer) Check() error {
	switch {
	case !(t.Clock >= 1 && t.Clock <= 1e10):
		return fmt.Errorf("a clock of %g Hz can not be; 1 Hz to 10 GHz are wanted", t.Clock)
	case !(t.Prescale == 0 || t.Prescale >= 1 && t.Prescale <= mostPrescale):
		return fmt.Errorf("a clock is divided by 1 or more and at most %d, not by %g", mostPrescale, t.Prescale)
	case t.Bits != 8 && t.Bits != 16 && t.Bits != 32:
		return fmt.Errorf("a counter of %d bits is not known; 8, 16 or 32 are", t.Bits)
	}
	return nil
}

// Intervals gives the whole ticks from each row to the next, Rows − 1 of them.
// Each row's own time is rounded, not each interval: however long the move, no
// row is more than half a tick off.
func (p *Profile) Intervals(t Timer) []int64 {
	out := make([]int64, 0, p.Rows-1)
	last := int64(0)
	for k := int64(1); k < p.Rows; k++ {
		at := int64(math.Round(p.At(k) * t.Ticks()))
		out = append(out, at-last)
		last = at
	}
	return out
}

// Strain is what makes a timer unfit for intervals.
type Strain struct {
	Row  int64 // from 0: the row before the interval
	Text string
	Cure string
}

// Fits says whether a counter holds the intervals, and whether they are told
// apart well enough: with only a few ticks to an interval rates come in leaps.
func (t Timer) Fits(intervals []int64) (strains []Strain) {
	longest, shortest := -1, -1
	for k, d := range intervals {
		if longest < 0 || d > intervals[longest] {
			longest = k
		}
		if shortest < 0 || d < intervals[shortest] {
			shortest = k
		}
	}
	if longest < 0 {
		return nil
	}
	if d := intervals[longest]; d > t.Most() {
		strains = append(strains, Strain{int64(longest), fmt.Sprintf("The interval after row %d is %d ticks; a counter of %d bits holds %d, and would run over to %d.", longest+1, d, t.Bits, t.Most(), d&t.Most()),
			t.slower(d)})
	}
	if d := intervals[shortest]; d < fewTicks {
		strains = append(strains, Strain{int64(shortest), fmt.Sprintf("The shortest interval is %d ticks: one tick more or less changes the rate by %.0f %%.", d, 100/float64(max(d, 1))), "A faster clock, or a smaller prescale."})
	}
	return strains
}

// fewTicks in an interval make a rate come in leaps of more than 2 %.
const fewTicks = 50

// slower names the smallest usual prescale that holds an interval of so many ticks.
func (t Timer) slower(ticks int64) string {
	for _, p := range prescales {
		if p > t.Prescale && float64(ticks)*max(1, t.Prescale)/p <= float64(t.Most()) {
			return fmt.Sprintf("Divide the clock by %g, use a counter of more bits, or start faster.", p)
		}
	}
	return "Use a counter of more bits, count its overflows, or start faster."
}

// Listed writes intervals for a line of text, at most so many.
func Listed(intervals []int64, most int) string {
	var parts []string
	for i, d := range intervals {
		if i == most {
			parts = append(parts, "…")
			break
		}
		parts = append(parts, fmt.Sprint(d))
	}
	return strings.Join(parts, " ")
}
