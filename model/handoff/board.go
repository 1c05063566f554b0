package handoff

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"coilwalk/model/files"
	"coilwalk/sequence"
)

// Board is how the four outputs sit on the person's controller.
type Board struct {
	Port      string // the register that holds them, as PORTB; "" when nobody says
	Bits      [4]int // the bit of outputs 1 to 4 there
	Pins      [4]int // their pin numbers, for what sets them one by one
	Numbered  bool   // whether pin numbers were given
	ActiveLow bool   // a low pin switches its coil on
}

// Plain is the board that is taken when nobody says: outputs 1 to 4 on bits 0 to
// 3, high is on.
var Plain = Board{Bits: [4]int{0, 1, 2, 3}, Pins: [4]int{2, 3, 4, 5}}

// MostBit is the highest bit of a port, as the reader of tables knows ports.
const MostBit = 15

// mostPin bounds pin numbers; no controller has so many.
const mostPin = 255

var register = regexp.MustCompile(`^[A-Za-z_][A-Za-z0-9_]{0,39}$`)

// SetPort takes the name of the port's register.
func (b *Board) SetPort(text string) error {
	if !register.MatchString(text) {
		return fmt.Errorf("%s is no name of a register; one is wanted as it stands in source, as PORTB", files.Quoted(text))
	}
	b.Port = text
	return nil
}

// SetBits takes the bits of outputs 1 to 4, as "0,1,2,3".
func (b *Board) SetBits(text string) (err error) {
	b.Bits, err = four(text, MostBit, "bit")
	return err
}

// SetPins takes the pin numbers of outputs 1 to 4, as "2,3,4,5".
func (b *Board) SetPins(text string) (err error) {
	b.Pins, err = four(text, mostPin, "pin")
	b.Numbered = err == nil
	return err
}

func four(text string, most int, what string) (n [4]int, err error) {
	parts := strings.Split(text, ",")
	if len(parts) != len(n) {
		return n, fmt.Errorf("%s: four %ss are wanted, those of outputs 1 to 4, as 2,3,4,5", files.Quoted(text), what)
	}
	seen := map[int]bool{}
	for k, part := range parts {
		v, err := strconv.Atoi(strings.TrimSpace(part))
		if err != nil || v < 0 || v > most {
			return n, fmt.Errorf("%s is no %s; a number from 0 to %d is wanted", files.Quoted(strings.TrimSpace(part)), what, most)
		}
		if seen[v] {
			return n, fmt.Errorf("%s %d stands there twice; each output has its own", what, v)
		}
		seen[v], n[k] = true, v
	}
	return n, nil
}

// Mask gives the bits of the four outputs.
func (b Board) Mask() (mask uint16) {
	for _, bit := range b.Bits {
		mask |= 1 << bit
	}
	return mask
}

// Word gives what the port has to hold, within the mask, for outputs to be on.
func (b Board) Word(row sequence.Row) (word uint16) {
	for k, v := range row {
		if (v > 0) != b.ActiveLow {
			word |= 1 << b.Bits[k]
		}
	}
	return word
}

// row undoes Word.
func (b Board) row(word uint16) (row sequence.Row) {
	for k, bit := range b.Bits {
		if (word>>bit&1 == 1) != b.ActiveLow {
			row[k] = 1
		}
	}
	return row
}

// Levels gives the levels of the pins of outputs 1 to 4, 1 being high.
func (b Board) Levels(row sequence.Row) (levels [4]int) {
	for k, v := range row {
		if (v > 0) != b.ActiveLow {
			levels[k] = 1
		}
	}
	return levels
}

// wide gives the bits of the smallest whole number that holds the mask.
func (b Board) wide() int {
	if b.Mask() > 0xff {
		return 16
	}
	return 8
}

// level says which level switches a coil on.
func (b Board) level() string {
	if b.ActiveLow {
		return "low"
	}
	return "high"
}
