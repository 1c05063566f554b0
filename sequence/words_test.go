package sequence

import (
	"slices"
	"testing"
)

func TestEnds(t *testing.T) {
	for _, c := range []struct {
		end, opposite End
		name          string
		axis, phase   int
	}{{APlus, AMinus, "A+", 0, 0}, {BPlus, BMinus, "B+", 90, 1}, {AMinus, APlus, "A-", 180, 0}, {BMinus, BPlus, "B-", 270, 1}} {
		if c.end.String() != c.name || c.end.Axis() != c.axis || c.end.Phase() != c.phase || c.end.Opposite() != c.opposite {
			t.Errorf("%s: axis %d°, phase %d, opposite %s", c.end, c.end.Axis(), c.end.Phase(), c.end.Opposite())
		}
		var alone Row
		alone[c.end] = 1
		if deg, ok := alone.Field().Degrees(); !ok || deg != float64(c.axis) {
			t.Errorf("%s alone sets up %v°", c.end, deg)
		}
		if e, ok := ParseEnd(c.end.String()); !ok || e != c.end {
			t.Errorf("%s does not read its own name", c.end)
		}
	}
}

func TestParseEndTable(t *testing.T) {
	for _, c := range []struct {
		text string
		want End
		ok   bool
	}{
		{"A+", APlus, true}, {"a+", APlus, true}, {"B+", BPlus, true}, {"b+", BPlus, true},
		{"A-", AMinus, true}, {"a-", AMinus, true}, {"A−", AMinus, true}, {"b−", BMinus, true}, {"B-", BMinus, true},
		{"  a+\t", APlus, true}, {"\nB−\n", BMinus, true},
		{"", 0, false}, {" ", 0, false}, {"A", 0, false}, {"+", 0, false}, {"+A", 0, false}, {"A +", 0, false},
		{"A++", 0, false}, {"A+B+", 0, false}, {"C+", 0, false}, {"A1", 0, false}, {"0", 0, false}, {"Α+", 0, false}, // Greek
	} {
		if e, ok := ParseEnd(c.text); ok != c.ok || e != c.want {
			t.Errorf("%q: %v %v, want %v %v", c.text, e, ok, c.want, c.ok)
		}
	}
}

func TestWords(t *testing.T) {
	for got, want := range map[string]string{
		Forward.String(): "forward", Reverse.String(): "reverse", Standing.String(): "none",
		Unipolar.String(): "unipolar", Bipolar.String(): "bipolar",
	} {
		if got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
	if Drives != [2]Drive{Unipolar, Bipolar} || Ends != [4]End{APlus, BPlus, AMinus, BMinus} {
		t.Errorf("%v %v", Drives, Ends)
	}
	if r := (Row{0.2, 0, 0, 1}); r.Bits() != "1001" || r.Whole() || !slices.Equal(r.On(), []End{APlus, BMinus}) {
		t.Errorf("%v: %s %v %v", r, r.Bits(), r.Whole(), r.On())
	}
	for _, m := range Modes {
		if got, err := ModeNamed(m.Name, 0, 0); err != nil || got.Title != m.Title || got.FirstAt != m.FirstAt {
			t.Errorf("%s: %v %q", m.Name, err, got.Title)
		}
	}
}
