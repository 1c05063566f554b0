package view

import (
	"strings"

	"coilwalk/view/picture"
	"coilwalk/view/report"
)

// drawHead draws the line at the top: which motor on the left, what is sent to
// it on the right. Where both do not fit, the motor's details give way.
func (e *Explorer) drawHead(g *picture.Grid) {
	m, r := e.bench.Motor(), e.bench.Read()
	sent := []string{report.Heading(r), r.Way.String(), report.Rate(r.Rate) + " rows/s"}
	right := strings.Join(sent, "   ") + "   "
	state, ink := "■ stopped", picture.Faint
	if r.Running {
		state, ink = "▶ running", picture.Current
	}
	if e.live != nil {
		words, _ := report.LiveState(e.live.State)
		state = words
	}
	room := g.W - 3 - picture.Width(right) - picture.Width(state)
	x := g.WriteWithin(1, 0, room, m.Title, picture.Loud(picture.Strong))
	for i, d := range e.details {
		before := " · "
		if i == 0 {
			before = "  "
		}
		if x+picture.Width(before+d) > room {
			break
		}
		x = g.Write(x, 0, before+d, picture.In(picture.Faint))
	}
	at := g.W - 1 - picture.Width(right) - picture.Width(state)
	at = g.Write(at, 0, right, picture.In(picture.Text))
	if e.live != nil {
		e.live.drawState(g)
	} else {
		g.Write(at, 0, state, picture.Loud(ink))
	}
	g.Line(0, 1, g.W, '─', picture.In(picture.Faint))
	e.drawScreens(g)
}

// drawScreens draws the names of the screens, the present one in brackets. Where not
// all have room, those about it are shown, and … for the others.
func (e *Explorer) drawScreens(g *picture.Grid) {
	names := make([]named, len(e.screens))
	for i, s := range e.screens {
		names[i] = e.named(s)
	}
	from, x := firstShown(names[:e.at+1], g.W), 1
	if from > 0 {
		x = g.Write(0, 1, "…", picture.In(picture.Faint))
	}
	for i := from; i < len(names); i++ {
		last := i == len(names)-1
		if more := names[i].width(); x+more > g.W || !last && x+more == g.W {
			g.Write(g.W-1, 1, "…", picture.In(picture.Faint))
			return
		}
		before, after, style := " ", " ", picture.In(picture.Text)
		if i == e.at {
			before, after, style = "[", "]", picture.Loud(picture.Strong)
		}
		x = g.Write(x, 1, before, style)
		x = g.Write(x, 1, names[i].before, style)
		x = g.Write(x, 1, names[i].key, picture.Loud(picture.Current))
		x = g.Write(x, 1, names[i].after, style)
		x = g.Write(x, 1, after, style)
		if last && i == e.at && x < g.W {
			g.Write(x, 1, " ", style) // the line goes on behind it
		}
	}
}

// firstShown is the first screen whose name is shown, so that the last of these, the
// present one's, is.
func firstShown(names []named, w int) (from int) {
	wide := 2 // … at either end
	for _, n := range names {
		wide += n.width()
	}
	for ; wide > w && from < len(names)-1; from++ {
		wide -= names[from].width()
	}
	return from
}

// named is the name of a screen, parted about the key that leads there.
type named struct{ before, key, after string }

// width is that of the name and of the marks beside it.
func (n named) width() int {
	return picture.Width(n.before) + picture.Width(n.key) + picture.Width(n.after) + 2
}

// named finds in a screen's name the letter of the key that leads there, or puts that
// key before it.
func (e *Explorer) named(s screen) named {
	name, key := s.name(), e.keyed("{anywhere."+way(s)+"}")
	at := strings.Index(name, key)
	if at < 0 && key == initial(s) { // a capital for a letter within
		at = strings.Index(strings.ToUpper(name), key)
	}
	if at < 0 {
		return named{"", key, " " + name}
	}
	return named{name[:at], key, name[at+len(key):]}
}

// drawFoot draws the keys that work here, as many as fit, or the question.
func (e *Explorer) drawFoot(g *picture.Grid) {
	if e.ask != nil {
		e.drawAsk(g)
		return
	}
	room := g.W - 1
	for _, h := range e.general() { // these always have their place, at the right
		if h.says != "" {
			room -= picture.Width(h.key+" "+h.says) + 2
		}
	}
	x := 1
	for _, h := range e.hints() {
		if h.says != "" && x+picture.Width(h.key+" "+h.says) <= room {
			x = e.drawHint(g, x, h)
		}
	}
	x = room + 1
	for _, h := range e.general() {
		if h.says != "" {
			x = e.drawHint(g, x, h)
		}
	}
}

func (e *Explorer) drawHint(g *picture.Grid, x int, h hint) int {
	x = g.Write(x, g.H-1, h.key, picture.Loud(picture.Text))
	return g.Write(x+1, g.H-1, h.says, picture.In(picture.Faint)) + 2
}
