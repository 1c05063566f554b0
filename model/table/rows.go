package table

import (
	"fmt"

	"coilwalk/sequence"
)

// pinsOf settles what the columns are: as asked, else by their number, else by
// a constant pair, which is how enable lines look in a full-step table.
func pinsOf(t *Table, asked Pins) Pins {
	if asked != Auto {
		return asked
	}
	if len(t.Columns) == 2 {
		return TwoLine
	}
	if len(constant(t, 1)) == 2 {
		if rows := rowsOf(t, PhaseEnable); soundRows(rows) {
			return PhaseEnable
		}
	}
	return CoilEnds
}

// Fits says whether a table has the columns that a kind of pins needs.
func Fits(t *Table, pins Pins) error {
	want := 4
	switch pins {
	case Auto:
		return nil
	case TwoLine:
		want = 2
	}
	if len(t.Columns) != want {
		return fmt.Errorf("pins of the kind %s are %d columns, but %s has %d", pins, want, t.Name, len(t.Columns))
	}
	return nil
}

func soundRows(rows []sequence.Row) bool {
	_, ok := judge{rows: rows}.pattern(sequence.Straight)
	return ok
}

// constant lists the columns, from 0, that have one level in every row.
func constant(t *Table, level int) (columns []int) {
	for c := range t.Columns {
		same := len(t.Rows) > 0
		for _, r := range t.Rows {
			same = same && r.Levels[c] == level
		}
		if same {
			columns = append(columns, c)
		}
	}
	return columns
}

// rowsOf gives the rows as outputs that are on or off. Two lines, and polarity
// and enable lines, are turned into the four coil ends that they stand for.
func rowsOf(t *Table, pins Pins) []sequence.Row {
	rows := make([]sequence.Row, len(t.Rows))
	for i, r := range t.Rows {
		level := func(c int) float64 {
			if c < len(r.Levels) {
				return float64(r.Levels[c])
			}
			return 0
		}
		switch pins {
		case TwoLine:
			a, b := level(0), level(1)
			rows[i] = sequence.Row{a, b, 1 - a, 1 - b}
		case PhaseEnable:
			pa, ea, pb, eb := enables(t, level)
			rows[i] = sequence.Row{pa * ea, pb * eb, (1 - pa) * ea, (1 - pb) * eb}
		default:
			for c := range rows[i] {
				rows[i][c] = level(c)
			}
		}
	}
	return rows
}

// enables tells polarity lines from enable lines: the pair that is constantly
// on enables, else they alternate, polarity first.
func enables(t *Table, level func(int) float64) (pa, ea, pb, eb float64) {
	on := constant(t, 1)
	if len(on) != 2 {
		on = []int{1, 3}
	}
	var polarity []int
	for c := range 4 {
		if c != on[0] && c != on[1] {
			polarity = append(polarity, c)
		}
	}
	return level(polarity[0]), level(on[0]), level(polarity[1]), level(on[1])
}

// levelled turns the levels round where a 0 switches on.
func levelled(rows []sequence.Row, activeLow bool) []sequence.Row {
	if !activeLow {
		return rows
	}
	out := make([]sequence.Row, len(rows))
	for i, r := range rows {
		for c, v := range r {
			out[i][c] = 1 - v
		}
	}
	return out
}
