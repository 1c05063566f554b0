package wiring

import (
	"strings"
	"testing"

	"coilwalk/model/motor"
)

// Leads that are swapped and one that is open both only buzz, and which two are
// swapped no trial shows: so once every trial was told, the tests by hand are named, the
// meter for open and the shaft for which two. Without a doubt between the two none is.
func TestHandsDecideBetweenOpenAndSwapped(t *testing.T) {
	m, _ := motor.BuiltIn("vent-flap")
	suspects, slowly := NewSuspects(m), NewSlowly(m)
	for _, text := range []string{"swap 2 3", "swap 1 4", "open WH"} {
		fault, err := ParseFault(m, text)
		if err != nil {
			t.Fatal(err)
		}
		n := suspects.Judge(SymptomsOf(m, slowly.trials([]Fault{fault}))).Next
		if n == nil || !n.ByHand || !n.Shaft {
			t.Fatalf("%s: next is %+v", text, n)
		}
		meter, shaft := strings.Index(n.Why, "ohmmeter"), strings.Index(n.Why, "leads --answers")
		if meter < 0 || shaft < meter {
			t.Errorf("%s: the meter, then the shaft, is wanted, not %q", text, n.Why)
		}
	}
	tap, err := ParseFault(m, "tap")
	if err != nil {
		t.Fatal(err)
	}
	if n := suspects.Judge(SymptomsOf(m, slowly.trials([]Fault{tap}))).Next; n != nil && n.Shaft {
		t.Errorf("the common is off the supply, and the shaft is asked: %q", n.Why)
	}
	one := slowly.trials([]Fault{{Kind: Swapped, I: 1, K: 2}})
	for _, f := range Faults(m) {
		if f.Kind == Swapped && !sameDoes(one, slowly.trials([]Fault{f})) {
			t.Errorf("a trial tells %s from the others: then it is to be asked", f.Text(m))
		}
	}
}
