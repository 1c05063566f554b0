package main

import (
	"strings"
	"testing"

	"coilwalk/testdata/bounds"
)

// FuzzWirings gives any text to what reads the order of coil ends on the outputs: one
// that is taken names each end once.
func FuzzWirings(f *testing.F) {
	for _, text := range []string{"A+,B+,A-,B-", "a+ b+ a− b−", "A+,A+,B+,B-", "A+,B+,A-", "A,B,C,D", ",,,,", "00x0000", "\x1b,\u202e,A+,B+"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		bounds.Hold(t, len(text), 4<<20, 1000, func() {
			p, err := parseWiring(text)
			switch {
			case err != nil:
				if why := unclear("coilwalk: " + oneLine(err.Error())); why != "" {
					t.Fatalf("%.100q: %s: %.400q", text, why, err)
				}
			case p == nil:
				if text != "" {
					t.Fatalf("%q reads nothing", text)
				}
			case !p.Valid():
				t.Fatalf("%q reads %v", text, p)
			default:
				names := make([]string, len(p))
				for k, end := range p {
					names[k] = end.String()
				}
				again, err := parseWiring(strings.Join(names, ","))
				if err != nil || *again != *p {
					t.Fatalf("%q reads %v, and that %v, %v", text, p, again, err)
				}
			}
		})
	})
}
