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
	from, okFrom := rows[0].Field().Degrees()
	to, okTo := rows[1].Field().Degrees()
	step := math.Abs(Between(from, to))
	if !okFrom || !okTo || step < 90.0/(MaxDivide+1) {
		return Stretch{}, false
	}
	m, err := Micro(int(math.Round(90/step)), 0)
	if err != nil {
		return Stretch{}, false
	}
	return m.fits(rows)
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
