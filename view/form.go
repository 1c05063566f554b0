package view

import (
	"coilwalk/sequence"
	"coilwalk/view/picture"
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
