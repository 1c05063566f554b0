package table

import (
	"fmt"
	"sort"
)

// array is a list of literals, or of arrays: never both.
type array struct {
	name         string
	line, column int
	opening      byte
	begin, end   int // its brackets, by their tokens
	deep         int // arrays within arrays: 1 when it holds literals
	literals     []literal
	arrays       []array
	odd          string // why it can hold no rows, as a clause; "" when it can
	span                // its brackets, by their bytes
}

// group is a pair of brackets on its way to an array.
type group struct {
	array
	list     bool // brackets of this kind, here, open a list
	code     bool // it holds statements
	elements int  // commas so far
	named    bool // a member stands by a place of its own: [3] = …
	spoilt   bool // one of its rows holds what no row can
	within   []array
}

// finder finds the arrays of a source text: the outermost brackets that hold
// literals, or such brackets, and nothing else.
type finder struct {
	*reader
	tokens []token
	at     int
	open   []*group
	found  []array
}

func opens(c byte) bool { return c == '{' || c == '[' || c == '(' }

var closing = map[byte]byte{'{': '}', '[': ']', '(': ')'}

func closes(c byte) bool { return c == '}' || c == ']' || c == ')' }

func (r *reader) arrays(tokens []token) ([]array, error) {
	f := finder{reader: r, tokens: tokens}
	for f.at = 0; f.at < len(f.tokens); f.at++ {
		t := f.tokens[f.at]
		var err error
		switch {
		case opens(t.kind):
			err = f.push(t)
		case closes(t.kind):
			err = f.pop(t)
		case len(f.open) > 0:
			err = f.member(f.open[len(f.open)-1], t)
		}
		if err != nil {
			return nil, err
		}
	}
	for i, g := range f.open {
		if i == 0 {
			r.open = place{string(g.opening), g.line, g.column}
		}
		if g.list && g.odd == "" && !g.code && len(g.literals)+len(g.arrays) > 1 && f.assigned(g.begin) {
			return nil, r.complaint(g.line, g.column, fmt.Sprintf("this %c is never closed", g.opening), fmt.Sprintf("%c is wanted after the last row", closing[g.opening]))
		}
		for _, a := range append(g.within, g.arrays...) {
			if err := f.keep(a); err != nil {
				return nil, err
			}
		}
	}
	sort.SliceStable(f.found, func(i, k int) bool { return f.found[i].begin < f.found[k].begin })
	return f.found, nil
}

func (f *finder) push(t token) error {
	if len(f.open) == deepestCode {
		return f.complaint(t.line, t.column, fmt.Sprintf("brackets stand more than %d deep", deepestCode), "is it the right file?")
	}
	f.open = append(f.open, &group{
		array: array{line: t.line, column: t.column, opening: t.kind, begin: f.at, span: t.span},
		list:  f.opensList(f.at),
	})
	return nil
}

// pop ends the innermost group. A closing bracket of another kind is a slip in
// a list; elsewhere it may come from a macro, and the nearest that fits counts.
func (f *finder) pop(t token) error {
	last := len(f.open) - 1
	if last < 0 {
		return nil
	}
	if g := f.open[last]; closing[g.opening] != t.kind {
		if g.list && g.odd == "" && !g.code && len(g.literals)+len(g.arrays) > 1 {
			return f.complaint(t.line, t.column, fmt.Sprintf("%c closes the %c of line %d", t.kind, g.opening, g.line), fmt.Sprintf("%c is wanted", closing[g.opening]))
		}
		for last >= 0 && closing[f.open[last].opening] != t.kind {
			last--
		}
		if last < 0 {
			return nil
		}
		for _, inner := range f.open[last+1:] {
			f.open[last].within = append(append(f.open[last].within, inner.within...), inner.arrays...)
		}
	}
	g := f.open[last]
	f.open = f.open[:last]
	g.end, g.to = f.at, t.to
	return f.resolve(g)
}

// resolve gives a group that has ended to the one around it, or keeps it.
func (f *finder) resolve(g *group) error {
	var around *group
	if n := len(f.open); n > 0 {
		around = f.open[n-1]
	}
	if !g.list {
		switch {
		case around == nil:
		case f.typeBefore(g) || f.placed(around, g):
			return nil
		case g.opening == '(' && g.elements == 0 && len(g.literals) == 1 && len(g.arrays) == 0 && g.odd == "" && f.before(g.begin) != 'w':
			around.literals = append(around.literals, g.literals[0]) // (0x8) is 0x8
			return nil
		default:
			around.strange("an expression")
		}
		return f.passOn(around, append(g.within, g.arrays...))
	}
	if len(g.literals) > 0 && len(g.arrays) > 0 {
		g.strange("both numbers and lists")
	}
	if g.odd == "" && !g.code && (len(g.literals) > 0 || len(g.arrays) > 0) {
		g.deep = 1
		for i := range g.arrays {
			g.deep = max(g.deep, g.arrays[i].deep+1)
		}
		if g.deep > deepest {
			return f.complaint(g.line, g.column, fmt.Sprintf("lists stand more than %d deep in each other", deepest), "a table is at most a list of lists of rows")
		}
		if around != nil && around.list && !around.code {
			if len(around.arrays) > around.elements && around.odd == "" && len(around.literals) == 0 && f.before(g.begin) == closing[g.opening] {
				return f.complaint(g.line, g.column, "a comma is missing before this", "rows are parted by commas")
			}
			around.arrays = append(around.arrays, g.array)
			return nil
		}
		return f.keep(g.array)
	}
	inner := append(g.within, g.arrays...)
	if g.spoilt && !g.code && len(g.arrays) > 0 && f.assigned(g.begin) {
		g.literals, g.arrays, inner = nil, nil, nil // its other rows alone are no table
		if around == nil || !around.list {
			inner = []array{g.array}
		}
	} else if len(inner) == 0 && !g.code && g.elements > 0 && f.assigned(g.begin) {
		g.literals = nil
		inner = []array{g.array} // data, but no table: the reason is told
	}
	if around != nil && around.list && !f.assigned(g.begin) {
		if around.odd == "" {
			around.odd = g.odd
		}
		around.spoilt = around.spoilt || g.spoilt || len(g.literals) > 0 && len(g.literals) <= 8 && !g.code
	}
	return f.passOn(around, inner)
}

// passOn hands arrays that stand by themselves outwards.
func (f *finder) passOn(around *group, inner []array) error {
	if around != nil {
		if len(inner) > 0 && around.odd == "" {
			around.odd = "it holds more than numbers"
		}
		around.within = append(around.within, inner...)
		return nil
	}
	for _, a := range inner {
		if err := f.keep(a); err != nil {
			return err
		}
	}
	return nil
}

// keep takes an array that stands by itself.
func (f *finder) keep(a array) error {
	if len(a.literals) < 2 && len(a.arrays) == 0 && a.odd == "" {
		return nil // one number in brackets is no list
	}
	if a.name == "" {
		a.name = f.nameOf(a.begin)
	}
	if n := len(f.found); n > 0 && (a.name == "" || a.name == f.found[n-1].name) && a.odd == "" && f.looseRow(&f.found[n-1], &a) {
		if len(f.found[n-1].arrays) > mostRows {
			return f.complaint(a.line, a.column, fmt.Sprintf("more than %d rows", mostRows), fmt.Sprintf("at most %d are read", mostRows))
		}
		return nil
	}
	if len(f.found) >= mostArrays {
		return f.complaint(a.line, a.column, fmt.Sprintf("more than %d arrays", mostArrays), "a file with the tables of one program is wanted")
	}
	f.found = append(f.found, a)
	return nil
}

// looseRow joins rows that stand in brackets of their own with none around
// them, as when the middle of a table is pasted.
func (f *finder) looseRow(before, a *array) bool {
	between := a.begin - before.end - 1
	tuple := f.language == Python && before.opening == '(' && a.opening == '(' && between == 1 // (…), (…) is one value
	if before.name != "" && !tuple || before.odd != "" || len(a.literals) == 0 || between > 1 || between == 1 && f.tokens[before.end+1].kind != ',' {
		return false
	}
	if len(before.literals) > 0 {
		inner := *before
		*before = array{name: inner.name, line: inner.line, column: inner.column, opening: inner.opening, begin: inner.begin, span: inner.span, deep: 2, arrays: []array{inner}}
	}
	before.arrays = append(before.arrays, *a)
	before.end, before.to = a.end, a.to
	return true
}

// strange notes the first thing that no row can be.
func (g *group) strange(what string) {
	if g.odd == "" && what != "" {
		g.odd = "it holds " + what
	}
}
