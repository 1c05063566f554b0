package table

import (
	"slices"
	"strings"

	"coilwalk/sequence"
)

// span is a stretch of a text, in bytes.
type span struct{ from, to int }

// within is a span without the quotes around it.
func (s span) within() span { return span{s.from + 1, s.to - 1} }

func (s span) after(bytes int) span { return span{s.from + bytes, s.to + bytes} }

// origin is where a table was read from, so that it can be written back.
type origin struct {
	file, text string
	options    Options
	at         int // of the tables of the file, from 0
}

// change is one row put right: what stands in place of it, or comes after it.
type change struct {
	what string // "set", "insert" after the row, or "drop"
	row  int    // of those that are judged, from 0; −1 to insert before the first
	want sequence.Row
	text string // of a set row that is to be written so; "" for its levels
}

// Written is a part of a file as it is to be, in whole lines.
type Written struct {
	Lines    []string
	From, To int // the lines of the file whose place they take, from 1
}

// Written gives the lines of the file that hold the table, with the rows of a cure put
// right in them and all else as it is: numbers in the base, levels in the words and rows
// in the brackets that they have. It is read back before it is given away; ok is false
// where only a hand can write it, as with rows to put in where two motors share a byte.
func (v *Verdict) Written(c Cure) (w Written, ok bool) {
	o := v.Table.origin
	if len(c.changes) == 0 || o.text == "" {
		return w, false
	}
	p := pen{text: o.text, verdict: v, low: c.low}
	if !p.takeRows() {
		return w, false
	}
	for _, change := range c.changes {
		if !p.put(change) {
			return w, false
		}
	}
	p.close()
	mended, ok := p.mended()
	if !ok || !v.readsAs(mended, c) {
		return w, false
	}
	return p.lines(mended), true
}

// readsAs says whether a text holds the table of the verdict with the rows of a cure.
func (v *Verdict) readsAs(text string, c Cure) bool {
	o := v.Table.origin
	read, err := Read(o.file, []byte(text), o.options)
	if err != nil || o.at >= len(read.Tables) {
		return false
	}
	t := &read.Tables[o.at]
	if t.Name != v.Table.Name || len(t.Columns) != len(v.Table.Columns) {
		return false
	}
	j, _ := judgeOf(t, v.Pins, c.low)
	return !j.strays() && slices.Equal(j.rows, c.Rows)
}

// pen writes changes into a text.
type pen struct {
	text    string
	verdict *Verdict
	low     bool // a 0 switches on
	rows    []*Row
	paused  bool
	edits   []edition
	dropped []int
	ends    []string // rows that come after the last
}

// edition puts words in the place of a stretch of a text.
type edition struct {
	span
	words string
}

// takeRows gathers the rows that are judged; false where one is not in the text as
// its levels.
func (p *pen) takeRows() bool {
	off := 0
	if p.low {
		off = 1
	}
	t := p.verdict.Table
	p.paused = offBetween(t, off)
	for i := range t.Rows {
		r := &t.Rows[i]
		if len(r.literals) != 1 && len(r.literals) != len(r.Levels) {
			return false
		}
		if !p.paused || !r.rests(off) {
			p.rows = append(p.rows, r)
		}
	}
	return p.verdict.Pins != PhaseEnable && len(p.rows) > 1
}

// whole says whether rows stand each in one piece, one after another, so that one can
// be put in or left out.
func (p *pen) whole() bool {
	for i, r := range p.rows {
		if r.to == 0 || len(p.verdict.Table.Columns) < len(r.literals) || p.verdict.Table.Motor > 0 || i > 0 && r.from < p.rows[i-1].to {
			return false
		}
	}
	return !p.paused
}

func (p *pen) put(c change) bool {
	switch c.what {
	case "set":
		r := p.rows[c.row]
		if c.text != "" {
			p.edits = append(p.edits, edition{r.literals[0].span, c.text})
			return true
		}
		return p.set(r, p.levels(c.want))
	case "insert":
		return p.insert(c.row, p.levels(c.want))
	}
	p.dropped = append(p.dropped, c.row)
	return p.whole()
}

// levels gives the levels of the columns that switch a row on.
func (p *pen) levels(want sequence.Row) []int {
	levels := make([]int, len(p.verdict.Table.Columns))
	for c := range levels {
		if (want[c] > 0) != p.low {
			levels[c] = 1
		}
	}
	return levels
}

// set writes levels in the place of a row.
func (p *pen) set(r *Row, levels []int) bool {
	if r.packed() {
		words, ok := p.number(r.literals[0], levels)
		p.edits = append(p.edits, edition{r.literals[0].span, words})
		return ok
	}
	for c, l := range r.literals {
		if levels[c] != r.Levels[c] {
			p.edits = append(p.edits, edition{l.span, levelLike(l, levels[c])})
		}
	}
	return true
}

// packed says whether one literal holds all columns of a row.
func (r *Row) packed() bool { return len(r.literals) == 1 && len(r.Levels) > 1 }

// number writes levels as a number like another, with what that has besides.
func (p *pen) number(like literal, levels []int) (words string, ok bool) {
	where := p.verdict.Table.Bits
	if where == nil { // its digits are the columns
		if len(like.text) == len(levels) {
			return bitText(levels), true
		}
		where = []int{3, 2, 1, 0}[4-len(levels):]
	}
	v := uint64(like.value)
	if i := slices.IndexFunc(p.verdict.Table.Rows, func(r Row) bool { return r.stray != nil && r.from == like.from }); i >= 0 {
		s := p.verdict.Table.Rows[i].stray
		v, like = s.rest, s.like
	}
	for c, b := range where {
		v = v&^(1<<b) | uint64(levels[c])<<b
	}
	return like.asWritten(v), like.valued
}

// levelPairs are words for off and on.
var levelPairs = [][2]string{{"LOW", "HIGH"}, {"Low", "High"}, {"false", "true"}, {"False", "True"}}

// levelLike writes a level as another is written: HIGH where that is LOW.
func levelLike(like literal, level int) string {
	for _, pair := range levelPairs {
		if word := lastPart(like.text); slices.Contains(pair[:], word) {
			return strings.TrimSuffix(like.text, word) + pair[level]
		}
	}
	return like.asWritten(uint64(level))
}
