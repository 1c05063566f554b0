// Package handoff writes what a person takes along into a project of their own:
// step tables as source text and data, a small stepping source, and a walk as a
// recording. Nothing is given away before it has been read back and found to be
// what was walked.
package handoff

import (
	"coilwalk/model/motor"
	"coilwalk/model/power"
	"coilwalk/sequence"
)

// Walk is what is taken along: an order, as one motor and one board have it. It is not
// changed once it was asked anything.
type Walk struct {
	Motor   motor.Motor // with the wiring and the drive that are meant
	Mode    sequence.Mode
	Board   Board
	Pace    Pace
	Rows    int64         // of each move of a recording
	IdleOff bool          // coils off when nothing moves
	Stepper bool          // with a stepping source beside the tables
	Baud    int64         // of the serial line of the bench firmware; 0: the usual one
	Driven  *power.Driven // by what the motor is judged to follow the rows; nil for the usual stage

	unfollowed *string // what Unfollowed says, once it was asked
}

// Row gives what the outputs do at a step, output 1 first, 1 being on.
func (w *Walk) Row(step int64) sequence.Row {
	return w.Mode.Order().Row(step).Onto(w.Motor.Wiring)
}

// Cycle gives one cycle of rows from row 1 on, the way that is asked for.
func (w *Walk) Cycle(way sequence.Direction) []sequence.Row {
	rows := make([]sequence.Row, w.Mode.Rows())
	for k := range rows {
		rows[k] = w.Row(int64(way) * int64(k))
	}
	return rows
}

// eight gives the half-step cycle on the outputs, on which the stepping source
// walks in every mode: wave drive is its even places, full step its odd ones.
func (w *Walk) eight() []sequence.Row {
	order := sequence.Half.Order()
	rows := make([]sequence.Row, order.Len())
	for k := range rows {
		rows[k] = order.Row(int64(k)).Onto(w.Motor.Wiring)
	}
	return rows
}

// whole says whether outputs are only on or off: not so in microstepping.
func (w *Walk) whole() bool { return !w.Mode.Shares }
