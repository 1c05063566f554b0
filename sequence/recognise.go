package sequence

import "math"

// Stretch says what a list of rows is a stretch of.
type Stretch struct {
	Mode      Mode
	Direction Direction
	Start     int // the place in the mode's forward cycle of the list's first row
}

// alike is the tolerance on a current below which two rows are the same: wide
// enough for a table of microsteps printed to three digits.
const alike = 2e-3

// Recognise says which step mode, direction and place in the cycle a list of
// at least two rows is in; ok is false when it is a stretch of none. Rows are
// compared by the field they set up, so a row that cancels fits nowhere.
func Recognise(rows []Row) (s Stretch, ok bool) {
	if len(rows) < 2 {
		return Stretch{}, false
	}
	for _, m := range Modes {
		if s, ok := m.fits(rows); ok {
			return s, true
		}
	}
	total, least, most := 0.0, math.Inf(1), 0.0 // over all rows, so that rounded figures do not blur the step
	for k := 1; k < len(rows); k++ {
		from, okFrom := rows[k-1].Field().Degrees()
		to, okTo := rows[k].Field().Degrees()
		if !okFrom || !okTo {
			return Stretch{}, false
		}
		step := Between(from, to)
		total, least, most = total+step, min(least, math.Abs(step)), max(most, math.Abs(step))
	}
	if most > 1.6*least { // a row is left out, or stands twice: no rounding does that
		return Stretch{}, false
	}
	guess := int(math.Round(90 * float64(len(rows)-1) / math.Abs(total)))
	for _, off := range []int{0, 1, -1, 2, -2} {
		if m, err := Micro(guess+off, 0); err == nil {
			if s, ok := m.fits(rows); ok {
				return s, true
			}
		}
	}
	return Stretch{}, false
}

// fits tries the rows against the mode, in both directions.
func (m Mode) fits(rows []Row) (Stretch, bool) {
	o := m.Order()
	deg, ok := rows[0].Field().Degrees()
	if !ok {
		return Stretch{}, false
	}
	start := o.Nearest(deg)
	for _, d := range []Direction{Forward, Reverse} {
		all := true
		for k, r := range rows {
			want := o.Row(int64(start) + int64(d)*int64(k))
			if !sameField(r.Field(), want.Field()) {
				all = false
				break
			}
		}
		if all {
			return Stretch{Mode: m, Direction: d, Start: start}, true
		}
	}
	return Stretch{}, false
}

func sameField(f, g Field) bool {
	return math.Abs(f.A-g.A) <= alike && math.Abs(f.B-g.B) <= alike
}
