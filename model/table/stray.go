package table

import (
	"cmp"
	"fmt"
	"math/bits"
	"slices"

	"coilwalk/sequence"
)

// mostTyped bounds a list in which slips of the hand are sought: a table that a
// hand typed is short.
const mostTyped = 64

// mostWindows bounds what a hostile list costs. A table with a slip or two has a
// few.
const mostWindows = 16

// stray is a row that moves bits which no other row moves, as 0x80 among rows of
// the bits 0 to 3: a slip, and not the row of another motor.
type stray struct {
	beyond []int   // the bits that it moves
	where  []int   // the bits of the columns
	rest   uint64  // what the other rows have beside the columns
	digits string  // as a literal has them
	like   literal // a row as the others are written
}

// window is four bits that may be the columns, and the rows that do not keep to
// them.
type window struct {
	where          []int // highest first
	moving, common uint64
	strays         []int
}

// strayed makes a table of numbers of which a few, a quarter at most, move bits
// that the others do not. The others have to lead round: else a list of anything
// would be a table.
func (r *reader) strayed(literals []literal, name string, line int) (t Table, ok bool) {
	wide := 4
	if r.options.Pins == TwoLine {
		wide = 2
	}
	n := len(literals)
	fewest, slips := 6, n/8 // of eight rows another may be wrong
	if r.language == Plain || stepName(name) {
		fewest = 4
	} else if decimal(literals) {
		slips = 0 // people count in such numbers
	}
	if n < fewest || n > mostTyped {
		return t, false
	}
	var fits []window
	for _, w := range windows(literals, wide) {
		if len(fits) > 0 && len(w.strays) > len(fits[0].strays) {
			break // what needs fewer slips is likelier
		}
		wrong := 2 * min(slips, n/4-len(w.strays)) // a wrong row spoils two steps
		if t := r.strayTable(literals, name, line, w); t.goesRound(r.options.Pins, wrong) {
			fits = append(fits, w)
		}
	}
	if len(fits) == 0 {
		return t, false
	}
	t = r.strayTable(literals, name, line, fits[0])
	if len(fits) > 1 && fits[1].together() == fits[0].together() {
		var rows []int
		for _, i := range fits[1].strays {
			rows = append(rows, i+1)
		}
		t.Notes = append(t.Notes, fmt.Sprintf("It may be %s that %s wrong instead; then the columns are bits %s.",
			plural(rows, "row ", "rows ")+listed(rows), plural(rows, "is", "are"), listed(fits[1].where)))
	}
	return t, true
}

// windows gives the bits that may be columns for all but a quarter of the numbers
// at most: those that leave the fewest rows out first, and of these the ones that
// stand together, and those of a half byte.
func windows(literals []literal, wide int) (found []window) {
	n := len(literals)
	usual, must, may := uint64(0), uint64(0), uint64(0)
	for b := range 63 {
		on := 0
		for _, l := range literals {
			on += int(l.value >> b & 1)
		}
		if 2*on > n {
			usual |= 1 << b
		}
		odd := min(on, n-on)
		if odd > 0 && b < port {
			may |= 1 << b
		}
		if 4*odd > n {
			must |= 1 << b // no quarter of the rows could account for it
		}
	}
	if bits.OnesCount64(must) > wide || must&^may != 0 {
		return nil
	}
	seen := map[uint64]bool{}
	for set := may; set > 0; set = (set - 1) & may { // every part of it
		if n := bits.OnesCount64(set); n < 2 || n > wide || must&^set != 0 {
			continue
		}
		w, rows := windowOf(literals, usual, set, wide)
		if n := len(w.strays); n > 0 && 4*n <= len(literals) && !seen[rows] {
			seen[rows] = true
			found = append(found, w)
		}
	}
	slices.SortStableFunc(found, func(a, b window) int {
		return cmp.Or(len(a.strays)-len(b.strays), after(b.together())-after(a.together()), after(b.halfByte())-after(a.halfByte()), a.where[0]-b.where[0])
	})
	return found[:min(len(found), mostWindows)]
}

func after(first bool) int {
	if first {
		return 1
	}
	return 0
}

// windowOf gives the columns that hold some bits, and which rows stray from them,
// as a set too.
func windowOf(literals []literal, usual, set uint64, wide int) (w window, rows uint64) {
	keep := func(set uint64) {
		all, common := uint64(0), ^uint64(0)
		for _, l := range literals {
			if v := uint64(l.value); (v^usual)&^set == 0 {
				all, common = all|v, common&v
			}
		}
		w.moving, w.common = all&^common, common
	}
	if keep(set); bits.OnesCount64(w.moving) < 2 {
		return w, 0
	}
	w.where = fourBits(w.moving)
	if wide == 2 {
		w.where = twoBits(w.moving)
	}
	for i, l := range literals {
		if (uint64(l.value)^usual)&^setOf(w.where) != 0 {
			w.strays, rows = append(w.strays, i), rows|1<<i
		}
	}
	keep(setOf(w.where)) // they may hold more rows than the bits did
	return w, rows
}

func setOf(where []int) (set uint64) {
	for _, b := range where {
		set |= 1 << b
	}
	return set
}

func (w window) together() bool { return w.where[0]-w.where[len(w.where)-1] == len(w.where)-1 }

func (w window) halfByte() bool { return w.where[0]/4 == w.where[len(w.where)-1]/4 }

// strayTable makes the table of a window.
func (r *reader) strayTable(literals []literal, name string, line int, w window) Table {
	t := r.packedTable(literals, name, line, w.where)
	like, common := 0, w.common
	for _, i := range w.strays {
		common &= uint64(literals[i].value)
	}
	t.Notes = append(append(t.Notes, bitNotes(w.where, w.moving, common)...), octalNotes(literals, r.language)...)
	for slices.Contains(w.strays, like) {
		like++
	}
	rest := w.common &^ setOf(t.Bits)
	for _, i := range w.strays {
		t.Rows[i].stray = &stray{
			beyond: bitsOf((uint64(literals[i].value) ^ rest) &^ setOf(t.Bits)),
			where:  t.Bits, rest: rest, digits: literals[i].digits, like: literals[like],
		}
	}
	return t
}

// goesRound says whether the rows lead round one way but for so many steps, in some pairing of the columns and with either level for on. It costs far less than
// an alignment: a file may hold many lists.
func (t *Table) goesRound(asked Pins, slips int) bool {
	pins := pinsOf(t, asked)
	tries := pairings[:]
	if pins != CoilEnds {
		tries = pairings[:1] // the straight one
	}
	for _, low := range []bool{false, true} {
		j, _ := judgeOf(t, pins, low)
		for _, coils := range tries {
			if j.wrongSteps(wiringOf(coils)) <= slips {
				return true
			}
		}
	}
	return false
}

// wrongSteps holds each row that is none of the strays against the next, and counts
// where the field does not go on by a step, the same way as mostly.
func (j judge) wrongSteps(wiring sequence.Permutation) int {
	rows := j.at(wiring)
	n := len(rows)
	var wrong [2]int
	var size [2]float64
	for i, r := range rows {
		k := (i + 1) % n
		if j.stray(i) != nil || j.stray(k) != nil {
			continue
		}
		from, ok := fieldOf(r)
		to, ok2 := fieldOf(rows[k])
		for way, step := range []float64{sequence.Between(from, to), sequence.Between(to, from)} {
			if !ok || !ok2 || step <= 0 || step > 90 || n < 6 && size[way] != 0 && step != size[way] {
				wrong[way]++
				continue
			}
			size[way] = step
		}
	}
	return min(wrong[0], wrong[1])
}

// fieldOf gives the field of a row that can be one of an order.
func fieldOf(r sequence.Row) (degrees float64, ok bool) {
	if r.BothOn(0) || r.BothOn(1) {
		return 0, false
	}
	return r.Field().Degrees()
}
