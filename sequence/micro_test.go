package sequence

import (
	"fmt"
	"math"
	"testing"
)

// The first nine rows of the printed sixteenth-step table, in hundredths of the
// full current; the other 55 hold the same figures with places and signs
// exchanged. (Maker's data sheet of a microstepping driver, Table 2.)
var printedCosSin = [9][2]string{
	{"100.00", "0.00"}, {"99.52", "9.80"}, {"98.08", "19.51"}, {"95.69", "29.03"}, {"92.39", "38.27"},
	{"88.19", "47.14"}, {"83.15", "55.56"}, {"77.30", "63.44"}, {"70.71", "70.71"},
}

// printedMicrostep gives row n of the 64 as printed.
func printedMicrostep(n int) (phase1, phase2 string) {
	size := func(n int) string { // of the cosine, n from 0 to 16
		if n <= 8 {
			return printedCosSin[n][0]
		}
		return printedCosSin[16-n][1]
	}
	sign := func(text string, minus bool) string {
		if minus && text != "0.00" {
			return "-" + text
		}
		return text
	}
	switch q, w := n/16, n%16; q {
	case 0:
		return size(w), size(16 - w)
	case 1:
		return sign(size(16-w), true), size(w)
	case 2:
		return sign(size(w), true), sign(size(16-w), true)
	default:
		return size(16 - w), sign(size(w), true)
	}
}

func sixteenth(t *testing.T) Order {
	t.Helper()
	m, err := Micro(16, 0)
	if err != nil {
		t.Fatal(err)
	}
	return m.Order()
}

// All 64 rows, to the two decimals printed.
func TestAllPrintedMicrosteps(t *testing.T) {
	o := sixteenth(t)
	if o.Len() != 64 {
		t.Fatalf("%d rows", o.Len())
	}
	for n := range 64 {
		f := o.Row(int64(n)).Field()
		a, b := printedMicrostep(n)
		if gotA, gotB := fmt.Sprintf("%.2f", 100*f.A), fmt.Sprintf("%.2f", 100*f.B); gotA != a || gotB != b {
			t.Errorf("row %d: %s %s, printed %s %s", n, gotA, gotB, a, b)
		}
	}
}

// A table of those printed figures is recognised from any of its rows, both ways.
func TestPrintedMicrostepsAreRecognised(t *testing.T) {
	var table []Row
	for n := range 64 {
		var a, b float64
		pa, pb := printedMicrostep(n)
		if _, err := fmt.Sscan(pa+" "+pb, &a, &b); err != nil {
			t.Fatal(err)
		}
		table = append(table, Row{max(a, 0) / 100, max(b, 0) / 100, max(-a, 0) / 100, max(-b, 0) / 100})
	}
	for start := range 64 {
		for _, way := range []Direction{Forward, Reverse} {
			var rows []Row
			for k := range 64 {
				rows = append(rows, table[((start+int(way)*k)%64+64)%64])
			}
			if s, ok := Recognise(rows); !ok || s.Mode.PerStep != 16 || s.Direction != way || s.Start != start {
				t.Errorf("%s from row %d: %v, 1/%d %s from %d", way, start, ok, s.Mode.PerStep, s.Direction, s.Start)
			}
		}
	}
}

// Half steps fall on every eighth row from the first, full steps with two
// phases on at n = 8, 24, 40 and 56. (The same table; the rule is computed.)
func TestWhereTheCoarserStepsFall(t *testing.T) {
	o := sixteenth(t)
	for k := range 8 {
		fine, _ := o.Row(int64(8 * k)).Field().Degrees()
		coarse, _ := Half.Order().Row(int64(k)).Field().Degrees()
		if fine != coarse {
			t.Errorf("row %d lies at %v°, half step %d at %v°", 8*k, fine, k, coarse)
		}
	}
	for k, n := range []int{8, 24, 40, 56} {
		deg, _ := Full.Order().Row(int64(k)).Field().Degrees()
		if got := o.Nearest(deg); got != n {
			t.Errorf("full step %d falls on row %d, printed %d", k+1, got, n)
		}
	}
}

func mustMicro(t *testing.T, divide, levels int) Mode {
	t.Helper()
	m, err := Micro(divide, levels)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// With currents rounded to levels, the tip of the field stays in a square about
// the exact one, half a level to each side: so its strength errs by less than
// √½ of a level and its angle by less than asin of that. It still never goes
// back, and rows with one phase on stay exact. (Geometry, no source.)
func TestErrorsOfRoundedMicrosteps(t *testing.T) {
	for _, levels := range []int{1, 2, 3, 7, 31, 255, 1 << 16} {
		for _, divide := range []int{2, 3, 7, 16, 100, 256} {
			o := mustMicro(t, divide, levels).Order()
			most := math.Sqrt(0.5)/float64(levels) + 1e-12
			for k := range int64(o.Len()) {
				f := o.Row(k).Field()
				exact, _ := o.Degrees(k).Float64()
				deg, ok := f.Degrees()
				if off := math.Abs(Between(exact, deg)); !ok || off > math.Asin(most)*180/math.Pi+1e-9 {
					t.Fatalf("1/%d in %d levels, row %d: %v° for %v°", divide, levels, k, deg, exact)
				}
				if math.Abs(f.Strength()-1) > most {
					t.Fatalf("1/%d in %d levels, row %d: strength %v", divide, levels, k, f.Strength())
				}
				for _, v := range o.Row(k) {
					if n := v * float64(levels); math.Abs(n-math.Round(n)) > 1e-9 {
						t.Fatalf("1/%d in %d levels, row %d: %v is no level", divide, levels, k, v)
					}
				}
				if next, _ := o.Row(k + 1).Field().Degrees(); Between(deg, next) < 0 {
					t.Fatalf("1/%d in %d levels, row %d: the field goes back, %v° to %v°", divide, levels, k, deg, next)
				}
			}
			for q := range int64(4) {
				if o.Row(q*int64(divide)) != Wave.Order().Row(q) {
					t.Fatalf("1/%d in %d levels: %v", divide, levels, o.Row(q*int64(divide)))
				}
			}
		}
	}
}

// With one level to a current nothing is left but on and off: half steps are
// then what halves of a step are.
func TestOneLevelIsOnAndOff(t *testing.T) {
	sameRows(t, "1/2 in 1 level", ring(mustMicro(t, 2, 1), 0, Forward), ring(Half, 0, Forward))
	for k := range int64(64) {
		if r := mustMicro(t, 16, 1).Order().Row(k); !r.Whole() {
			t.Errorf("row %d: %v", k, r)
		}
	}
}

// Two levels: the currents of half a step, 0.707, are rounded to the nearer of
// a half and one, not cut off.
func TestLevelsAreRoundedNotCut(t *testing.T) {
	if r := mustMicro(t, 4, 2).Order().Row(1); r != (Row{1, 0.5, 0, 0}) { // of 0.924 and 0.383
		t.Errorf("a quarter step in two levels: %v", r)
	}
}

func TestMicroBounds(t *testing.T) {
	for _, c := range []struct {
		divide, levels int
		ok             bool
	}{
		{2, 0, true}, {256, 1 << 16, true}, {7, 1, true},
		{1, 0, false}, {257, 0, false}, {0, 0, false}, {-16, 0, false}, {16, -1, false}, {16, 1<<16 + 1, false},
	} {
		m, err := ModeNamed("micro", c.divide, c.levels)
		if (err == nil) != c.ok {
			t.Errorf("1/%d in %d levels: %v", c.divide, c.levels, err)
		}
		if c.ok && (m.Rows() != 4*c.divide || m.Levels != c.levels || m.Title != fmt.Sprintf("microstep 1/%d", c.divide)) {
			t.Errorf("1/%d in %d levels: %q, %d rows, %d levels", c.divide, c.levels, m.Title, m.Rows(), m.Levels)
		}
	}
}
