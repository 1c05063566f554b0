package table

import (
	"fmt"
	"math"

	"coilwalk/sequence"
)

// byRow names what is wrong row by row, under j.wiring, from the alignment
// with the fewest slips.
func (v *Verdict) byRow(j judge, near alignment) {
	rows := j.at(j.wiring)
	if !j.strays() && v.turnsBack(rows) {
		return
	}
	if s, ok := sequence.Recognise(rows); ok && !j.bothOn(rows) && !j.strays() {
		v.openWrap(rows, s)
		if len(near.edits) <= (len(rows)+3)/4 {
			v.addMend(j, near)
		}
		return
	}
	if len(near.edits) > (len(rows)+1)/2 {
		v.Faults = append(v.Faults, v.noOrder(rows))
		v.strayFaults(j)
		v.deadRows(j)
		return
	}
	v.Mode, v.Direction = near.mode.Name, near.direction
	missing := 0
	for _, e := range near.edits {
		if e.what == "missing" {
			missing++
		}
		v.Faults = append(v.Faults, j.slip(e, rows, near.mode.Name))
	}
	if missing > 1 && missing == len(near.edits) {
		v.Mode = mixed
	}
	v.addMend(j, near)
}

// slip puts one edit into words.
func (j judge) slip(e edit, rows []sequence.Row, mode string) Fault {
	wanted := j.onColumns(e.want)
	switch e.what {
	case "missing":
		after := e.row // from 1, the row after which it is missing
		if after == 0 {
			return Fault{Kind: "skipped-row", Row: 1, Text: fmt.Sprintf("Row %s is missing before row 1.", wanted)}
		}
		return Fault{Kind: "skipped-row", Row: after, Text: fmt.Sprintf("Row %s is missing after row %d: the field jumps over it.", wanted, after)}
	case "extra":
		if j.stray(e.row) != nil {
			return Fault{Kind: "wrong-row", Row: e.row + 1, Text: j.strayRow(e.row) + " It has no place in the order: leave it out."}
		}
		if e.row > 0 && rows[e.row] == rows[e.row-1] || e.row == len(rows)-1 && rows[e.row] == rows[0] ||
			e.row < len(rows)-1 && rows[e.row] == rows[e.row+1] {
			return Fault{Kind: "repeated-row", Row: e.row + 1, Text: fmt.Sprintf("Row %d repeats its neighbour: the rotor waits there for a row.", e.row+1)}
		}
		if rows[e.row] == (sequence.Row{}) {
			return Fault{Kind: "no-field", Row: e.row + 1, Text: fmt.Sprintf("Row %d is all off and has no place in the order: leave it out.", e.row+1)}
		}
		return Fault{Kind: "wrong-row", Row: e.row + 1, Text: fmt.Sprintf("Row %d (%s) has no place in the order.", e.row+1, j.bits(j.rows[e.row]))}
	case "exchanged":
		return Fault{Kind: "rows-exchanged", Row: e.row + 1, Text: fmt.Sprintf("Rows %d and %d are exchanged: the field goes on, back, and on again. Exchange them back.", e.row+1, e.row+2)}
	}
	if j.stray(e.row) != nil {
		return j.wrongStray(e.row, e.want.Onto(j.wiring), mode)
	}
	return j.wrongRow(e.row, rows[e.row], wanted)
}

func (j judge) wrongRow(i int, r sequence.Row, wanted string) Fault {
	if f, dead := j.deadRow(i, r); dead {
		f.Text += fmt.Sprintf(" %s is wanted here.", wanted)
		return f
	}
	return Fault{Kind: "wrong-row", Row: i + 1, Text: fmt.Sprintf("Row %d is %s where %s is wanted.", i+1, j.bits(j.rows[i]), wanted)}
}

// deadRow is a row that sets up no field, or has both ends of a phase on.
func (j judge) deadRow(i int, r sequence.Row) (Fault, bool) {
	for phase, name := range []string{"A", "B"} {
		if r.BothOn(phase) && (j.strict || r.Field().None()) {
			return Fault{Kind: "both-ends-on", Row: i + 1, Text: fmt.Sprintf(
				"Row %d (%s) has both ends of phase %s on: it looks like two coils on, but they cancel; no pull from that phase, and twice its heat in a unipolar winding.",
				i+1, j.bits(j.rows[i]), name)}, true
		}
	}
	if r.Field().None() {
		return Fault{Kind: "no-field", Row: i + 1, Text: fmt.Sprintf("Row %d (%s) sets up no field: nothing holds the rotor.", i+1, j.bits(j.rows[i]))}, true
	}
	return Fault{}, false
}

// deadRows names every dead row.
func (v *Verdict) deadRows(j judge) {
	for i, r := range j.at(j.wiring) {
		if f, dead := j.deadRow(i, r); dead && j.stray(i) == nil {
			v.Faults = append(v.Faults, f)
		}
	}
}

// onColumns writes a row at the coil ends as it would stand in the table.
func (j judge) onColumns(r sequence.Row) string {
	return j.bits(r.Onto(j.wiring))
}

// turnsBack is an order that goes to and fro by even steps.
func (v *Verdict) turnsBack(rows []sequence.Row) bool {
	if len(rows) < 4 {
		return false
	}
	size, turns, at := 0.0, 0, 0
	last := 0.0
	for i := 1; i < len(v.Rows); i++ {
		r := v.Rows[i]
		if !r.HasStep || r.StepDeg == 0 || math.Abs(r.StepDeg) > 90 || (size != 0 && math.Abs(r.StepDeg) != size) {
			return false
		}
		size = math.Abs(r.StepDeg)
		if last != 0 && r.StepDeg != last {
			turns++
			if at == 0 {
				at = i
			}
		}
		last = r.StepDeg
	}
	if turns != 1 {
		return false
	}
	v.Faults = append(v.Faults, Fault{Kind: "reversal", Row: at, Text: fmt.Sprintf(
		"After row %d the order turns round and goes back: the rotor swings to and fro.", at)})
	return true
}

// openWrap is an order that is right from row to row but does not close from
// its last row to its first.
func (v *Verdict) openWrap(rows []sequence.Row, s sequence.Stretch) {
	v.Mode, v.Direction = s.Mode.Name, s.Direction
	per := s.Mode.Rows()
	text := fmt.Sprintf("The rows are a %s order going %s, but from the last row back to the first the field jumps: %d rows are one cycle, here are %d.",
		s.Mode.Name, going[s.Direction], per, len(rows))
	if f := v.Rows[0]; f.HasStep {
		text = fmt.Sprintf("%s The jump is %+g°.", text, f.StepDeg)
	}
	v.Faults = append(v.Faults, Fault{Kind: "open-wrap", Row: len(rows), Text: text})
}

// noOrder is a table in which no order can be seen at all.
func (v *Verdict) noOrder(rows []sequence.Row) Fault {
	first := 1
	for i, r := range v.Rows {
		if i > 0 && (!r.HasStep || math.Abs(r.StepDeg) > 90 || r.StepDeg == 0) {
			first = i + 1
			break
		}
	}
	return Fault{Kind: "no-order", Row: first, Text: fmt.Sprintf(
		"No step mode fits these %d rows for any reading of the columns taken here: from row %d on the field does not lead the rotor round.", len(rows), first)}
}
