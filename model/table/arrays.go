package table

import (
	"fmt"
	"strings"
)

// array is a list of literals, or of arrays: never both.
type array struct {
	name     string
	line     int
	alone    bool // it may stand by itself, not only within another
	literals []literal
	arrays   []array
}

func (a *array) depth() int {
	d := 0
	for i := range a.arrays {
		d = max(d, a.arrays[i].depth())
	}
	return d + 1
}

// arrays finds the arrays of literals in a source text: the outermost brackets
// that hold nothing else.
func (r *reader) arrays(tokens []token) ([]array, error) {
	f := finder{reader: r, tokens: tokens}
	for f.at < len(f.tokens) {
		if opens(f.tokens[f.at].kind) {
			if _, err := f.group(0); err != nil {
				return nil, err
			}
			continue
		}
		f.at++
	}
	return f.found, nil
}

type finder struct {
	*reader
	tokens []token
	at     int
	found  []array
}

func opens(c byte) bool  { return c == '{' || c == '[' || c == '(' }
func closes(c byte) bool { return c == '}' || c == ']' || c == ')' }

// group reads from an opening bracket to its closing one. It gives the array
// that the brackets hold, or nil when they hold anything else; arrays within
// those are then found by themselves.
func (f *finder) group(depth int) (*array, error) {
	open := f.tokens[f.at]
	if depth > deepest {
		return nil, f.complaint(open.line, open.column, fmt.Sprintf("brackets stand more than %d deep", deepest), "is it the right file?")
	}
	from := f.at
	a := array{line: open.line}
	pure := true
	var within []array // that stand alone if this turns out to be no array
	f.at++
	for f.at < len(f.tokens) && !closes(f.tokens[f.at].kind) {
		t := f.tokens[f.at]
		switch {
		case opens(t.kind):
			designator := t.kind == '[' && open.kind == '{' && (f.language == C || f.language == CPP)
			inner, err := f.group(depth + 1)
			if err != nil {
				return nil, err
			}
			switch {
			case designator && f.at < len(f.tokens) && f.tokens[f.at].kind == '=': // [3] = {…}: its place is as written
				f.at++
			case inner == nil:
				pure = false
			default:
				within = append(within, *inner)
				a.arrays = append(a.arrays, *inner)
			}
			continue
		case t.kind == 'n':
			lit := readNumber(t.text, f.language)
			lit.line, lit.column = t.line, t.column
			a.literals = append(a.literals, lit)
			pure = pure && !strings.Contains(t.text, ".") // a fraction is no row
		case t.kind == 'w':
			lit, ok := readWord(t.text, f.language)
			lit.line, lit.column = t.line, t.column
			if ok {
				a.literals = append(a.literals, lit)
			}
			pure = pure && ok
		case t.kind != ',':
			pure = false
		}
		f.at++
	}
	f.at++
	if len(f.tokens) > mostRows*64 && len(a.literals) > mostRows*64 {
		return nil, f.complaint(open.line, open.column, "this list is too long", fmt.Sprintf("at most %d rows are read", mostRows))
	}
	if pure && (len(a.literals) == 0) != (len(a.arrays) == 0) {
		a.name, a.alone = f.nameBefore(from), f.listOpens(open.kind, f.assigned(from))
		if depth > 0 && f.listOpens(open.kind, true) {
			return &a, nil
		}
		return nil, f.keep(a)
	}
	for i := range within {
		if err := f.keep(within[i]); err != nil {
			return nil, err
		}
	}
	return nil, nil
}

// listOpens says whether a bracket opens a list in this language. A tuple is
// one only where it is assigned or in a list: else it is a call.
func (f *finder) listOpens(c byte, assigned bool) bool {
	switch f.language {
	case C, CPP, Go:
		return c == '{'
	case Rust:
		return c == '['
	}
	return c == '[' && assigned || c == '(' && assigned
}

// assigned says whether the bracket stands after an equals sign.
func (f *finder) assigned(at int) bool { return at > 0 && f.tokens[at-1].kind == '=' }

func (f *finder) keep(a array) error {
	if !a.alone || len(a.literals) < 2 && len(a.arrays) == 0 {
		return nil // a call, an index, or a size as in t[8]
	}
	if len(f.found) >= mostArrays {
		return f.complaint(a.line, 0, fmt.Sprintf("more than %d arrays", mostArrays), "a file with the tables of one program is wanted")
	}
	f.found = append(f.found, a)
	return nil
}

// nameBefore gives the name that is declared before a bracket: the first word
// of the statement that is followed by =, [, : or the bracket itself and is no
// type's.
func (f *finder) nameBefore(at int) string {
	start, within := at, 0
	for start > 0 {
		t := f.tokens[start-1]
		switch t.kind {
		case ']':
			within++
		case '[':
			within--
		}
		lineEnds := (f.language == Python || f.language == Go) && t.line != f.tokens[at].line
		if within <= 0 && (t.kind == ';' || t.kind == '{' || t.kind == '}' || lineEnds) {
			break
		}
		start--
	}
	skip := map[string]bool{"let": true, "mut": true, "const": true, "static": true, "var": true, "pub": true}
	for i := start; i < at; i++ {
		t := f.tokens[i]
		if t.kind != 'w' || skip[t.text] || levelWords[t.text] != 0 {
			continue
		}
		follows := f.tokens[min(i+1, at)]
		switch f.language {
		case C, CPP:
			if follows.kind == '[' || follows.kind == '=' || i+1 == at {
				return t.text
			}
		default:
			return t.text
		}
	}
	return "table"
}

// source reads a program's text.
func (r *reader) source(text string) error {
	found, err := r.arrays(scan(text, r.language))
	if err != nil {
		return err
	}
	for len(found) > 0 {
		n, err := r.perCoil(found)
		if err != nil {
			return err
		}
		if n == 0 {
			n = 1
			if err := r.fromArray(&found[0], found[0].name); err != nil {
				return err
			}
		}
		found = found[n:]
	}
	return nil
}

// looksLike says whether a name holds one of some words.
func looksLike(name string, words ...string) bool {
	name = strings.ToLower(name)
	for _, w := range words {
		if strings.Contains(name, w) {
			return true
		}
	}
	return false
}
