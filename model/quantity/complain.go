package quantity

import (
	"errors"
	"math"
	"strings"

	"coilwalk/model/files"
)

// Every message is one sentence: what was found, and what would be right.

func (k *kind) noNumber(whole string) error {
	const example = "12" // any number that looks at home on a bench
	if whole == "" {
		return errors.New("nothing is given for the " + k.name + "; " + k.advice(example))
	}
	return errors.New(shown(whole) + " does not begin with a number; " + k.advice(example))
}

func (k *kind) noUnit(n numeral) error {
	return errors.New(shown(n.text) + " has no unit; " + k.advice(shown(n.text)))
}

func (k *kind) unknownUnit(n numeral, whole string) error {
	return errors.New(shown(whole) + " has an unknown unit; " + k.advice(shown(n.text)))
}

func (k *kind) strayUnit(owner *kind, whole string) error {
	return errors.New(shown(whole) + " is " + owner.one() + "; " + k.one() + " is wanted: " + k.list())
}

func notPlain(whole string) error {
	return errors.New("the number in " + shown(whole) + " is not plain; write digits with at most one point, as in 1500 or 1.5")
}

// twoWays is for a comma with three digits after it: decimal in one country, a
// mark of the thousands in the next.
func twoWays(n numeral, before, after string) error {
	point := strings.TrimRight(withoutZeros(before)+"."+after, "0")
	point = n.sign + strings.TrimSuffix(point, ".") + n.exponent
	joined := n.sign + withoutZeros(before+after) + n.exponent
	return errors.New(shown(n.text) + " can be read in two ways; write " + shown(point) + " or " + shown(joined))
}

// withoutZeros drops the zeros at the front of a row of digits, but leaves one
// where there is nothing else.
func withoutZeros(digits string) string {
	if digits = strings.TrimLeft(digits, "0"); digits == "" {
		return "0"
	}
	return digits
}

func tooLarge(whole string) error {
	return errors.New(shown(whole) + " is too large; numbers up to " + decimal(largest) + " are taken")
}

func tooSmall(whole string) error {
	return errors.New(shown(whole) + " is too close to zero to be told from it; write 0 if that is meant")
}

// check refuses what can not be as a value in the unit.
func (k *kind) check(v float64, u *unit, whole string) error {
	switch {
	case math.IsNaN(v):
		return errors.New(shown(whole) + " is no " + k.name)
	case math.Abs(v) > largest:
		return tooLarge(whole)
	case k.floor != "" && v < u.least:
		return errors.New(shown(whole) + " is below " + k.floor + ", " + decimal(u.least) + " " + u.name)
	}
	return nil
}

// advice says which units are taken, with a number in the first as an example.
func (k *kind) advice(number string) string {
	return "write " + k.list() + ", as in " + number + " " + k.units[0].name
}

// list gives the told units as "A, mA or uA".
func (k *kind) list() string {
	var names []string
	for _, u := range k.units {
		if u.role&told != 0 {
			names = append(names, u.name)
		}
	}
	return files.Either(names)
}

// one gives the dimension with its article.
func (k *kind) one() string {
	if strings.ContainsRune("aeiou", rune(k.name[0])) {
		return "an " + k.name
	}
	return "a " + k.name
}

// shown quotes what was written, safe for a terminal, and short enough that the
// advice after it stays in sight.
func shown(text string) string {
	const longest = 40 // characters
	if r := []rune(text); len(r) > longest {
		text = string(r[:longest]) + "…"
	}
	return files.Shown(text)
}
