package table

import (
	"fmt"
	"slices"
	"strings"

	"coilwalk/sequence"
)

// addMend adds the cure of putting the rows right that differ from the order that
// they nearly are, if that makes the table sound under the wiring taken.
func (v *Verdict) addMend(j judge, near alignment) {
	if len(near.edits) == 0 {
		return
	}
	rows, steps, changes := j.mended(near)
	mended := j
	mended.rows, mended.from = rows, nil
	p, ok := mended.pattern(v.Taken)
	if !ok {
		return
	}
	v.Cures = append(v.Cures, Cure{
		Order: [4]int{1, 2, 3, 4}, Rows: rows, Direction: p.direction,
		Text:    fmt.Sprintf("%s; it then turns %s", strings.Join(steps, ", "), wayWords[p.direction]),
		changes: changes, low: j.low,
	})
}

// mended gives the rows as they stand on the columns once every slip is put right,
// and what is to be done, in words and row by row.
func (j judge) mended(near alignment) (rows []sequence.Row, steps []string, changes []change) {
	slips := map[int][]edit{}
	for _, e := range near.edits {
		slips[e.row] = append(slips[e.row], e)
	}
	do := func(format string, values ...any) { steps = append(steps, fmt.Sprintf(format, values...)) }
	for i := 0; i <= len(j.rows); i++ {
		keep := true
		for _, e := range slips[i] {
			want := e.want.Onto(j.wiring)
			switch e.what {
			case "missing":
				rows, changes = append(rows, want), append(changes, change{"insert", i - 1, want, ""})
				if i == 0 {
					do("put in %s before row 1", j.bits(want))
				} else {
					do("put in %s after row %d", j.bits(want), i)
				}
			case "extra":
				keep, changes = false, append(changes, change{what: "drop", row: i})
				do("leave out row %d", i+1)
			case "exchanged":
				rows = append(rows, j.rows[i+1], j.rows[i])
				changes = append(changes, change{"set", i, j.rows[i+1], ""}, change{"set", i + 1, j.rows[i], ""})
				do("exchange rows %d and %d", i+1, i+2)
				i, keep = i+1, false
			default:
				rows, keep, changes = append(rows, want), false, append(changes, change{"set", i, want, ""})
				do("make row %d %s", i+1, j.wantedWords(i, want))
			}
		}
		if keep && i < len(j.rows) {
			rows = append(rows, j.rows[i])
		}
	}
	return rows, steps, changes
}

// rowsCure is the cure of making each row what is wanted in its place, without words.
func rowsCure(j judge, want []sequence.Row, d sequence.Direction) Cure {
	c := Cure{Order: [4]int{1, 2, 3, 4}, Rows: want, Direction: d, low: j.low}
	for i, r := range want {
		if r != j.rows[i] || j.stray(i) != nil {
			c.changes = append(c.changes, change{"set", i, r, ""})
		}
	}
	return c
}

// walkedBack is the cure of a table that is to be walked from its other end.
func walkedBack(j judge, d sequence.Direction) Cure {
	back := slices.Clone(j.rows)
	slices.Reverse(back)
	return rowsCure(j, back, d)
}
