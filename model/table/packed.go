package table

import (
	"fmt"
	"math/bits"
	"strings"
)

// port is the most bits that outputs are sought in.
const port = 16

// packed makes tables of rows that are packed into numbers: finds the bits that
// move, and with eight of them two motors.
func (r *reader) packed(literals []literal, name string, line int) error {
	all, common := uint64(0), ^uint64(0)
	for _, l := range literals {
		all, common = all|uint64(l.value), common&uint64(l.value)
	}
	moving := all &^ common
	if n := bits.OnesCount64(moving); n > 4 || n > 2 && r.options.Pins == TwoLine {
		if t, ok := r.strayed(literals, name, line); ok {
			return r.add(t)
		}
	}
	for _, l := range literals {
		if l.value >= 1<<port {
			r.skip(name, line, fmt.Sprintf("%s is beyond a port of %d bits", shortened(l.text), port))
			return nil
		}
	}
	octal := octalNotes(literals, r.language)
	switch count := bits.OnesCount64(moving); {
	case count == 0:
		r.skip(name, line, "all its numbers are the same")
	case len(literals) < 3:
		r.skip(name, line, "two numbers are no order")
	case count > 4 && twoMotors(literals, moving):
		name = r.called(name)
		for motor, shift := range []int{0, 4} {
			t := r.packedTable(literals, name, line, []int{shift + 3, shift + 2, shift + 1, shift})
			t.Motor = motor + 1
			t.Notes = append(t.Notes, "Eight bits move: two motors in one byte, motor 1 in bits 0 to 3, motor 2 in bits 4 to 7.")
			if count < 8 {
				t.Notes[len(t.Notes)-1] = fmt.Sprintf("Bits in both halves of the byte move, %d in all: two motors, motor 1 in bits 0 to 3, motor 2 in bits 4 to 7.", count)
			}
			t.Notes = append(t.Notes, octal...)
			if err := r.add(t); err != nil {
				return err
			}
		}
	case count > 4 && oddOne(literals) != nil:
		l := oddOne(literals)
		r.skip(name, l.line, fmt.Sprintf("%s moves bits that no other row moves: is it mistyped?", shortened(l.text)))
	case count > 4:
		why := fmt.Sprintf("its numbers move %d bits; the rows of a motor move four", count)
		if len(octal) > 0 {
			why += "; " + strings.TrimSuffix(octal[0], ".")
		}
		r.skip(name, line, why)
	default:
		where := fourBits(moving)
		if count <= 2 && r.options.Pins == TwoLine {
			where = twoBits(moving)
		}
		t := r.packedTable(literals, name, line, where)
		t.Notes = append(append(t.Notes, bitNotes(where, moving, common)...), octal...)
		if count == 2 && r.options.Pins == Auto {
			t.Notes = append(t.Notes, "Only two bits move; if they are the polarity lines of the two phases, --pins two-line takes them so.")
		}
		return r.add(t)
	}
	return nil
}

// oddOne finds the one number without which all others move four bits at most,
// as in a table with a slip of the hand.
func oddOne(literals []literal) (odd *literal) {
	if len(literals) < 6 || len(literals) > mostTyped {
		return nil
	}
	for i := range literals {
		all, common := uint64(0), ^uint64(0)
		for k, l := range literals {
			if k != i {
				all, common = all|uint64(l.value), common&uint64(l.value)
			}
		}
		if bits.OnesCount64(all&^common) <= 4 {
			if odd != nil {
				return nil // either may be it
			}
			odd = &literals[i]
		}
	}
	return odd
}

// twoMotors says whether numbers that move more than four bits are the rows of
// two motors: in most rows, each half of the byte has as many bits on as rows of
// one mode have, always one, always two, one and two in turn, or none.
// Else a sine or a list of times would be read so.
func twoMotors(literals []literal, moving uint64) bool {
	if moving > 0xff || moving&0x0f == 0 || moving&0xf0 == 0 {
		return false
	}
	for shift := 0; shift <= 4; shift += 4 {
		var on []int
		for _, l := range literals {
			if n := bits.OnesCount64(uint64(l.value) >> shift & 0xf); n > 0 {
				on = append(on, n)
			}
		}
		fits := 0
		for start := 1; start <= 2; start++ {
			always, turns := 0, 0
			for i, n := range on {
				if n == start {
					always++
				}
				if n == 1+(start+i)%2 {
					turns++
				}
			}
			fits = max(fits, always, turns)
		}
		if 2*len(on) < len(literals) || 4*fits < 3*len(on) {
			return false
		}
	}
	return true
}

// fourBits gives the four bits, highest first, in which all moving ones are:
// those themselves, or the half byte that holds them, or four in a row, or else
// those and the lowest others.
func fourBits(moving uint64) []int {
	low, high := bits.TrailingZeros64(moving), 63-bits.LeadingZeros64(moving)
	chosen := moving
	switch {
	case bits.OnesCount64(moving) == 4:
	case low/4 == high/4:
		chosen = 0xf << (low / 4 * 4)
	case high-low < 4:
		chosen = 0xf << low
	default:
		for b := 0; bits.OnesCount64(chosen) < 4; b++ {
			chosen |= 1 << b
		}
	}
	return bitsOf(chosen)
}

// twoBits gives the two bits of polarity lines, of which one may be stuck.
func twoBits(moving uint64) []int {
	if bits.OnesCount64(moving) == 2 {
		return bitsOf(moving)
	}
	return bitsOf(3 << (bits.TrailingZeros64(moving) / 2 * 2))
}

// bitsOf lists the bits that are set, highest first.
func bitsOf(set uint64) (where []int) {
	for b := 63; b >= 0; b-- {
		if set>>b&1 == 1 {
			where = append(where, b)
		}
	}
	return where
}

// bitNotes say which bits the columns are, where that is not the low four, and
// what the others do.
func bitNotes(where []int, moving, common uint64) (notes []string) {
	last := len(where) - 1
	together := where[0]-where[last] == last
	switch {
	case together && where[last] > 0:
		notes = append(notes, fmt.Sprintf("The table moves bits %d to %d: shift %d.", where[last], where[0], where[last]))
	case !together:
		notes = append(notes, fmt.Sprintf("The bits that move do not stand together; the columns are bits %s.", listed(where)))
	}
	taken := uint64(0)
	for _, b := range where {
		taken |= 1 << b
	}
	if still := bitsOf(taken &^ moving); len(still) > 0 {
		notes = append(notes, fmt.Sprintf("Of these, %s never %s.", bitWords(still), plural(still, "moves", "move")))
	}
	if on := common &^ taken; on != 0 {
		still := bitsOf(on)
		notes = append(notes, fmt.Sprintf("Besides, %s %s on in every row (0x%02X); %s left out.", bitWords(still), plural(still, "is", "are"), on, plural(still, "it is", "they are")))
	}
	return notes
}

func plural(of []int, one, more string) string {
	if len(of) == 1 {
		return one
	}
	return more
}

func bitWords(of []int) string { return plural(of, "bit ", "bits ") + listed(of) }

// listed writes numbers as people do: 7, 5 and 2.
func listed(of []int) string {
	var b strings.Builder
	for i, n := range of {
		switch {
		case i == 0:
		case i == len(of)-1:
			b.WriteString(" and ")
		default:
			b.WriteString(", ")
		}
		fmt.Fprint(&b, n)
	}
	return b.String()
}

// octalNotes tell of the first number that its leading 0 makes octal.
func octalNotes(literals []literal, l Language) []string {
	for _, lit := range literals {
		if lit.leadingZero() {
			return []string{fmt.Sprintf("%s in line %d is octal in %s: %d.", shortened(lit.text), lit.line, l, lit.value)}
		}
	}
	return nil
}

// packedTable unpacks rows; where lists the bits of the columns, highest first.
func (r *reader) packedTable(literals []literal, name string, line int, where []int) Table {
	said := sameBits(where, r.said)
	paired, from := pairedBits(where, r.paired)
	switch where = turned(where, r.options.Bits); {
	case said:
		where = r.said
	case paired != nil:
		where = paired
	}
	t := Table{Name: name, Line: line, Bits: where}
	for _, b := range where {
		t.Columns = append(t.Columns, fmt.Sprintf("bit %d", b))
	}
	other := "lsb"
	if r.options.Bits == LSBFirst {
		other = "msb"
	}
	last := len(where) - 1
	switch {
	case said:
		t.Notes = append(t.Notes, fmt.Sprintf("Columns 1 to %d are bits %s, as the file says of its outputs; --bits msb or lsb says otherwise.", last+1, listed(where)))
	case paired != nil:
		t.Notes = append(t.Notes, fmt.Sprintf("Columns 1 to %d are bits %s: the comment in line %d says that %s is bit %d; --bits msb or lsb says otherwise.", last+1, listed(where), from.line, from.name(), where[0]))
	case r.options.Bits == AsSaid:
		t.Notes = append(t.Notes, fmt.Sprintf("Nothing says which output a bit is: column 1 is taken for bit %d, column %d for bit %d, and phases, wanted rows and direction hang on that; --bits %s turns it round.", where[0], last+1, where[last], other))
	default:
		t.Notes = append(t.Notes, fmt.Sprintf("Column 1 is bit %d, column %d is bit %d; --bits %s turns that round.", where[0], last+1, where[last], other))
	}
	for _, l := range literals {
		t.Rows = append(t.Rows, Row{Line: l.line, Text: l.text, Levels: unpack(int(l.value), where), span: l.span, literals: []literal{l}})
	}
	return t
}

// turned gives bits in the order of the columns.
func turned(highestFirst []int, order BitOrder) []int {
	if order != LSBFirst {
		return highestFirst
	}
	out := make([]int, len(highestFirst))
	for i, b := range highestFirst {
		out[len(out)-1-i] = b
	}
	return out
}

func unpack(value int, where []int) []int {
	levels := make([]int, len(where))
	for i, b := range where {
		levels[i] = value >> b & 1
	}
	return levels
}
