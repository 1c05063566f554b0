package view

import (
	"fmt"
	"math"

	"coilwalk/model/quantity"
	"coilwalk/model/rotor"
	"coilwalk/view/picture"
	"coilwalk/view/report"
)

func (r *ratesScreen) draw(e *Explorer, g *picture.Grid) {
	left := min(g.W*2/5, 50)
	y := r.form.draw(e, g, 2, left)
	below, told := max(12, y+3), 1
	if g.H >= 34 {
		below, told = 17, 2
	}
	r.drawNumbers(g, left+1, 2, g.W-left-2, below-3-told)
	if r.err == nil && r.begun {
		drawFed(g, below-1-told, told, report.RatesFed(r.sheet.Driven, "Power"), "Power", r.sheet.Driven)
	}
	h := g.H - 2 - below
	if r.err == nil && r.begun {
		r.drawBusy(g, 1, below-1, left-2)
		half := (g.W - 3) / 2
		if g.H >= 44 { // room for the torque too
			r.drawTorque(e, g, 1, below, g.W-2, h/3)
			below, h = below+h/3+1, h-h/3-1
		}
		r.drawResponse(g, 1, below, half, h)
		r.drawCurves(g, 2+half, below, g.W-3-half, h)
	}
	words, style := "Estimates are a caution, no promise. Keep clear of a shaft at speed.", picture.In(picture.Faint)
	if e.notice.words != "" {
		words, style = e.said(), picture.Loud(e.notice.ink)
	}
	g.WriteWithin(1, g.H-2, g.W-2, words, style)
}

// drawBusy draws how far the run beside the screen is.
func (r *ratesScreen) drawBusy(g *picture.Grid, x, y, w int) {
	if r.job == nil {
		return
	}
	words := "running "
	if r.job.dropped.Load() {
		g.Write(x, y, "stopped; edit a line to run again", picture.In(picture.Alert))
		return
	}
	at := g.Write(x, y, words, picture.In(picture.Faint))
	room := max(w-len(words)-1, 4)
	g.Line(at, y, room, '─', picture.In(picture.Faint))
	g.Line(at, y, int(r.job.done()*float64(room)), '━', picture.Loud(picture.Current))
}

func (r *ratesScreen) drawNumbers(g *picture.Grid, x, y, w, h int) {
	list := facts{g, x, y, y + h, w, 8}
	say := list.say

	if r.err != nil {
		say("", r.err.Error(), picture.Alert)
		return
	}
	s, a := &r.sheet, &r.response
	if f := r.found; f != nil && f.For != nil { // what was asked comes first
		ink := picture.Good
		if !f.For.Starts {
			ink = picture.Alert
		}
		say("verdict", f.For.Text, ink)
	}
	say("driven", report.DrivenBy(s.Driven, s.Plant.Supply), picture.Text)
	if r.forbids != nil {
		say("power", r.forbids.Short(), picture.Alert)
	}
	words := fmt.Sprintf("overshoots %s %%", report.Fixed(100*a.Overshoot, 0))
	if a.RingHz > 0 {
		words += fmt.Sprintf(", rings at %s Hz", report.Hertz(a.RingHz))
	}
	if a.Adrift {
		words = report.ResponseLine(s.Motor, *a)
	}
	if a.Settling > 0 {
		words += ", settles in " + quantity.Seconds(a.Settling).Rounded(2)
	}
	say("one row", words, picture.Text)
	if f := r.found; f != nil {
		say("starts", f.InAll(f.StartStop), picture.Strong)
		for i, hole := range f.Holes {
			say("", fmt.Sprintf("not from %s to %s; again to %s", report.Told(hole[0]), report.Told(hole[1]), report.Told(f.Windows[i][1])), picture.Alert)
		}
		say("follows", f.InAll(f.PullOut), picture.Strong)
		if s.Driven.Stage.Name == "current" {
			say("", "a real driver falls far below: set stage and supply", picture.Alert)
		}
		if f.Reversal != nil {
			say("reversal", f.Reversal.Text, picture.Text)
		}
		if g.H >= roomToCompare {
			for _, m := range f.Compared {
				say(m.Mode, m.Words()+" full steps/s", picture.Text)
			}
		}
	}
	if n := len(s.Estimates); n > 0 {
		names := ""
		for i, e := range s.Estimates {
			if i > 0 {
				names += ", "
			}
			names += e.Figure
		}
		say("estimated", names, picture.Faint)
	}
}

// swingDots are the dots across that a swing needs to be drawn as one.
const swingDots = 7

// roomToCompare is the height from which step modes are shown beside each other.
const roomToCompare = 34

// drawTorque draws the torque on the rotor over a round under the first row, with
// the rest and the load.
func (r *ratesScreen) drawTorque(e *Explorer, g *picture.Grid, x, y, w, h int) {
	g.Write(x, y, "torque on the rotor over one electrical round, first row: the rest is where it falls through the line", picture.In(picture.Faint))
	machine := r.sheet.Plant.Machine()
	field := r.sheet.Plant.Field(r.sheet.Mode.Order().Row(0))
	c := &r.torque
	c.Values, c.Marks = c.Values[:0], c.Marks[:0]
	for i := range 2 * w {
		c.Values = append(c.Values, machine.Torque(field, 360*float64(i)/float64(2*w)))
	}
	if places, _ := machine.Rest(field, rotor.Position{Deg: 10}); len(places) == 1 {
		c.Marks = append(c.Marks, places[0].Deg/360)
	}
	c.Ends = picture.EndNames(e.ASCII)
	c.Draw(g, x, y+1, w, h-3)
}

// drawResponse plots the rotor's way through one row.
func (r *ratesScreen) drawResponse(g *picture.Grid, x, y, w, h int) {
	p := &r.plot
	a := &r.response
	until := len(a.Times)
	if a.Settling > 0 { // what comes after is a straight line
		for i, t := range a.Times {
			if t > 1.6*a.Settling {
				until = i
				break
			}
		}
	}
	poles := float64(r.sheet.Motor.PolePairs)
	way := picture.Line{Ink: picture.Current, Mark: '*', Name: "one row"}
	rest := picture.Line{Ink: picture.Faint, Mark: '.', Name: "rest"}
	for i := range until {
		way.X, way.Y = append(way.X, 1e3*a.Times[i]), append(way.Y, a.Degrees[i]/poles)
	}
	dots := 2 * w // a column has two
	ring := math.Inf(1)
	if a.RingHz > 0 {
		ring = 1e3 / a.RingHz
	}
	if n := len(way.X); n > 1 && ring*float64(dots) < swingDots*(way.X[n-1]-way.X[0]) {
		way.X, way.Y = picture.Span(way.X, way.Y, dots, ring)
		way.Name = "swings"
	} else {
		way.X, way.Y = picture.Envelope(way.X, way.Y, dots)
	}
	if n := len(way.X); n > 1 {
		rest.X, rest.Y = []float64{0, way.X[n-1]}, []float64{a.Step / poles, a.Step / poles}
	}
	p.Lines = append(p.Lines[:0], rest, way)
	p.Zero = true
	p.XName = "ms, rotor °"
	p.Left = func(v float64) string { return report.Fixed(v, 2) }
	p.Below = func(v float64) string { return report.Fixed(v, 0) }
	p.Draw(g, x, y, w, h)
}

// drawCurves plots both rates over the load, and the working point.
func (r *ratesScreen) drawCurves(g *picture.Grid, x, y, w, h int) {
	if len(r.points) < 2 {
		words := "the curves come when they are found"
		if r.job == nil {
			words = "no curves: the run was stopped"
		}
		g.WriteWithin(x+2, y+h/2, w-2, words, picture.In(picture.Faint))
		return
	}
	starts := picture.Line{Ink: picture.Good, Mark: '*', Name: "starts"}
	follows := picture.Line{Ink: picture.Current, Mark: '+', Name: "follows"}
	for _, c := range r.points {
		starts.X, starts.Y = append(starts.X, c.StartStop), append(starts.Y, 1e3*c.Load)
		follows.X, follows.Y = append(follows.X, c.PullOut), append(follows.Y, 1e3*c.Load)
	}
	p := &r.curves
	p.Lines = append(p.Lines[:0], follows, starts)
	if r.sheet.Rate > 0 {
		at := 1e3 * r.sheet.Plant.Load.Torque
		most := starts.Y[len(starts.Y)-1]
		p.Lines = append(p.Lines, picture.Line{Ink: picture.Alert, Mark: '!', Name: "you",
			X: []float64{r.sheet.Rate, r.sheet.Rate}, Y: []float64{math.Max(0, at-most/12), at + most/12}})
	}
	p.Zero, p.FromZero = true, true
	p.XName = "rows/s, mN.m"
	p.Left = func(v float64) string { return report.Fixed(v, 1) }
	p.Below = func(v float64) string { return report.Fixed(v, 0) }
	p.Draw(g, x, y, w, h)
}
