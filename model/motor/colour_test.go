package motor

import (
	"strings"
	"testing"
)

// The list of IEC 60757:2021, table 1, in its printed order, as GOST 28763-90
// (which adopts IEC 757:1983) has it in table 7; written down anew here.
var standardColours = []struct{ code, word string }{
	{"BK", "black"}, {"BN", "brown"}, {"RD", "red"}, {"OG", "orange"}, {"YE", "yellow"},
	{"GN", "green"}, {"BU", "blue"}, {"VT", "violet"}, {"GY", "grey"}, {"WH", "white"},
	{"PK", "pink"}, {"GD", "gold"}, {"TQ", "turquoise"}, {"SR", "silver"},
}

func TestEveryColourOfTheStandardIsRead(t *testing.T) {
	for _, want := range standardColours {
		// Lower case means the same: IEC 60757, note to table 1.
		for _, text := range []string{want.code, strings.ToLower(want.code), want.word,
			strings.ToUpper(want.word), strings.ToUpper(want.word[:1]) + want.word[1:], " " + want.code + "\t"} {
			c, ok := ColourNamed(text)
			if !ok || c.Code != want.code || c.Word != want.word {
				t.Errorf("ColourNamed(%q) = %s %s, %v; want %s %s", text, c.Code, c.Word, ok, want.code, want.word)
			}
		}
	}
	if len(colours) != len(standardColours) {
		t.Errorf("%d colours are known, the standard has %d", len(colours), len(standardColours))
	}
}

// Motor sheets print these in place of the codes: common practice, no source.
func TestAbbreviationsOfMotorSheets(t *testing.T) {
	for text, code := range map[string]string{
		"BLK": "BK", "BRN": "BN", "BRO": "BN", "RED": "RD", "ORG": "OG", "ORN": "OG", "YEL": "YE",
		"GRN": "GN", "BLU": "BU", "VIO": "VT", "PUR": "VT", "purple": "VT", "GRY": "GY", "gray": "GY",
		"slate": "GY", "WHT": "WH", "PIK": "PK", "PNK": "PK", "light blue": "BU",
	} {
		for _, spelt := range []string{text, strings.ToLower(text), strings.ToUpper(text)} {
			if c, ok := ColourNamed(spelt); !ok || c.Code != code {
				t.Errorf("ColourNamed(%q) = %q, %v; want %s", spelt, c.Code, ok, code)
			}
		}
	}
}

// A spelling that stood at two colours would be read as the first of them.
func TestNoSpellingMeansTwoColours(t *testing.T) {
	owner := map[string]string{}
	for _, c := range colours {
		mine := map[string]bool{}
		for _, spelt := range append([]string{c.Code, c.Word}, c.other...) {
			spelt = strings.ToUpper(spelt)
			if other := owner[spelt]; other != "" && !mine[spelt] {
				t.Errorf("%s means %s and %s", spelt, other, c.Code)
			}
			owner[spelt], mine[spelt] = c.Code, true
		}
	}
}

func TestWhatIsNoColour(t *testing.T) {
	for _, text := range []string{"", " ", "/", "B", "BL", "BNX", "bronw", "WH/RD", "RDWH", "GNYE", "BN BN", "A+", "case"} {
		if c, ok := ColourNamed(text); ok || c.Code != "" || c.Word != "" {
			t.Errorf("ColourNamed(%q) = %s, %v; it is no colour", text, c.Code, ok)
		}
	}
}
