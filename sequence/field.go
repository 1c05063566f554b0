package sequence

import "math"

// Field is the field of a row, as the net current of each phase: 1 is the
// current of one phase on, negative reverses the polarity.
type Field struct{ A, B float64 }

// Strength gives the length of the field, √(A² + B²): 1 for one phase on, √2
// for two. (Superposition of two sines 90° apart; Jones, "Stepping Motor
// Physics", Half-Stepping and Microstepping.)
func (f Field) Strength() float64 { return math.Hypot(f.A, f.B) }

// None says that the row sets up no field, because nothing is on or because
// what is on cancels.
func (f Field) None() bool { return f.A == 0 && f.B == 0 }

// Degrees gives the field angle atan2(B, A) in [0, 360), and false when there
// is no field. Multiples of 45° are exact.
func (f Field) Degrees() (deg float64, ok bool) {
	switch {
	case f.None():
		return 0, false
	case f.B == 0:
		return half(f.A < 0), true
	case f.A == 0:
		return 90 + half(f.B < 0), true
	case f.A == f.B:
		return 45 + half(f.A < 0), true
	case f.A == -f.B:
		return 135 + half(f.A > 0), true
	}
	deg = math.Atan2(f.B, f.A) * 180 / math.Pi
	if deg < 0 {
		deg += 360
	}
	if deg >= 360 { // a tiny negative angle rounds up to a whole turn
		deg = 0
	}
	return deg, true
}

func half(back bool) float64 {
	if back {
		return 180
	}
	return 0
}

// Between gives the way from one field angle to another by the shorter side,
// in (−180, 180] electrical degrees.
func Between(fromDeg, toDeg float64) float64 {
	d := math.Mod(toDeg-fromDeg, 360)
	switch {
	case d <= -180:
		d += 360
	case d > 180:
		d -= 360
	}
	return d
}
