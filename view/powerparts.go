package view

import (
	"coilwalk/model/power"
	"coilwalk/model/quantity"
	"coilwalk/view/picture"
	"coilwalk/view/report"
)

func (p *powerScreen) draw(e *Explorer, g *picture.Grid) {
	left := min(g.W*2/5, 50)
	y := p.form.draw(e, g, 2, left)
	below := max(13, y+1)
	told := 1
	if g.H >= 34 && g.W < 160 { // narrow lines take more of them
		below, told = 20, 2
	}
	words, style := "Supply off before you touch a lead. A motor held at rest gets hot.", picture.In(picture.Faint)
	p.drawNumbers(g, left+1, 2, g.W-left-2, below-2-told)
	if p.err == nil && p.answer != nil {
		drawFed(g, below-told, told, report.PowerFed(p.driven, "Rates"), "Rates", p.driven)
	}
	if a := p.answer; a != nil && p.err == nil && len(a.Modes) > 0 {
		care := report.CautionsBeside(a)
		if len([]rune(care[0])) <= g.W-2 {
			words, care = care[0], care[1:]
		}
		h := g.H - 2 - below
		if g.H >= 44 { // room for the other supplies, the modes and the cautions
			p.drawMore(g, care, 1, g.H-3-h/2, g.W-2, h/2+1)
			h -= h/2 + 2
		}
		half := (g.W - 3) / 2
		p.drawShares(a, g, 1, below, half, h)
		p.drawWarm(a, g, 2+half, below, g.W-3-half, h)
	}
	if e.notice.words != "" {
		words, style = e.said(), picture.Loud(e.notice.ink)
	}
	g.WriteWithin(1, g.H-2, g.W-2, words, style)
}

// roomy is how many lines the facts need to be told in full.
const roomy = 15

// verdictInk is the colour of a verdict, beside its word.
func verdictInk(v power.Verdict) picture.Ink {
	if v == power.Fine {
		return picture.Good
	}
	return picture.Alert
}

func (p *powerScreen) drawNumbers(g *picture.Grid, x, y, w, h int) {
	list := facts{g, x, y, y + h, w, 8}
	a := p.answer
	if p.err != nil || a == nil {
		if p.err != nil {
			list.say("", p.err.Error(), picture.Alert)
		}
		return
	}
	ink := verdictInk(a.Verdict)
	if a.Verdict == power.Fine && report.Burns(a) { // for itself, and not for a hand
		ink = picture.Current
	}
	list.say("verdict", report.PowerDecides(a), ink)
	switch {
	case p.others != nil && len(p.others.Cures) > 0:
		name := "cure"
		for _, c := range p.others.Cures {
			ink := picture.Text
			if c.Verdict == power.Fine.String() {
				ink = picture.Good
			}
			if h < roomy {
				list.say(name, c.Short(), ink)
				break
			}
			list.say(name, c.Text, ink)
			name = ""
		}
	case p.others != nil && a.Verdict != power.Fine:
		list.say("cure", "no single change of mode, supply, connection, stage or current would do better", picture.Text)
	case a.Verdict != power.Fine:
		list.say("cure", "looked for …", picture.Faint)
	}
	if len(a.Modes) == 0 {
		return
	}
	ampere := func(v float64) string { return quantity.Amperes(v).Rounded(3) }
	coil := ampere(a.Driver.OutputAmpere) + " of " + ampere(a.Rated)
	if a.Followed {
		coil += " standing, " + ampere(a.Heating()) + " turning"
	}
	list.say("a coil", coil+"; supply "+ampere(a.Cold.Ampere), picture.Strong)
	if h < roomy {
		for _, fact := range report.PowerShort(a) {
			list.say(fact[0], fact[1], picture.Text)
		}
		return
	}
	list.say("winding", report.WindingLine(a), picture.Text)
	list.say("driver", report.DriverLine(a), picture.Text)
	list.say("torque", report.TorqueLine(a), picture.Text)
	if len(a.Off) > 0 {
		list.say("or off", report.OffLine(a), picture.Text)
	}
	if a.Rise.Constant > 0 {
		list.say("rises", report.RiseLine(a), picture.Text)
	}
	if r := a.Stage.Reference; r.Gain > 0 {
		list.say("setting", "reference "+quantity.Volts(r.Volts(a.Question.Current)).Rounded(3)+" with sense resistors of "+quantity.Ohms(r.Sense).Rounded(2), picture.Text)
	}
}

// drawShares draws who gets how much of the supply's power.
func (p *powerScreen) drawShares(a *power.Answer, g *picture.Grid, x, y, w, h int) {
	inks := map[string]picture.Ink{"copper": picture.North, "driver": picture.Current, "clamp": picture.South, "shaft": picture.Good}
	s := &p.shares
	s.Name, s.Value = "supply", quantity.Watts(a.Balance.Supply+a.Balance.Source).Rounded(2)
	s.Parts = s.Parts[:0]
	for _, part := range report.BalanceParts(a) {
		ink, ok := inks[part.Name]
		if !ok {
			ink = picture.Text
		}
		name := part.Name
		if name == "supply" {
			name = "its ohms"
		}
		s.Parts = append(s.Parts, picture.Part{Name: name, Value: quantity.Watts(part.Watts).Rounded(2), Share: part.Share, Ink: ink})
	}
	title := "who gets it, warm and held"
	if a.Rate > 0 {
		title = "who gets it, warm and turning"
		switch {
		case p.busy():
			title = "stepping slowly; turning is run …"
		case !a.Followed:
			title = "who gets it, as if stepping slowly"
		}
	}
	g.WriteWithin(x, y, w, title, picture.In(picture.Faint))
	s.Draw(g, x, y+1, w, h-1)
}

// drawWarm plots the winding's temperature over time, and what it may be.
func (p *powerScreen) drawWarm(a *power.Answer, g *picture.Grid, x, y, w, h int) {
	unit, per := "min", 60.0
	if last := a.Course[len(a.Course)-1].Seconds; last > 5*3600 {
		unit, per = "h", 3600
	} else if last < 120 {
		unit, per = "s", 1
	}
	warm := picture.Line{Ink: picture.North, Mark: '*', Name: "winding"}
	for _, c := range a.Course {
		warm.X, warm.Y = append(warm.X, c.Seconds/per), append(warm.Y, c.Celsius)
	}
	ends := []float64{0, warm.X[len(warm.X)-1]}
	plot := &p.plot
	plot.Lines = append(plot.Lines[:0], picture.Line{Ink: picture.Faint, Mark: '.', Name: "may", X: ends, Y: []float64{a.Body.Class, a.Body.Class}})
	if a.Stage.Limits.Thermal > 0 && a.Driver.JunctionMost < power.Hottest {
		plot.Lines = append(plot.Lines, picture.Line{Ink: picture.Current, Mark: '+', Name: "driver", X: ends, Y: []float64{a.Driver.JunctionMost, a.Driver.JunctionMost}})
	}
	plot.Lines = append(plot.Lines, warm)
	plot.XName = unit + ", °C"
	plot.Fixed, plot.YMin, plot.YMax = true, a.Ambient, max(a.Body.Class, a.Final, a.Ambient+1)
	plot.Left = func(v float64) string { return report.Fixed(v, 0) }
	plot.Below = func(v float64) string { return report.Fixed(v, 0) }
	if driver := a.Driver.JunctionMost; driver < power.Hottest {
		plot.YMax = max(plot.YMax, driver)
	}
	plot.Draw(g, x, y, w, h)
}

// drawMore lists the modes, the other supplies and connections, and the cautions.
func (p *powerScreen) drawMore(g *picture.Grid, care []string, x, y, w, h int) {
	half := (w - 1) / 2
	list := facts{g, x, y, y + h, half, 9}
	if p.others == nil {
		list.say("", "other supplies are tried …", picture.Faint)
		return
	}
	for _, s := range p.others.Supplies {
		ink := picture.Text
		if s.Verdict == power.Fine.String() {
			ink = picture.Good
		}
		list.say(s.Verdict, s.Title()+": "+s.Text, ink)
	}
	right := facts{g, x + half + 1, y, y + h, w - half - 1, 9}
	for _, m := range p.answer.Modes {
		right.say(m.Mode.Name, quantity.Amperes(m.Average).Rounded(3)+" from the supply on the mean, peak "+quantity.Amperes(m.Peak).Rounded(3), picture.Text)
	}
	for _, c := range p.others.Connections {
		if len(p.others.Connections) > 1 {
			right.say(c.Verdict, c.Line(), picture.Text)
		}
	}
	for k, words := range append(care, p.others.Notes...) {
		name := ""
		if k == 0 {
			name = "care"
		}
		right.say(name, words, picture.Faint)
	}
}
