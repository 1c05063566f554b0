package table

import (
	"fmt"
	"slices"

	"coilwalk/sequence"
)

// strays says whether a row moves bits that no other row moves. Whatever reaches
// the outputs, that is no row of an order.
func (j judge) strays() bool {
	for i := range j.from {
		if j.stray(i) != nil {
			return true
		}
	}
	return false
}

func (j judge) stray(i int) *stray {
	if i < len(j.from) { // rows put right are from no file
		return j.from[i].stray
	}
	return nil
}

// strayRow says what stands in such a row.
func (j judge) strayRow(i int) string {
	s := j.stray(i)
	return fmt.Sprintf("Row %d (line %d) is %s, which moves %s; the other rows move %s only.",
		i+1, j.from[i].Line, shortened(j.from[i].Text), bitWords(s.beyond), rangeWords(s.where))
}

// rangeWords name bits that may stand together, in whatever order.
func rangeWords(where []int) string {
	low, high := slices.Min(where), slices.Max(where)
	if len(where) > 2 && high-low == len(where)-1 {
		return fmt.Sprintf("bits %d to %d", low, high)
	}
	return bitWords(where)
}

// number gives the number that a row on the columns is in the file, in the place of
// one that strays; false where lines are no outputs.
func (j judge) number(i int, want sequence.Row) (v uint64, ok bool) {
	s := j.stray(i)
	if s == nil || j.pins == PhaseEnable {
		return 0, false
	}
	v = s.rest
	for c, b := range s.where {
		if (want[c] > 0) != j.low {
			v |= 1 << b
		}
	}
	return v, true
}

// wantedWords say what is to stand in a row: the number, where one strayed, and the
// columns.
func (j judge) wantedWords(i int, want sequence.Row) string {
	v, ok := j.number(i, want)
	if !ok {
		return j.bits(want)
	}
	text := j.stray(i).like.asWritten(v)
	if j.low {
		return text // its bits are not what is on
	}
	return fmt.Sprintf("%s (%s)", text, j.bits(want))
}

// wrongStray is a row that strays where the order has another.
func (j judge) wrongStray(i int, want sequence.Row, mode string) Fault {
	s := j.stray(i)
	if v, ok := j.number(i, want); ok && len(s.digits) > 2 && uint64(patternValue(s.digits)) == v {
		return Fault{Kind: "literal-base", Row: i + 1, Text: fmt.Sprintf(
			"%s in line %d is not the pattern of bits that it looks like: the language takes it as a number in another base. Write 0b%s or 0x%X. That is wanted here, as a %s order has it.",
			s.digits, j.from[i].Line, s.digits, v, mode)}
	}
	return Fault{Kind: "wrong-row", Row: i + 1, Text: fmt.Sprintf("%s %s is wanted here, as a %s order has it.", j.strayRow(i), j.wantedWords(i, want), mode)}
}

// strayFaults names every row that strays, where the others are no order.
func (v *Verdict) strayFaults(j judge) {
	for i := range j.rows {
		if j.stray(i) != nil {
			v.Faults = append(v.Faults, Fault{Kind: "wrong-row", Row: i + 1, Text: j.strayRow(i)})
		}
	}
}

// invertedBut is the case of rows that are an order with 0 for on, but for those
// that stray.
func (v *Verdict) invertedBut(j, other judge, wiring sequence.Permutation) bool {
	other.wiring = wiring
	near, strays := other.nearest(wiring), 0
	for i := range j.rows {
		if j.stray(i) != nil {
			strays++
		}
	}
	if strays == 0 || len(near.edits) != strays || len(j.nearest(v.Taken).edits) <= strays {
		return false
	}
	v.Faults = append(v.Faults, inverted(fmt.Sprintf("a %s order, but for what follows", near.mode.Name)))
	for _, e := range near.edits {
		v.Faults = append(v.Faults, other.slip(e, other.at(wiring), near.mode.Name))
	}
	return true
}
