package wiring

import (
	"math"
	"strings"
	"testing"

	"coilwalk/model/motor"
)

// What is told of guesses that are written down by hand: roles are sure from odds of
// 0.95 on, a tap with one end is told, and neither lead is by itself.
func TestRolesFromGuesses(t *testing.T) {
	s := sitting{leads: []motor.Lead{"a", "b", "c"}}
	five := func(odds float64, inner ...bool) guess {
		return guess{layout: layout{kind: FiveLead, coil: make([]int, 3), inner: inner}, odds: odds}
	}
	for odds, want := range map[float64]int{0.95: 1, 0.949: 0} {
		var a Answer
		s.roles(&a, []guess{five(odds, true, false, false), five(1-odds, false, true, false)})
		if len(a.Common) != want || want == 1 && a.Common[0] != "a" {
			t.Errorf("with odds of %g the common is %v", odds, a.Common)
		}
	}
	six := func(odds float64, coil []int, inner ...bool) guess {
		return guess{layout: layout{kind: SixLead, coil: coil, inner: inner}, odds: odds}
	}
	for _, c := range []struct {
		odds float64
		coil []int
		want string // ends, and the tap in brackets
	}{
		{0.95, []int{0, 0, 1}, "a(b)"}, {0.949, []int{0, 0, 1}, "ab()"}, {0.95, []int{0, 0, 0}, "ac(b)"}, {0.95, []int{0, 1, 1}, "c(b)"}, {0.95, []int{0, 1, 0}, "ac()"}, {0.95, []int{0, 1, 2}, ""},
	} {
		var a Answer // the rest of the odds knows of no tap
		s.roles(&a, []guess{six(c.odds, c.coil, false, true, false), six(1-c.odds, c.coil, false, false, false)})
		told := ""
		for _, p := range a.Phases {
			for _, e := range p.Ends {
				told += string(e)
			}
			told += "(" + string(p.Tap) + ")"
		}
		if told != c.want {
			t.Errorf("coils %v with odds of %g: told %q, want %q", c.coil, c.odds, told, c.want)
		}
	}
	// And together from 0.95 on.
	for odds, want := range map[float64]int{0.95: 1, 0.949: 0} {
		var a Answer
		s.roles(&a, []guess{six(odds, []int{0, 0, 1}, false, false, false), six(1-odds, []int{0, 1, 0}, false, false, false)})
		if len(a.Phases) != want {
			t.Errorf("with odds of %g the phases are %v", odds, a.Phases)
		}
	}
}

// A reading that a layout can not have is a slip, open or not; where no reading fits,
// no resistance is made up, and a fault is looked for only where one does not.
func TestReadingsAgainstALayout(t *testing.T) {
	g := guess{layout: layout{kind: FourLead, coil: []int{0, 0, 1, 1}, inner: make([]bool, 4)}, ohm: 50, lead: 0.2}
	for _, c := range []struct {
		r      Reading
		halves float64
		slip   bool
	}{
		{Reading{Open: true}, apart, false}, {Reading{Open: true}, 0, true}, {Reading{Open: true}, 1, true}, {Reading{Ohm: 50.2}, 1, false}, {Reading{Ohm: 50.2}, apart, true}, {Reading{Ohm: 50.2}, 2, true}, {Reading{Ohm: 0.2}, 0, false},
	} {
		if got := (&sitting{}).slipped(c.r, c.halves, &g); got != c.slip {
			t.Errorf("%+v over %g half-coils is a slip: %v", c.r, c.halves, got)
		}
	}
	if open, two := expected(apart, &g), expected(2, &g); open != "open" || two != "about 100 ohm" {
		t.Errorf("apart they read %q, over two half-coils %q", open, two)
	}
	of := func(text string) *sitting {
		readings, err := ReadReadings("r", []byte(text))
		if err != nil {
			t.Fatal(err)
		}
		return sit(readings, nil)
	}
	for text, fits := range map[string]bool{
		"a,b,50.2\nc,d,50.2\na,c,open\na,case,open": true, "a,b,50.2\nc,d,50.2\na,c,open\na,case,50": false, "a,b,open\nc,d,50.2\na,c,open": false, "a,b,50.2\nc,d,50.2\na,c,50.2": false,
	} {
		if got := of(text).fitsAll(&g); got != fits {
			t.Errorf("%q fits two coils of 50 ohm: %v", text, got)
		}
	}
	var a Answer
	if of("a,b,open\nc,d,open\na,c,open").resistance(&a, &g); a.Ohm != 0 || a.Least != 0 || a.Most != 0 {
		t.Errorf("all open: %g ohm, from %g to %g", a.Ohm, a.Least, a.Most)
	}
}

// The leads of a meter are weighed up to coils of 40 ohm and its like: the grid begins
// at the least reading over 2.2, and 88/2.2 is 40.
func TestMeterIsWeighedUpToFortyOhm(t *testing.T) {
	for ohm, want := range map[float64]int{1: 6, 87.9: 6, 88: 6, 88.1: 1, 500: 1} {
		if s := sit([]Reading{{A: "a", B: "b", Ohm: ohm}}, nil); len(s.meters) != want {
			t.Errorf("of %g ohm: the meter's leads %v", ohm, s.meters)
		}
	}
}

// Odds come of the differences of their logarithms, however small or large these are.
func TestOddsOfAnyLogarithm(t *testing.T) {
	for _, at := range []float64{-5000, -400, 0, 400, 5000} {
		g := []guess{{log: at}, {log: at + math.Log(3)}}
		if normalise(g); !(math.Abs(g[0].odds-0.25) < 1e-9) || !(math.Abs(g[1].odds-0.75) < 1e-9) { // what is no number fails too
			t.Errorf("about %g: odds %g and %g", at, g[0].odds, g[1].odds)
		}
	}
}

// Of guesses that are alike the first lead counts, whatever the order of readings.
func TestTheFirstOfEquals(t *testing.T) {
	const broken = "A,B,52\nC,D,open\nA,C,open\nA,D,open\nB,C,open\nB,D,open"
	lines := strings.Split(broken, "\n")
	for range lines {
		lines = append(lines[1:], lines[0])
		a := identified(t, strings.Join(lines, "\n"))
		if len(a.Faults) != 1 || a.Faults[0].Kind != "open-lead" || len(a.Faults[0].Leads) != 2 || a.Faults[0].Leads[0] != "C" || a.Faults[0].Leads[1] != "D" {
			t.Errorf("%v: %+v", lines, a.Faults)
		}
	}
	// Three ends of which any two tell the same: the first two are asked for.
	if next := identified(t, "a,b,50\na,c,50\na,d,50").Next; next == nil || next.A != "b" || next.B != "c" {
		t.Errorf("the next reading is %+v", next)
	}
	// Nine leads are of no motor here, and nothing competes with that.
	if a := identified(t, "a,b,50\nc,d,50\ne,f,50\ng,h,50\ni,a,50"); a.Kinds[0].Kind != Other || a.Odds != 1 || a.Next != nil {
		t.Errorf("nine leads: %+v", a)
	}
}

// Bits by hand: of two outcomes as 1 to 3 they are 0.8113, whatever else is possible
// that is no outcome.
func TestBitsOfAReading(t *testing.T) {
	s := sitting{leads: []motor.Lead{"a", "b"}}
	of := func(odds float64, coil ...int) guess {
		return guess{layout: layout{kind: FourLead, coil: coil, inner: make([]bool, 2)}, odds: odds, ohm: 50}
	}
	other := guess{layout: layout{kind: Other}, odds: 0.6}
	if bits := s.entropy([]guess{other, of(0.3, 0, 0), of(0.1, 0, 1)}, 0, 1); math.Abs(bits-(2-0.75*math.Log2(3))) > 1e-9 {
		t.Errorf("%g bits", bits)
	}
}
