package picture

import (
	"testing"

	"coilwalk/model/motor"
)

// Every colour that a lead can be called by has an ink of its own on the screen, and
// one on paper: the codes of IEC 60757, table 1 (from memory).
func TestLeadsHaveTheirColours(t *testing.T) {
	codes := []string{"BK", "BN", "RD", "OG", "YE", "GN", "BU", "VT", "GY", "WH", "PK", "GD", "TQ", "SR"}
	seen := map[Ink]string{Text: "no colour"}
	for _, code := range codes {
		if c, ok := motor.ColourNamed(code); !ok || c.Code != code {
			t.Errorf("%s is read as %+v, %t", code, c, ok)
		}
		if other, ok := seen[LeadInk(code)]; ok {
			t.Errorf("%s has the ink of %s", code, other)
		}
		seen[LeadInk(code)] = code
		if _, ok := printed[code]; !ok {
			t.Errorf("%s is not printed in its colour", code)
		}
	}
	if len(leadCodes) != len(codes) || len(printed) != len(codes) {
		t.Errorf("%d inks and %d colours on paper for %d codes", len(leadCodes), len(printed), len(codes))
	}
}
