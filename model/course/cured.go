package course

import (
	"fmt"

	"coilwalk/model/table"
	"coilwalk/sequence"
)

// Swaps lists the exchanges of two leads that cure what is wrong with the order or its
// direction; none where that is well, or where no wiring was stated.
func (v *Verdict) Swaps() []Swap {
	for _, f := range v.Faults {
		if len(f.Swaps) > 0 {
			return f.Swaps
		}
	}
	return nil
}

// Cured gives the wiring after an exchange of two leads, and a cycle of the rows that were
// recorded, on or off, as on outputs 1 to 4; ok is false where they are of no whole mode.
func (v *Verdict) Cured(s Swap) (rows []sequence.Row, wiring sequence.Permutation, ok bool) {
	mode, most := sequence.Mode{}, int64(0)
	for _, r := range v.Runs {
		for _, m := range sequence.WholeModes() {
			if m.Name == r.Mode && r.Rows > most {
				mode, most = m, r.Rows
			}
		}
	}
	if most == 0 || v.Wiring == nil {
		return nil, wiring, false
	}
	wiring = v.Wiring.Swapped(s.Outputs[0]-1, s.Outputs[1]-1)
	way := int64(s.Direction)
	if way == 0 { // they went as far back as forth
		way = 1
	}
	o := mode.Order()
	for k := range o.Len() {
		rows = append(rows, o.Row(way*int64(k)).Onto(wiring))
	}
	return rows, wiring, true
}

// endSwaps are the exchanges of the two ends of a coil, each of which turns the order
// round.
func (v *Verdict) endSwaps(q Question) (swaps []Swap) {
	if v.Wiring == nil || q.Pins == table.TwoLine || q.Pins == table.PhaseEnable {
		return nil
	}
	for i := range 4 {
		for k := i + 1; k < 4; k++ {
			if v.Taken[i].Opposite() == v.Taken[k] {
				swaps = append(swaps, Swap{Outputs: [2]int{i + 1, k + 1}, Direction: q.Direction})
			}
		}
	}
	return swaps
}

// tableCure says which row of the program's table to change, where the table has the
// slip: by its number, as far as that can be known, and by the row before it.
func (v *Verdict) tableCure(f *Fault) string {
	if f.Every < 2 || f.Times < 2 || f.Stood || f.raw < 1 {
		return ""
	}
	at := (f.Row-1)%f.Every + 1
	after := written(v.Course.Row(f.raw - 1).Levels)
	do, which := "", "it is"
	switch f.Kind {
	case "wrong-row", "both-ends-on", "no-field":
		do = fmt.Sprintf("leave out the row %s that comes after %s", f.Levels, after)
		if f.Wanted != "" {
			do = fmt.Sprintf("make the row %s that comes after %s into %s", f.Levels, after, f.Wanted)
		}
	case "rows-exchanged":
		do, which = fmt.Sprintf("exchange the two rows that come after %s", after), "the first of them is"
	default:
		return ""
	}
	return fmt.Sprintf("In the program's table %s: counted from the first row that was recorded %s row %d of %d.%s", do, which, at, f.Every, besides[f.Kind])
}

// besides is what else cures a slip that comes in every cycle.
var besides = map[string]string{
	"wrong-row":    " If it is right there, look what else writes the port.",
	"both-ends-on": " In a unipolar winding the halves cancel and heat twice; a bridge whose two inputs are one half-bridge each only brakes, but one with high and low side apart is shorted.",
	"no-field":     " If it is not there, write the new row in one go: while all is off nothing holds the rotor.",
}
