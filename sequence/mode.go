package sequence

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
)

// Mode is a step mode: a way of leading the field once round its cycle.
// Each mode is a value in a file of its own; Modes lists them.
type Mode struct {
	Name    string // the word for it in commands and files
	Title   string // as the trade says it in full
	PerStep int    // rows to a full step (90° electrical)
	FirstAt int    // field angle of the first row, in degrees
	Levels  int    // microstep: equal parts that a current is rounded to; 0 for none
	Shares  bool   // its currents lie between off and on too, which bits can not hold
	phases  func(m Mode, k int) Field
}

// Modes lists the step modes that need no divisor, in the order in which one
// learns them.
var Modes = [...]Mode{Wave, Full, Half}

// Rows gives the number of rows in one cycle of 360° electrical.
func (m Mode) Rows() int { return 4 * m.PerStep }

// ModeNames lists the words of all step modes; the one that takes a divisor is the
// last.
func ModeNames() (names []string) {
	for _, m := range Modes {
		names = append(names, m.Name)
	}
	return append(names, microName)
}

// WholeModes lists the step modes whose outputs are only on or off.
func WholeModes() (modes []Mode) {
	for _, m := range Modes {
		if !m.Shares {
			modes = append(modes, m)
		}
	}
	return modes
}

// WholeNames lists their words.
func WholeNames() (names []string) {
	for _, m := range WholeModes() {
		names = append(names, m.Name)
	}
	return names
}

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
	names := ModeNames()
	last := len(names) - 1
	return Mode{}, fmt.Errorf("no step mode is called %.60q; there are %s and %s", name, strings.Join(names[:last], ", "), names[last])
}

// UsualDivide is the divisor that counts where a person says none: fine enough to
// see, coarse enough to step through by hand.
const UsualDivide = 8

// AsksMode says how a person writes a step mode: "wave, full, half, or micro and a
// divisor".
func AsksMode() string {
	names := ModeNames()
	last := len(names) - 1
	return strings.Join(names[:last], ", ") + ", or " + names[last] + " and a divisor"
}

// ParseMode reads a step mode so written: "half", "micro 16", or "micro".
func ParseMode(text string) (Mode, error) {
	words, divide := strings.Fields(text), UsualDivide
	switch {
	case len(words) == 2 && words[0] == microName:
		n, err := strconv.Atoi(words[1])
		if err != nil {
			return Mode{}, fmt.Errorf("%s takes a whole divisor, as %s %d", microName, microName, UsualDivide)
		}
		divide = n
	case len(words) != 1:
		return Mode{}, errors.New(AsksMode() + " is wanted")
	}
	return ModeNamed(words[0], divide, 0)
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
