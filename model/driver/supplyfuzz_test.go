package driver

import (
	"math"
	"testing"

	"coilwalk/model/files"
	"coilwalk/testdata/bounds"
)

// FuzzSupplies gives any text to what reads a supply: one comes out that has a
// voltage, or a sentence.
func FuzzSupplies(f *testing.F) {
	for _, text := range []string{"12V", "usb", "USB3", "ubs", "0V", "-5V", "1e400V", ".5 kV", "12", "", " ", "\x1b[2J", "५V"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		bounds.Hold(t, len(text), 4<<20, 4000, func() {
			s, err := ParseSupply(text)
			if err != nil {
				if err.Error() == "" {
					t.Fatalf("%q is told nothing", text)
				}
				return
			}
			if !(s.Volts > 0) || math.IsInf(s.Volts, 0) || s.Ohms < 0 || s.Title == "" || files.Plain(s.Title) != s.Title {
				t.Fatalf("%q reads %+v", text, s)
			}
		})
	})
}
