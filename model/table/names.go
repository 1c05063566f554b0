package table

import (
	"fmt"
	"strings"
)

// noNames are words before a name, or of a type, that are none.
var noNames = map[string]bool{"let": true, "mut": true, "const": true, "static": true, "var": true, "pub": true, "ref": true,
	"return": true, "dyn": true, "final": true, "struct": true, "for": true, "if": true, "while": true, "switch": true}

// nameOf gives the name that is declared before the bracket at a token; else
// that of what is around it, with its place there; else "".
func (f *finder) nameOf(at int) string {
	for outward := 0; outward < deepest; outward++ {
		begin := f.statement(at)
		if name := f.declared(begin, at); name != "" {
			return name
		}
		open, element := f.around(begin)
		switch {
		case open < 0:
			return ""
		case f.tokens[open].kind == '(': // the argument of a call: array([…])
			at = open
			continue
		case !f.assigned(open):
			return ""
		}
		if name := f.declared(f.statement(open), open); name != "" {
			return fmt.Sprintf("%s[%d]", name, element)
		}
		return ""
	}
	return ""
}

// around gives the bracket that a token stands in, or -1, and how many elements
// come before it there.
func (f *finder) around(begin int) (open, element int) {
	const farthest = 4096 // tokens; the search is made for each list without a name
	deep := 0
	for i := begin - 1; i >= 0 && i > begin-farthest; i-- {
		switch k := f.tokens[i].kind; {
		case closes(k):
			deep++
		case opens(k) && deep == 0:
			return i, element
		case opens(k):
			deep--
		case k == ',' && deep == 0:
			element++
		case k == ';' && deep == 0:
			return -1, 0
		}
	}
	return -1, 0
}

// statement gives the token at which the statement, or the element of a list,
// begins that a bracket stands in.
func (f *finder) statement(at int) int {
	deep := 0
	for i := at; i > 0; i-- {
		t := f.tokens[i-1]
		if deep == 0 && (f.language == Python || f.language == Go) && t.line != f.tokens[i].line {
			return i
		}
		switch {
		case t.kind == ')' || t.kind == ']':
			deep++
		case deep > 0 && (t.kind == '(' || t.kind == '['):
			deep--
			continue
		}
		if deep > 0 {
			continue
		}
		if t.kind == ';' || t.kind == ',' || t.kind == '}' || opens(t.kind) {
			return i
		}
	}
	return 0
}

// declared gives the name in the tokens of a statement up to a bracket: in C
// the word that =, [ or the bracket follows, elsewhere the first word, or the
// text of a key, before = or a colon.
func (f *finder) declared(begin, at int) string {
	deep, name := 0, ""
	for i := begin; i < at; i++ {
		t, after := f.tokens[i], f.tokens[i+1].kind
		if closes(t.kind) {
			deep--
		}
		if opens(t.kind) {
			deep++
		}
		if deep > 0 {
			continue
		}
		word := t.kind == 'w' && !noNames[t.text]
		if f.language.likeC() {
			if word && (after == '[' || after == '=' || i+1 == at && f.declares(begin, i)) {
				return shortened(lastPart(t.text))
			}
			continue
		}
		if name == "" && (word || t.kind == '"') {
			name = shortened(strings.TrimSpace(lastPart(t.text)))
		}
		if t.kind == '=' || t.kind == ':' {
			return name
		}
	}
	return ""
}

// declares says whether a word right before a brace is a name, as in a
// definition or in "Rows rows{…}", and not the type of the value in it.
func (f *finder) declares(begin, i int) bool {
	if i == begin {
		return begin == 0 || f.tokens[begin-1].kind == ';'
	}
	t := f.tokens[i-1]
	return t.kind == '>' || t.kind == '*' || t.kind == '&' || t.kind == 'w' && !valueWords[t.text]
}
