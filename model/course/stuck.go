package course

import "slices"

// stuckRows must follow the order on the other three pins for a pin to be called
// stuck: a whole cycle of half step leaves no chance for anything else.
const stuckRows = 8

// stuck is a pin that moves no more from the row at hand on, while the others go
// on as the run does.
func (f *follower) stuck() bool {
	if f.gait.size == 0 {
		return false
	}
	for pin := range 4 {
		if last, field, n := f.without(pin, f.i, f.field, f.gait); n >= stuckRows {
			f.tellStuck(pin, f.i, last)
			f.to(last, field)
			return true
		}
	}
	return false
}

// stuckFromStart is a pin that does not move from a run's first row on. The gait
// is what the others show.
func (f *follower) stuckFromStart() bool {
	for pin := range 4 {
		for _, g := range gaits {
			for field := range int8(eighths) {
				if !g.holds(field) || !f.others(pin, f.i, field) {
					continue
				}
				if last, at, n := f.without(pin, f.i, field, g); n >= stuckRows {
					f.gait = g
					f.tellStuck(pin, f.i, last)
					f.to(last, at)
					return true
				}
			}
		}
	}
	return false
}

// others says whether all pins but one are in row i as a field wants them.
func (f *follower) others(pin, i int, field int8) bool {
	want := f.levels[field]
	return len(want) > 0 && (f.Row(i).Levels^want[0])&^(1<<pin) == 0
}

// without follows the run on three pins from row i on, while the fourth stays as
// it is. It gives the last row that fits, the field there, and how many did.
// Rows that differ in the fourth pin alone can not be seen.
func (f *follower) without(pin, i int, field int8, g gait) (last int, at int8, n int) {
	level := f.Row(i).Levels >> pin & 1
	missed := 0
	for last, at = i, field; last+1 < f.n; {
		row := f.Row(last + 1)
		if row.Levels>>pin&1 != level || row.Flags != 0 || n > 0 && float64(f.Dwell(last)) > pauseTimes*float64(f.typical(last)) {
			break
		}
		next := (at + g.step()) & 7
		for k := 0; k < 2 && !f.others(pin, last+1, next) && f.others(pin, last, next); k++ {
			next = (next + g.step()) & 7
		}
		if !f.others(pin, last+1, next) {
			break
		}
		if f.levels[next][0]>>pin&1 != level {
			missed++
		}
		last, at, n = last+1, next, n+1
	}
	if missed == 0 {
		return i, field, 0 // it stays as the order wants it: nothing is stuck
	}
	return last, at, n
}

// tellStuck keeps the fault of a pin that is stuck over rows from … last.
func (f *follower) tellStuck(pin, from, last int) {
	kind := "stuck-low"
	if f.Row(from).Levels>>pin&1 == 1 {
		kind = "stuck-high"
	}
	raw := from + 1
	never := f.neverMoves(pin, from)
	if never {
		raw = f.start
	}
	f.fault(Fault{Kind: kind, At: f.Row(raw).At, Outputs: []int{pin + 1}, Count: last - from, Until: f.Row(last).At, raw: raw, Always: never})
}

// neverMoves says whether a pin has not moved before row i either.
func (f *follower) neverMoves(pin, i int) bool {
	for k := i; k > f.start; k-- {
		if (f.Row(k).Levels^f.Row(k-1).Levels)>>pin&1 == 1 {
			return false
		}
	}
	return true
}

// ofStuckPins puts what comes of a pin that is stuck together: it is told once,
// for as long as the pin does not move, and rows that look wrong meanwhile are
// its doing.
func (f *follower) ofStuckPins(faults []Fault) (out []Fault) {
	type span struct {
		at          int // in out
		first, last int // rows
	}
	var spans []span
	for _, t := range faults {
		if t.Kind != "stuck-low" && t.Kind != "stuck-high" {
			continue
		}
		first, last := f.still(t.Outputs[0]-1, t.raw)
		again := false
		for _, s := range spans {
			again = again || s.first == first && out[s.at].Outputs[0] == t.Outputs[0]
		}
		if again {
			continue
		}
		t.Always = first == 0 && last == f.n-1
		if t.Always {
			for first < f.n && f.code(first) >= eighths && first < t.raw {
				first++
			}
			t.raw = first
			t.At = f.Row(first).At
			first = 0
		}
		t.Until, t.Count = f.Row(last).At, last-t.raw
		spans = append(spans, span{len(out), first, last})
		out = append(out, t)
	}
	if len(spans) == 0 {
		return faults
	}
	for _, t := range faults {
		if t.Kind == "stuck-low" || t.Kind == "stuck-high" {
			continue
		}
		hidden := false
		for _, s := range spans {
			if t.raw <= s.first || t.raw > s.last+1 || timed[t.Kind] {
				continue
			}
			hidden = true
			if o := &out[s.at]; t.raw < o.raw && !o.Always {
				o.raw, o.At = t.raw, t.At
			}
		}
		if !hidden {
			out = append(out, t)
		}
	}
	slices.SortStableFunc(out, func(a, b Fault) int { return a.raw - b.raw })
	return out
}

// still gives the rows about row i over which a pin does not move.
func (f *follower) still(pin, i int) (first, last int) {
	for first = i; first > 0 && (f.Row(first).Levels^f.Row(first-1).Levels)>>pin&1 == 0; first-- {
	}
	for last = i; last+1 < f.n && (f.Row(last).Levels^f.Row(last+1).Levels)>>pin&1 == 0; last++ {
	}
	return first, last
}
