package view

import (
	"slices"
	"strings"

	"coilwalk/view/keys"
)

// place is where keys do something: the whole program, a screen, a part of one.
// What they do stands there in one table, from which keys are looked up, help and
// foot are drawn, and the file of keys is read.
type place struct {
	keys.Group
	do []func(e *Explorer) // one for each binding

	when  func() bool                       // it is at work; nil for always
	drops func(word string) bool            // a word that means nothing as things stand
	hides func(word string) bool            // one that is not shown, but answered
	tells func(b keys.Binding) keys.Binding // what a key does as things stand
	typed func(e *Explorer, key string)     // a letter of Group.Typed; nil where none is
	first func() []hint                     // what is shown of those
}

// deed is one thing that keys do at a place.
type deed struct {
	word  string // by which the file of keys knows it
	keys  string // their names, with blanks between
	short string // for the foot; "" where it does not stand there
	says  string // for help; deeds beside each other that say the same are one line
	do    func(e *Explorer)
}

// newPlace makes a place from the table of what can be done there.
func newPlace(name, where string, deeds ...deed) *place {
	p := &place{Group: keys.Group{Name: name, Where: where}}
	for _, d := range deeds {
		p.Bindings = append(p.Bindings, keys.Binding{Word: d.word, Keys: strings.Fields(d.keys), Short: d.short, Says: d.says})
		p.do = append(p.do, d.do)
	}
	return p
}

// atWork says whether the keys of the place mean something now.
func (p *place) atWork() bool { return p.when == nil || p.when() }

// dropped says whether a binding means nothing as things stand.
func (p *place) dropped(b *keys.Binding) bool { return p.drops != nil && p.drops(b.Word) }

// press does what a key does here; false where it does nothing.
func (p *place) press(e *Explorer, key string) bool {
	for i := range p.Bindings {
		if b := &p.Bindings[i]; slices.Contains(b.Keys, key) && !p.dropped(b) {
			p.do[i](e)
			return true
		}
	}
	if p.typed != nil && len(key) == 1 && strings.Contains(p.Typed, key) {
		p.typed(e, key)
		return true
	}
	return false
}

// hint is a key, or some, and what they do: in the foot in a word or two, if at
// all, and in help at length.
type hint struct{ key, says, long string }

// stopHint is the key that every screen has.
var stopHint = hint{keys.Space, "", "stop; always, and only that"}

// hints lists what the keys do here, in the order of the table.
func (p *place) hints(e *Explorer) (list []hint) {
	if p.first != nil {
		list = p.first()
	}
	var names []string // of those that say the same
	var last keys.Binding
	flush := func() {
		if len(names) > 0 {
			list = append(list, hint{e.marks(names), last.Short, e.keyed(last.Says)})
		}
		names = nil
	}
	for i := range p.Bindings {
		b := p.Bindings[i]
		if p.dropped(&b) || p.hides != nil && p.hides(b.Word) {
			continue
		}
		if p.tells != nil {
			b = p.tells(b)
		}
		if b.Says != last.Says {
			flush()
		}
		names, last = append(names, b.Keys[0]), b
	}
	flush()
	return list
}

// atWork gives the places whose keys mean something on the screen that is shown.
func (e *Explorer) atWork() (list []*place) {
	for _, p := range e.places[e.at] {
		if p.atWork() {
			list = append(list, p)
		}
	}
	return list
}

// hints lists what keys do on the screen that is shown. They are kept from picture
// to picture, until something comes that may change them.
func (e *Explorer) hints() []hint {
	if e.hinted == nil {
		e.hinted = e.findHints()
	}
	return e.hinted
}

func (e *Explorer) findHints() (list []hint) {
	stops := false
	for _, p := range e.atWork() {
		list = append(list, p.hints(e)...)
		stops = stops || p.Of("stop") != nil
	}
	if !stops {
		list = append(list, stopHint)
	}
	return list
}

// marks gives keys as they are shown.
func (e *Explorer) marks(names []string) string { return keys.Marks(names, e.ASCII) }

// keyed puts keys into words: {walk.next} becomes the key that does this.
func (e *Explorer) keyed(words string) string { return keys.Fill(words, e.keysOf, e.ASCII) }

// keysOf gives the keys of a word of a place.
func (e *Explorer) keysOf(name, word string) []string {
	for _, p := range e.every {
		if p.Name == name {
			return p.Of(word)
		}
	}
	return nil
}

// said gives the notice, with the keys that it speaks of.
func (e *Explorer) said() string { return e.keyed(e.notice.words) }
