package handoff

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"coilwalk/sequence"
)

// ErrUnproven is the fault of ours that what would be written does not read back
// as what was walked.
var ErrUnproven = errors.New("what would be written does not read back as what was walked; nothing was written")

// Make gives the text of a file, once it has been read back and is known to hold
// what was walked. Its errors are what a kind does not allow, and ErrUnproven.
func (k Kind) Make(w *Walk) ([]byte, error) {
	if err := k.Allows(w); err != nil {
		return nil, err
	}
	text := k.write(w)
	if err := k.prove(w, text); err != nil {
		return nil, fmt.Errorf("%w (%s: %v)", ErrUnproven, k.Name, err)
	}
	return text, nil
}

// prove holds a text against the walk.
func (k Kind) prove(w *Walk, text []byte) error {
	c, err := k.read(w, text)
	if err != nil {
		return err
	}
	return k.same(w, c)
}

// proveTables holds tables, and the intervals with them, against the walk.
func (w *Walk) proveTables(c contents) error {
	want := w.tables()
	if len(c.tables) != len(want) {
		return fmt.Errorf("%d tables are read, %d are meant", len(c.tables), len(want))
	}
	for name, rows := range want {
		if !slices.EqualFunc(c.tables[name], rows, alike) {
			return fmt.Errorf("the table %s is read as %v, %v is meant", name, c.tables[name], rows)
		}
	}
	if w.whole() && !slices.Equal(c.intervals, w.Pace.Intervals) {
		return fmt.Errorf("the intervals are read as %v, %v is meant", c.intervals, w.Pace.Intervals)
	}
	return nil
}

// alike says whether two rows are the same, in microstepping to the digits that
// are written.
func alike(a, b sequence.Row) bool {
	for k := range a {
		if math.Abs(a[k]-b[k]) > 0.5001e-4 { // of shareDigits
			return false
		}
	}
	return true
}

func (w *Walk) proveMoments(c contents) error {
	want, until := w.Moments()
	for k := range want {
		want[k].At = w.scaled(want[k].At)
	}
	if !slices.Equal(c.moments, want) || c.until != w.scaled(until) {
		return fmt.Errorf("%d moments until %d are read, %d until %d are meant", len(c.moments), c.until, len(want), w.scaled(until))
	}
	return nil
}
