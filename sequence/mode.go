package sequence

import "fmt"

// Mode is a step mode: a way of leading the field once round its cycle.
// Each mode is a value in a file of its own; Modes lists them.
type Mode struct {
	Name    string // the word for it in commands and files
	Title   string // as the trade says it in full
	PerStep int    // rows to a full step (90° electrical)
	FirstAt int    // field angle of the first row, in degrees
	Levels  int    // microstep: equal parts that a current is rounded to; 0 for none
	phases  func(m Mode, k int) Field
}

// Modes lists the step modes that need no divisor, in the order in which one
// learns them.
var Modes = [3]Mode{Wave, Full, Half}

// Rows gives the number of rows in one cycle of 360° electrical.
func (m Mode) Rows() int { return 4 * m.PerStep }

// ModeNamed finds a mode by its word; divide and levels are for "micro".
func ModeNamed(name string, divide, levels int) (Mode, error) {
	for _, m := range Modes {
		if m.Name == name {
			return m, nil
		}
	}
	if name == microName {
		return Micro(divide, levels)
	}
	return Mode{}, fmt.Errorf("no step mode is called %q; there are wave, full, half and micro", name)
}

// row gives row k of the cycle, 0 ≤ k < Rows. A positive phase current flows
// at the plus end, a negative one at the minus end: that is so for half-coils
// and for bridge outputs alike.
func (m Mode) row(k int) Row {
	f := m.phases(m, k)
	return Row{max(f.A, 0), max(f.B, 0), max(-f.A, 0), max(-f.B, 0)}
}

// turned leads a field given for the first quarter of the cycle on by whole
// quarters of 90°.
func turned(f Field, quarters int) Field {
	for range quarters % 4 {
		f = Field{A: 0 - f.B, B: f.A} // 0−x rather than −x: no negative zero
	}
	return f
}
