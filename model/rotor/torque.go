package rotor

// The one torque law of this package, for the statics and for motion in time:
//
//	T = −TA·sin θe + TB·cos θe − Td·sin(4θe + φd)
//
// θe the rotor angle in electrical measure, TA and TB what the net current of
// each phase would hold with alone. (The usual model of the two-phase
// permanent-magnet and hybrid motor, as in the textbooks of Kenjo and of
// Acarnley; from memory.)

// fieldTorque gives the part of the field, from the sine and cosine of θe.
func fieldTorque(a, b, sin, cos float64) float64 { return b*cos - a*sin }

// detentWave gives sin(4θe + φd) and cos(4θe + φd) from the sines and cosines
// of θe and φd; by the double angle twice, which is exact where the detents
// balance.
func detentWave(sin, cos, shiftSin, shiftCos float64) (sin4, cos4 float64) {
	sin2, cos2 := 2*sin*cos, (cos-sin)*(cos+sin)
	s, c := 2*sin2*cos2, (cos2-sin2)*(cos2+sin2)
	return s*shiftCos + c*shiftSin, c*shiftCos - s*shiftSin
}
