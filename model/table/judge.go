package table

import (
	"fmt"

	"coilwalk/sequence"
)

// Question is what a table is to be held against.
type Question struct {
	Wiring    *sequence.Permutation // the coil end that each column drives; nil when nobody knows
	Leads     [4]string             // the lead on each column's output; "" when nobody knows
	Drive     sequence.Drive        // how the winding is fed
	AnyDrive  bool                  // the drive is not known: what one of the drives forbids is a fault
	Direction sequence.Direction    // that the table is meant to go; Standing when nobody says
	Pins      Pins                  // what the columns are
	ActiveLow bool                  // a 0 switches an output on
}

// Verdict is what is found.
type Verdict struct {
	Table     *Table
	Pins      Pins // what the columns were taken for
	Pairings  []Pairing
	Wiring    *sequence.Permutation // as given
	Taken     sequence.Permutation  // that the rest is reported in
	Sound     bool
	Mode      string // wave, full, half, mixed or none
	Direction sequence.Direction
	Rows      []JudgedRow
	Outputs   []sequence.Row // the same rows, as they drive four outputs
	Faults    []Fault
	Cures     []Cure
	Notes     []string
}

// Pairing is one of the three ways to make two coils out of four columns.
type Pairing struct {
	Coils [2][2]int // columns from 1, the plus end first
	Sound bool
	Mode  string
}

// JudgedRow is a row with the field it sets up.
type JudgedRow struct {
	Outputs  string
	Text     string // as written
	Line     int
	FieldDeg float64
	HasField bool
	StepDeg  float64 // from the last row before that has a field, round the table; −180 < step ≤ 180
	HasStep  bool
}

// Fault is something wrong, with the row at which it shows, from 1; 0 when it
// is in the table as a whole.
type Fault struct {
	Kind string
	Row  int
	Text string
}

// Cure is one change that makes the table sound.
type Cure struct {
	Order     [4]int         // the columns that should drive A+ B+ A- B-
	Swap      *[2]int        // the two columns, or leads, to exchange; nil where only rows are to be put right
	Rows      []sequence.Row // the table with its rows put right, as on outputs 1 to 4, its columns as they stand; nil where only columns or leads change
	Direction sequence.Direction
	Text      string

	changes []change // that make the rows, for Written
	low     bool     // a 0 switches an output on
}

// pairings in the order in which they are reported: as in field order first.
var pairings = [3][2][2]int{{{1, 3}, {2, 4}}, {{1, 2}, {3, 4}}, {{1, 4}, {2, 3}}}

// wiringOf gives the columns of a pairing their ends.
func wiringOf(coils [2][2]int) (p sequence.Permutation) {
	p[coils[0][0]-1], p[coils[0][1]-1] = sequence.APlus, sequence.AMinus
	p[coils[1][0]-1], p[coils[1][1]-1] = sequence.BPlus, sequence.BMinus
	return p
}

// Judge holds a table against a question.
//
// A table with no wiring beside it is sound when it is so for one pairing of
// its columns into coils: exchanging columns is then just another wiring.
func Judge(t *Table, q Question) Verdict {
	v := Verdict{Table: t, Wiring: q.Wiring, Mode: none}
	v.Pins = pinsOf(t, q.Pins)
	j, paused := judgeOf(t, v.Pins, q.ActiveLow)
	j.strict = q.AnyDrive || q.Drive == sequence.Unipolar
	if paused {
		v.Notes = append(v.Notes, "Each row is followed by one with all outputs off; the rows between are judged. While all is off nothing holds the rotor.")
	}
	v.take(j, q)
	j.wiring = v.Taken
	v.Rows, v.Outputs = j.judged(), j.rows
	if p, ok := j.pattern(v.Taken); ok {
		v.Sound, v.Mode, v.Direction = true, p.mode.Name, p.direction
		v.againstDirection(j, q)
	} else if !v.inverted(j) {
		v.findFaults(j, q)
	}
	v.digits(t, q)
	return v
}

// inverted is a table that is sound once every level is turned round: outputs
// that are on at 0.
func (v *Verdict) inverted(j judge) bool {
	if v.Pins != CoilEnds {
		return false
	}
	other := j
	other.rows, other.low = levelled(j.rows, true), !j.low
	tries := []sequence.Permutation{v.Taken}
	if v.Wiring == nil {
		tries = nil
		for _, coils := range pairings {
			tries = append(tries, wiringOf(coils))
		}
	}
	for _, p := range tries {
		if found, ok := other.pattern(p); ok {
			v.Faults = append(v.Faults, inverted("a sound "+found.mode.Name+" order"))
			c := rowsCure(j, other.rows, found.direction)
			c.Text = "exchange 0 and 1 in every row, or say --active low where the inputs are so; it then turns " + wayWords[found.direction]
			if j.low {
				c.Text = "exchange 0 and 1 in every row, or say --active high where the inputs are so; it then turns " + wayWords[found.direction]
			}
			v.Cures = append(v.Cures, c)
			return true
		}
		if v.invertedBut(j, other, p) {
			return true
		}
	}
	return false
}

func inverted(what string) Fault {
	return Fault{Kind: "inverted", Text: fmt.Sprintf(
		"Every level is the wrong way round: with 0 for on it is %s. If your driver's inputs are active low, say so with --active low; if not, exchange 0 and 1 in the table.", what)}
}

// take settles the pairing that the rest is reported in.
func (v *Verdict) take(j judge, q Question) {
	v.Taken = sequence.Straight
	if v.Pins == CoilEnds {
		first := -1
		for i, coils := range pairings {
			p, sound := j.pattern(wiringOf(coils))
			v.Pairings = append(v.Pairings, Pairing{Coils: coils, Sound: sound, Mode: p.name(sound)})
			if sound && first < 0 {
				first = i
			}
		}
		if first >= 0 {
			v.Taken = wiringOf(pairings[first])
		}
		if first < 0 && q.Wiring == nil {
			if i, clearly := j.nearestPairing(); clearly || j.strays() {
				first = i
				v.Taken = wiringOf(pairings[first])
			}
		}
		if q.Wiring == nil && first >= 0 {
			c := pairings[first]
			v.Notes = append(v.Notes, fmt.Sprintf("Columns %d and %d must be the two ends of one coil, columns %d and %d those of the other.", c[0][0], c[0][1], c[1][0], c[1][1]))
		}
	}
	if q.Wiring != nil {
		v.Taken = *q.Wiring
	}
}

// againstDirection compares a sound table with the way it is meant to go.
func (v *Verdict) againstDirection(j judge, q Question) {
	if q.Direction == sequence.Standing || q.Direction == v.Direction {
		return
	}
	v.Sound = false
	v.Faults = append(v.Faults, Fault{Kind: "direction-reversed", Text: fmt.Sprintf(
		"The table goes %s where %s is meant: the two ends of one coil are exchanged, or it is walked from the wrong end.", going[v.Direction], q.Direction)})
	if v.Pins != CoilEnds {
		c := walkedBack(j, q.Direction)
		c.Text = "walk the table from its other end, or exchange the two ends of one coil at the plug; it then turns " + wayWords[q.Direction]
		v.Cures = append(v.Cures, c)
		return
	}
	for i := range 4 {
		for k := i + 1; k < 4; k++ {
			if v.Taken[i].Opposite() == v.Taken[k] {
				v.addSwap(i, k, q.Direction, q)
			}
		}
	}
}

// digits is the case of literals that are sound only when their digits are
// read as bits: C takes 0110 for octal, and 1000 for a thousand.
func (v *Verdict) digits(t *Table, q Question) {
	if t.Digits == nil || v.Sound {
		return
	}
	asBits := *t
	asBits.Rows, asBits.Digits = t.Digits, nil
	inner := Judge(&asBits, q)
	if !inner.Sound {
		return
	}
	bad := 0
	for i, r := range t.Digits {
		if r.other {
			bad = i
			break
		}
	}
	v.Mode, v.Direction, v.Cures = none, sequence.Standing, nil
	v.Faults = []Fault{{Kind: "literal-base", Row: bad + 1, Text: fmt.Sprintf(
		"%s is not the pattern of bits that it looks like: the language takes it as a number in another base. Write 0b%s or 0x%X, and so in every row. Read as bits the table is a sound %s order going %s.",
		t.Rows[bad].Text, t.Digits[bad].Text, patternValue(t.Digits[bad].Text), inner.Mode, going[inner.Direction])}}
	c := Cure{Order: [4]int{1, 2, 3, 4}, Rows: inner.Outputs, Direction: inner.Direction, low: q.ActiveLow,
		Text: "write 0b before the digits of every row; it then turns " + wayWords[inner.Direction]}
	for i, r := range t.Digits {
		if len(t.Digits) == len(inner.Outputs) { // none of them is a pause
			c.changes = append(c.changes, change{"set", i, inner.Outputs[i], "0b" + r.Text})
		}
	}
	v.Cures = append(v.Cures, c)
}

func bitText(levels []int) string {
	s := ""
	for _, l := range levels {
		s += string(rune('0' + l))
	}
	return s
}

func bitValue(levels []int) int {
	v := 0
	for _, l := range levels {
		v = v<<1 | l
	}
	return v
}
