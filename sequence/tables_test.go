package sequence

import (
	"math"
	"testing"
)

// rowsOf reads printed rows, columns in the order of the given ends.
func rowsOf(t *testing.T, ends string, printed ...string) []Row {
	t.Helper()
	var columns []End
	for i := 0; i+1 < len(ends); i += 3 {
		e, ok := ParseEnd(ends[i : i+2])
		if !ok {
			t.Fatalf("no end: %s", ends[i:i+2])
		}
		columns = append(columns, e)
	}
	rows := make([]Row, len(printed))
	for i, p := range printed {
		for c, e := range columns {
			rows[i][e] = float64(p[c] - '0')
		}
	}
	return rows
}

// The energising tables of published sources. A source's clockwise is its own
// view; what is held here is the mode, and that tables of one source agree.
func TestPublishedTables(t *testing.T) {
	for _, c := range []struct {
		source string
		rows   []Row
		mode   Mode
		way    Direction
	}{
		// A, B are winding 1 and C, D winding 2 there; states 1 to 8 clockwise.
		{"maker's data sheet of a phase-sequence controller, Motor driving phase sequences, p. 5: half step",
			rowsOf(t, "A+ A- B+ B-", "0101", "0001", "1001", "1000", "1010", "0010", "0110", "0100"), Half, Forward},
		{"the same, p. 5: two phases on, states 1 3 5 7", rowsOf(t, "A+ A- B+ B-", "0101", "1001", "1010", "0110"), Full, Forward},
		{"the same, p. 6: wave, states 2 4 6 8", rowsOf(t, "A+ A- B+ B-", "0001", "1000", "0010", "0100"), Wave, Forward},
		{"maker's data sheet of a bipolar motor, seen from the flange, columns A B A\\ B\\: clockwise",
			rowsOf(t, "A+ B+ A- B-", "1100", "0110", "0011", "1001"), Full, Forward},
		{"maker's application note on a step motor controller, Table 1: columns as printed, clockwise",
			rowsOf(t, "A+ B+ A- B-", "1001", "1100", "0110", "0011"), Full, Forward},
		{"maker's data sheet of a geared can-stack motor, Switching sequence, clockwise",
			rowsOf(t, "A+ B+ A- B-", "1000", "1100", "0100", "0110", "0010", "0011", "0001", "1001"), Half, Forward},
		{"a university lab sheet on stepper motor control, Fig. 3, counter-clockwise: the same ring from the other end of the plug",
			rowsOf(t, "B- A- B+ A+", "1000", "1100", "0100", "0110", "0010", "0011", "0001", "1001"), Half, Reverse},
		{"a published column on stepping motors, no. 4: pairs of terminals, the first pair one winding",
			rowsOf(t, "A- A+ B- B+", "0101", "0110", "1010", "1001"), Full, Reverse},
	} {
		s, ok := Recognise(append(c.rows, c.rows[0]))
		if !ok || s.Mode.Name != c.mode.Name || s.Direction != c.way {
			t.Errorf("%s: %v %s %s", c.source, ok, s.Mode.Name, s.Direction)
		}
		back := make([]Row, len(c.rows))
		for i, r := range c.rows {
			back[len(back)-1-i] = r
		}
		if s, ok := Recognise(back); !ok || s.Direction != -c.way {
			t.Errorf("%s, reversed: %v %s", c.source, ok, s.Direction)
		}
	}
}

// Signs of the two windings in half step: A + + 0 - - - 0 +, B 0 + + + 0 - - -
// (a maker's application note on linear speed control, Table 2-1).
func TestSignsOfHalfStep(t *testing.T) {
	a, b := [8]float64{1, 1, 0, -1, -1, -1, 0, 1}, [8]float64{0, 1, 1, 1, 0, -1, -1, -1}
	for k := range 8 {
		if f := Half.Order().Row(int64(k)).Field(); f.A != a[k] || f.B != b[k] {
			t.Errorf("row %d: %v", k+1, f)
		}
	}
}

// A sixteenth-step table as printed: 100·cos and 100·sin of n·5.625° to two
// decimals (maker's data sheet of a microstepping driver, Table 2).
func TestPrintedMicrosteps(t *testing.T) {
	m, err := Micro(16, 0)
	if err != nil {
		t.Fatal(err)
	}
	for n, want := range map[int][2]float64{0: {100, 0}, 1: {99.52, 9.80}, 2: {98.08, 19.51}, 3: {95.69, 29.03}, 4: {92.39, 38.27},
		5: {88.19, 47.14}, 6: {83.15, 55.56}, 7: {77.30, 63.44}, 8: {70.71, 70.71}, 16: {0, 100}, 24: {-70.71, 70.71},
		32: {-100, 0}, 40: {-70.71, -70.71}, 56: {70.71, -70.71}} {
		f := m.Order().Row(int64(n)).Field()
		if math.Abs(100*f.A-want[0]) > 0.005 || math.Abs(100*f.B-want[1]) > 0.005 {
			t.Errorf("row %d: %.2f %.2f, printed %v", n, 100*f.A, 100*f.B, want)
		}
	}
	for n := range 64 {
		f := m.Order().Row(int64(n)).Field()
		if math.Abs(f.Strength()-1) > 1e-12 {
			t.Errorf("row %d: the vector is %v long", n, f.Strength())
		}
		deg, _ := f.Degrees()
		if math.Abs(deg-5.625*float64(n)) > 1e-9 {
			t.Errorf("row %d: %v°", n, deg)
		}
	}
}

// Two phases on are √2 as strong as one (Jones, "Stepping Motor Physics",
// Half-Stepping and Microstepping), so half step goes 1 : √2 (a maker's training
// on stepper fundamentals, slide 10).
func TestStrengths(t *testing.T) {
	for k := range int64(4) {
		if s := Wave.Order().Row(k).Field().Strength(); s != 1 {
			t.Errorf("wave row %d: %v", k, s)
		}
		if s := Full.Order().Row(k).Field().Strength(); math.Abs(s-math.Sqrt2) > 1e-15 {
			t.Errorf("full row %d: %v", k, s)
		}
	}
	for k := range int64(8) {
		if s, want := Half.Order().Row(k).Field().Strength(), []float64{1, math.Sqrt2}[k%2]; math.Abs(s-want) > 1e-15 {
			t.Errorf("half row %d: %v", k, s)
		}
	}
}

// Rounded currents err by at most half a level, and so does the field.
func TestQuantisedMicrosteps(t *testing.T) {
	for _, levels := range []int{1, 3, 7, 15, 255} {
		for _, divide := range []int{2, 4, 16, 256} {
			rounded, err := Micro(divide, levels)
			if err != nil {
				t.Fatal(err)
			}
			exact, _ := Micro(divide, 0)
			if raced && divide*levels > 1<<10 {
				continue
			}
			for k := range int64(rounded.Rows()) {
				f, g := rounded.Order().Row(k).Field(), exact.Order().Row(k).Field()
				if n := f.A * float64(levels); math.Abs(n-math.Round(n)) > 1e-9 {
					t.Fatalf("1/%d in %d levels, row %d: %v is no level", divide, levels, k, f.A)
				}
				if half := 0.5/float64(levels) + 1e-12; math.Abs(f.A-g.A) > half || math.Abs(f.B-g.B) > half {
					t.Fatalf("1/%d in %d levels, row %d: %v for %v", divide, levels, k, f, g)
				}
			}
		}
	}
}
