package view

import (
	"slices"
	"strings"

	"coilwalk/view/picture"
)

// caution stands below every page of help.
const caution = "Motor supply off before you touch a lead; a motor held at rest gets hot."

// helpWords are what the picture of Walk does not say by itself.
var helpWords = []string{
	"Forward: clockwise, facing the shaft's end. Dial: one round is one pole pair.",
	"N, S: what coil teeth show the rotor. Sinks: is on. Lag: rest behind field.",
}

// helpLines lists every key of the screen, made from the key table itself, and
// behind them what the picture does not say; those have no key.
func (e *Explorer) helpLines() []hint {
	var lines []hint
	for _, h := range slices.Concat(e.hints(), e.general()) {
		for i, part := range wrap(h.long, e.grid.W-helpAt-1) {
			if i > 0 {
				h.key = " " // goes on
			}
			lines = append(lines, hint{key: h.key, long: part})
		}
	}
	if len(lines)+1+len(helpWords) <= e.helpRoom() {
		lines = append(lines, hint{})
	}
	for _, words := range helpWords {
		lines = append(lines, hint{long: words})
	}
	return lines
}

// helpAt is the column at which what a key does is told.
const helpAt = 15

// helpRoom is how many lines of help fit at once.
func (e *Explorer) helpRoom() int { return max(1, e.grid.H-3) }

// moreHelp says whether there is a page of help behind the one that is shown.
func (e *Explorer) moreHelp() bool { return len(e.helpLines()) > (e.helpPage+1)*e.helpRoom() }

// turnsHelp goes to another page of help, where there are some, by its own key and by
// those that scroll elsewhere.
func (e *Explorer) turnsHelp(key string) bool {
	switch more := e.moreHelp(); {
	case more && (slices.Contains(e.anywhere().Of("help"), key) || key == "pgdown" || key == "down"):
		e.helpPage++
	case e.helpPage > 0 && (key == "pgup" || key == "up"):
		e.helpPage--
	default:
		return (more || e.helpPage > 0) && slices.Contains([]string{"pgdown", "down", "pgup", "up"}, key)
	}
	return true
}

// drawHelp draws a page of help.
func (e *Explorer) drawHelp(g *picture.Grid) {
	g.Write(2, 0, "keys of "+strings.ToLower(e.screens[e.at].name()), picture.Loud(picture.Strong))
	words := "{anywhere.explain} explains a word, any other key goes back"
	if e.moreHelp() {
		words = "{anywhere.help} more, " + words
	}
	g.WriteEnd(g.W-1, 0, e.keyed(words), picture.In(picture.Faint))
	g.Line(0, 1, g.W, '─', picture.In(picture.Faint))
	lines := e.helpLines()
	lines = lines[min(e.helpPage*e.helpRoom(), len(lines)):]
	for i, h := range lines[:min(len(lines), e.helpRoom())] {
		if h.key == "" {
			g.WriteWithin(2, 2+i, g.W-3, h.long, picture.In(picture.Faint))
			continue
		}
		g.WriteEnd(12, 2+i, h.key, picture.Loud(picture.Current))
		g.WriteWithin(helpAt, 2+i, g.W-helpAt-1, h.long, picture.In(picture.Text))
	}
	g.WriteWithin(2, min(g.H-1, 2+len(lines)), g.W-3, caution, picture.In(picture.Faint))
}
