// Package live is the link to a real motor: a board that switches four outputs,
// and the hand that holds it, which switches them off whenever in doubt.
package live

import (
	"errors"

	"coilwalk/sequence"
)

// Row says which of the four outputs are on: bit k stands for output k+1.
type Row uint8

// AllOutputs is the mask of all four.
const AllOutputs Row = 0b1111

// RowOf gives a row on outputs 1 to 4; ok is false for one with currents between
// off and on, which a pin can not give.
func RowOf(outputs sequence.Row) (row Row, ok bool) {
	if !outputs.Whole() {
		return 0, false
	}
	for k, on := range outputs {
		if on > 0 {
			row |= 1 << k
		}
	}
	return row, true
}

// Sequence gives the row as the rest of the model has it.
func (r Row) Sequence() (row sequence.Row) {
	for k := range row {
		row[k] = float64(r >> k & 1)
	}
	return row
}

// String shows outputs 1 to 4 as digits.
func (r Row) String() string { return r.Sequence().Bits() }

// Link is what switches the outputs. Its methods may be called from several
// goroutines, do not wait for an answer unless they say so, and none of them
// blocks for longer than a second.
type Link interface {
	// Arm makes outputs of the pins, all of them off, and waits for the board to
	// say that they stand so.
	Arm() error
	// Set switches the outputs in mask, all of them at once, to what value has for
	// them. The number is that of the Heard which will acknowledge it.
	Set(value, mask Row) (number uint64, err error)
	// Ping asks how the outputs stand: a sign of life both ways.
	Ping() (number uint64, err error)
	// Halt switches all outputs off; after it they have to be armed anew.
	Halt() error
	// State gives how the outputs stood at the last word of the board.
	State() Row
	// Events tells what came from the board. It is closed when the link is.
	Events() <-chan Event
	About() About
	// Close halts, and ends the link.
	Close() error
}

// About is what is known of a board.
type About struct {
	Place    string // where it is: a serial port
	Firmware string // its name, as it told it
	Guard    Guard
	Pins     [4]int // its numbers of outputs 1 to 4
	Low      bool   // outputs are switched on by the low level
	Null     bool   // there is no board at all
}

// Guard is what the firmware does by itself when its host falls silent.
type Guard struct {
	Known   bool
	Silence float64 // s after which it switches the outputs off
}

// Event is something that came from the board.
type Event struct {
	Kind   Kind
	Number uint64 // of the last Set or Ping that is acknowledged
	Row    Row    // how the outputs stand
	Why    string // in words, for what is not Heard
}

// Kind says what an Event is.
type Kind int

// What comes from a board.
const (
	Heard    Kind = iota // an answer, as it was meant to be
	Dropped              // the board switched the outputs off by itself, or does not stand as it was told
	Restarts             // the board has begun anew
	Lost                 // nothing comes any more
)

// ErrClosed is the error of a link that has ended.
var ErrClosed = errors.New("the link is closed")
