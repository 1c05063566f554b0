package table

import (
	"fmt"

	"coilwalk/sequence"
)

// stuck is a column that never moves, where all the other columns are right.
func (v *Verdict) stuck(j judge) bool {
	for level, kind := range []string{"stuck-low", "stuck-high"} {
		for _, c := range constant(v.Table, level) {
			if v.Pins != CoilEnds || len(j.rows) < 3 {
				continue
			}
			for _, m := range sequence.WholeModes() {
				if want, d := j.allBut(c, v.Taken, m); want != nil {
					never := [2]string{"is never on", "is always on"}[level]
					v.Mode, v.Direction = m.Name, d
					v.Faults = append(v.Faults, Fault{Kind: kind, Row: 0, Text: fmt.Sprintf(
						"%s %s; the other three are a %s order going %s.", v.column(c), never, m.Name, going[d])})
					v.Cures = append(v.Cures, j.freed(c, want, d))
					return true
				}
			}
		}
	}
	return false
}

// allBut gives the rows, as on the columns, of the mode that all columns but c follow,
// closing on themselves; nil where they follow none.
func (j judge) allBut(c int, wiring sequence.Permutation, m sequence.Mode) ([]sequence.Row, sequence.Direction) {
	o := m.Order()
	if len(j.rows)%o.Len() != 0 {
		return nil, sequence.Standing
	}
	for _, d := range []sequence.Direction{sequence.Forward, sequence.Reverse} {
		for start := range o.Len() {
			wanted, all := make([]sequence.Row, len(j.rows)), true
			for k, r := range j.rows {
				wanted[k] = o.Row(int64(start) + int64(d)*int64(k)).Onto(wiring)
				want := wanted[k]
				r[c], want[c] = 0, 0
				all = all && r == want
			}
			if all {
				return wanted, d
			}
		}
	}
	return nil, sequence.Standing
}

// freed is the cure of a column that never moves.
func (j judge) freed(column int, want []sequence.Row, d sequence.Direction) Cure {
	c := rowsCure(j, want, d)
	var rows []int
	for _, change := range c.changes {
		rows = append(rows, change.row+1)
	}
	level := "off"
	if len(rows) > 0 && want[rows[0]-1][column] > 0 {
		level = "on"
	}
	c.Text = fmt.Sprintf("switch column %d %s in %s; it then turns %s", column+1, level, plural(rows, "row ", "rows ")+listed(rows), wayWords[d])
	return c
}
