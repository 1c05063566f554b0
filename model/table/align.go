package table

import "coilwalk/sequence"

// edit is one difference between the rows of a table and an order.
type edit struct {
	what string // "wrong", "missing", "extra" or "exchanged"
	row  int    // from 0; for "missing" the row before which one is missing
	want sequence.Row
}

// alignment is the way to read a table as an order with the fewest slips.
type alignment struct {
	pattern
	start int
	edits []edit
}

// longestAligned bounds the search for slips, whose work grows with the square
// of the rows; a table is a cycle of four to some hundred rows.
const longestAligned = 96

// nearest finds the mode, direction, start and edits that turn the rows, at
// the coil ends under a wiring, into an order that closes on itself. Ties go to the mode
// learned first, and to fewer rows missing.
func (j judge) nearest(wiring sequence.Permutation) (best alignment) {
	rows := j.at(wiring)
	best.edits = make([]edit, len(rows)+1) // worse than any
	if len(rows) > longestAligned {
		return best
	}
	for _, m := range sequence.WholeModes() {
		o := m.Order()
		for _, d := range []sequence.Direction{sequence.Forward, sequence.Reverse} {
			for start := range o.Len() {
				for cycles := 1; cycles*o.Len() <= len(rows)+max(o.Len()/2, len(rows)/8)+1; cycles++ {
					if off := cycles*o.Len() - len(rows); -off > max(o.Len(), len(rows)/8) {
						continue // too short: more rows would be extra than a slip explains
					}
					want := make([]sequence.Row, cycles*o.Len())
					for k := range want {
						want[k] = o.Row(int64(start) + int64(d)*int64(k))
					}
					if edits := j.compare(rows, want); len(edits) < len(best.edits) {
						best = alignment{pattern{m, d}, start, edits}
					}
				}
			}
		}
	}
	return best
}

// compare gives the fewest edits (a wrong row, one missing, one too many, two
// neighbours exchanged, each counting one) between rows and what is wanted. A row
// that strays is none that is wanted.
func (j judge) compare(rows, want []sequence.Row) []edit {
	cost := make([][]int, len(rows)+1)
	for i := range cost {
		cost[i] = make([]int, len(want)+1)
		cost[i][0] = i
	}
	for k := range want {
		cost[0][k+1] = k + 1
	}
	same := func(i, k int) bool { return rows[i] == want[k] && j.stray(i) == nil }
	exchanged := func(i, k int) bool {
		return i > 1 && k > 1 && same(i-1, k-2) && same(i-2, k-1) && rows[i-1] != rows[i-2]
	}
	differs := func(i, k int) int {
		if same(i-1, k-1) {
			return 0
		}
		return 1
	}
	for i := 1; i <= len(rows); i++ {
		for k := 1; k <= len(want); k++ {
			cost[i][k] = min(cost[i-1][k-1]+differs(i, k), cost[i-1][k]+1, cost[i][k-1]+1)
			if exchanged(i, k) {
				cost[i][k] = min(cost[i][k], cost[i-2][k-2]+1)
			}
		}
	}
	var edits []edit
	for i, k := len(rows), len(want); i > 0 || k > 0; {
		switch {
		case i > 0 && k > 0 && differs(i, k) == 0 && cost[i][k] == cost[i-1][k-1]:
			i, k = i-1, k-1
		case i > 1 && k > 1 && exchanged(i, k) && cost[i][k] == cost[i-2][k-2]+1:
			edits = append(edits, edit{"exchanged", i - 2, want[k-2]})
			i, k = i-2, k-2
		case i > 0 && k > 0 && cost[i][k] == cost[i-1][k-1]+1:
			edits = append(edits, edit{"wrong", i - 1, want[k-1]})
			i, k = i-1, k-1
		case i > 0 && cost[i][k] == cost[i-1][k]+1:
			edits = append(edits, edit{what: "extra", row: i - 1})
			i--
		default:
			edits = append(edits, edit{"missing", i, want[k-1]})
			k--
		}
	}
	for i, k := 0, len(edits)-1; i < k; i, k = i+1, k-1 {
		edits[i], edits[k] = edits[k], edits[i]
	}
	return edits
}
