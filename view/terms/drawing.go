package terms

import (
	"strings"

	"github.com/charmbracelet/x/ansi"

	"coilwalk/model/motor"
	"coilwalk/view/picture"
)

// Drawing is a picture beside an entry, as wide as there is room for, up to Wide.
type Drawing struct {
	Title string
	Lines int // without the title
	Draw  func(g *picture.Grid, x, y, w int)
}

// Wide is the most cells that a drawing needs across; its title may take more.
const (
	Wide      = 64
	titleWide = 78
)

// Maker makes a drawing. One that runs the motor takes up to half a second.
type Maker func() Drawing

// Onto draws the title and the drawing below it, and gives the lines taken.
func (d Drawing) Onto(g *picture.Grid, x, y, w int) int {
	g.WriteWithin(x, y, w, d.Title, picture.In(picture.Faint))
	d.Draw(g, x, y+1, min(w, Wide))
	return d.Lines + 1
}

// Text draws without colour or bold, for what takes lines only.
func (d Drawing) Text(ascii bool) string {
	g := picture.Grid{ASCII: ascii}
	g.Resize(titleWide, d.Lines+1)
	d.Onto(&g, 0, 0, titleWide)
	return strings.TrimRight(ansi.Strip(g.Text(picture.Dark, picture.NoColour)), "\n ") + "\n"
}

// sketch is a small drawing in ASCII, for what no engine of ours reckons.
func sketch(title, lines string) Maker {
	rows := strings.Split(strings.Trim(lines, "\n"), "\n")
	return func() Drawing {
		return Drawing{title, len(rows), func(g *picture.Grid, x, y, w int) {
			for i, row := range rows {
				g.WriteWithin(x, y+i, w, row, picture.In(picture.Text))
			}
		}}
	}
}

// builtIn gives a built-in motor; a name that is none is our own mistake.
func builtIn(name string) motor.Motor {
	m, ok := motor.BuiltIn(name)
	if !ok {
		panic("no motor " + name)
	}
	return m
}
