package handoff

import (
	"fmt"
	"strings"

	"coilwalk/sequence"
)

// leg is a move of a plan that firmware is given.
type leg struct {
	mode      sequence.Mode
	rows      int64 // below 0 in reverse
	stopAfter int64 // rows after which it is told to brake; 0 never
}

// plan goes through every mode in both directions, over changes of mode, a stop
// at speed, one in the ramp, and moves too short to reach speed.
var plan = []leg{
	{sequence.Half, 24, 0}, {sequence.Half, -24, 0},
	{sequence.Full, 16, 0}, {sequence.Full, -16, 0},
	{sequence.Wave, 16, 0}, {sequence.Wave, -16, 0},
	{sequence.Half, 1000, 30}, {sequence.Wave, -1000, 3}, {sequence.Full, 1000, 1},
	{sequence.Full, 5, 0}, {sequence.Half, -1, 0}, {sequence.Half, 2, 0},
}

// orderly is what a person would do at the bench, and no more than the reader of
// recordings can be asked to make sense of: it needs some rows to see a mode.
var orderly = []leg{
	{sequence.Half, 24, 0}, {sequence.Half, -24, 0},
	{sequence.Full, 16, 0}, {sequence.Full, -16, 0},
	{sequence.Wave, 16, 0}, {sequence.Wave, -16, 0},
	{sequence.Half, 1000, 30}, {sequence.Half, -35, 0},
}

// pauseTicks is from a plan's call for a move to its first row.
const pauseTicks = 40000

// planHead writes a plan for the C compiler.
func planHead(legs []leg) []byte {
	var b strings.Builder
	fmt.Fprintf(&b, "#define PAUSE_TICKS %du\nstatic const struct { uint8_t mode; int16_t rows; uint16_t stop_after; } plan[] = {\n", pauseTicks)
	for _, l := range legs {
		fmt.Fprintf(&b, "    {COIL_%s, %d, %d},\n", strings.ToUpper(l.mode.Name), l.rows, l.stopAfter)
	}
	b.WriteString("};\n")
	return []byte(b.String())
}

// stand is a row of a plan as it should come out of the firmware: when, counted
// from the first of its leg, and what is on.
type stand struct {
	at  int64 // ticks
	row sequence.Row
}

// stands works a plan out anew, in the way of a person with a pencil: a place in
// half steps, and a list of intervals for each leg. The first list is the row
// that is energised before any move. The place at the end is given too.
func (w *Walk) stands(legs []leg) (all [][]stand, place int64) {
	eight := sequence.Half.Order()
	at := func() sequence.Row { return eight.Row(place).Onto(w.Motor.Wiring) }
	if legs[0].mode.Name == sequence.Full.Name {
		place = 1
	}
	all = append(all, []stand{{0, at()}})
	for k, l := range legs {
		var one []stand
		now := int64(0)
		if w.IdleOff && k > 0 { // taken up where it was left
			one = append(one, stand{0, at()})
			now = w.Pace.Intervals[0]
		}
		for _, wait := range w.waits(l) {
			place += w.stride(l, place)
			one = append(one, stand{now, at()})
			now += wait
		}
		if w.IdleOff {
			one = append(one, stand{now, off})
		}
		all = append(all, one)
	}
	return all, place
}

// stride is how far the next row of a leg is, in half steps: to the next place
// of its mode.
func (w *Walk) stride(l leg, place int64) int64 {
	way := int64(1)
	if l.rows < 0 {
		way = -1
	}
	odd := (place+way)&1 == 1
	switch {
	case l.mode.Name == sequence.Half.Name, l.mode.Name == sequence.Full.Name && odd, l.mode.Name == sequence.Wave.Name && !odd:
		return way
	}
	return 2 * way
}

// waits gives the intervals after each row of a leg: up the ramp, along, and down
// again; told to brake, down from where it is.
func (w *Walk) waits(l leg) (waits []int64) {
	ramp := w.Pace.Intervals
	n := max(l.rows, -l.rows)
	for made := int64(1); made <= n; made++ {
		place := min(made-1, int64(len(ramp))-1, max(0, n-made-1))
		waits = append(waits, ramp[place])
		if made == l.stopAfter {
			for below := place - 1; below >= 0; below-- {
				waits = append(waits, ramp[below])
			}
			if place > 0 { // the last row stands as long as the first
				waits = append(waits, ramp[0])
			}
			return waits
		}
	}
	return waits
}
