package report

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"coilwalk/model/files"
	"coilwalk/model/table"
	"coilwalk/sequence"
)

// CheckLines are lines of a file as they are to be, and whose place they take.
type CheckLines struct {
	From  int      `json:"from"`
	To    int      `json:"to"`
	Lines []string `json:"lines"`
}

// linesOf gives the lines that a cure makes of the file; nil where only a hand can.
func linesOf(v table.Verdict, c table.Cure) *CheckLines {
	w, ok := v.Written(c)
	if !ok {
		return nil
	}
	return &CheckLines{w.From, w.To, w.Lines}
}

const (
	mostCureRows   = 16  // put right are written out as bits
	mostCureLines  = 24  // of a file are
	longestCureRow = 200 // characters of such a line
)

// putRight shows the rows of a cure in a line.
func putRight(b *strings.Builder, v table.Verdict, c table.Cure) {
	so := "so"
	if c.Swap != nil {
		so = "so, with the leads exchanged"
	}
	below := ""
	if l := linesOf(v, c); l != nil && l.short() {
		below = " (for the file: below)"
	}
	if n := len(c.Rows); n > 0 && n <= mostCureRows {
		fmt.Fprintf(b, "          %s: %s%s\n", so, strings.Join(rowsText(v, c.Rows), " "), below)
	}
}

// toPaste shows the lines of the file as each cure has them, but for what is too long
// to look at.
func toPaste(b *strings.Builder, v table.Verdict) {
	for i, c := range v.Cures {
		l := linesOf(v, c)
		if l == nil || !l.short() {
			continue
		}
		fmt.Fprintf(b, "  with cure %d, in place of %s of the file:\n", i+1, l.where())
		for _, line := range l.Lines {
			fmt.Fprintln(b, strings.TrimRight(files.Plain("    "+line), " "))
		}
	}
}

// where says whose place they take.
func (l *CheckLines) where() string {
	if l.To > l.From {
		return fmt.Sprintf("lines %d to %d", l.From, l.To)
	}
	return fmt.Sprintf("line %d", l.From)
}

// MendedLines gives the lines of a cure by themselves, and what they are; nil where only
// a hand can write them.
func MendedLines(v table.Verdict, c table.Cure) (head string, lines []string) {
	l := linesOf(v, c)
	if l == nil {
		return "", nil
	}
	return "In place of " + l.where() + " of the file", l.Lines
}

func (l *CheckLines) short() bool {
	for _, line := range l.Lines {
		if utf8.RuneCountInString(line) > longestCureRow {
			return false
		}
	}
	return len(l.Lines) <= mostCureLines
}

// rowsText writes rows as they stand in a table.
func rowsText(v table.Verdict, rows []sequence.Row) (all []string) {
	for _, r := range rows {
		text := r.Bits()
		if v.Pins == table.TwoLine {
			text = text[:2]
		}
		all = append(all, text)
	}
	return all
}
