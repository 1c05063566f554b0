package motor

import "math/big"

// Drift is how far the shaft goes wrong when firmware holds a turn of it to be
// a number of rows that it is not.
type Drift struct {
	Believed      *big.Rat // rows to a turn, as the firmware has it
	DegPerTurn    *big.Rat // degrees too far in each turn meant; negative: too short
	TurnsToStep   *big.Rat // turns until it is one row off; nil if it never is
	TurnsToDegree *big.Rat // turns until it is one degree off; nil if it never is
}

// DriftOf compares the rows that make a turn with the rows that are believed
// to: the shaft turns believed/exact of a turn each time.
func DriftOf(exact, believed *big.Rat) Drift {
	d := Drift{Believed: believed}
	off := new(big.Rat).Sub(believed, exact)
	d.DegPerTurn = new(big.Rat).Quo(off, exact)
	d.DegPerTurn.Mul(d.DegPerTurn, big.NewRat(360, 1))
	if off.Sign() != 0 {
		d.TurnsToStep = new(big.Rat).Inv(new(big.Rat).Abs(off))
		d.TurnsToDegree = new(big.Rat).Inv(new(big.Rat).Abs(d.DegPerTurn))
	}
	return d
}
