package motor

import "strings"

// Colour is a colour of IEC 60757. The zero Colour is none.
type Colour struct {
	Code  string // of the standard: "BN"
	Word  string // "brown"
	other []string
}

// colours is table 1 of IEC 60757 in its order, which is also the order of the
// standard's joined form; beside each, the other words and the abbreviations
// that motor sheets print.
var colours = []Colour{
	{"BK", "black", []string{"BLK", "BLAC"}},
	{"BN", "brown", []string{"BRN", "BRO", "BR"}},
	{"RD", "red", []string{"RED"}},
	{"OG", "orange", []string{"ORG", "ORN", "OR"}},
	{"YE", "yellow", []string{"YEL", "YLW"}},
	{"GN", "green", []string{"GRN", "GRE"}},
	{"BU", "blue", []string{"BLU", "light blue", "LTBLU"}},
	{"VT", "violet", []string{"VIO", "purple", "PUR", "PPL"}},
	{"GY", "grey", []string{"GRY", "gray", "slate", "SLT"}},
	{"WH", "white", []string{"WHT", "WHI"}},
	{"PK", "pink", []string{"PNK", "PIK"}},
	{"GD", "gold", []string{"GLD"}},
	{"TQ", "turquoise", []string{"TRQ"}},
	{"SR", "silver", []string{"SLV"}},
}

// ColourNamed finds a colour by its code, its word, or an abbreviation found on
// motor sheets, in either case of letters.
func ColourNamed(text string) (Colour, bool) {
	text = strings.TrimSpace(text)
	for _, c := range colours {
		if strings.EqualFold(text, c.Code) || strings.EqualFold(text, c.Word) {
			return c, true
		}
		for _, o := range c.other {
			if strings.EqualFold(text, o) {
				return c, true
			}
		}
	}
	return Colour{}, false
}

// joined reads the standard's joined form, two codes in the order of its list
// (RDWH). It does not say which of the two is the base.
func joined(text string) (first, second Colour, ok bool) {
	if len(text) != 4 {
		return Colour{}, Colour{}, false
	}
	place := func(code string) int {
		for i, c := range colours {
			if strings.EqualFold(c.Code, code) {
				return i
			}
		}
		return -1
	}
	i, j := place(text[:2]), place(text[2:])
	if strings.EqualFold(text, "GNYE") { // the one pair that the standard joins against its order
		return colours[i], colours[j], true
	}
	if i < 0 || j <= i {
		return Colour{}, Colour{}, false
	}
	return colours[i], colours[j], true
}
