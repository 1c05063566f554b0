package motor

import (
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestParseLead(t *testing.T) {
	for text, want := range map[string]Lead{
		"BN": "BN", "bn": "BN", "brown": "BN", "Brown": "BN", "BRN": "BN", "\tbrown ": "BN",
		"PIK": "PK", "light blue": "BU",
		// Striped: base first. The standard has no sign for it; common practice, no source.
		"WH/RD": "WH/RD", "RD/WH": "RD/WH", "white/red": "WH/RD", "wht/Red": "WH/RD", "WH / RD": "WH/RD",
		// GN and YE are joined only as GNYE: IEC 60757:2021, 5.1.
		"GNYE": "GN/YE", "gnye": "GN/YE", "GN/YE": "GN/YE", "yellow/green": "YE/GN",
		// Not in the order of the list, so not the joined form: names of one's own.
		"WHRD": "WHRD", "RDRD": "RDRD",
		// Names of one's own keep their letters.
		"1": "1", "A+": "A+", "b-": "b-", "Tap_1": "Tap_1", "BK1": "BK1", "BK2": "BK2", "2.1": "2.1",
		"é": "é", "θ": "θ", "Draht№9": "Draht№9", "cases": "cases", "WH/x": "WH/x", "x/WH": "x/WH", "a/b/c": "a/b/c",
		"/": "/", "BN/": "BN/", "0123456789abcdef": "0123456789abcdef", "éééééééééééééééé": "éééééééééééééééé",
	} {
		if got, err := ParseLead(text); err != nil || got != want {
			t.Errorf("ParseLead(%q) = %q, %v; want %q", text, got, err, want)
		}
	}
}

func TestParseLeadRefuses(t *testing.T) {
	const wanted = "; letters, digits and / + - _ . are wanted"
	for text, want := range map[string]string{
		"":                  "a lead has no name; a colour (BN, brown) or a name of your own is wanted",
		" \t":               "a lead has no name; a colour (BN, brown) or a name of your own is wanted",
		"case":              `"case" stands for the motor's case; name the lead otherwise`,
		"CASE":              `"case" stands for the motor's case; name the lead otherwise`,
		" Case":             `"case" stands for the motor's case; name the lead otherwise`,
		"RDWH":              "RDWH does not say which colour is the base; write RD/WH or WH/RD",
		"bkog":              "bkog does not say which colour is the base; write BK/OG or OG/BK",
		"two words":         `the lead name "two words" holds ' '` + wanted,
		"a\u00a0b":          `the lead name "a\u00a0b" holds '\u00a0'` + wanted,
		"a,b":               `the lead name "a,b" holds ','` + wanted,
		"a;b":               `the lead name "a;b" holds ';'` + wanted,
		"a=b":               `the lead name "a=b" holds '='` + wanted,
		"a#b":               `the lead name "a#b" holds '#'` + wanted,
		`a"b`:               `the lead name "a\"b" holds '"'` + wanted,
		"a'b":               `the lead name "a'b" holds '\''` + wanted,
		"a\nb":              `the lead name "a\nb" holds '\n'` + wanted,
		"\x1b[31m":          `the lead name "\x1b[31m" holds '\x1b'` + wanted,
		"a\u202eb":          `the lead name "a\u202eb" holds '\u202e'` + wanted,
		"a\u200bb":          `the lead name "a\u200bb" holds '\u200b'` + wanted,
		"0123456789abcdefg": `the lead name "0123456789abcdef"… is longer than 16 characters; a shorter one is wanted`,
	} {
		if got, err := ParseLead(text); err == nil || got != "" || err.Error() != want {
			t.Errorf("ParseLead(%q) = %q, error %v; want the error %s", text, got, err, want)
		}
	}
}

// Every two codes in the order of the list are the joined form of the standard
// (IEC 60757:2021, 5.1), which does not say the base: it is asked about.
func TestJoinedFormIsAskedAbout(t *testing.T) {
	for i, first := range standardColours {
		for _, second := range standardColours[i+1:] {
			for _, text := range []string{first.code + second.code, strings.ToLower(first.code + second.code)} {
				want := text + " does not say which colour is the base; write " +
					first.code + "/" + second.code + " or " + second.code + "/" + first.code
				if got, err := ParseLead(text); err == nil || err.Error() != want {
					t.Errorf("ParseLead(%q) = %q, %v; want the error %s", text, got, err, want)
				}
			}
		}
	}
}

// What a lead is called on the screen can be typed back.
func TestALeadReadsItself(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.OneOf(rapid.String(), rapid.StringMatching(`[A-Za-z]{2}/?[A-Za-z]{2}`),
			rapid.StringMatching(`(red|WHT|gn|Case|x)/?(red|WHT|gn|case|y)`)).Draw(t, "text")
		lead, err := ParseLead(text)
		if err != nil {
			return
		}
		if again, err := ParseLead(string(lead)); err != nil || again != lead {
			t.Fatalf("%q is the lead %q, which reads as %q, %v", text, lead, again, err)
		}
		if lead == "" || strings.ContainsAny(string(lead), " \t\r\n,=") || strings.EqualFold(string(lead), Case) {
			t.Fatalf("%q is read as the lead %q", text, lead)
		}
	})
}

func TestWordsAndColours(t *testing.T) {
	for _, c := range []struct {
		lead         Lead
		words        string
		base, stripe string
	}{
		{"BN", "brown", "BN", ""},
		{"WH/RD", "white with a red stripe", "WH", "RD"},
		{"RD/WH", "red with a white stripe", "RD", "WH"},
		{"GN/YE", "green with a yellow stripe", "GN", "YE"},
		{"BK1", "BK1", "", ""},
		{"red", "red", "", ""}, // ParseLead never gives this one
		{"A+", "A+", "", ""},
		{"x/WH", "x/WH", "", ""},
		{"", "", "", ""},
	} {
		base, stripe := c.lead.Colours()
		if got := c.lead.Words(); got != c.words || base.Code != c.base || stripe.Code != c.stripe {
			t.Errorf("%q: %q, %s, %s; want %q, %s, %s", c.lead, got, base.Code, stripe.Code, c.words, c.base, c.stripe)
		}
	}
}

// Two leads of a motor may be WH/1 and WH/2: said as "white" both, nobody could
// tell them apart.
func TestWordsOfANameThatBeginsWithAColour(t *testing.T) {
	for _, lead := range []Lead{"WH/1", "BK/x", "BN/"} {
		if got := lead.Words(); got != string(lead) {
			t.Errorf("Words of %q = %q; want the name whole", lead, got)
		}
		if base, stripe := lead.Colours(); base.Code != "" || stripe.Code != "" {
			t.Errorf("Colours of %q = %q, %q; it is a name, not a colour", lead, base.Code, stripe.Code)
		}
	}
}
