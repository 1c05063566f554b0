package view

import (
	"fmt"
	"strings"

	"coilwalk/sequence"
	"coilwalk/view/picture"
	"coilwalk/view/report"
)

// drawCursor says in two lines what is at the cursor, and gives the line below.
func (r *recordingScreen) drawCursor(g *picture.Grid, y int) int {
	g.WriteWithin(1, y, g.W-2, strings.Join(r.Moment(), "   "), picture.In(picture.Text))
	if r.Verdict == nil {
		return y + 1
	}
	g.WriteWithin(1, y+1, g.W-2, strings.Join(r.On(r.Motor), "   "), picture.In(picture.Text))
	if r.lanes.Tall {
		return y + 3
	}
	return y + 2
}

// drawMotor draws field and rotor at the cursor on the right, and gives the
// column at which they begin.
func (r *recordingScreen) drawMotor(e *Explorer, g *picture.Grid, y int) (x int) {
	h := min(g.H-2-y-1, tallestDial)
	if r.Verdict == nil || h < 5 {
		return g.W
	}
	wide := 2*h + 2*labelWide
	x = g.W - 1 - wide // what stands beside it does not touch the edge
	coils := r.Coils()
	d := &r.dial
	d.Rotors = d.Rotors[:0]
	field := coils.Field()
	d.FieldDeg, _ = field.Degrees()
	d.Strength = field.Strength()
	d.Ends = picture.EndNames(e.ASCII)
	d.Poles = picture.PolesOf(field.A, field.B)
	words, ink := r.rotorAt(coils)
	d.Draw(g, x+labelWide, y, h)
	g.WriteEnd(g.W-1, y+h, words, picture.In(ink))
	return x - 1 // a label with its letter is as wide as its room
}

// rotorAt puts the rotor on the dial: where the ride has it at the end of the
// row, or, where it has not been run, at the rest that is commanded.
func (r *recordingScreen) rotorAt(coils sequence.Row) (words string, ink picture.Ink) {
	if s := r.Rotor(); s.Known {
		r.dial.Rotors, r.dial.Sure = append(r.dial.Rotors, s.Deg), true
		words, lost := r.Lag(s)
		if lost {
			return words, picture.Alert
		}
		return words, picture.Text
	}
	words = "rotor not run: commanded rest"
	if r.Machine != nil && !r.Whole && !r.Course.Whole() {
		words = "long: --rotor runs the rotor"
	}
	if r.load.what != "" && r.Machine != nil {
		words = "not yet run: commanded rest"
	}
	if deg, ok := coils.Field().Degrees(); ok {
		r.dial.Rotors, r.dial.Sure = append(r.dial.Rotors, deg), false
	}
	return words, picture.Faint
}

// drawFaults lists what is wrong, the chosen one in full.
func (r *recordingScreen) drawFaults(e *Explorer, g *picture.Grid, y, room int) {
	if r.Verdict == nil {
		return
	}
	w := room - 2
	bottom := g.H - 2
	if len(r.Answer.Faults) == 0 {
		r.drawList(g, 1+r.drawWords(e, g, y, w, r.clean(w)), w, bottom)
		return
	}
	detail := r.detail(e, w)
	list := max(2, bottom-y-len(detail)-1)
	first := max(0, min(r.Fault-list/2, len(r.Answer.Faults)-list))
	for i := first; i < len(r.Answer.Faults) && i < first+list && y < bottom; i++ {
		f := r.Answer.Faults[i]
		mark, style := "  ", picture.In(picture.Text)
		if i == r.Fault {
			mark, style = "▶ ", picture.Loud(picture.Alert)
		}
		g.Write(1, y, mark, style)
		name := f.Kind
		if f.Caution {
			name += " (caution)"
		}
		g.WriteWithin(3, y, w-2, fmt.Sprintf("%-17s row %s  %s", name, report.Count(f.Row), report.Clock(f.TimeS)), style)
		y++
	}
	if more := len(r.Answer.Faults) - first - list; more > 0 || r.Verdict.More > 0 {
		g.WriteWithin(3, y, w-2, fmt.Sprintf("%d more", max(0, more)+r.Verdict.More), picture.In(picture.Faint))
	}
	y++
	r.drawList(g, 1+r.drawWords(e, g, y, w, detail), w, bottom)
}

// clean says that nothing is wrong, and what was assumed.
func (r *recordingScreen) clean(w int) (lines []inked) {
	for _, line := range wrap(r.Clean(r.called()), w) {
		lines = append(lines, inked{line, picture.Good})
	}
	for _, n := range r.Verdict.Notes {
		for _, line := range wrap(n, w) {
			lines = append(lines, inked{line, picture.Faint})
		}
	}
	return lines
}

// drawWords writes lines as far as there is room, and scrolls through those that are too
// many; it gives the line below them.
func (r *recordingScreen) drawWords(e *Explorer, g *picture.Grid, y, w int, lines []inked) int {
	room := g.H - 2 - y
	if len(lines) <= room || room < 2 {
		r.down = 0
	} else {
		room--
		r.down = max(0, min(r.down, len(lines)-room))
		words := fmt.Sprintf("… %d lines more below: {recording.read-on} reads on", len(lines)-room-r.down)
		if len(lines)-room == r.down {
			words = fmt.Sprintf("… %d lines more above: {recording.read-back} reads back", r.down)
		}
		g.WriteWithin(1, y+room, w, e.keyed(words), picture.In(picture.Faint))
	}
	for i := range max(0, min(room, len(lines)-r.down)) {
		line := lines[r.down+i]
		g.WriteWithin(1, y+i, w, line.words, picture.In(line.ink))
	}
	return y + min(room, len(lines))
}

// drawList lists the runs where there is room.
func (r *recordingScreen) drawList(g *picture.Grid, y, w, bottom int) {
	const least = 4 // lines, or it is not worth it
	if bottom-y < least || w < 56 {
		return
	}
	g.WriteWithin(1, y, w, fmt.Sprintf("%-15s %10s  %-5s %-9s %9s  %s", "run from", "lasts", "mode", "direction", "rows", "rows a second"), picture.In(picture.Faint))
	runs := report.RunLines(r.Answer, bottom-y-1)
	for i, line := range runs {
		g.WriteWithin(1, y+1+i, w, line, picture.In(picture.Text))
	}
}

// inked is a line of words.
type inked struct {
	words string
	ink   picture.Ink
}

// detail says all of the chosen fault.
func (r *recordingScreen) detail(e *Explorer, w int) (lines []inked) {
	if r.Fault < 0 {
		for _, line := range wrap(e.keyed("{recording.next-fault} goes to the first fault in time, {recording.down} to the one that matters most."), w) {
			lines = append(lines, inked{line, picture.Faint})
		}
		for _, n := range r.Verdict.Notes { // what was assumed
			for _, line := range wrap(n, w) {
				lines = append(lines, inked{line, picture.Faint})
			}
		}
		return lines
	}
	f := r.Answer.Faults[r.Fault]
	add := func(text string, ink picture.Ink) {
		for _, line := range wrap(text, w) {
			lines = append(lines, inked{line, ink})
		}
	}
	add(f.Text, picture.Text)
	if f.Cure != "" {
		add("Cure: "+f.Cure, picture.Good)
	}
	if f.Cause != "" {
		add("Usually: "+f.Cause, picture.Faint)
	}
	return lines
}

// called is what the motor is called that was run along it.
func (r *recordingScreen) called() string {
	if r.Machine == nil {
		return ""
	}
	return r.Machine.Name
}
