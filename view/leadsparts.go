package view

import (
	"fmt"
	"math"
	"strings"

	"coilwalk/model/motor"
	"coilwalk/model/quantity"
	"coilwalk/model/wiring"
	"coilwalk/view/picture"
	"coilwalk/view/report"
)

// drawGrid draws the readings between each two leads, a triangle, and gives the
// line after it.
func (l *leadsScreen) drawGrid(g *picture.Grid, x, y, cell int) int {
	g.Write(x, y, "ohm", picture.In(picture.Faint))
	for k := range max(len(l.names)-1, 0) {
		l.drawName(g, x+nameColumn+k*cell, y, cell-1, l.names[k], k == l.col)
	}
	nextA, nextB, hasNext := l.next()
	for i := 1; i < len(l.names); i++ {
		l.drawName(g, x, y+i, nameColumn-1, l.names[i], i == l.row)
		for k := range i {
			a, b := l.names[k], l.names[i]
			found := l.between(a, b)
			words, style := "·", picture.In(picture.Faint)
			if hasNext && (a == nextA && b == nextB || a == nextB && b == nextA) {
				words, style = "?", picture.Loud(picture.Good)
			}
			if n := len(found); n > 0 {
				words, style = readingWords(found[n-1]), picture.In(picture.Text)
				if n > 1 {
					words += fmt.Sprintf("×%d", n)
				}
				if l.contradicts(a, b) {
					words, style = words+"!", picture.Loud(picture.Alert)
				}
			}
			at := x + nameColumn + k*cell
			if i == l.row && k == l.col {
				g.Set(at-1, y+i, '›', picture.Loud(picture.Current))
				g.Back(at, y+i, cell-1, 1, picture.Band)
				style.Back = picture.Band
			}
			g.WriteWithin(at, y+i, cell-1, words, style)
		}
	}
	return y + len(l.names)
}

func (l *leadsScreen) drawName(g *picture.Grid, x, y, w int, lead motor.Lead, chosen bool) {
	base, _ := lead.Colours()
	style := picture.In(picture.LeadInk(base.Code))
	style.Bold = chosen
	g.WriteWithin(x, y, w, string(lead), style)
}

// contradicts says whether a finding names the reading between two leads.
func (l *leadsScreen) contradicts(a, b motor.Lead) bool {
	if l.answer == nil {
		return false
	}
	for _, f := range l.answer.Faults {
		if f.Kind == "contradiction" && len(f.Leads) == 2 && (f.Leads[0] == a && f.Leads[1] == b || f.Leads[0] == b && f.Leads[1] == a) {
			return true
		}
	}
	return false
}

// drawKinds draws the kinds of motor with their odds as bars.
func (l *leadsScreen) drawKinds(g *picture.Grid, x, y, w int) {
	g.Write(x, y, "kind of motor", picture.In(picture.Faint))
	odds := map[string]float64{}
	if l.answer != nil {
		for _, k := range l.answer.Kinds {
			odds[k.Kind] = k.Odds
		}
	}
	room := min(w-8-8, 30)
	for i, kind := range wiring.Kinds {
		style := picture.In(picture.Faint)
		if odds[kind] >= 0.5 {
			style = picture.Loud(picture.Strong)
		}
		g.Write(x, y+1+i, kind, style)
		if l.answer == nil {
			continue
		}
		g.Line(x+8, y+1+i, int(math.Round(odds[kind]*float64(room))), '━', picture.Loud(picture.Current))
		g.Write(x+8+room+1, y+1+i, shortPercent(odds[kind]), style)
	}
}

func shortPercent(odds float64) string {
	switch {
	case odds > 0.9995:
		return ">99.9 %"
	case odds < 0.0005:
		return "0 %"
	case odds > 0.99 || odds < 0.01:
		return fmt.Sprintf("%.1f %%", 100*odds)
	}
	return fmt.Sprintf("%.0f %%", 100*odds)
}

// coils draws what is certain.
func (l *leadsScreen) coils() *picture.Coils {
	c := &picture.Coils{Broken: map[string]bool{}}
	if l.answer == nil {
		return c
	}
	a := l.answer
	for _, f := range a.Faults {
		if f.Kind == "open-lead" {
			c.Broken[string(f.Leads[0])] = true
		}
	}
	known := map[motor.Lead]bool{}
	for _, lead := range a.Common {
		known[lead] = true
	}
	if len(a.Common) > 0 {
		c.Common = strings.Join(words(a.Common), " ")
	}
	if a.Kinds[0].Kind == wiring.FiveLead && a.Kinds[0].Odds >= 0.95 {
		for _, lead := range a.Leads {
			if !known[lead] {
				c.Star = append(c.Star, string(lead))
			}
		}
		return c
	}
	for _, p := range a.Phases {
		one := picture.OneCoil{Tap: string(p.Tap)}
		if len(p.Ends) > 0 {
			one.From = string(p.Ends[0])
		}
		if len(p.Ends) > 1 {
			one.To = string(p.Ends[1])
		}
		for _, lead := range append([]motor.Lead{p.Tap}, p.Ends...) {
			known[lead] = true
		}
		if len(p.Ends) > 2 { // three leads of one phase, which of them is the tap not known yet
			one.To += " or " + string(p.Ends[2])
		}
		c.Coils = append(c.Coils, one)
	}
	for _, lead := range a.Leads {
		if !known[lead] {
			c.Loose = append(c.Loose, string(lead))
		}
	}
	return c
}

func (l *leadsScreen) ohmWords() string {
	a := l.answer
	of := "a half-coil"
	if a.Kinds[0].Kind == wiring.FourLead || a.Kinds[0].Kind == wiring.EightLead {
		of = "a coil"
	}
	least := strings.Fields(quantity.Ohms(a.Least).Rounded(3))
	words := fmt.Sprintf("%s: %s (%s to %s)", of, quantity.Ohms(a.Ohm).Rounded(3), least[0], quantity.Ohms(a.Most).Rounded(3))
	if a.Meter > 0.05 { // or who typed 60 wonders where 59.7 comes from
		words += fmt.Sprintf(", without the meter's leads, some %.1f ohm", a.Meter)
	}
	return words
}

// drawFindings puts what to do next, what is wrong and what ohms can not tell
// into words, the most needed first.
func (l *leadsScreen) drawFindings(e *Explorer, g *picture.Grid, x, y, w, h int) {
	end := y + h
	say := func(words string, style picture.Style) {
		for i, line := range wrap(words, w-2) {
			at := x + 2
			if i == 0 {
				at = x
			}
			if y < end {
				g.Write(at, y, line, style)
			}
			y++
		}
	}
	if len(l.names) < 2 || len(l.readings) == 0 {
		say("Whose leads? These are "+strings.Join(words(l.names), " ")+e.keyed("; {leads.names} names your own."), picture.In(picture.Text))
		say(e.keyed("Put the meter on ohm, a probe on each of the two leads at the cursor, and type what it shows; {leads.open} for open."), picture.In(picture.Text))
		say("After each reading the cursor goes to the one that tells most.", picture.In(picture.Text))
		return
	}
	said := ""
	for _, f := range l.answer.Faults {
		if f.Text != said { // two readings that were exchanged say the same
			say("! "+f.Text, picture.Loud(picture.Alert))
		}
		said = f.Text
	}
	a, b, ok := l.next()
	switch {
	case ok && l.answer.Next != nil && l.answer.Next.A == a && l.answer.Next.B == b:
		say(fmt.Sprintf("? %s to %s next: %s.", a, b, l.answer.Next.Why), picture.Loud(picture.Good))
	case ok:
		say(fmt.Sprintf("? %s to %s next: %s was not touched yet.", a, b, b), picture.Loud(picture.Good))
	default:
		say(e.keyed("No further reading would tell more; {leads.ask-shaft} asks the shaft."), picture.Loud(picture.Good))
	}
	if closing := l.closing(e, "leads.motor"); closing != "" {
		say("· "+closing, picture.In(picture.Text))
	}
	for _, u := range l.answer.Undetermined {
		say("· "+u, picture.In(picture.Text))
	}
}

// drawConnections lists how such a motor can be connected, once it is known.
func (l *leadsScreen) drawConnections(g *picture.Grid, x, y, w, h int) {
	if l.answer == nil || h < 4 {
		return
	}
	winding, ok := l.answer.Winding()
	if !ok {
		return
	}
	m := motor.Motor{Winding: winding}
	m.Figures.Resistance = quantity.Ohms(l.answer.Ohm)
	g.Write(x, y, "how it can be connected; holding torque at equal heat", picture.In(picture.Faint))
	end := y + h
	for _, c := range m.Connections() {
		if y+2 >= end {
			return
		}
		y++
		g.Write(x, y, c.Name, picture.In(picture.Strong))
		g.Write(x+36, y, fmt.Sprintf("%s a phase, holds × %s", c.Resistance.Rounded(3), report.Fixed(c.Torque, 2)), picture.In(picture.Text))
		how := c.How
		if winding.Inner[0] != "" {
			how = "which leads to join: not before it is known which halves are one phase, and their polarity"
		}
		for _, line := range wrap(how, w-4) {
			if y+1 < end {
				y++
				g.Write(x+2, y, line, picture.In(picture.Faint))
			}
		}
	}
}
