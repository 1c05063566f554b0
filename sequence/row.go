package sequence

import "strings"

// Row is one line of an energising order: for each coil end in field order,
// how far its output is on, from 0 (off) to 1 (the current of one phase on).
// Values between are the time-averaged currents of microsteps.
type Row [4]float64

// On gives the ends that carry any current, in field order.
func (r Row) On() []End {
	var on []End
	for _, e := range Ends {
		if r[e] > 0 {
			on = append(on, e)
		}
	}
	return on
}

// Whole says whether every output is fully on or fully off.
func (r Row) Whole() bool {
	for _, v := range r {
		if v != 0 && v != 1 {
			return false
		}
	}
	return true
}

// Bits writes the row as zeros and ones, any current counting as on: "1100".
func (r Row) Bits() string {
	var b strings.Builder
	for _, v := range r {
		if v > 0 {
			b.WriteByte('1')
		} else {
			b.WriteByte('0')
		}
	}
	return b.String()
}

// Field gives the field that the row sets up.
func (r Row) Field() Field {
	return Field{A: r[APlus] - r[AMinus], B: r[BPlus] - r[BMinus]}
}

// BothOn says whether both ends of a phase (0 for A, 1 for B) are on.
func (r Row) BothOn(phase int) bool {
	return r[phase] > 0 && r[phase+2] > 0
}

// Heat gives the copper loss of the row, in multiples of that of one phase on
// at the same coil current: the sum of the squared currents. A bridge carries
// no current through a coil whose ends are alike.
func (r Row) Heat(drive Drive) float64 {
	if drive == Bipolar {
		f := r.Field()
		return f.A*f.A + f.B*f.B
	}
	sum := 0.0
	for _, v := range r {
		sum += v * v
	}
	return sum
}

// Onto gives what the outputs do for a row at the coil ends, output k feeding end
// p[k]: Through the other way.
func (r Row) Onto(p Permutation) Row {
	var outputs Row
	for k, e := range p {
		outputs[k] = r[e]
	}
	return outputs
}

// Through gives the row at the coil ends when output k feeds end p[k].
func (r Row) Through(p Permutation) Row {
	var at Row
	for k, v := range r {
		at[p[k]] = v
	}
	return at
}
