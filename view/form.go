package view

import (
	"fmt"
	"strings"

	"coilwalk/sequence"
	"coilwalk/view/picture"
)

// field is one line that can be edited: text that set reads into a sheet.
type field[S any] struct {
	name, asks, value string
	set               func(sheet *S, text string) error
}

// form is lines to edit, one chosen. A sheet is what stands in them.
type form[S any] struct {
	fields  []field[S]
	at      int
	changed func(e *Explorer) error // reads all anew; an error leaves what was
	unsets  map[string]string       // what counts for a field while it is empty
}

// formKeys are the keys of every form.
var formKeys = []hint{
	{"↑↓", "choose", "choose a line"},
	{"enter", "edit", "edit it; the numbers follow at each letter"},
	{"⌫", "clear", "empty the line"},
}

func (f *form[S]) key(e *Explorer, key string) bool {
	switch key {
	case "up", "k":
		f.at = max(f.at-1, 0)
	case "down", "j":
		f.at = min(f.at+1, len(f.fields)-1)
	case "enter":
		f.edit(e)
	case "backspace", "delete":
		if err := f.use(e, ""); err != nil {
			e.notice = alarm(err.Error())
		}
	default:
		return false
	}
	return true
}

// edit asks for the chosen field's new text. What is typed is tried out at each
// letter; leaving puts back what was.
func (f *form[S]) edit(e *Explorer) {
	chosen := f.fields[f.at]
	p := e.asks(chosen.asks, chosen.value, func(text string) error { return f.use(e, text) })
	p.live = func(text string) {
		if e.ask == nil {
			text = chosen.value
		}
		e.notice = notice{}
		if err := f.use(e, text); err != nil {
			e.notice = alarm(err.Error())
		}
	}
}

// use puts a text into the chosen field, if it can be read and fits the others.
func (f *form[S]) use(e *Explorer, text string) error {
	was := f.fields[f.at].value
	f.fields[f.at].value = strings.TrimSpace(text)
	err := f.changed(e)
	if err != nil {
		f.fields[f.at].value = was
	}
	return err
}

// read reads all fields into a sheet, in their order: a later one may need an
// earlier.
func (f *form[S]) read(sheet S) (S, error) {
	for _, one := range f.fields {
		if err := one.set(&sheet, one.value); err != nil {
			return sheet, fmt.Errorf("%s: %w", one.name, err)
		}
	}
	return sheet, nil
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
	for _, one := range f.fields {
		if one.name == name {
			return one.value != ""
		}
	}
	return false
}

// walked gives the step mode that is walked, which counts for a sheet as well
// until it names another; half step where a table is walked.
func (e *Explorer) walked() sequence.Mode {
	if m, ok := e.bench.Read().Order.Mode(); ok {
		return m
	}
	return sequence.Half
}

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
	value, style := one.value, picture.In(picture.Text)
	if e.ask != nil && i == f.at {
		value = e.ask.line.Value()
	}
	if value == "" {
		value, style = "·", picture.In(picture.Faint)
		if words := f.unsets[one.name]; words != "" {
			value = words
		}
	}
	if i == f.at {
		g.Set(x, y, '›', picture.Loud(picture.Current))
		g.Back(x+11, y, w-12, 1, picture.Band)
		style = picture.Style{Fore: picture.Strong, Back: picture.Band, Bold: true}
	}
	g.WriteEnd(x+10, y, one.name, picture.In(picture.Faint))
	g.WriteWithin(x+11, y, w-12, value, style)
}
