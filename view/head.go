package view

import (
	"slices"
	"strings"

	"coilwalk/view/picture"
	"coilwalk/view/report"
)

// drawHead draws the line at the top: which motor on the left, what is sent to
// it on the right. Where both do not fit, the motor's details give way.
func (e *Explorer) drawHead(g *picture.Grid) {
	m, r := e.bench.Motor(), e.bench.Read()
	sent := []string{report.Heading(r), r.Way.String(), report.Angle(r.Rate, 1)[:len(report.Angle(r.Rate, 1))-len("°")] + " rows/s"}
	right := strings.Join(sent, "   ") + "   "
	state, ink := "■ stopped", picture.Faint
	if r.Running {
		state, ink = "▶ running", picture.Current
	}
	if e.live != nil {
		words, _ := report.LiveState(e.live.state)
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
	at = 1
	for i, s := range e.screens {
		before, after, style := " ", " ", picture.In(picture.Text)
		if i == e.at {
			before, after, style = "[", "]", picture.Loud(picture.Strong)
		}
		at = g.Write(at, 1, before, style)
		name := s.name()
		key := strings.Index(name, initial(s)) // the letter of the key that leads there
		if key < 0 {
			key = max(0, strings.Index(strings.ToUpper(name), initial(s)))
		}
		at = g.Write(at, 1, name[:key], style)
		at = g.Write(at, 1, initial(s), picture.Loud(picture.Current))
		at = g.Write(at, 1, name[key+1:], style)
		at = g.Write(at, 1, after, style)
	}
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
			room -= picture.Width(e.keyMark(h.key)+" "+h.says) + 2
		}
	}
	x := 1
	for _, h := range e.screens[e.at].keys() {
		if h.says != "" && x+picture.Width(e.keyMark(h.key)+" "+h.says) <= room {
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
	x = g.Write(x, g.H-1, e.keyMark(h.key), picture.Loud(picture.Text))
	return g.Write(x+1, g.H-1, h.says, picture.In(picture.Faint)) + 2
}

// general lists the keys that work everywhere.
func (e *Explorer) general() []hint {
	if e.everywhere == nil {
		var initials []string
		for _, s := range e.screens {
			initials = append(initials, initial(s))
		}
		e.everywhere = []hint{{"?", "help", "show or leave this help"},
			{"tab", "screen", "next screen; or the capital in its name: " + strings.Join(initials, " ")},
			{"q", "quit", "leave; ctrl+c too"}, {"t", "", "change between dark and light colours"}}
	}
	return e.everywhere
}

// keyMark shows a key in words where only ASCII is drawn.
func (e *Explorer) keyMark(key string) string {
	if !e.ASCII {
		return key
	}
	switch key {
	case "→":
		return "right"
	case "←":
		return "left"
	case "⌫":
		return "bksp"
	case "↑↓":
		return "up/down"
	case "←→":
		return "left/right"
	}
	return key
}

// drawHelp lists every key of the screen, made from the key table itself.
func (e *Explorer) drawHelp(g *picture.Grid) {
	g.Write(2, 0, "keys of "+strings.ToLower(e.screens[e.at].name()), picture.Loud(picture.Strong))
	g.WriteEnd(g.W-1, 0, "any key goes back", picture.In(picture.Faint))
	g.Line(0, 1, g.W, '─', picture.In(picture.Faint))
	y := 2
	for _, h := range slices.Concat(e.screens[e.at].keys(), e.general()) {
		g.WriteEnd(12, y, e.keyMark(h.key), picture.Loud(picture.Current))
		g.WriteWithin(15, y, g.W-16, h.long, picture.In(picture.Text))
		y++
	}
	if y+len(helpWords) < g.H {
		y++
	}
	for _, words := range helpWords {
		if y < g.H {
			g.WriteWithin(2, y, g.W-3, words, picture.In(picture.Faint))
			y++
		}
	}
}

// helpWords are what the picture of Walk does not say by itself.
var helpWords = []string{ // the most needed first: the last give way
	"Motor supply off before you touch a lead; a motor held at rest gets hot.",
	"Forward: clockwise, facing the shaft's end. Dial: one round is one pole pair.",
	"N, S: what a coil's teeth show the rotor. Sinks: is on. Lag: rest behind field.",
}
