package view

import (
	"fmt"
	"strings"

	"coilwalk/model/handoff"
	"coilwalk/view/picture"
	"coilwalk/view/report"
)

func (t *takeScreen) draw(e *Explorer, g *picture.Grid) {
	x, y := 0, 2
	if g.W >= 110 {
		x = min(max(g.W/3, 40), 52)
		end := t.form.draw(e, g, y, x)
		t.drawFacts(e, g, 1, end+1, x-2, g.H-4-end)
	} else {
		y = t.form.columns(e, g, y, g.W, 2)
	}
	t.drawPreview(e, g, x+1, y, g.W-x-2, g.H-2-y)
	words, style := "", picture.In(picture.Faint)
	if t.walk != nil {
		first := t.sheet.Kind.Cautions(t.walk)[0]
		words = strings.TrimSuffix(brief(report.Sentence(first), g.W-2), ".") + "."
		other := t.walk.OtherDrive()
		switch {
		case t.sheet.Kind.Name != handoff.Bench && t.walk.Unfollowed() != "" && (other != "" || first == t.walk.Unfollowed()):
			words, style = t.walk.Motor.Name+" does not follow these rows behind "+t.walk.Behind()+": see Rates.", picture.Loud(picture.Alert)
		case other != "":
			words, style = e.keyed("This file is for another drive than the stage on Rates; {walk.drive} on Walk changes it."), picture.Loud(picture.Alert)
		}
	}
	if e.notice.words != "" {
		words, style = e.said(), picture.Loud(e.notice.ink)
	}
	g.WriteWithin(1, g.H-2, g.W-2, words, style)
}

// drawPreview draws what would be written, below a line that names it.
func (t *takeScreen) drawPreview(e *Explorer, g *picture.Grid, x, y, w, h int) {
	if t.err != nil || t.walk == nil {
		if t.err != nil {
			for i, line := range wrap(t.err.Error(), w-2) {
				g.WriteWithin(x+1, y+1+i, w-2, line, picture.In(picture.Alert))
			}
		}
		return
	}
	t.preview.draw(e, g, x, y+1, w, h-1)
	name := fileName(t.walk.Motor.Name, t.sheet.Kind.Ending)
	g.Line(x, y, w, '─', picture.In(picture.Faint))
	at := g.Write(x+1, y, " "+name, picture.Loud(picture.Strong))
	says, ink := " · "+t.proven()+" ", picture.Good
	if report.Drawn(t.sheet.Kind) {
		ink = picture.Faint
	}
	where := t.preview.where()
	if where != "" {
		where = " " + where + " "
	}
	g.WriteEnd(x+w-1, y, where, picture.In(picture.Text))
	g.WriteWithin(at, y, x+w-2-picture.Width(where)-at, says, picture.In(ink))
}

// proven says what the reader found.
func (t *takeScreen) proven() string {
	if report.Drawn(t.sheet.Kind) {
		return "drawn; nothing reads a drawing back"
	}
	if t.sheet.Kind.Name == handoff.Bench {
		return "read back: it is for this board"
	}
	return "read back: it is the " + t.walk.Mode.Name + " order"
}

// drawFacts says what the file was made from.
func (t *takeScreen) drawFacts(e *Explorer, g *picture.Grid, x, y, w, h int) {
	if t.walk == nil {
		return
	}
	m := t.walk.Motor
	list := facts{g, x, y, y + h, w, 9}
	list.say("motor", fmt.Sprintf("%s, %s", m.Name, m.Drive), picture.Text)
	var outputs []string
	for k, end := range m.Wiring {
		outputs = append(outputs, fmt.Sprintf("%d %s %s", k+1, m.Output(m.Wiring, k), picture.EndNames(e.ASCII)[end]))
	}
	list.say("outputs", strings.Join(outputs, ", "), picture.Text)
	if e.bench.Read().Rewired {
		list.say("", "the leads as they were swapped on Walk", picture.Current)
	}
	if !t.walk.Mode.Shares && t.sheet.Kind.Name != handoff.Bench {
		list.say("pace", paceWords(t.walk.Pace), picture.Text)
	}
	if t.err == nil {
		list.say("file", fmt.Sprintf("%s bytes, %s lines", report.Count(int64(len(t.text))), report.Count(int64(strings.Count(string(t.text), "\n")))), picture.Text)
		ink := picture.Good
		if report.Drawn(t.sheet.Kind) {
			ink = picture.Text
		}
		list.say("proof", t.proven(), ink)
	}
	for k, words := range t.sheet.Kind.Cautions(t.walk)[1:] { // the first is told at the foot
		name := ""
		if k == 0 {
			name = "care"
		}
		list.say(name, words, picture.Faint)
	}
}

// paceWords says how the rows follow one another.
func paceWords(p handoff.Pace) string {
	if !p.Ramped() {
		return fmt.Sprintf("a row every %s ticks, %.4g a second", report.Count(p.Intervals[0]), p.Rate())
	}
	return fmt.Sprintf("%d intervals, from %.4g to %.4g rows a second", len(p.Intervals), p.StartRate(), p.Rate())
}
