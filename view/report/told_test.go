package report

import (
	"encoding/json"
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"

	"coilwalk/model/driver"
	"coilwalk/model/motor"
	"coilwalk/model/quantity"
	"coilwalk/model/rotor"
	"coilwalk/sequence"
)

// holed is an answer about a motor with rates, holes and windows of a slow machine.
func holed(t *testing.T, r rotor.Rates) *Rates {
	t.Helper()
	m, _ := motor.BuiltIn("vent-flap")
	p, _, err := rotor.PlantOf(m, driver.Usual(m.Drive, false), quantity.Voltage{})
	if err != nil {
		t.Fatal(err)
	}
	out := NewRates(m, sequence.Half, p, rotor.Response{Step: 45, RingHz: 0.0437}, r)
	out.Compare(sequence.Half, r)
	return out
}

var narrow = rotor.Rates{StartStop: 7.518, Windows: []rotor.Band{{From: 8.164, To: 86.41}, {From: 86.44, To: 102.2}, {From: 102.4, To: 112.1}},
	Holes: []rotor.Band{{From: 7.518, To: 8.164}, {From: 86.41, To: 86.44}, {From: 102.2, To: 102.4}}, PullOut: 1018.4, LostAt: []rotor.Band{{From: 8.0101, To: 8.0149}}}

// Rates that stand together are of one kind: the end of what starts is the beginning
// of the hole in all places, and two that differ do not look alike.
func TestRatesAreToldApart(t *testing.T) {
	r := holed(t, narrow)
	text := r.Text()
	for _, want := range []string{
		"start–stop rate  7.52 rows/s (3.76 full steps/s, 0.166 rpm", "not from 7.52 to 8.16 rows/s, then again up to 86.41 rows/s",
		"not from 86.41 to 86.44 rows/s, then again up to 102.2 rows/s", "not from 102.2 to 102.4 rows/s, then again up to 112 rows/s",
		"out of step between 8.01 and 8.015 rows/s", "pull-out rate    1018 rows/s (509 full", "rings at 0.0437 Hz", "half step starts to 3.76; not 3.76 to 4.08, again to 43.2",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in\n%s", want, text)
		}
	}
	for _, hole := range regexp.MustCompile(`(?:from|between|not) ([0-9.]+) (?:to|and) ([0-9.]+)`).FindAllStringSubmatch(text, -1) {
		if hole[1] == hole[2] {
			t.Errorf("%q in\n%s", hole[0], text)
		}
	}
	if r.StartStop != r.Holes[0][0] || r.Windows[0][1] != r.Holes[1][0] || r.Holes[2][1] != r.Windows[2][0] || r.Compared[0].StartStop != r.Compared[0].Holes[0][0] {
		t.Errorf("%v, holes %v, windows %v", r.StartStop, r.Holes, r.Windows)
	}
}

// A rate that was asked about is told with its own digits, and no rate that there is
// none of as 0.
func TestRatesThatThereAreNoneOf(t *testing.T) {
	r := holed(t, narrow)
	r.Judge(7.5204)
	if !strings.Contains(r.For.Text, "does not start at 7.5204 rows/s") {
		t.Error(r.For.Text)
	}
	none := holed(t, rotor.Rates{})
	none.Judge(0.03)
	none.AddEstimates([]rotor.Estimate{{Figure: "inertia"}}, []rotor.Sensitive{{Estimate: rotor.Estimate{Figure: "inertia"}}})
	if text := none.Text(); regexp.MustCompile(`\b0 (rows/s|Hz|full)`).MatchString(text) || !strings.Contains(text, "does not follow 0.03 rows/s: it follows none, and") ||
		!strings.Contains(text, "with half of it it starts at none, with twice at none") {
		t.Error(text)
	}
}

// A measured rate that was fitted to over holes is not the start–stop rate, and that
// is said; one that came out as measured needs no words.
func TestFittedOverHoles(t *testing.T) {
	for _, c := range []struct {
		rates    rotor.Rates
		measured float64
		says     string
	}{
		{narrow, 100, "The inertia was fitted so that it starts up to 100 rows/s as measured, over the holes below that; the start–stop rate, up to which all rates start, is that below them, 7.52 rows/s.\n"},
		{rotor.Rates{Windows: narrow.Windows, PullOut: 200}, 100, "over the holes below that; there is none up to which all rates start.\n"},
		{narrow, 7.55, ""},
		{rotor.Rates{StartStop: 599, PullOut: 900}, 600, ""},
	} {
		r := holed(t, c.rates)
		r.Fit(c.measured)
		text := r.Text()
		if said := strings.Contains(text, "was fitted"); said != (c.says != "") || !strings.Contains(text, c.says) {
			t.Errorf("%+v: %q is wanted in\n%s", c.rates, c.says, text)
		}
		if object, err := json.Marshal(r); err != nil || !strings.Contains(string(object), `"fitted":{"starts":`) {
			t.Errorf("%v, %s", err, object)
		}
	}
}

// However close two rates are, they are told apart; those that are the same are not
// made to differ.
func TestApart(t *testing.T) {
	for _, rates := range [][]float64{{6.001, 6.004}, {99.96, 100.04}, {0.9994, 0.9996, 1}, {1018.1, 1018.2, 1018.21}, {3e-5, 3.001e-5}, {5, 5, 7}, {0, 1e-300}, {0}, nil} {
		told := apart(slices.Clone(rates)...)
		for i, a := range rates {
			if i > 0 && told.of(rates[i-1]) > told.of(a) {
				t.Errorf("%v and %v are told as %v and %v", rates[i-1], a, told.of(rates[i-1]), told.of(a))
			}
			if off := math.Abs(told.of(a) - a); off > 0.005*a && a >= 1e-200 || off > 0.5 {
				t.Errorf("%v is told as %v", a, told.of(a))
			}
			for _, b := range rates[:i] {
				if same := Told(told.of(a)) == Told(told.of(b)); same != (a == b) && a > 1e-200 {
					t.Errorf("%v and %v are told as %s and %s", a, b, Told(told.of(a)), Told(told.of(b)))
				}
			}
		}
	}
	for v, want := range map[float64]string{93.87: "94", 10: "10", 9.996: "10", 5.234: "5.23", 0.04: "0.04"} {
		if got := Hertz(v); got != want {
			t.Errorf("%v Hz: %s, want %s", v, got, want)
		}
	}
}
