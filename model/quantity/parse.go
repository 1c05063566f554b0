package quantity

import (
	"strings"
	"unicode"
)

// Parse reads a quantity: a decimal number and a unit of the dimension, with or
// without a blank between. The number has a point or, where it can mean nothing
// else, a decimal comma, and may have an exponent. An error is one sentence
// that says what is wrong and what would be right.
func Parse[D dimension](text string) (Quantity[D], error) {
	v, u, err := kindOf[D]().read(text)
	if err != nil {
		return Quantity[D]{}, err
	}
	return written[D](v, u), nil
}

// read reads a value and its unit.
func (k *kind) read(text string) (float64, *unit, error) {
	whole := strings.TrimSpace(text)
	n, rest := cutNumber(whole)
	if !strings.ContainsAny(n.mantissa, "0123456789") {
		return 0, nil, k.noNumber(whole)
	}
	if goesOn(n, rest) {
		return 0, nil, notPlain(whole)
	}
	v, err := readNumber(n, whole)
	if err != nil {
		return 0, nil, err
	}
	name := plainUnit(rest)
	if name == "" {
		return 0, nil, k.noUnit(n)
	}
	u, owner := k.find(name)
	switch {
	case u == nil:
		return 0, nil, k.unknownUnit(n, whole)
	case owner != k:
		return 0, nil, k.strayUnit(owner, whole)
	}
	if err := k.check(v, u, whole); err != nil {
		return 0, nil, err
	}
	return v, u, nil
}

// goesOn tells whether what follows the number looks like more of a number, as
// in 1_000, 0x10, 1/4, 5-10 and 1 500: the unit is not what is wrong there.
func goesOn(n numeral, rest string) bool {
	next := strings.TrimLeftFunc(rest, unicode.IsSpace)
	if next == "" {
		return false
	}
	digit := func(i int) bool { return i < len(next) && next[i] >= '0' && next[i] <= '9' }
	switch rest[0] {
	case '_', '.', ',':
		return true
	case 'x', 'X':
		return n.text == "0"
	}
	return digit(0) || strings.IndexByte("/-+", next[0]) >= 0 && digit(1)
}

// find looks a unit up, first in this kind and then in all of them, and gives
// the kind it belongs to. Exact spellings come before those with other capitals
// even across kinds: 2 H of time is a henry in the wrong place, not two hours.
func (k *kind) find(name string) (*unit, *kind) {
	for _, same := range []func(a, b string) bool{exactly, butForCase} {
		if u := k.unit(name, same); u != nil {
			return u, k
		}
		for i := range kinds {
			if u := kinds[i].unit(name, same); u != nil {
				return u, &kinds[i]
			}
		}
	}
	return nil, nil
}

// unit looks a unit up in this kind.
func (k *kind) unit(name string, same func(a, b string) bool) *unit {
	for i := range k.units {
		u := &k.units[i]
		if isSpelt(name, u.name, same) {
			return u
		}
		for _, spelling := range u.also {
			if isSpelt(name, spelling, same) {
				return u
			}
		}
	}
	return nil
}

// isSpelt compares with a spelling, whose point may be a blank or left out.
func isSpelt(name, spelling string, same func(a, b string) bool) bool {
	return same(name, spelling) ||
		same(name, strings.Replace(spelling, ".", " ", 1)) ||
		same(name, strings.Replace(spelling, ".", "", 1))
}

func exactly(a, b string) bool { return a == b }

// butForCase compares without regard to capitals, except for a leading m or M:
// milli and mega are a factor of 1e9 apart.
func butForCase(a, b string) bool {
	if b[0] == 'm' || b[0] == 'M' {
		return a[0] == b[0] && strings.EqualFold(a, b)
	}
	return strings.EqualFold(a, b)
}

// likeSigns brings the signs that look alike, and those that a keyboard lacks,
// to one spelling.
var likeSigns = strings.NewReplacer(
	"\u00b5", "u", "\u03bc", "u", // micro sign, Greek mu
	"\u2126", "ohm", "\u03a9", "ohm", // ohm sign, Greek omega
	"²", "2", "^2", "2",
	"\u00b7", ".", "\u22c5", ".", "*", ".", "-", ".", // middle dot, dot operator
)

// plainUnit gives a unit as written in plain characters, blanks reduced to one
// each and to none at a point or stroke.
func plainUnit(text string) string {
	parts := strings.FieldsFunc(likeSigns.Replace(text), func(r rune) bool {
		return r == '\t' || unicode.Is(unicode.Zs, r)
	})
	name := strings.Join(parts, " ")
	for _, sign := range []string{".", "/"} {
		name = strings.ReplaceAll(name, " "+sign, sign)
		name = strings.ReplaceAll(name, sign+" ", sign)
	}
	return name
}
