package table

import (
	"coilwalk/sequence"
)

// none is the mode of rows that follow none; mixed of rows that go one way by
// steps of several sizes.
const (
	none  = "none"
	mixed = "mixed"
)

// judge is a table's rows on their way to a verdict.
type judge struct {
	pins   Pins
	rows   []sequence.Row       // as on the columns, on or off
	from   []*Row               // that they were read from
	wiring sequence.Permutation // that faults are sought in
	low    bool                 // a 0 switches on
	strict bool                 // both ends of a phase on is a fault, as in a unipolar winding
}

// judgeOf gives the rows of a table that are judged: where every second one is all
// off the others, and then paused is true.
func judgeOf(t *Table, pins Pins, activeLow bool) (j judge, paused bool) {
	off := 0
	if activeLow {
		off = 1
	}
	j.pins, j.low, paused = pins, activeLow, offBetween(t, off)
	for i, row := range levelled(rowsOf(t, pins), activeLow) {
		if from := &t.Rows[i]; !paused || !from.rests(off) {
			j.rows, j.from = append(j.rows, row), append(j.from, from)
		}
	}
	return j, paused
}

// pattern is the endless order that rows repeat.
type pattern struct {
	mode      sequence.Mode
	direction sequence.Direction
}

func (p pattern) name(sound bool) string {
	if !sound {
		return none
	}
	return p.mode.Name
}

// at gives the rows as they arrive at the coil ends.
func (j judge) at(wiring sequence.Permutation) []sequence.Row {
	rows := make([]sequence.Row, len(j.rows))
	for i, r := range j.rows {
		rows[i] = r.Through(wiring)
	}
	return rows
}

// pattern says which order the rows repeat under a wiring, the last followed by
// the first; ok is false when they repeat none.
func (j judge) pattern(wiring sequence.Permutation) (p pattern, ok bool) {
	rows := j.at(wiring)
	if len(rows) == 0 || j.bothOn(rows) || j.strays() {
		return pattern{}, false
	}
	s, ok := sequence.Recognise(append(rows, rows[0]))
	if !ok {
		return pattern{}, false
	}
	return pattern{mode: s.Mode, direction: s.Direction}, true
}

func (j judge) bothOn(rows []sequence.Row) bool {
	for _, r := range rows {
		if j.strict && (r.BothOn(0) || r.BothOn(1)) {
			return true
		}
	}
	return false
}

// bits writes a row of outputs as it stands in the table: two lines are two
// columns; polarity and enable lines are told by the coil ends they feed.
func (j judge) bits(r sequence.Row) string {
	if j.pins == TwoLine {
		return r.Bits()[:2]
	}
	return r.Bits()
}

// judged gives every row of the table with its field and step. Rows of all off
// between the others are shown, but steps go past them.
func (j judge) judged() []JudgedRow {
	rows := j.at(j.wiring)
	out := make([]JudgedRow, len(rows))
	for i, r := range rows {
		out[i] = JudgedRow{Outputs: j.bits(j.rows[i]), Text: j.from[i].Text, Line: j.from[i].Line}
		out[i].FieldDeg, out[i].HasField = r.Field().Degrees()
		for back := 1; back < len(rows) && out[i].HasField && !out[i].HasStep; back++ {
			if before, ok := rows[(i+len(rows)-back)%len(rows)].Field().Degrees(); ok {
				out[i].StepDeg, out[i].HasStep = sequence.Between(before, out[i].FieldDeg), true
			}
		}
	}
	return out
}
