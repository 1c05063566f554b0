// Package keys says which key does what: what keys are called, what can be done
// with one, and the file by which a person gives it another.
package keys

import "slices"

// Binding is one thing that a key does.
type Binding struct {
	Word  string   // by which the file of keys knows it
	Keys  []string // names; the first is the one that is shown
	Short string   // what it does, for the foot of a screen; "" where it does not stand there
	Says  string   // and for help; of some that stand together the same
	Fixed bool     // it can not be given another key
}

// Group is what keys do at one place of the program.
type Group struct {
	Name     string   // by which the file of keys knows it
	Where    string   // where that is
	With     []string // the groups that are at work at the same time, but for Anywhere
	Typed    string   // letters that are typed here, and so are not free
	Bindings []Binding
}

// Anywhere is the name of the group that is at work on every screen.
const Anywhere = "anywhere"

// find gives the group of a name.
func find(groups []Group, name string) *Group {
	for i := range groups {
		if groups[i].Name == name {
			return &groups[i]
		}
	}
	return nil
}

// find gives the binding of a word.
func (g *Group) find(word string) *Binding {
	for i := range g.Bindings {
		if g.Bindings[i].Word == word {
			return &g.Bindings[i]
		}
	}
	return nil
}

// Take takes the keys of the group of the same name, where there is one.
func (g *Group) Take(from []Group) {
	given := find(from, g.Name)
	if given == nil {
		return
	}
	for i := range g.Bindings {
		if b := given.find(g.Bindings[i].Word); b != nil {
			g.Bindings[i].Keys = b.Keys
		}
	}
}

// Of gives the keys of a word of the group; nil where there is none.
func (g *Group) Of(word string) []string {
	if b := g.find(word); b != nil {
		return b.Keys
	}
	return nil
}

// words lists the words that can be given a key.
func (g *Group) words() (all []string) {
	for _, b := range g.Bindings {
		if !b.Fixed {
			all = append(all, b.Word)
		}
	}
	return all
}

// clone copies groups, so that their keys can be changed.
func clone(groups []Group) []Group {
	all := slices.Clone(groups)
	for i := range all {
		all[i].Bindings = slices.Clone(all[i].Bindings)
	}
	return all
}

// Clash is a key that would do two things at once.
type Clash struct {
	Key         string
	Group, Word string
	Other       string // the word of the other thing
	OtherGroup  string
}

// clashes finds them; a letter that is typed somewhere clashes with a word "".
func clashes(groups []Group) (found []Clash) {
	for i := range groups {
		g := &groups[i]
		for _, b := range g.Bindings {
			for _, key := range b.Keys {
				for _, name := range append([]string{g.Name, Anywhere}, g.With...) {
					beside := find(groups, name)
					if beside == nil {
						continue
					}
					for _, o := range beside.Bindings {
						if (beside != g || o.Word != b.Word) && slices.Contains(o.Keys, key) {
							found = append(found, Clash{key, g.Name, b.Word, o.Word, beside.Name})
						}
					}
				}
			}
		}
	}
	for i := range groups {
		g := &groups[i]
		for _, letter := range g.Typed {
			for _, name := range append([]string{g.Name, Anywhere}, g.With...) {
				beside := find(groups, name)
				for k := 0; beside != nil && k < len(beside.Bindings); k++ {
					if b := beside.Bindings[k]; slices.Contains(b.Keys, string(letter)) {
						found = append(found, Clash{string(letter), beside.Name, b.Word, "", g.Name})
					}
				}
			}
		}
	}
	return found
}
