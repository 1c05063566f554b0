package table

import (
	"fmt"
	"strings"
)

// source reads a program's text.
func (r *reader) source(text string) error {
	s := newScanner(text, r.language)
	tokens := s.tokens()
	if r.options.Bits == AsSaid {
		r.paired = pairsIn(s.remarks)
	}
	found, err := r.arrays(tokens)
	if err != nil {
		return err
	}
	if s.open.what != "" {
		r.open = s.open
	}
	return r.fromArrays(found)
}

// fromArrays makes tables of arrays that stand one after another.
func (r *reader) fromArrays(found []array) error {
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

// fromArray makes tables of an array.
func (r *reader) fromArray(a *array, name string) error {
	slim(a)
	switch {
	case a.odd != "":
		r.skip(name, a.line, a.odd)
	case a.deep == 1:
		return r.fromList(a, name)
	case a.even():
		return r.fromLists(a, name)
	default:
		for i := range a.arrays {
			if err := r.fromArray(&a.arrays[i], indexed(name, i)); err != nil {
				return err
			}
		}
	}
	return nil
}

// slim takes away brackets around one list, at any depth: {{…}} around a row
// adds nothing, and std::array needs it.
func slim(a *array) {
	for len(a.arrays) == 1 {
		inner := a.arrays[0]
		inner.name = a.name
		*a = inner
	}
	deep := 0
	for i := range a.arrays {
		slim(&a.arrays[i])
		deep = max(deep, a.arrays[i].deep)
	}
	a.deep = deep + 1
}

// even says whether all that an array holds are lists of literals.
func (a *array) even() bool {
	for i := range a.arrays {
		if a.arrays[i].deep != 1 {
			return false
		}
	}
	return true
}

func indexed(name string, i int) string {
	if name == "" {
		name = "list"
	}
	return fmt.Sprintf("%s[%d]", name, i)
}

// fromList makes tables of a flat list: levels laid end to end, or a number a
// row.
func (r *reader) fromList(a *array, name string) error {
	for _, l := range a.literals {
		if l.valued && l.value < 0 {
			r.skip(name, a.line, "it holds a number below 0")
			return nil
		}
	}
	if why := notRows(name, a.literals); why != "" {
		r.skip(name, a.line, why)
		return nil
	}
	if digits := a.asDigits(r.options.Bits); digits != nil {
		return r.fromDigits(a, name, digits)
	}
	for _, l := range a.literals {
		if !l.valued {
			return r.complaint(l.line, l.column, fmt.Sprintf("%s is no number in %s", shortened(l.text), r.language), "write 0b1010 or 0xA")
		}
	}
	if !a.isLevels() {
		return r.packed(a.literals, name, a.line)
	}
	wide, words := 4, "four"
	if r.options.Pins == TwoLine {
		wide, words = 2, "two"
	}
	n := len(a.literals)
	switch {
	case n < 2*wide:
		r.skip(name, a.line, fmt.Sprintf("%d levels are less than two rows of %s", n, words))
		return nil
	case n%wide != 0:
		r.skip(name, a.line, fmt.Sprintf("%d levels make no rows of %s", n, words))
		return nil
	}
	t := Table{Name: name, Line: a.line, Columns: numbered(wide), Notes: []string{fmt.Sprintf("Read as rows of %s levels, laid end to end.", words)}}
	for i := 0; i < n; i += wide {
		t.Rows = append(t.Rows, levelRow(a.literals[i:i+wide], 0, span{}))
	}
	return r.add(t)
}

// fromDigits makes a table of literals that look like patterns of bits but are
// other numbers to the language: as it takes them, with the patterns beside.
func (r *reader) fromDigits(a *array, name string, digits []Row) error {
	t := Table{Name: name, Line: a.line, Columns: numbered(4), Digits: digits}
	for _, l := range a.literals {
		v := 0
		if l.valued {
			v = int(l.value & 15)
		}
		t.Rows = append(t.Rows, Row{Line: l.line, Text: l.text, Levels: unpack(v, turned([]int{3, 2, 1, 0}, r.options.Bits)), span: l.span, literals: []literal{l}})
	}
	return r.add(t)
}

// asDigits gives the rows that literals look like, when all are four zeros and
// ones but the language gives some of them another value.
func (a *array) asDigits(order BitOrder) (rows []Row) {
	if len(a.literals) < 2 {
		return nil
	}
	other := false
	for _, l := range a.literals {
		if len(l.digits) != 4 {
			return nil
		}
		v := patternValue(l.digits)
		row := Row{Line: l.line, Text: l.text, Levels: unpack(v, turned([]int{3, 2, 1, 0}, order)), other: !l.valued || l.value != int64(v)}
		other = other || row.other
		rows = append(rows, row)
	}
	if !other {
		return nil
	}
	return rows
}

// patternValue reads digits of 0 and 1 as bits.
func patternValue(digits string) int {
	v := 0
	for _, c := range digits {
		v = v<<1 | int(c-'0')
	}
	return v
}

func (a *array) isLevels() bool {
	for _, l := range a.literals {
		if !l.isLevel() {
			return false
		}
	}
	return len(a.literals) > 0
}

func numbered(n int) []string {
	columns := make([]string, n)
	for i := range columns {
		columns[i] = fmt.Sprintf("column %d", i+1)
	}
	return columns
}

// levelRow makes a row of levels; the text has the brackets, if they had any.
func levelRow(literals []literal, opening byte, whole span) Row {
	row := Row{Line: literals[0].line, span: whole, literals: literals}
	texts := make([]string, len(literals))
	for i, l := range literals {
		row.Levels = append(row.Levels, int(l.value))
		texts[i] = l.text
	}
	row.Text = strings.Join(texts, ",")
	if opening != 0 {
		row.Text = string(opening) + row.Text + string(closing[opening])
		return row
	}
	row.span = span{literals[0].from, literals[len(literals)-1].to}
	return row
}
