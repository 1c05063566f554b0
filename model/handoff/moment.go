package handoff

import "coilwalk/sequence"

// Moment is a row of a walk in time.
type Moment struct {
	At  int64        // ticks from the beginning of the recording
	Row sequence.Row // on the outputs, output 1 first
}

// off is the row with nothing on.
var off sequence.Row

// Usual gives the rows of each move of a recording when nobody says: two cycles,
// and the ramp up and down.
func (w *Walk) Usual() int64 {
	return 2*int64(w.Mode.Rows()) + 2*int64(len(w.Pace.Intervals)-1)
}

// Moments gives the walk of a recording: a move of so many rows forward, a rest,
// and the same back. Until must be added to the last moment for its end.
//
// Before a move the present row is energised for the time of the first interval,
// so that the rotor stands where it is taken to; after it, the last row stands
// as long.
func (w *Walk) Moments() (all []Moment, until int64) {
	const rest = 8 // first intervals between the moves
	first := w.Pace.Intervals[0]
	put := func(row sequence.Row, ticks int64) {
		if len(all) == 0 || all[len(all)-1].Row != row {
			all = append(all, Moment{until, row})
		}
		until += ticks
	}
	step := int64(0)
	put(off, first)
	for _, way := range []int64{1, -1} {
		put(w.Row(step), first)
		for made := int64(1); made <= w.Rows; made++ {
			step += way
			put(w.Row(step), w.Pace.After(made, w.Rows-made))
		}
		if w.IdleOff {
			put(off, rest*first)
		} else {
			put(w.Row(step), rest*first)
		}
	}
	return all, until
}
