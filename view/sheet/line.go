// Package sheet is the lines that a person fills in to ask of the shaft, the
// rates, the power, a ramp, or for what is taken along, and what stands in them:
// once for the explorer, which edits them on a screen, and the line mode.
package sheet

import (
	"fmt"
	"slices"
	"strings"
)

// Line is one line that can be edited: a text that is read into a sheet.
type Line[S any] struct {
	Name string
	Asks string // the question for it
	Text string
	set  func(sheet *S, text string) error
}

// Read reads all lines into a sheet, in their order: a later one may need an
// earlier.
func Read[S any](lines []Line[S], sheet S) (S, error) {
	for _, one := range lines {
		if err := one.set(&sheet, one.Text); err != nil {
			return sheet, fmt.Errorf("%s: %w", one.Name, err)
		}
	}
	return sheet, nil
}

// At gives the place of the line of that name, −1 where there is none.
func At[S any](lines []Line[S], name string) int {
	return slices.IndexFunc(lines, func(l Line[S]) bool { return l.Name == name })
}

// Use puts a text into a line, if all can then be used; else what was stays.
func Use[S any](lines []Line[S], at int, text string, use func() error) error {
	was := lines[at].Text
	lines[at].Text = strings.TrimSpace(text)
	err := use()
	if err != nil {
		lines[at].Text = was
	}
	return err
}
