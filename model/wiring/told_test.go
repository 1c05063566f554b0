package wiring

import (
	"fmt"
	"math"
	"strings"
	"testing"
)

// What is told of a winding is what was put into its readings: so many ohms with the
// meter's own leads on top of each, the least and the most that were read for a
// half-coil, and none of that from a reading that is a slip. (Figures by hand.)
func TestOhmsThatAreTold(t *testing.T) {
	// 30 ohm a half, 0.3 ohm of the meter; one half reads a little less, one more.
	a := identified(t, "BK,YE,29.7\nYE,GN,30.3\nBK,GN,60.3\nRD,WH,30.9\nWH,BU,30.3\nRD,BU,60.3\nBK,RD,open\nYE,WH,open")
	if a.Kinds[0].Kind != SixLead || math.Abs(a.Ohm-(30+0.3-a.Meter)) > 0.2 || a.Meter < 0 || a.Meter > 0.5 {
		t.Errorf("%g ohm, the meter %g", a.Ohm, a.Meter)
	}
	if math.Abs(a.Least-(29.7-a.Meter)) > 1e-9 || math.Abs(a.Most-(30.9-a.Meter)) > 1e-9 {
		t.Errorf("from %g to %g with %g of the meter", a.Least, a.Most, a.Meter)
	}
	// Of coils of 2 ohm the meter's 0.4 are found: every whole coil reads 2.4 and two
	// in a row 4.4.
	a = identified(t, "BK,YE,2.4\nYE,GN,2.4\nBK,GN,4.4\nRD,WH,2.4\nWH,BU,2.4\nRD,BU,4.4\nBK,RD,open\nYE,WH,open\nGN,BU,open")
	if math.Abs(a.Meter-0.4) > 0.11 || math.Abs(a.Ohm-2) > 0.12 {
		t.Errorf("2 ohm behind 0.4: %g, the meter %g", a.Ohm, a.Meter)
	}
	// Of coils that the meter hardly tells from its own leads nothing is below zero.
	for _, least := range []string{"0.01", "0"} {
		if a = identified(t, "A,B,"+least+"\nC,D,0.2\nA,C,open\nA,D,open\nB,C,open\nB,D,open"); a.Least < 0 || a.Ohm < 0 || a.Most < a.Least {
			t.Errorf("from %g to %g ohm, %g in the mean", a.Least, a.Most, a.Ohm)
		}
	}
	// A slip of the decimal point in one of many counts for nothing.
	a = identified(t, "BN,VT,52\nWH,VT,52\nGN,VT,52\nGY,VT,520\nBN,WH,104\nBN,GN,104\nBN,GY,104\nWH,GN,104\nWH,GY,104\nGN,GY,104")
	if a.Most > 53 || math.Abs(a.Ohm-52) > 1 {
		t.Errorf("with a slip: %g ohm, at most %g", a.Ohm, a.Most)
	}
}

// Leads that are sure to belong together are told, with the tap among them, and no
// lead by itself is a phase.
func TestPhasesThatAreTold(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"BK,YE,30\nYE,GN,30\nBK,GN,60\nRD,WH,30\nWH,BU,30\nRD,BU,60\nBK,RD,open\nYE,WH,open", "BK GN by YE, BU RD by WH"},
		{"A,B,52\nC,D,52\nA,C,open\nA,D,open\nB,C,open\nB,D,open", "A B by , C D by "},
	} {
		var told []string
		for _, p := range identified(t, c.text).Phases {
			told = append(told, fmt.Sprintf("%s by %s", strings.Trim(fmt.Sprint(p.Ends), "[]"), p.Tap))
		}
		if got := strings.Join(told, ", "); got != c.want {
			t.Errorf("%s: told %s, want %s", c.text, got, c.want)
		}
	}
	for _, text := range []string{"A,B,52\nC,D,open\nA,C,open", "A,B,30\nC,D,open\nE,F,open\nA,C,open\nB,E,open"} {
		for _, p := range identified(t, text).Phases {
			if len(p.Ends) < 1 || len(p.Ends) == 1 && p.Tap == "" {
				t.Errorf("%s: a lead by itself is told as a phase: %+v", text, p)
			}
		}
	}
}

// The faults that no step mode parts are parted by hand, whichever is named first.
func TestPartedByHand(t *testing.T) {
	words := map[string][2]FaultKind{
		"open means the lead":                    {LeadOpen, OutputDead},
		"a reversed coil turns round":            {CoilReversed, Deaf},
		"only one that sags falls":               {SupplySags, LeadOpen},
		"measure the voltage from the tap":       {TapOff, LeadOpen},
		"measure the voltage from the tap to gr": {TapOff, OutputDead},
	}
	for part, kinds := range words {
		a, b := byHand(kinds[0], kinds[1]), byHand(kinds[1], kinds[0])
		if a != b || !strings.Contains(a, part) {
			t.Errorf("%s and %s: %q, the other way round %q", kinds[0], kinds[1], a, b)
		}
	}
	for _, kinds := range [][2]FaultKind{{LeadOpen, Deaf}, {OutputDead, CoilReversed}, {CoilReversed, LeadOpen}} {
		if a := byHand(kinds[0], kinds[1]); strings.Contains(a, "open means the lead") || strings.Contains(a, "a reversed coil turns round") {
			t.Errorf("%s and %s are parted by what parts others: %q", kinds[0], kinds[1], a)
		}
	}
}

// "at" is a word of a rate only where two words stand before it.
func TestRateOfASymptom(t *testing.T) {
	for text, good := range map[string]bool{"half forward buzz at 600": true, "at 600": false, "half at 600": false, "half forward buzz 2 at 5": true, "half forward buzz at 4.9": false, "half forward buzz at": false} {
		if _, err := ParseSymptom(text); (err == nil) != good {
			t.Errorf("%q: %v", text, err)
		}
	}
}
