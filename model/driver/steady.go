package driver

import (
	"math"

	"coilwalk/sequence"
)

// Steady gives the current, in ampere, that each coil comes to once a row has
// lasted long and the rotor stands: unipolar of the half-coils in field order,
// bipolar of phases A and B, with their sign. A coil has so many ohm, the supply
// so many volts at its terminals while these currents flow, the junction is at
// so many °C, and limit is as in Feeds. The drop is that of the published points:
//
//	i = (supply − drop(i))/ohms    (a data sheet of Darlington arrays, 9.2.2, equation 1)
func (s Stage) Steady(row sequence.Row, drive sequence.Drive, limit, supply, ohms, junctionC float64) (amperes [4]float64) {
	for j := range amperes {
		// what the drop at a current leaves of it falls as the current rises, so
		// the two meet once
		leaves := func(i float64) float64 {
			around := s.Around(i, junctionC)
			return around.feed(j, row, drive, limit).Settled(supply, ohms)
		}
		first := leaves(0)
		if first == 0 {
			continue
		}
		if i, ok := repeated(leaves, first); ok {
			amperes[j] = i
			continue
		}
		sign := math.Copysign(1, first)
		least, most := 0.0, sign*first
		if ohms > 0 {
			most = max(most, supply/ohms)
		}
		for range 60 {
			mid := (least + most) / 2
			if sign*leaves(mid) > mid {
				least = mid
			} else {
				most = mid
			}
		}
		amperes[j] = sign * most
	}
	return amperes
}

// repeated follows the straight pieces of a curve until one gives the current that
// it is taken at, which takes two or three; ok is false when they go to and fro.
func repeated(leaves func(float64) float64, from float64) (i float64, ok bool) {
	i = from
	for range 6 {
		next := leaves(math.Abs(i))
		if math.Abs(next-i) <= 1e-14*math.Abs(i) {
			return next, true
		}
		i = next
	}
	return 0, false
}

// Settled gives the current of a coil of so many ohm, behind a supply of so many
// volts, at which nothing changes any more.
func (f Feed) Settled(supply, ohms float64) float64 {
	if f == (Feed{}) {
		return 0 // no coil at all
	}
	up := (f.Above.Rail*supply - f.Above.Volts()) / (ohms + f.Above.Ohms())
	down := (f.Below.Rail*supply + f.Below.Volts()) / (ohms + f.Below.Ohms())
	switch {
	case f.Firm:
		return f.Hold
	case up > f.Hold || f.Linear():
		return up
	case down < f.Hold:
		return down
	}
	return f.Hold
}
