package travel

import (
	"strings"
	"testing"
)

// The prescale that is named is the least with which the counter holds the interval,
// to the last tick.
func TestPrescaleThatJustFits(t *testing.T) {
	for _, c := range []struct {
		timer Timer
		ticks int64
		want  string
	}{
		{Timer{Clock: 1e6, Bits: 8}, 510, "Divide the clock by 2,"}, {Timer{Clock: 1e6, Bits: 8}, 511, "Divide the clock by 4,"},
		{Timer{Clock: 1e6, Bits: 8}, 261120, "Divide the clock by 1024,"}, {Timer{Clock: 1e6, Bits: 8}, 261121, "Use a counter of more bits,"},
		{Timer{Clock: 16e6, Prescale: 8, Bits: 16}, 131070, "Divide the clock by 16,"}, {Timer{Clock: 16e6, Prescale: 8, Bits: 16}, 131071, "Divide the clock by 32,"},
	} {
		if s := c.timer.Fits([]int64{c.ticks}); len(s) != 1 || !strings.HasPrefix(s[0].Cure, c.want) {
			t.Errorf("%+v, %d ticks: %+v, wanted %q", c.timer, c.ticks, s, c.want)
		}
	}
}
