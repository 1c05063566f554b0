package handoff

import (
	"bytes"
	"errors"
	"fmt"
	"strings"
	"testing"
	"unicode"

	"pgregory.net/rapid"

	"coilwalk/model/motor"
	"coilwalk/model/travel"
	"coilwalk/sequence"
)

// flap is the invented motor of a greenhouse vent flap.
func flap(tb testing.TB) motor.Motor {
	tb.Helper()
	m, ok := motor.BuiltIn("vent-flap")
	if !ok {
		tb.Fatal("the vent flap is gone")
	}
	return m
}

// walkOf gives a walk of the vent flap in a mode on the plain board.
func walkOf(tb testing.TB, mode sequence.Mode) *Walk {
	tb.Helper()
	pace, err := Even(16_000_000, 8, 500)
	if err != nil {
		tb.Fatal(err)
	}
	return &Walk{Motor: flap(tb), Mode: mode, Board: Plain, Pace: pace, Rows: 16, Baud: UsualBaud}
}

// drawnWalk draws a walk on any board, wiring, mode and pace, for a kind.
func drawnWalk(t *rapid.T, kind Kind) *Walk {
	m, _ := motor.BuiltIn(rapid.SampledFrom(motor.Names()).Draw(t, "motor"))
	m.Drive = rapid.SampledFrom(m.Drives()).Draw(t, "drive")
	m.Wiring = rapid.SampledFrom(sequence.Permutations()).Draw(t, "wiring")
	// what a name or a lead may be called is for people to choose
	word := rapid.StringOfN(rapid.RuneFrom([]rune(`*/\"'#|<>?$-;{}`), unicode.Latin, unicode.Nd, unicode.Cf), 1, 30, -1)
	m.Name, m.Title, m.Origin = word.Draw(t, "name"), word.Draw(t, "title"), word.Draw(t, "origin")
	m.Ends[0] = motor.Lead(word.Draw(t, "lead"))
	w := &Walk{Motor: m, Board: Plain, IdleOff: rapid.Bool().Draw(t, "off")}
	w.Mode = rapid.SampledFrom(sequence.WholeModes()).Draw(t, "mode")
	if kind.Micro && rapid.Bool().Draw(t, "micro") {
		w.Mode, _ = sequence.Micro(rapid.IntRange(2, 16).Draw(t, "divide"), rapid.IntRange(0, 9).Draw(t, "levels"))
	}
	w.Stepper = kind.Stepper && rapid.Bool().Draw(t, "stepper")
	bits := rapid.SliceOfNDistinct(rapid.IntRange(0, MostBit), 4, 4, rapid.ID).Draw(t, "bits")
	w.Board.Bits = [4]int(bits)
	w.Board.ActiveLow = rapid.Bool().Draw(t, "low")
	if rapid.Bool().Draw(t, "ported") {
		w.Board.Port = "PORTD"
	}
	if kind.Name == Bench {
		drawBench(t, w)
		return w
	}
	pace := Pace{ClockHz: rapid.SampledFrom([]int64{1_000_000, 7_372_800, 16_000_000, 48_000_000}).Draw(t, "clock"), Prescale: rapid.SampledFrom([]int64{1, 8, 64}).Draw(t, "prescale")}
	intervals := []int64{rapid.Int64Range(2000, 100_000).Draw(t, "first us") * pace.ClockHz / pace.Prescale / 1_000_000}
	least := 50 * pace.ClockHz / pace.Prescale / 1_000_000
	for range rapid.IntRange(0, 30).Draw(t, "more") {
		last := intervals[len(intervals)-1]
		intervals = append(intervals, max(min(last, least), rapid.Int64Range((last+3)/4, last).Draw(t, "interval")))
	}
	var err error
	if w.Pace, err = pace.With(intervals); err != nil {
		t.Fatal(err)
	}
	w.Rows = rapid.Int64Range(int64(w.Mode.Rows()), 70).Draw(t, "rows")
	return w
}

// drawBench draws a board that the bench firmware can be for.
func drawBench(t *rapid.T, w *Walk) {
	w.Board.Port = rapid.SampledFrom([]string{"", "PORTB", "PORTD", "PORTA", "PORTL"}).Draw(t, "port")
	w.Board.Bits = [4]int(rapid.SliceOfNDistinct(rapid.IntRange(2, 7), 4, 4, rapid.ID).Draw(t, "port's bits"))
	if w.Board.Port == "PORTA" || w.Board.Port == "PORTL" || rapid.Bool().Draw(t, "numbered") {
		first := firmataPort * rapid.IntRange(1, 15).Draw(t, "port of pins")
		w.Board.Numbered, w.Board.Pins = true, [4]int(rapid.SliceOfNDistinct(rapid.IntRange(first, first+firmataPort-1), 4, 4, rapid.ID).Draw(t, "pins"))
	}
	w.Mode, w.Stepper = sequence.Half, false
	w.Baud = rapid.SampledFrom([]int64{9600, 19200, 38400, 57600}).Draw(t, "baud")
	w.Pace, _ = Even(rapid.SampledFrom([]int64{7_372_800, 8_000_000, 16_000_000, 20_000_000}).Draw(t, "hertz"), 8, 100)
}

// What is made is proven within Make: here is held that the proof never fails for
// what a person may ask for, and says what went in.
func TestWhatIsMadeReadsBack(t *testing.T) {
	for _, kind := range Kinds {
		t.Run(kind.Name, func(t *testing.T) {
			rapid.Check(t, func(t *rapid.T) {
				w := drawnWalk(t, kind)
				text, err := kind.Make(w)
				if err != nil {
					t.Fatalf("%v\n%s", err, kind.write(w))
				}
				if !bytes.Contains(text, []byte("Made by coilwalk.")) && kind.Name != "markdown" {
					t.Error("the head is missing")
				}
			})
		})
	}
}

// A proof that could not fail would prove nothing: each number of the tables and
// of the intervals, changed by itself, is seen.
func TestAChangedFileIsSeen(t *testing.T) {
	for _, kind := range Kinds {
		for _, stepper := range []bool{false, kind.Stepper} {
			w := walkOf(t, sequence.Half)
			w.Stepper = stepper
			var err error
			if w.Pace, err = w.Pace.With([]int64{54321, 43210, 32109}); err != nil {
				t.Fatal(err)
			}
			text, err := kind.Make(w)
			if err != nil {
				t.Fatal(err)
			}
			for _, change := range changes(kind) {
				changed := bytes.Replace(text, []byte(change[0]), []byte(change[1]), 1)
				if bytes.Equal(changed, text) {
					t.Errorf("%s: there is no %q to be changed", kind.Name, change[0])
				} else if kind.prove(w, changed) == nil {
					t.Errorf("%s: %q in the place of %q is not seen", kind.Name, change[1], change[0])
				}
			}
		}
	}
}

// changes are pairs of what stands in a file and what is put in its place.
func changes(kind Kind) [][2]string {
	switch kind.Name {
	case "vcd": // an edge, its time, and the end
		return [][2]string{{"0!\n#", "#"}, {"#27", "#28"}, {"\n1\"\n", "\n0\"\n"}}
	case "python", "micropython":
		return [][2]string{{"(0, 1, 1, 0)", "(0, 1, 0, 0)"}, {"43210", "43211"}, {"    (0, 0, 1, 0), # 5: A- (GN)\n", ""}}
	case "csv":
		return [][2]string{{"forward,5,0,0,1,0", "forward,5,0,1,1,0"}, {"0x0c", "0x0d"}, {"43210", "43211"}}
	case "json":
		return [][2]string{{`"word": 12`, `"word": 13`}, {"43210", "43211"}}
	case "markdown":
		return [][2]string{{"| 5 | 0 | 0 |", "| 5 | 0 | 1 |"}, {"0x0c", "0x0d"}, {"43210", "43211"}}
	case Bench:
		return [][2]string{{"PORT PORTB", "PORT PORTC"}, {"DDRB", "DDRD"}, {"BIT_2 1", "BIT_2 2"}, {"PIN_3 10", "PIN_3 12"}, {"COIL_ON 1", "COIL_ON 0"}, {"#define COIL_BIT_4 3\n", ""},
			{"57600UL", "38400UL"}, {"F_CPU 16000000UL", "F_CPU 8000000UL"}}
	case "text":
		return [][2]string{{"    5     0     0     1", "    5     0     1     1"}, {"0x0c", "0x0d"}, {"43210", "43211"}}
	case "c", "cpp", "rust":
		return [][2]string{{"    0x0c,", "    0x0d,"}, {"    0x06,", ""}, {"43210", "43211"}, {"32109,", ""}}
	}
	return [][2]string{{"what is to be changed in a file of " + kind.Name + " (say it in changes)", ""}}
}

// Microsteps are refused where a file could only hold bits; firmware holds no rows.
func TestMicrostepsNeedShares(t *testing.T) {
	micro, err := sequence.Micro(4, 0)
	if err != nil {
		t.Fatal(err)
	}
	for _, kind := range Kinds {
		_, err := kind.Make(walkOf(t, micro))
		if (err == nil) != (kind.Micro || kind.Name == Bench) || errors.Is(err, ErrUnproven) {
			t.Errorf("%s: %v", kind.Name, err)
		}
	}
}

// The walk of a recording, worked out by hand: full step, four rows each way, a
// ramp of 300 and 200 ticks; coils off between.
func TestMomentsOfAWalk(t *testing.T) {
	w := walkOf(t, sequence.Full)
	w.Rows, w.IdleOff, w.Pace.Intervals = 4, true, []int64{300, 200}
	moments, until := w.Moments()
	var said []string
	for _, m := range moments {
		said = append(said, fmt.Sprintf("%d:%s", m.At, m.Row.Bits()))
	}
	// on at 300; rows from 600 on, after 300, 200, 300 ticks; the last stands 300
	want := "0:0000 300:1100 600:0110 900:0011 1100:1001 1400:1100 1700:0000 4100:1100 4400:1001 4700:0011 4900:0110 5200:1100 5500:0000"
	if got := strings.Join(said, " "); got != want || until != 7900 {
		t.Errorf("%s until %d, want %s", got, until, want)
	}
}

// A ramp that is reckoned here is that of travel, to the tick, and ends at the
// rate asked for.
func TestSpeedingIsTheRampOfTravel(t *testing.T) {
	p, err := Speeding(16_000_000, 8, 400, 1100, 2000)
	if err != nil {
		t.Fatal(err)
	}
	plan, err := travel.Wish{Rows: 2000, Start: 400, Top: 1100, Accel: 2000}.Plan()
	if err != nil {
		t.Fatal(err)
	}
	sum := int64(0)
	for k, ticks := range p.Intervals {
		sum += ticks
		if off := float64(sum)/2e6 - plan.At(int64(k)+1); off > 1e-4 || off < -1e-4 {
			t.Fatalf("after interval %d it is %v s off", k, off)
		}
	}
	if n := len(p.Intervals); n < 262 || n > 264 || p.Intervals[n-1] != 1818 { // (1100² − 400²)/(2·2000) = 262.5 rows; 2 MHz/1100
		t.Errorf("%d intervals, the last %d", n, p.Intervals[n-1])
	}
	if _, err := Speeding(16_000_000, 8, 0, 5000, 1); err == nil {
		t.Error("a ramp of 12 million rows is written")
	}
}
