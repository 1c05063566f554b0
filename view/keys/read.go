package keys

import (
	"fmt"
	"slices"
	"strings"

	"coilwalk/model/files"
)

// File is the name of the file of keys in the folder of settings.
const File = "keys.toml"

// form is what the complaints about a file of keys may tell of.
var form = files.Form{Kind: "file of keys", Line: `next = "right"`, Text: `"right"`, List: `["right", "l"]`, Tables: []string{"walk"}}

// Read reads a file of keys: a table for each group, in it the word of what is
// done, and the key that does it or a list of keys. What the file does not name
// keeps the keys that it has in groups. Errors are *files.Complaint.
func Read(file string, text []byte, groups []Group) ([]Group, error) {
	var document map[string]any
	if err := form.Decode(file, text, &document); err != nil {
		return nil, err
	}
	all := clone(groups)
	r := reader{file: file, text: text, groups: all, given: map[string]bool{}}
	for _, name := range r.inOrder(document, "") {
		if err := r.group(name, document[name]); err != nil {
			return nil, err
		}
	}
	return all, r.clash()
}

// reader goes through a file of keys.
type reader struct {
	file   string
	text   []byte
	groups []Group
	given  map[string]bool // full names of the words that the file gives keys
}

// wrong complains of a field, where it stands.
func (r *reader) wrong(field, what, right string) *files.Complaint {
	return files.At(r.file, r.text, field, what, right)
}

// inOrder gives the names of a table as they stand in the file, so that the
// first fault is the one that is told.
func (r *reader) inOrder(table map[string]any, within string) []string {
	names := make([]string, 0, len(table))
	for name := range table {
		names = append(names, name)
	}
	slices.SortFunc(names, func(a, b string) int {
		x, y := r.wrong(within+a, "", ""), r.wrong(within+b, "", "")
		if x.Line != y.Line {
			return x.Line - y.Line
		}
		if x.Column != y.Column {
			return x.Column - y.Column
		}
		return strings.Compare(a, b)
	})
	return names
}

func (r *reader) group(name string, value any) error {
	g := find(r.groups, name)
	if g == nil {
		return r.wrong(name, fmt.Sprintf("there is no place %s for keys", files.Quoted(name)), r.place(name))
	}
	table, ok := value.(map[string]any)
	if !ok {
		return r.wrong(name, fmt.Sprintf("%s is a place, not a key", name), fmt.Sprintf("it stands in brackets, as [%s], with its words below", name))
	}
	for _, word := range r.inOrder(table, name+".") {
		if err := r.word(g, word, table[word]); err != nil {
			return err
		}
	}
	return nil
}

// place says what a name that is no group was perhaps meant to be.
func (r *reader) place(name string) string {
	var names, under []string
	for i := range r.groups {
		names = append(names, r.groups[i].Name)
		if b := r.groups[i].find(name); b != nil && !b.Fixed {
			under = append(under, "["+r.groups[i].Name+"]")
		}
	}
	if len(under) > 0 {
		return "it goes under " + strings.Join(under, ", ")
	}
	if near := files.Nearest(name, names); near != "" {
		return fmt.Sprintf("did you mean %q?", near)
	}
	return "places are " + strings.Join(names, ", ")
}

func (r *reader) word(g *Group, word string, value any) error {
	field := g.Name + "." + word
	b := g.find(word)
	if b == nil {
		right := fmt.Sprintf("coilwalk keys lists the words of %s", g.Name)
		if near := files.Nearest(word, g.words()); near != "" {
			right = fmt.Sprintf("did you mean %q?", near)
		}
		return r.wrong(field, fmt.Sprintf("there is no %s in %s", files.Quoted(word), g.Name), right)
	}
	if b.Fixed {
		return r.wrong(field, fmt.Sprintf("%s can be given no other key", word), taken[Space])
	}
	texts, ok := listOf(value)
	if !ok {
		return r.wrong(field, fmt.Sprintf("%s: a key is wanted", word), `as "right", or some, as ["right", "l"]`)
	}
	b.Keys = nil
	for _, text := range texts {
		key, err := r.key(field, word, text)
		if err != nil {
			return err
		}
		if slices.Contains(b.Keys, key) {
			return r.wrong(field, fmt.Sprintf("%s: the key %q stands twice", word, key), "")
		}
		b.Keys = append(b.Keys, key)
	}
	r.given[field] = true
	return nil
}

// listOf reads a text or a list of texts, at least one.
func listOf(value any) (texts []string, ok bool) {
	switch v := value.(type) {
	case string:
		return []string{v}, true
	case []any:
		for _, one := range v {
			text, isText := one.(string)
			if !isText {
				return nil, false
			}
			texts = append(texts, text)
		}
	}
	return texts, len(texts) > 0
}

func (r *reader) key(field, word, text string) (string, error) {
	name, ok := parse(text)
	if !ok {
		right := `a letter, or a name as "enter", "pgup", "f5" or "ctrl+n"`
		if near := files.Nearest(text, nameList()); near != "" {
			right = fmt.Sprintf("did you mean %q?", near)
		}
		return "", r.wrong(field, fmt.Sprintf("%s: there is no key %s", word, files.Quoted(text)), right)
	}
	if why := taken[name]; why != "" {
		return "", r.wrong(field, fmt.Sprintf("%s: the key %s is not free", word, files.Quoted(name)), why)
	}
	if other := same[name]; other != "" {
		return "", r.wrong(field, fmt.Sprintf("%s: a terminal sends %s for %s", word, other, name), fmt.Sprintf("write %q", other))
	}
	return name, nil
}

func nameList() []string {
	all := make([]string, 0, len(named))
	for name := range named {
		all = append(all, name)
	}
	slices.Sort(all) // of two that are as near the first is told, every time the same
	return all
}

// clash complains of a key that would do two things, at a place where the file
// gave it.
func (r *reader) clash() error {
	found := clashes(r.groups)
	if len(found) == 0 {
		return nil
	}
	c := found[0]
	if c.Other == "" {
		return r.wrong(c.Group+"."+c.Word, fmt.Sprintf("%s: %q is typed on %s", c.Word, c.Key, c.OtherGroup), "a key is wanted that is no answer there")
	}
	if !r.given[c.Group+"."+c.Word] { // then the other was given it
		c.Group, c.Word, c.OtherGroup, c.Other = c.OtherGroup, c.Other, c.Group, c.Word
	}
	of := ""
	if c.OtherGroup != c.Group {
		of = " of " + c.OtherGroup
	}
	return r.wrong(c.Group+"."+c.Word, fmt.Sprintf("%s: the key %q is also that of %s%s", c.Word, c.Key, c.Other, of), "give one of the two another")
}
