package table

import (
	"fmt"
	"strings"
)

// plain reads rows of 0 and 1, or numbers, a row a line. Blank lines part
// tables; a first line of names heads the columns.
func (r *reader) plain(text string) error {
	var b block
	flush := func() error {
		defer func() { b = block{} }()
		if len(b.lines) == 0 {
			return nil
		}
		return r.fromBlock(b)
	}
	for i, line := range strings.Split(text, "\n") {
		if i > 16*mostRows {
			return r.complaint(i, 0, "too many lines", fmt.Sprintf("at most %d rows are read", mostRows))
		}
		bare := line
		for _, mark := range []string{"#", "//"} {
			if at := strings.Index(bare, mark); at >= 0 {
				bare = bare[:at]
			}
		}
		commented := len(bare) != len(line)
		words := wordsOf(bare)
		switch {
		case len(words) == 0 && commented:
		case len(words) == 0:
			if err := flush(); err != nil {
				return err
			}
		default:
			if err := r.plainLine(&b, words, i+1); err != nil {
				return err
			}
		}
	}
	return flush()
}

// block is the lines of one plain table.
type block struct {
	heading []string
	lines   [][]word
}

type word struct {
	text         string
	line, column int
}

// wordsOf parts a line at blanks, commas and semicolons; a row's number before
// it, as "3:" or "3)" or "row 3:", is dropped.
func wordsOf(line string) []word {
	var words []word
	start := -1
	for i, c := range line + " " {
		if c == ' ' || c == '\t' || c == ',' || c == ';' || c == '\r' || c == '|' {
			if start >= 0 {
				words = append(words, word{text: line[start:i], column: len([]rune(line[:start])) + 1})
				start = -1
			}
		} else if start < 0 {
			start = i
		}
	}
	if len(words) > 1 && strings.EqualFold(words[0].text, "row") {
		words = words[1:]
	}
	if len(words) > 1 && strings.HasSuffix(words[0].text, ":") || len(words) > 1 && strings.HasSuffix(words[0].text, ")") {
		words = words[1:]
	}
	return words
}

func (r *reader) plainLine(b *block, words []word, line int) error {
	for i := range words {
		words[i].line = line
	}
	if len(b.lines) == 0 && b.heading == nil && (len(words) == 4 || len(words) == 2) && !isNumber(words[0].text) && !isNumber(words[1].text) {
		for _, w := range words {
			b.heading = append(b.heading, w.text)
		}
		return nil
	}
	for _, w := range words {
		if !isNumber(w.text) {
			return r.complaint(line, w.column, fmt.Sprintf("%q is no part of a row", w.text), "rows of 0 and 1 are wanted, as 1000 or 1 0 0 0, or numbers as 0x9")
		}
	}
	if len(b.lines) > 0 && len(words) != len(b.lines[0]) {
		return r.complaint(line, 0, fmt.Sprintf("this row has %d columns, the first has %d", len(words), len(b.lines[0])), "all rows of a table need the same number")
	}
	b.lines = append(b.lines, words)
	return nil
}

func isNumber(text string) bool { return text != "" && digit(text[0]) && readNumber(text, Rust).valued }

// fromBlock makes a table of a block: columns of levels, patterns of bits, or
// packed numbers.
func (r *reader) fromBlock(b block) error {
	name, line := "table", b.lines[0][0].line
	if n := len(r.out.Tables); n > 0 {
		name = fmt.Sprintf("table %d", n+1)
	}
	wide := len(b.lines[0])
	if wide == 4 || wide == 2 {
		t := Table{Name: name, Line: line, Columns: b.columns(wide)}
		for _, words := range b.lines {
			row := Row{Line: words[0].line}
			for _, w := range words {
				if w.text != "0" && w.text != "1" {
					return r.complaint(w.line, w.column, fmt.Sprintf("%q is no level", w.text), "0 or 1 is wanted in each column")
				}
				row.Levels = append(row.Levels, int(w.text[0]-'0'))
			}
			row.Text = bitText(row.Levels)
			t.Rows = append(t.Rows, row)
		}
		return r.add(t)
	}
	if wide == 1 {
		return r.fromPatterns(b, name, line)
	}
	if len(b.lines) == 1 { // all rows in one line: one table still
		flat := block{heading: b.heading}
		for _, w := range b.lines[0] {
			flat.lines = append(flat.lines, []word{w})
		}
		return r.fromPatterns(flat, name, line)
	}
	return r.complaint(line, 0, fmt.Sprintf("rows of %d columns", wide), "four columns are wanted, or two")
}

func (b block) columns(n int) []string {
	if len(b.heading) == n {
		return b.heading
	}
	return numbered(n)
}

// fromPatterns reads one word a row: 1000 is a pattern of bits here, whatever
// a programming language would make of it.
func (r *reader) fromPatterns(b block, name string, line int) error {
	patterns := true
	wide := len(b.lines[0][0].text)
	for _, words := range b.lines {
		t := words[0].text
		patterns = patterns && len(t) == wide && strings.Trim(t, "01") == ""
	}
	var literals []literal
	for _, words := range b.lines {
		w := words[0]
		l := readNumber(w.text, Rust)
		if patterns {
			l.value = 0
			for _, c := range w.text {
				l.value = l.value<<1 | int64(c-'0')
			}
		}
		l.line, l.column = w.line, w.column
		literals = append(literals, l)
	}
	if patterns && (wide == 4 || wide == 2) {
		t := Table{Name: name, Line: line, Columns: b.columns(wide)}
		where := []int{3, 2, 1, 0}[4-wide:]
		for _, l := range literals {
			t.Rows = append(t.Rows, Row{Line: l.line, Text: l.text, Levels: unpack(int(l.value), where)})
		}
		return r.add(t)
	}
	return r.packed(literals, name, line)
}
