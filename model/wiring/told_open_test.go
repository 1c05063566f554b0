package wiring

import (
	"slices"
	"strings"
	"testing"
)

// What readings do not tell is told, and nothing besides. By hand, from what each
// set of readings leaves open.
func TestWhatIsLeftOpenIsTold(t *testing.T) {
	const (
		kind, more, ends, phases, common, noCommon, halves, none = "The kind of motor:", "not named in the readings", "Which end of each coil", "Which two ends are one phase",
			"Which lead is the common", "Look for one more lead", "Which two halves", "No two-phase motor"
	)
	all := []string{kind, more, ends, phases, common, noCommon, halves, none}
	for _, c := range []struct {
		name, readings string
		want           []string
	}{
		{"4 leads", "A,B,30\nC,D,30\nA,C,open\nA,D,open\nB,C,open\nB,D,open", []string{ends}},
		{"5 leads, the common found", "A,E,30\nB,E,30\nC,E,30\nD,E,30\nA,B,60\nC,D,60\nA,C,60", []string{phases}},
		{"5 leads, the common missing", "A,B,60\nA,C,60\nA,D,60\nB,C,60\nB,D,60\nC,D,60", []string{phases, noCommon, more}},
		{"6 leads", "A,B,30\nB,C,30\nA,C,60\nD,E,30\nE,F,30\nD,F,60\nA,D,open\nB,E,open\nC,F,open", []string{ends}},
		{"8 leads", "A,B,30\nC,D,30\nE,F,30\nG,H,30\nA,C,open\nA,E,open\nA,G,open\nC,E,open\nC,G,open\nE,G,open", []string{halves}},
		{"all shorted to one another, unlike any", "A,B,30\nA,C,55\nA,D,110\nB,C,210\nB,D,400\nC,D,17\nA,E,71\nB,E,333\nC,E,9\nD,E,1000", []string{none}},
	} {
		a := identified(t, c.readings)
		said := strings.Join(a.Undetermined, "\n")
		for _, words := range all {
			if strings.Contains(said, words) != slices.Contains(c.want, words) {
				t.Errorf("%s: %q is told or not, and should be otherwise:\n%s", c.name, words, said)
			}
		}
	}
	a := identified(t, "A,B,60\nA,C,60\nA,D,60\nB,C,60\nB,D,60\nC,D,60")
	if said := strings.Join(a.Undetermined, "\n"); !strings.Contains(said, "1 more lead of a 5-lead motor") {
		t.Errorf("one lead that is missing is told as %s", said)
	}
}

// A half-coil with shorted turns is told with what is left of it: 15 of 30 ohm.
func TestShortedTurnsAreToldInPerCent(t *testing.T) {
	a := identified(t, "A,B,30\nB,C,15\nA,C,45\nD,E,30\nE,F,30\nD,F,60\nA,D,open\nB,E,open")
	if len(a.Faults) != 1 || !strings.Contains(a.Faults[0].Text, "only about 50 % of the others'") {
		t.Errorf("%+v", a.Faults)
	}
}

// Faults of a kind that can not be told apart are all named, as they are called one
// by one.
func TestFaultsOfAKindAreAllNamed(t *testing.T) {
	m := builtIn(t, "vent-flap")
	for kind, want := range map[FaultKind]string{
		OutputDead: "output 1, output 2, output 3 or output 4", OutputOn: "output 1, output 2, output 3 or output 4",
		LeadOpen: "BN, WH, GN or GY", Swapped: "BN with WH, BN with GY, WH with GN or GN with GY",
	} {
		var of []Fault
		for _, f := range Faults(m) {
			if f.Kind == kind {
				of = append(of, f)
			}
		}
		if said := oneOf(m, of); !strings.HasSuffix(said, ": "+want) {
			t.Errorf("%s: %q, want %q", kind, said, want)
		}
	}
}
