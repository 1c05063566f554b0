package view

import (
	"fmt"
	"math"
	"strings"

	"coilwalk/sequence"
	"coilwalk/view/picture"
	"coilwalk/view/report"
)

// drawCursor says in two lines what is at the cursor, and gives the line below.
func (r *recordingScreen) drawCursor(g *picture.Grid, y int) int {
	row := r.course.Row(r.row)
	number := int64(r.row + 1)
	if r.verdict != nil {
		number = r.verdict.Numbers.Of(r.row)
	}
	parts := []string{"row " + report.Count(max(number, 0)), report.Clock(r.course.Seconds(row.At))}
	dwell := r.course.Seconds(r.course.Dwell(r.row))
	parts = append(parts, "lasts "+report.Lasting(dwell))
	if dwell > 0 {
		parts = append(parts, report.PerSecond(1/dwell)+"/s")
	}
	if between := r.between(); between != "" {
		parts = append(parts, between)
	}
	g.WriteWithin(1, y, g.W-2, strings.Join(parts, "   "), picture.In(picture.Text))
	if r.verdict == nil {
		return y + 1
	}
	g.WriteWithin(1, y+1, g.W-2, r.rowWords(), picture.In(picture.Text))
	if r.lanes.Tall {
		return y + 3
	}
	return y + 2
}

// rowWords says what the row puts on the coils, and where it commands the shaft.
func (r *recordingScreen) rowWords() string {
	coils := r.coils()
	var on []string
	for _, end := range coils.On() {
		name := end.String()
		if r.Motor != nil {
			name += " " + string(r.Motor.Ends[end])
		}
		on = append(on, name)
	}
	words := "all off"
	if len(on) > 0 {
		words = strings.Join(on, " and ") + " on"
	}
	if deg, ok := coils.Field().Degrees(); ok {
		words += "   field " + report.Angle(deg, 0)
	} else if len(on) > 0 {
		words += "   no field"
	}
	if r.verdict.Position == nil {
		return words
	}
	steps := r.verdict.Positions.Steps(r.row)
	words += "   commanded " + report.Signed(steps, 1) + " steps"
	if r.Motor != nil {
		perTurn, _ := r.Motor.StepsPerShaftTurn(sequence.Full).Float64()
		words += ", shaft " + report.Signed(steps*360/perTurn, 2) + "°"
	}
	return words
}

func (r *recordingScreen) coils() sequence.Row {
	return r.verdict.Row(r.course.Row(r.row).Levels)
}

// between tells the time from mark A to mark B.
func (r *recordingScreen) between() string {
	if r.markA < 0 || r.markB < 0 {
		return ""
	}
	a, b := min(r.markA, r.markB), max(r.markA, r.markB)
	seconds := r.course.Seconds(r.course.Row(b).At - r.course.Row(a).At)
	words := fmt.Sprintf("A-B %s, %s rows", report.Lasting(seconds), report.Count(int64(b-a)))
	if seconds > 0 {
		words += ", " + report.PerSecond(float64(b-a)/seconds) + "/s"
	}
	return words
}

// drawMotor draws field and rotor at the cursor on the right, and gives the
// column at which they begin.
func (r *recordingScreen) drawMotor(e *Explorer, g *picture.Grid, y int) (x int) {
	h := min(g.H-2-y-1, tallestDial)
	if r.verdict == nil || h < 5 {
		return g.W
	}
	wide := 2*h + 2*labelWide
	x = g.W - wide
	coils := r.coils()
	d := &r.dial
	d.Rotors = d.Rotors[:0]
	d.FieldDeg, _ = coils.Field().Degrees()
	d.Strength = coils.Field().Strength()
	d.Ends = endNames(e.ASCII)
	d.Poles = polesOf(coils.Field())
	words, ink := r.rotorAt(coils)
	d.Draw(g, x+labelWide, y, h)
	g.WriteEnd(g.W-1, y+h, words, picture.In(ink))
	return x
}

// rotorAt puts the rotor on the dial: where the ride has it at the end of the
// row, or, where it has not been run, at the rest that is commanded.
func (r *recordingScreen) rotorAt(coils sequence.Row) (words string, ink picture.Ink) {
	if s := r.seek(); s.known {
		r.dial.Rotors, r.dial.Sure = append(r.dial.Rotors, s.deg), true
		lag := 90*r.verdict.Positions.Steps(r.row) - s.turned
		if math.Abs(lag) > 250 {
			return "rotor: " + report.Fixed(math.Abs(4*math.Round(lag/360)), 0) + " full steps out", picture.Alert
		}
		if lag < 0 {
			return fmt.Sprintf("rotor %s ahead at row's end", report.Angle(-lag, 0)), picture.Text
		}
		return fmt.Sprintf("rotor %s behind at row's end", report.Angle(lag, 0)), picture.Text
	}
	words = "rotor not run: commanded rest"
	if r.Machine != nil && !r.Whole && !r.course.Whole() {
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

// seek runs the ride again to the end of the row at the cursor.
func (r *recordingScreen) seek() shownRotor {
	ridden := 0
	if r.ride != nil {
		ridden = r.ride.Next()
	}
	if s := r.shown; s.row == r.row && (s.known || s.ridden == ridden) {
		return s
	}
	r.shown = shownRotor{row: r.row, ridden: ridden}
	if r.row < ridden {
		at := r.course.Row(r.row).At + r.course.Dwell(r.row) - 1
		if state, ok := r.ride.At(at, r.rider); ok {
			r.shown.deg, r.shown.known = state.Place.Deg, true
			r.shown.turned = r.ride.Turned(state)
		}
	}
	return r.shown
}

// drawFaults lists what is wrong, the chosen one in full.
func (r *recordingScreen) drawFaults(g *picture.Grid, y, room int) {
	if r.verdict == nil {
		return
	}
	w := room - 2
	bottom := g.H - 2
	if len(r.faults) == 0 {
		for _, line := range wrap(r.clean(), w) {
			g.Write(1, y, line, picture.In(picture.Good))
			y++
		}
		for _, n := range r.verdict.Notes {
			for _, line := range wrap(n, w) {
				if y < bottom {
					g.Write(1, y, line, picture.In(picture.Faint))
					y++
				}
			}
		}
		r.drawList(g, y+1, w, bottom)
		return
	}
	detail := r.detail(w)
	list := max(2, bottom-y-len(detail)-1)
	first := max(0, min(r.at-list/2, len(r.faults)-list))
	for i := first; i < len(r.faults) && i < first+list && y < bottom; i++ {
		f := r.faults[i]
		mark, style := "  ", picture.In(picture.Text)
		if i == r.at {
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
	if more := len(r.faults) - first - list; more > 0 || r.verdict.More > 0 {
		g.WriteWithin(3, y, w-2, fmt.Sprintf("%d more", max(0, more)+r.verdict.More), picture.In(picture.Faint))
	}
	y++
	for _, line := range detail {
		if y < bottom {
			g.Write(1, y, line.words, picture.In(line.ink))
			y++
		}
	}
	r.drawList(g, y+1, w, bottom)
}

// drawList lists the runs where there is room.
func (r *recordingScreen) drawList(g *picture.Grid, y, w, bottom int) {
	const least = 4 // lines, or it is not worth it
	if bottom-y < least || w < 56 {
		return
	}
	g.WriteWithin(1, y, w, fmt.Sprintf("%-15s %10s  %-5s %-9s %9s  %s", "run from", "lasts", "mode", "direction", "rows", "rows a second"), picture.In(picture.Faint))
	runs := report.RunLines(r.answer, bottom-y-1)
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
func (r *recordingScreen) detail(w int) (lines []inked) {
	if r.at < 0 {
		for _, line := range wrap("n goes to the first fault in time, ↓ to the one that matters most.", w) {
			lines = append(lines, inked{line, picture.Faint})
		}
		return lines
	}
	f := r.faults[r.at]
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

// clean says what was found where nothing is wrong.
func (r *recordingScreen) clean() string {
	words := "Nothing is wrong in it"
	if r.verdict.Lost != nil && *r.verdict.Lost == 0 {
		words += ", and " + r.Machine.Name + ", run along it, loses no step"
	}
	return words + "."
}

// polesOf gives what each coil end turns to the rotor, in field order. A phase
// that carries current turns one pole to the rotor at the teeth of one end and
// the other pole at those of the other. The end that pulls the rotor's north pole
// is a south pole.
func polesOf(f sequence.Field) (poles [4]picture.Pole) {
	for phase, current := range [2]float64{f.A, f.B} {
		pole := picture.NoPole
		if current > 0 {
			pole = picture.SouthPole
		} else if current < 0 {
			pole = picture.NorthPole
		}
		poles[phase], poles[phase+2] = pole, -pole
	}
	return poles
}
