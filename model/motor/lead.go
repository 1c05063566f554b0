package motor

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Lead is a lead of the motor, by its colour or by any name the person gave
// it. Colours are kept as IEC 60757 codes, a striped lead as base/stripe.
// The zero Lead is none.
type Lead string

// Case is the name reserved for the motor's case, which is no lead.
const Case = "case"

const longestLead = 16 // characters, so that a name fits beside its coil on the screen

// ParseLead reads the name of a lead: a colour in any of its spellings
// ("BN", "brown", "BRN"), a striped one ("WH/RD", "white/red"), or a name of
// one's own without blanks, commas and equal signs.
func ParseLead(text string) (Lead, error) {
	text = strings.TrimSpace(text)
	if c, ok := ColourNamed(text); ok {
		return Lead(c.Code), nil
	}
	if base, stripe, ok := strings.Cut(text, "/"); ok {
		b, okB := ColourNamed(base)
		s, okS := ColourNamed(stripe)
		if okB && okS {
			return Lead(b.Code + "/" + s.Code), nil
		}
	}
	if a, b, ok := joined(text); ok {
		if a.Code == "GN" && b.Code == "YE" {
			return "GN/YE", nil
		}
		return "", fmt.Errorf("%s does not say which colour is the base; write %s/%s or %s/%s", text, a.Code, b.Code, b.Code, a.Code)
	}
	return plainName(text)
}

func plainName(text string) (Lead, error) {
	switch {
	case text == "":
		return "", fmt.Errorf("a lead has no name; a colour (BN, brown) or a name of your own is wanted")
	case strings.EqualFold(text, Case):
		return "", fmt.Errorf("%q stands for the motor's case; name the lead otherwise", Case)
	case len([]rune(text)) > longestLead:
		return "", fmt.Errorf("the lead name %q… is longer than %d characters; a shorter one is wanted", string([]rune(text)[:longestLead]), longestLead)
	}
	for i, r := range text {
		if _, size := utf8.DecodeRuneInString(text[i:]); r == utf8.RuneError && size == 1 { // a terminal may take it for a control character
			return "", fmt.Errorf("the lead name %q is no UTF-8 text; save the file as UTF-8", text)
		}
		if unicode.IsSpace(r) || strings.ContainsRune(",;=\"'#", r) || !unicode.IsPrint(r) {
			return "", fmt.Errorf("the lead name %q holds %q; letters, digits and / + - _ . are wanted", text, r)
		}
	}
	return Lead(text), nil
}

// folded gives a name without its case, for comparing.
func folded(l Lead) string { return strings.ToLower(strings.ToUpper(string(l))) }

// Colours gives the base and the stripe; each is the zero Colour where there
// is none.
func (l Lead) Colours() (base, stripe Colour) {
	first, second, striped := strings.Cut(string(l), "/")
	base, ok := ColourNamed(first)
	if !ok || first != base.Code {
		return Colour{}, Colour{}
	}
	if striped {
		if stripe, ok = ColourNamed(second); !ok || second != stripe.Code {
			return Colour{}, Colour{}
		}
	}
	return base, stripe
}

// Words says the lead in words: "brown", "white with a red stripe", or its name.
func (l Lead) Words() string {
	base, stripe := l.Colours()
	switch {
	case base.Code == "":
		return string(l)
	case stripe.Code == "":
		return base.Word
	}
	return base.Word + " with a " + stripe.Word + " stripe"
}

// Find gives the lead among leads that text means: by any spelling of its
// name, also in the standard's joined form when only one lead has both colours.
func Find(leads []Lead, text string) (Lead, error) {
	if a, b, ok := joined(strings.TrimSpace(text)); ok {
		var found []Lead
		for _, l := range leads {
			if l == Lead(a.Code+"/"+b.Code) || l == Lead(b.Code+"/"+a.Code) {
				found = append(found, l)
			}
		}
		if len(found) == 1 {
			return found[0], nil
		}
	}
	want, err := ParseLead(text)
	if err != nil {
		return "", err
	}
	names := make([]string, len(leads))
	for i, l := range leads {
		if folded(l) == folded(want) {
			return l, nil
		}
		names[i] = string(l)
	}
	return "", fmt.Errorf("the motor has no lead %s; it has %s", want, strings.Join(names, " "))
}
