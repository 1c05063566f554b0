package wiring

import (
	"slices"
	"testing"

	"coilwalk/model/motor"
	"coilwalk/testdata/bounds"
)

// FuzzFaults gives any text to what reads a fault or names of leads: what is taken is
// one that the motor can have, and is read again from its words where it has such.
func FuzzFaults(f *testing.F) {
	names := motor.Names()
	for k, text := range []string{"swap 2 3", "swap 3 2", "open BN", "dead 2", "stuck 4", "reversed A", "half BN", "tap", "tap A", "deaf", "sag", "swap 2 99999999999999999999", "open \x1b", "swap", "a b c d", "BN WH,GN", "BN BN"} {
		f.Add(byte(k), text)
	}
	f.Fuzz(func(t *testing.T, which byte, text string) {
		m, _ := motor.BuiltIn(names[int(which)%len(names)])
		bounds.Hold(t, len(text), 16<<20, 4000, func() {
			if fault, err := ParseFault(m, text); err == nil {
				if !slices.Contains(Faults(m), fault) {
					t.Fatalf("%q reads %+v, which %s can not have", text, fault, m.Name)
				}
			} else if err.Error() == "" {
				t.Fatalf("%q is told nothing", text)
			}
			if leads, err := ParseLeads(text); err == nil && len(leads) > mostLeads {
				t.Fatalf("%q reads %d leads", text, len(leads))
			}
		})
	})
}
