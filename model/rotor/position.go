package rotor

import (
	"math"
	"math/big"
)

// Position is where the rotor is, to any number of turns: whole pole pitches
// of 360° electrical, and what is over.
type Position struct {
	Pitch int64   // whole pitches, each one pole pair of the rotor
	Deg   float64 // electrical, 0 ≤ Deg < 360
}

// moved gives the position after the rotor turned by deg electrical.
func (p Position) moved(deg float64) Position {
	to := p.Deg + deg
	whole := math.Floor(to / 360)
	p.Deg = to - 360*whole
	if p.Deg >= 360 { // a tiny negative number rounds up to a whole pitch
		p.Deg, whole = 0, whole+1
	}
	p.Pitch += int64(whole)
	return p
}

// Rotor gives the rotor angle in degrees, counting all turns. Beyond some
// 10¹² turns a float64 no longer holds the fraction: Turns does.
func (p Position) Rotor(polePairs int) float64 {
	return (float64(p.Pitch)*360 + p.Deg) / float64(polePairs)
}

// InTurn gives the electrical angle within a turn of the rotor, 0 ≤ angle < 360 to
// each pole pair; exact however many turns there are.
func (p Position) InTurn(polePairs int) float64 {
	n := int64(polePairs)
	return float64(((p.Pitch%n)+n)%n)*360 + p.Deg
}

// Turns parts the rotor angle into whole turns and the angle within the turn,
// 0 ≤ within < 360 degrees; exact however many turns there are.
func (p Position) Turns(polePairs int) (whole int64, within float64) {
	n := int64(polePairs)
	rest := ((p.Pitch % n) + n) % n
	within = p.InTurn(polePairs) / float64(polePairs)
	return (p.Pitch - rest) / n, min(within, math.Nextafter(360, 0))
}

// Shaft gives the angle of the output shaft in degrees, for a train of the
// given ratio (rotor turns to one of the shaft).
func (p Position) Shaft(polePairs int, ratio *big.Rat) float64 {
	deg, _ := p.ShaftExact(polePairs, ratio).Float64()
	return deg
}

// ShaftExact gives the same without any rounding but that of Deg itself.
func (p Position) ShaftExact(polePairs int, ratio *big.Rat) *big.Rat {
	deg := new(big.Rat).SetInt64(p.Pitch)
	deg.Mul(deg, big.NewRat(360, 1))
	if part := new(big.Rat).SetFloat64(p.Deg); part != nil {
		deg.Add(deg, part)
	}
	deg.Quo(deg, new(big.Rat).SetInt64(int64(polePairs)))
	return deg.Quo(deg, ratio)
}

// From gives how far, in electrical degrees, the rotor has come from another
// position.
func (p Position) From(q Position) float64 {
	return float64(p.Pitch-q.Pitch)*360 + p.Deg - q.Deg
}

// same tolerates what bisection leaves, far below what any rotor resolves.
func (p Position) same(q Position) bool { return math.Abs(p.From(q)) < 1e-6 }
