package view

import (
	"fmt"
	"slices"
	"strings"

	"coilwalk/model/power"
	"coilwalk/sequence"
	"coilwalk/view/picture"
	"coilwalk/view/report"
	"coilwalk/view/sheet"
)

// form is lines to edit, one chosen. A sheet is what stands in them.
type form[S any] struct {
	fields  []sheet.Line[S]
	at      int
	changed func(e *Explorer) error // reads all anew; an error leaves what was
	unsets  map[string]string       // what counts for a field while it is empty
}

// place is the keys of every form.
func (f *form[S]) place() *place {
	return newPlace("lines", "on screens with lines to edit",
		deed{"up", "up k", "choose", "choose a line", func(*Explorer) { f.at = max(f.at-1, 0) }},
		deed{"down", "down j", "choose", "choose a line", func(*Explorer) { f.at = min(f.at+1, len(f.fields)-1) }},
		deed{"edit", "enter", "edit", "edit it; what is shown follows at each letter", f.edit},
		deed{"clear", "backspace delete", "clear", "empty the line", func(e *Explorer) {
			if err := f.use(e, ""); err != nil {
				e.notice = alarm(err.Error())
			}
		}})
}

// edit asks for the chosen field's new text. What is typed is tried out at each
// letter; leaving puts back what was.
func (f *form[S]) edit(e *Explorer) {
	chosen := f.fields[f.at]
	p := e.asks(chosen.Asks, chosen.Text, func(text string) error { return f.use(e, text) })
	p.live = func(text string) {
		if e.ask == nil {
			text = chosen.Text
		}
		e.notice = notice{}
		if err := f.use(e, text); err != nil {
			e.notice = alarm(err.Error())
		}
	}
}

// use puts a text into the chosen field, if it can be read and fits the others.
func (f *form[S]) use(e *Explorer, text string) error {
	return sheet.Use(f.fields, f.at, text, func() error { return f.changed(e) })
}

// unset says what counts for a field while it is empty.
func (f *form[S]) unset(name, words string) {
	if f.unsets == nil {
		f.unsets = map[string]string{}
	}
	f.unsets[name] = words
}

// fieldSet says whether a field has a text of its own.
func (f *form[S]) fieldSet(name string) bool {
	at := sheet.At(f.fields, name)
	return at >= 0 && f.fields[at].Text != ""
}

// drivenElsewhere takes what stands in the lines that screens have in common, and
// says whether that was changed on another.
func (f *form[S]) drivenElsewhere(e *Explorer) bool {
	var mine sheet.Shared
	sheet.Keep(&mine, f.fields)
	sheet.Into(&e.driven, f.fields)
	return mine != e.driven
}

// turns are the keys that go through the words that a line can hold.
func (f *form[S]) turns(words func(e *Explorer, line string) []string) []deed {
	turn := func(by int) func(e *Explorer) {
		return func(e *Explorer) { f.turn(e, words(e, f.fields[f.at].Name), by) }
	}
	const says = "go through the words that the line can hold"
	return []deed{{"back", "left h", "change", says, turn(-1)}, {"next", "right l", "change", says, turn(1)}}
}

// turn goes to the next word that the chosen line can hold, or the one before. One
// that does not fit the other lines is passed by, and told.
func (f *form[S]) turn(e *Explorer, words []string, by int) {
	if words == nil {
		e.notice = advice("{lines.edit}, and type it")
		return
	}
	e.notice = notice{}
	n := len(words)
	at := slices.Index(words, f.fields[f.at].Text)
	if at < 0 && by < 0 { // it holds none of them: the first is next either way
		at = 1
	}
	for range n {
		at = (at + by + n) % n
		err := f.use(e, words[at])
		if err == nil {
			return
		}
		e.notice = alarm(err.Error())
	}
}

// drawFed says below the lines of a screen how the motor is driven and why, and what
// the other screen takes: short in one line, at length in two.
func drawFed(g *picture.Grid, y, lines int, words, other string, d power.Driven) {
	if words == "" && d.Fed == power.AsNamed {
		words = "Stage, supply, connected and set to count on " + other + " too; Walk runs as usual."
	}
	all := []string{words}
	if lines > 1 || g.W >= 160 {
		all = append(all, report.Apart(d))
	}
	if d.Turned {
		all = slices.Insert(all, 0, fmt.Sprintf("Taken as %s: the stage wants it. Walk stays %s.", d.Connection.Name, d.Motor.Drive))
	}
	fits := func() []string { return wrap(strings.TrimSpace(strings.Join(all, " ")), g.W-2) }
	for len(all) > 1 && len(fits()) > lines { // whole sentences only
		all = all[:len(all)-1]
	}
	for k, line := range fits() {
		g.WriteWithin(1, y+k, g.W-2, line, picture.In(picture.Faint))
	}
}

// walked gives the step mode that counts for a sheet until it names another.
func (e *Explorer) walked() sequence.Mode { return sheet.Walked(e.bench) }

// draw draws the fields and gives the line after them.
func (f *form[S]) draw(e *Explorer, g *picture.Grid, y, w int) int {
	for i := range f.fields {
		f.line(e, g, i, 0, y, w)
		y++
	}
	return y
}

// columns draws the fields side by side, and gives the line after them.
func (f *form[S]) columns(e *Explorer, g *picture.Grid, y, w, n int) int {
	each := (len(f.fields) + n - 1) / n
	for i := range f.fields {
		f.line(e, g, i, i/each*(w/n), y+i%each, w/n)
	}
	return y + each
}

// line draws one field.
func (f *form[S]) line(e *Explorer, g *picture.Grid, i, x, y, w int) {
	one := f.fields[i]
	value, style := one.Text, picture.In(picture.Text)
	if e.ask != nil && e.ask.live != nil && i == f.at { // what is typed is this line
		value = e.ask.line.Value()
	}
	if value == "" {
		value, style = "·", picture.In(picture.Faint)
		if words := f.unsets[one.Name]; words != "" {
			value = words
		}
	}
	if i == f.at {
		g.Set(x, y, '›', picture.Loud(picture.Current))
		g.Back(x+11, y, w-12, 1, picture.Band)
		style = picture.Style{Fore: picture.Strong, Back: picture.Band, Bold: true}
	}
	g.WriteEnd(x+10, y, one.Name, picture.In(picture.Faint))
	g.WriteWithin(x+11, y, w-12, value, style)
}
