package power

import (
	"strings"
	"testing"

	"coilwalk/model/motor"
)

func TestParsePart(t *testing.T) {
	for text, want := range map[string]float64{"30%": 0.3, "30 %": 0.3, "0.3": 0.3, "1": 1, "100%": 1, " 0 ": 0} {
		if got, err := ParsePart(text); err != nil || !near(got, want, 1e-12) {
			t.Errorf("%q: %g, %v", text, got, err)
		}
	}
	for _, text := range []string{"", "30", "-1", "101%", "NaN", "half"} {
		if got, err := ParsePart(text); err == nil || !strings.Contains(err.Error(), "30% or 0.3") {
			t.Errorf("%q: %g, %v", text, got, err)
		}
	}
}

func TestConnectionNamed(t *testing.T) {
	for _, c := range []struct{ motor, word, name string }{
		{"hybrid-8", "parallel", "bipolar, halves in parallel"}, {"hybrid-8", "half", "bipolar, half a coil"}, {"hybrid-6", "series", "bipolar, halves in series"},
		{"hybrid-4", "bipolar", "bipolar"}, {"geared-can", "unipolar", "unipolar"}, {"geared-can", "parted", "bipolar, after parting the common"},
		{"hybrid-6", "parallel", ""}, {"hybrid-4", "unipolar", ""}, {"hybrid-8", "bipolar", ""}, {"hybrid-8", "", ""},
	} {
		m, _ := motor.BuiltIn(c.motor)
		got, err := ConnectionNamed(m, c.word)
		if got.Name != c.name || (err == nil) != (c.name != "") {
			t.Errorf("%s as %q: %q, %v", c.motor, c.word, got.Name, err)
		}
	}
	q := asks(t, "hybrid-8", "chopper", "24V", nil)
	series := q.Current
	parallel, _ := ConnectionNamed(q.Motor, "parallel")
	if q.Connect(parallel); !near(q.Current, 2*series, 1e-9) {
		t.Errorf("%g A in parallel, %g in series", q.Current, series)
	}
	q.Current = 1
	if q.Connect(connectionFor(q.Motor, q.Motor.Drive)); q.Current != 1 {
		t.Errorf("a current of one's own becomes %g A", q.Current)
	}
}
