package table

import (
	"cmp"
	"regexp"
	"slices"
	"strings"
)

// like writes a row of its own, in the brackets and the base of another.
func (p *pen) like(r *Row, levels []int) (string, bool) {
	if r.packed() {
		return p.number(r.literals[0], levels)
	}
	var b strings.Builder
	at := r.from
	for c, l := range r.literals {
		b.WriteString(p.text[at:l.from] + levelLike(l, levels[c]))
		at = l.to
	}
	return b.String() + p.text[at:r.to], true
}

// remarks are what a separator holds beside its marks.
var remarks = regexp.MustCompile(`(?s://|#)[^\n]*|(?s:/\*.*?\*/)`)

// between gives what parts a row from the next, without comments and empty lines;
// false where it numbers the rows.
func (p *pen) between(i int) (separator string, ok bool) {
	s := remarks.ReplaceAllString(p.text[p.rows[i].to:p.rows[i+1].from], "")
	if first := strings.IndexByte(s, '\n'); first >= 0 {
		s = strings.TrimRight(s[:first], " \t") + s[strings.LastIndexByte(s, '\n'):]
	}
	return s, !strings.ContainsAny(s, "0123456789")
}

// insert puts a row in after another, before the first where that is −1.
func (p *pen) insert(after int, levels []int) bool {
	if !p.whole() {
		return false
	}
	words, ok := p.like(p.rows[max(after, 0)], levels)
	if after == len(p.rows)-1 {
		p.ends = append(p.ends, words)
		return ok
	}
	separator, parted := p.between(max(after, 0))
	at := p.rows[after+1].from
	p.edits = append(p.edits, edition{span{at, at}, words + separator})
	return ok && parted
}

// close puts in what comes after the last row, and takes rows out.
func (p *pen) close() {
	last := len(p.rows) - 1
	if len(p.ends) > 0 {
		if separator, ok := p.between(last - 1); ok {
			p.append(separator)
		}
	}
	kept := last
	for slices.Contains(p.dropped, kept) && kept > 0 {
		kept--
	}
	if kept < last {
		cut := span{p.rows[kept].to, p.rows[last].to}
		if tail, alone := p.tail(p.rows[last]); alone && strings.Contains(p.text[cut.from:cut.to], "\n") {
			cut = span{p.lineEnd(cut.from), tail.to}
		}
		p.edits = append(p.edits, edition{cut, ""})
	}
	for _, i := range p.dropped {
		if i > kept {
			continue
		}
		cut := span{p.rows[i].from, p.rows[i+1].from}
		if i > 0 && strings.Contains(p.text[p.rows[i].to:cut.to], "\n") && !strings.Contains(p.text[p.rows[i-1].to:cut.from], "\n") {
			cut = span{p.rows[i-1].to, p.rows[i].to} // the line that it ends stays
		}
		p.edits = append(p.edits, edition{cut, ""})
	}
}

// append puts rows in after the last: on lines of their own, where the rows stand so,
// with the comma and the comment of the last left to that.
func (p *pen) append(separator string) {
	last := p.rows[len(p.rows)-1]
	tail, alone := p.tail(last)
	line := strings.IndexByte(separator, '\n')
	if !alone || line < 0 {
		p.edits = append(p.edits, edition{span{last.to, last.to}, separator + strings.Join(p.ends, separator)})
		return
	}
	mark := separator[:line]
	ends := separator[line:] + strings.Join(p.ends, separator)
	if strings.HasPrefix(strings.TrimLeft(p.text[tail.from:tail.to], " \t"), ",") {
		ends += ","
	} else {
		p.edits = append(p.edits, edition{span{last.to, last.to}, mark})
	}
	p.edits = append(p.edits, edition{span{tail.to, tail.to}, ends})
}

// tail is what comes after a row on its line; alone where that is a comma and a
// comment at most.
func (p *pen) tail(r *Row) (tail span, alone bool) {
	tail = span{r.to, p.lineEnd(r.to)}
	left := strings.TrimSpace(remarks.ReplaceAllString(p.text[tail.from:tail.to], ""))
	return tail, left == "" || left == ","
}

// lineEnd gives where the line ends in which a byte is.
func (p *pen) lineEnd(at int) int {
	if n := strings.IndexByte(p.text[at:], '\n'); n >= 0 {
		return at + n
	}
	return len(p.text)
}

// mended gives the text with all that was put in it; false where two changes are of
// the same place.
func (p *pen) mended() (text string, ok bool) {
	slices.SortStableFunc(p.edits, func(a, b edition) int { return cmp.Or(a.from-b.from, a.to-b.to) })
	var b strings.Builder
	at := 0
	for _, e := range p.edits {
		if e.from < at {
			return "", false
		}
		b.WriteString(p.text[at:e.from] + e.words)
		at = e.to
	}
	return b.String() + p.text[at:], true
}

// lines gives the lines of a mended text in which the rows stand.
func (p *pen) lines(mended string) Written {
	from, to := len(p.text), 0
	for _, r := range p.rows {
		for _, l := range r.literals {
			from, to = min(from, l.from), max(to, l.to)
		}
	}
	from, to = strings.LastIndexByte(p.text[:from], '\n')+1, p.lineEnd(to)
	end := len(mended) - (len(p.text) - to)
	first := 1 + strings.Count(p.text[:from], "\n")
	return Written{strings.Split(mended[from:end], "\n"), first, first + strings.Count(p.text[from:to], "\n")}
}
