package sequence

import "math/big"

// Order is an endless energising order: a cycle of rows, repeated both ways.
// Steps count from 0 and may be any int64; a step of 10¹⁵ costs what one costs.
type Order struct {
	mode  Mode // the zero Mode for rows that follow none
	cycle []Row
}

// Order gives the mode's order. Step 0 is its first row: A+ alone, or A+ B+ in
// full step.
func (m Mode) Order() Order {
	cycle := make([]Row, m.Rows())
	for k := range cycle {
		cycle[k] = m.row(k)
	}
	return Order{mode: m, cycle: cycle}
}

// Custom gives the order that repeats rows of one's own, at least one.
func Custom(rows []Row) Order {
	if len(rows) == 0 {
		rows = []Row{{}}
	}
	return Order{cycle: append([]Row(nil), rows...)}
}

// Mode gives the step mode that made the order; ok is false for rows of one's
// own.
func (o Order) Mode() (m Mode, ok bool) { return o.mode, o.mode.PerStep > 0 }

// Len gives the number of rows in a cycle.
func (o Order) Len() int { return len(o.cycle) }

// Index gives the place in the cycle, from 0, at which a step falls.
func (o Order) Index(step int64) int {
	n := int64(len(o.cycle))
	return int(((step % n) + n) % n)
}

// Row gives the row at a step.
func (o Order) Row(step int64) Row { return o.cycle[o.Index(step)] }

// Degrees gives the exact field angle that a step commands, in electrical
// degrees, counting whole cycles: 90·step/PerStep + FirstAt. It is nil for rows
// of one's own, which command no steady advance.
func (o Order) Degrees(step int64) *big.Rat {
	if o.mode.PerStep == 0 {
		return nil
	}
	deg := new(big.Rat).SetFrac64(90, int64(o.mode.PerStep))
	deg.Mul(deg, new(big.Rat).SetInt64(step))
	return deg.Add(deg, new(big.Rat).SetInt64(int64(o.mode.FirstAt)))
}

// Nearest gives the first row of the cycle whose field is nearest to a field
// angle in degrees; 0 when no row has a field.
func (o Order) Nearest(deg float64) int {
	best, bestOff := 0, 361.0
	for k, r := range o.cycle {
		at, ok := r.Field().Degrees()
		if !ok {
			continue
		}
		off := Between(deg, at)
		if off < 0 {
			off = -off
		}
		if off < bestOff-1e-9 {
			best, bestOff = k, off
		}
	}
	return best
}
