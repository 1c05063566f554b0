package quantity

import (
	"math"
	"strconv"
	"strings"
)

// largest is the greatest magnitude that is read, in the unit as written. No
// bench has more; a slip of the exponent does.
const largest = 1e15

// numeral is the number at the start of a text, as it is written.
type numeral struct {
	sign     string // "" or "-"
	mantissa string // digits, points and commas
	exponent string // "" or as "e-3"
	text     string // all of it, for a message
}

// cutNumber parts a text into the number at its start and what follows. The
// mantissa takes every point and comma in reach, so that 1.2.3 is one bad
// number and not a good one with a strange unit.
func cutNumber(text string) (n numeral, rest string) {
	rest = text
	for _, sign := range []struct{ written, means string }{{"+", ""}, {"-", "-"}, {"\u2212", "-"}} {
		if after, ok := strings.CutPrefix(rest, sign.written); ok {
			n.sign, rest = sign.means, after
			break
		}
	}
	n.mantissa = leading(rest, "0123456789.,")
	rest = rest[len(n.mantissa):]
	if n.mantissa != "" && rest != "" && (rest[0] == 'e' || rest[0] == 'E') {
		after := rest[1:]
		sign := ""
		if after != "" && (after[0] == '+' || after[0] == '-') {
			sign, after = after[:1], after[1:]
		}
		if digits := leading(after, "0123456789"); digits != "" {
			n.exponent, rest = "e"+sign+digits, after[len(digits):]
		}
	}
	n.text = text[:len(text)-len(rest)]
	return n, rest
}

// leading gives the start of text that is made of the characters in set.
func leading(text, set string) string {
	return text[:len(text)-len(strings.TrimLeft(text, set))]
}

// readNumber reads the number of a quantity; whole is the quantity as written,
// for messages.
func readNumber(n numeral, whole string) (float64, error) {
	mantissa := n.mantissa
	points, commas := strings.Count(mantissa, "."), strings.Count(mantissa, ",")
	if points+commas > 1 {
		return 0, notPlain(whole)
	}
	if before, after, ok := strings.Cut(mantissa, ","); ok {
		switch len(after) {
		case 0:
			return 0, notPlain(whole)
		case 3:
			return 0, twoWays(n, before, after)
		}
		mantissa = before + "." + after
	}
	// Only digits, one point and an exponent are left here, so nothing else that
	// ParseFloat takes (NaN, Inf, hexadecimal, underscores) can come through.
	v, err := strconv.ParseFloat(n.sign+mantissa+n.exponent, 64)
	switch {
	case err != nil:
		return 0, tooLarge(whole) // out of range is all that is left to go wrong
	case v == 0 && strings.ContainsAny(mantissa, "123456789"):
		return 0, tooSmall(whole) // a given value must not become 0 unseen
	}
	return v, nil
}

// decimal gives the shortest decimal that reads back the same. The exponent is
// kept for values that no bench has, where a row of zeros could not be counted.
func decimal(v float64) string {
	size := math.Abs(v)
	if size == 0 {
		return "0" // for -0 as well
	}
	if size >= 1e-6 && size < 1e9 {
		return strconv.FormatFloat(v, 'f', -1, 64)
	}
	mantissa, exponent, ok := strings.Cut(strconv.FormatFloat(v, 'e', -1, 64), "e")
	if !ok {
		return mantissa // infinite, or not a number
	}
	sign := strings.TrimSuffix(exponent[:1], "+")
	return mantissa + "e" + sign + strings.TrimLeft(exponent[1:], "0")
}
