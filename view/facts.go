package view

import (
	"strings"

	"coilwalk/view/picture"
)

// facts is a list of names and what is to be said of each, in a part of the
// screen; what does not fit is told to be missing.
type facts struct {
	g         *picture.Grid
	x, y, end int
	w, names  int // of all, and of the names
}

// say puts one fact below the last, over as many lines as it takes.
func (f *facts) say(name, words string, ink picture.Ink) {
	if f.g.ASCII {
		words = strings.ReplaceAll(words, "°", " deg")
	}
	for i, line := range wrap(words, f.w-f.names-2) {
		if f.y >= f.end {
			f.g.WriteEnd(f.x+f.w, f.end-1, " … more in a taller window", picture.Loud(picture.Faint))
			return
		}
		if i == 0 {
			f.g.WriteEnd(f.x+f.names, f.y, name, picture.In(picture.Faint))
		}
		f.g.WriteWithin(f.x+f.names+1, f.y, f.w-f.names-1, line, picture.In(ink))
		f.y++
	}
}
