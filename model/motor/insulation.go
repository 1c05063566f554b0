package motor

import (
	"fmt"
	"strings"

	"coilwalk/model/files"
)

// Insulation is the thermal class of a winding's insulation by its letter; "" when
// not known.
type Insulation string

// classes are the highest winding temperatures in °C, continuously, for the letters
// (Croylek, "Temperature classes of electrical insulation"; the same in IEC 60085,
// from memory).
var classes = []struct {
	letter  Insulation
	celsius float64
}{{"Y", 90}, {"A", 105}, {"E", 120}, {"B", 130}, {"F", 155}, {"H", 180}}

// Celsius gives the highest winding temperature of a class; 0 when not known.
func (i Insulation) Celsius() float64 {
	for _, c := range classes {
		if c.letter == i {
			return c.celsius
		}
	}
	return 0
}

// ParseInsulation reads the letter of a class.
func ParseInsulation(text string) (Insulation, error) {
	letter := Insulation(strings.ToUpper(strings.TrimSpace(text)))
	if letter.Celsius() == 0 {
		return "", fmt.Errorf("%s is no class of insulation; one of Y, A, E, B, F, H is wanted", files.Quoted(text))
	}
	return letter, nil
}

// String gives the letter.
func (i Insulation) String() string { return string(i) }
