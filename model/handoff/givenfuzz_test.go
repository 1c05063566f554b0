package handoff

import (
	"testing"
	"unicode/utf8"

	"coilwalk/model/files"
	"coilwalk/testdata/bounds"
)

// FuzzBoards gives any text to what reads a register, bits, pins and intervals: what
// is taken is within its bounds, what is refused is one plain line.
func FuzzBoards(f *testing.F) {
	for _, text := range []string{"PORTB", "PORT B", "0,1,2,3", "2,3,4,5", "0,0,1,2", "255,256,1,2", "20000,15000\n12000 # slowly", "1 2 3", "-1", "99999999999999999999", "\x1b[2J", "\u202e", ",,,", "#"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		bounds.Hold(t, len(text), 4<<20, 1000, func() {
			var b Board
			for _, set := range []func(string) error{b.SetPort, b.SetBits, b.SetPins} {
				if err := set(text); err != nil {
					plainly(t, text, err)
				}
			}
			for k := range 4 {
				if b.Bits[k] < 0 || b.Bits[k] > MostBit || b.Pins[k] < 0 || b.Pins[k] > mostPin {
					t.Fatalf("%q reads %+v", text, b)
				}
			}
			intervals, err := ParseIntervals(text)
			if err != nil {
				plainly(t, text, err)
				return
			}
			for _, ticks := range intervals {
				if ticks < 1 {
					t.Fatalf("%q reads %v", text, intervals)
				}
			}
			p, err := Pace{ClockHz: 16e6, Prescale: 8}.With(intervals)
			if err != nil {
				plainly(t, text, err)
			} else if n := len(p.Intervals); n < 1 || n > mostInterval || !(p.Rate() > 0) {
				t.Fatalf("%q makes a pace of %d intervals, %g rows a second", text, n, p.Rate())
			}
		})
	})
}

func plainly(t *testing.T, text string, err error) {
	t.Helper()
	message := err.Error()
	if _, is := err.(*files.Complaint); !is {
		message = files.Shown(message) // as the command does
	}
	if message == "" || message != files.Plain(message) || !utf8.ValidString(message) {
		t.Fatalf("%.100q is told %.400q", text, message)
	}
}
