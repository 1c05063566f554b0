package table

import (
	"fmt"
	"strings"
)

// plain reads rows of 0 and 1, or numbers, a row a line. Blank lines part
// tables; a first line of names heads the columns.
func (r *reader) plain(text string) error {
	if is, err := r.sheet(text); is {
		return err
	}
	if r.options.Bits == AsSaid {
		r.paired = pairsIn(plainRemarks(text))
	}
	var b block
	next := 0 // byte at which the line after this begins
	for i, line := range strings.Split(text, "\n") {
		begin := next
		next += len(line) + 1
		if i > 16*mostRows {
			return r.complaint(i+1, 0, "too many lines", fmt.Sprintf("at most %d rows are read", mostRows))
		}
		bare, commented := line, false
		for _, mark := range []string{"#", "//"} {
			if at := strings.Index(bare, mark); at >= 0 {
				bare, commented = bare[:at], true
			}
		}
		words := wordsOf(bare, i+1)
		for k := range words {
			words[k].span = words[k].after(begin)
		}
		if len(words) == 0 && commented {
			continue
		}
		if len(words) > 0 {
			if err := r.plainLine(&b, words); err != nil {
				return err
			}
			continue
		}
		if err := r.fromBlock(b); err != nil {
			return err
		}
		b = block{}
	}
	return r.fromBlock(b)
}

// block is the lines of one plain table.
type block struct {
	heading []string
	rows    []array
}

type word struct {
	text         string
	line, column int
	span
}

// wordsOf parts a line at blanks and marks; a row's number before it, as "3:"
// or "3)" or "row 3:", is dropped.
func wordsOf(text string, line int) []word {
	var words []word
	start, column, from := -1, 0, 0
	for i, c := range text + " " {
		column++
		if strings.ContainsRune(" \t,;|\v\f", c) {
			if start >= 0 {
				words = append(words, word{text[start:i], line, from, span{start, i}})
				start = -1
			}
		} else if start < 0 {
			start, from = i, column
		}
	}
	if len(words) > 1 && strings.EqualFold(words[0].text, "row") {
		words = words[1:]
	}
	if len(words) == 0 {
		return nil
	}
	first := &words[0]
	if n := len(first.text) - len(strings.TrimLeft(first.text, "0123456789")); n > 0 && n < len(first.text) && (first.text[n] == ':' || first.text[n] == ')') {
		first.text, first.column, first.from = first.text[n+1:], first.column+n+1, first.from+n+1
		if first.text == "" {
			return words[1:]
		}
	}
	return words
}

// plainLiteral gives a word of plain text its value: 0110 is a pattern of bits
// here, whatever a programming language would make of it.
func plainLiteral(w word) (literal, bool) {
	l, ok := readWord(w.text, Plain)
	if !ok && digit(w.text[0]) {
		l = readNumber(w.text, Plain)
		ok = l.valued
		if n := len(w.text); (n == 4 || n == 8) && len(l.digits) == n {
			l.value, l.base = int64(patternValue(l.digits)), 2
		}
	}
	l.line, l.column, l.span = w.line, w.column, w.span
	return l, ok
}

func (r *reader) plainLine(b *block, words []word) error {
	row := array{line: words[0].line, column: words[0].column, deep: 1}
	if len(b.rows) == 0 && b.heading == nil && heads(words) {
		for _, w := range words {
			b.heading = append(b.heading, shortened(w.text))
		}
		return nil
	}
	for _, w := range words {
		l, ok := plainLiteral(w)
		if !ok {
			return r.complaint(w.line, w.column, fmt.Sprintf("\"%s\" is no part of a row", shortened(w.text)), "rows of 0 and 1 are wanted, as 1000 or 1 0 0 0, or numbers as 0x9")
		}
		row.literals = append(row.literals, l)
	}
	if len(words) == 1 && len(b.rows) > 0 && len(b.rows[0].literals) == 1 {
		first := b.rows[0].literals[0]
		if l := row.literals[0]; len(first.digits) == 4 && l.base == 10 && len(l.text) == 4 && l.digits == "" {
			return r.complaint(l.line, l.column, fmt.Sprintf("%s is no row of 0s and 1s", l.text), "four digits of 0 and 1 are wanted, as in the rows before")
		} else if n, m := len(first.digits), len(l.digits); n > 1 && m > 0 && n != m && (n == 4 || m == 4) {
			return r.complaint(l.line, l.column, fmt.Sprintf("%s has %d columns, the first row has %d", l.text, m, n), "all rows of a table need the same number")
		}
	}
	b.rows = append(b.rows, row)
	return nil
}

// heads says whether a line is a heading: two, four or eight names.
func heads(words []word) bool {
	if n := len(words); n != 2 && n != 4 && n != 8 {
		return false
	}
	for _, w := range words {
		if _, ok := plainLiteral(w); ok {
			return false
		}
	}
	return true
}

// fromBlock makes tables of a block: columns of levels, patterns of bits, or
// packed numbers.
func (r *reader) fromBlock(b block) error {
	if len(b.rows) == 0 {
		return nil
	}
	if rest := b.rows[1:]; len(rest) > 1 && b.heading == nil && b.rows[0].counts() && levelsIn(rest, len(b.rows[0].literals)) {
		b = block{numbered(len(b.rows[0].literals)), rest}
	}
	first := &b.rows[0]
	all := array{line: first.line, column: first.column, deep: 1}
	levels, patterns := true, len(first.literals[0].digits)
	for i := range b.rows {
		for _, l := range b.rows[i].literals {
			levels = levels && l.isLevel() && len(l.digits) < 2
			if len(l.digits) != patterns || len(l.digits) != len(l.text) {
				patterns = 0
			}
			all.literals = append(all.literals, l)
		}
	}
	wide := len(first.literals)
	switch {
	case patterns == 4 || patterns == 2:
		return r.add(r.fromPatterns(all.literals, patterns, b.heading))
	case levels && len(b.rows) == 1 && wide != 4 && wide != 2:
		return r.fromList(&all, "")
	case levels, wide > 1 && first.isLevels():
		return r.fromLevelLines(b)
	}
	return r.fromList(&all, "")
}

// counts says whether a line is 1 2 …, which heads columns as well as it may be
// rows; what follows decides.
func (a *array) counts() bool {
	for i, l := range a.literals {
		if l.base != 10 || l.value != int64(i+1) {
			return false
		}
	}
	return len(a.literals) > 1
}

func levelsIn(rows []array, wide int) bool {
	for i := range rows {
		if len(rows[i].literals) != wide || !rows[i].isLevels() {
			return false
		}
	}
	return true
}

// fromLevelLines makes tables of lines that have a level in each column.
func (r *reader) fromLevelLines(b block) error {
	wide := len(b.rows[0].literals)
	for i := range b.rows {
		row := &b.rows[i]
		if n := len(row.literals); n != wide {
			return r.complaint(row.line, 0, fmt.Sprintf("this row has %d columns, the first has %d", n, wide), "all rows of a table need the same number")
		}
		for _, l := range row.literals {
			if !l.isLevel() || len(l.digits) > 1 {
				return r.complaint(l.line, l.column, fmt.Sprintf("\"%s\" is no level", shortened(l.text)), "0 or 1 is wanted in each column")
			}
		}
	}
	if wide == 4 || wide == 2 {
		t := Table{Line: b.rows[0].line, Columns: numbered(wide)}
		for i := range b.rows {
			t.Rows = append(t.Rows, levelRow(b.rows[i].literals, 0, span{}))
		}
		return r.add(t.headed(b.heading))
	}
	before := len(r.out.Tables)
	if wide < 8 {
		return r.complaint(b.rows[0].line, 0, fmt.Sprintf("rows of %d columns", wide), "four columns are wanted, or two")
	}
	if err := r.matrix(b.rows, "", b.rows[0].line); err != nil {
		return err
	}
	for i := before; i < len(r.out.Tables); i++ {
		t := &r.out.Tables[i]
		if heading := b.heading; len(heading) == 8 && t.Motor > 0 {
			t.Columns = heading[4*(t.Motor-1) : 4*t.Motor]
		} else {
			*t = t.headed(heading)
		}
	}
	return nil
}

func (t Table) headed(heading []string) Table {
	if len(heading) == len(t.Columns) {
		t.Columns = heading
	}
	return t
}

// fromPatterns reads one word a row, a digit a column.
func (r *reader) fromPatterns(literals []literal, wide int, heading []string) Table {
	t := Table{Line: literals[0].line, Columns: numbered(wide)}
	if r.options.Bits == LSBFirst {
		t.Notes = append(t.Notes, "A digit is a column, the first column 1; --bits does not turn that round.")
	}
	where := []int{3, 2, 1, 0}[4-wide:]
	for _, l := range literals {
		t.Rows = append(t.Rows, Row{Line: l.line, Text: l.text, Levels: unpack(patternValue(l.digits), where), span: l.span, literals: []literal{l}})
	}
	return t.headed(heading)
}
