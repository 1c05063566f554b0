// Package opened is what was opened with the program besides a motor: a step
// table and its cures, a recording and the place in it; once for the explorer and
// the line mode.
package opened

import (
	"errors"
	"fmt"
	"slices"

	"coilwalk/model/bench"
	"coilwalk/model/table"
	"coilwalk/sequence"
	"coilwalk/view/report"
)

// Table is a file of step tables, and what was found.
type Table struct {
	File     string
	Verdicts []table.Verdict
	Question table.Question                                     // that they answer
	At       int                                                // the table that is walked
	Again    func(bits table.BitOrder) ([]table.Verdict, error) // reads the file anew; nil where it can not be

	wiring sequence.Permutation // under which they were judged last
}

// Verdict is that on the table that is walked.
func (t *Table) Verdict() table.Verdict { return t.Verdicts[t.At] }

// Judgement says at once what a person came for.
func (t *Table) Judgement() (words string, sound bool) {
	v := t.Verdict()
	return v.Table.Name + ": " + report.Judgement(v), v.Sound
}

// Walk puts the table that is walked on the bench, with the wiring that it was
// judged by.
func (t *Table) Walk(b *bench.Bench) {
	b.SetTable(t.Verdict().Outputs, t.Verdict().Taken)
}

// Next goes to the next table of the file, and walks that; false where there is
// no other.
func (t *Table) Next(b *bench.Bench) bool {
	if len(t.Verdicts) < 2 {
		return false
	}
	t.At = (t.At + 1) % len(t.Verdicts)
	b.Stop()
	leads := b.Read().Wiring
	if t.Question.Wiring == nil {
		leads = t.Verdict().Taken
	}
	b.SetTable(t.Verdict().Outputs, leads)
	return true
}

// Packed says whether the rows of the table that is walked are numbers whose bits
// may be read from either end.
func (t *Table) Packed() bool { return t.Again != nil && len(t.Verdict().Table.Bits) > 1 }

// Turn reads packed rows from the other end, column 1 being the lowest bit where it
// was the highest, and walks that; it says which bit column 1 is now.
func (t *Table) Turn(b *bench.Bench) (words string, err error) {
	bits := t.Verdict().Table.Bits
	if !t.Packed() {
		return "", errors.New("the rows of this table are no numbers with bits to turn round")
	}
	order, end := table.LSBFirst, "lowest"
	if bits[0] < bits[len(bits)-1] {
		order, end = table.MSBFirst, "highest"
	}
	verdicts, err := t.Again(order)
	if err != nil {
		return "", err
	}
	if len(verdicts) != len(t.Verdicts) {
		return "", errors.New("read so, the file holds other tables")
	}
	t.Verdicts = verdicts
	b.Stop()
	t.Walk(b)
	judged, _ := t.Judgement()
	return fmt.Sprintf("column 1 is the %s bit now; %s", end, judged), nil
}

// Cure puts a cure in by its number, from 1: two leads swapped, the rows put right, or
// both; false where there is none, or none that can be put in here.
func (t *Table) Cure(b *bench.Bench, number int) (c table.Cure, ok bool) {
	if number < 1 || number > len(t.Verdict().Cures) {
		return c, false
	}
	c = t.Verdict().Cures[number-1]
	if c.Rows == nil && c.Swap == nil {
		return c, false
	}
	leads := t.Verdict().Taken
	if c.Swap != nil {
		leads = leads.Swapped(c.Swap[0]-1, c.Swap[1]-1)
	}
	if c.Rows != nil {
		b.SetTable(c.Rows, leads)
	} else {
		b.SetWiring(leads)
	}
	return c, true
}

// Mended says whether the bench walks the rows of a cure, and not those of the file.
func (t *Table) Mended(b *bench.Bench) bool {
	order := b.Read().Order
	return b.Read().Table && slices.ContainsFunc(t.Verdict().Cures, func(c table.Cure) bool {
		if slices.Equal(c.Rows, t.Verdict().Outputs) { // what is wrong does not reach the outputs
			return false
		}
		for i, row := range c.Rows {
			if order.Row(int64(i)) != row {
				return false
			}
		}
		return c.Rows != nil && len(c.Rows) == order.Len()
	})
}

// Text is the findings on the table, and what the bench has otherwise: other rows, or,
// where the table was judged by itself, other leads.
func (t *Table) Text(b *bench.Bench) string { return t.text(b, report.VerdictText) }

// Spoken is Text as it is read aloud.
func (t *Table) Spoken(b *bench.Bench) string { return t.text(b, report.VerdictSpoken) }

func (t *Table) text(b *bench.Bench, of func(string, table.Verdict) string) string {
	text := of(t.File, t.Verdict())
	taken := b.Motor()
	taken.Wiring = t.Verdict().Taken
	if moved := report.Exchanged(taken, b.Read().Wiring); moved != "" && t.Question.Wiring == nil {
		text = "This is judged by itself. On Walk leads were moved since: " + moved + ".\n" + text
	}
	if t.Mended(b) {
		text = "The bench walks the rows put right. Your file is as it was:\n" + text
	}
	return text
}

// Lines gives the lines of the file with a cure put in, by its number, and what they
// are; nil where it has none.
func (t *Table) Lines(number int) (head string, lines []string) {
	if number < 1 || number > len(t.Verdict().Cures) {
		return "", nil
	}
	return report.MendedLines(t.Verdict(), t.Verdict().Cures[number-1])
}

// Cured says what was put in, and what comes of it.
func Cured(c table.Cure) string {
	turns := "it should now turn " + report.Turning(c.Direction == sequence.Forward)
	if c.Swap != nil {
		rows := ""
		if c.Rows != nil {
			rows = ", and rows put right here, not in your file"
		}
		return fmt.Sprintf("leads on outputs %d and %d swapped%s: %s", c.Swap[0], c.Swap[1], rows, turns)
	}
	return "rows put right here, not in your file: " + turns
}

// JudgeAgain holds the tables against the wiring as it is on the bench now, where
// a wiring was asked about: after a cure one is sound.
func (t *Table) JudgeAgain(b *bench.Bench) {
	now := b.Read().Wiring
	if t.Question.Wiring == nil || now == t.wiring {
		return
	}
	t.wiring = now
	q := t.Question
	q.Wiring = &now
	for k := range q.Leads {
		if q.Leads[k] != "" {
			q.Leads[k] = string(b.Motor().Output(now, k))
		}
	}
	for i := range t.Verdicts {
		t.Verdicts[i] = table.Judge(t.Verdicts[i].Table, q)
	}
}
