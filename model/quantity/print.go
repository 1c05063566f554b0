package quantity

import (
	"math"
	"strconv"
)

// String gives the quantity as it was written, in the canonical spelling of its
// unit: "350 gf.cm". It is "" for a quantity that is not given.
func (q Quantity[D]) String() string {
	if q.unit == nil {
		return ""
	}
	return decimal(q.value) + " " + q.unit.name
}

// Rounded gives a computed quantity to at most a number of significant digits
// (1 to 17), zeros at the end of a fraction left out, in the unit of the
// dimension that leaves a number from 1 up to a thousand where there is one:
// "82 mA", "1.2 kohm". It is "" for a quantity that is not given.
func (q Quantity[D]) Rounded(digits int) string {
	if q.unit == nil {
		return ""
	}
	k := kindOf[D]()
	// Rounded once, before a unit is chosen: so 999.6 mA is 1 A in three digits,
	// and a value half way between two does not round otherwise in another unit.
	v := toDigits(q.Base(), digits)
	if v == 0 || math.IsNaN(v) || math.IsInf(v, 0) {
		return decimal(v) + " " + k.units[0].name // all units alike; take the everyday one
	}
	best, value := (*unit)(nil), 0.0
	for i := range k.units {
		u := &k.units[i]
		if u.role&rung == 0 {
			continue
		}
		// Units for Rounded are powers of ten apart, so this rounding only clears
		// what the division left behind the last digit.
		if x := toDigits(u.fromBase(v), digits); best == nil || handier(x, value) {
			best, value = u, x
		}
	}
	return decimal(value) + " " + best.name
}

// handier tells whether a reads better than b: it is 1 or more and has fewer
// digits before the point, or both are below 1 and it has fewer zeros after.
func handier(a, b float64) bool {
	a, b = math.Abs(a), math.Abs(b)
	switch {
	case a >= 1 && b >= 1:
		return a < b
	default:
		return a > b
	}
}

// toDigits rounds to significant decimal digits.
func toDigits(v float64, digits int) float64 {
	text := strconv.FormatFloat(v, 'e', min(max(digits, 1), 17)-1, 64)
	rounded, err := strconv.ParseFloat(text, 64)
	if err != nil {
		return v // rounding up went past the greatest float
	}
	return rounded
}
