package rotor

import (
	"math"

	"coilwalk/sequence"
)

// Balance says what keeps the rotor where it rests.
type Balance int

const (
	Held    Balance = iota // by the field, at the foot of its pull, or within friction of it
	Stuck                  // by friction alone, where the field pulls no way: opposite, on the hill
	Either                 // by nothing: an unstable balance, and the rotor falls to one side or the other
	Detent                 // no field: by the detent
	Loose                  // no field and no detent that tells: it stays where it is, by friction at most
	Adrift                 // the load is stronger than the hold: it is driven on and never rests
	Unknown                // it was not known where the rotor was
)

// The search for a rest.
const (
	marchDeg   = 1.0  // march step, electrical: the curve's shortest wave is 90° long
	nudgeDeg   = 0.01 // the disturbance that tells a valley from a hill
	levelTight = 1e-6 // T1: a torque that is none; 6·10⁻⁵ degrees off a balance
)

// Rest gives where the rotor comes to rest under a field, from where it was,
// if it moves as slowly as it likes: along the torque curve the way that it is
// pulled, to the first place where pull no longer overcomes friction. An
// unstable balance without friction gives both places, and none is chosen;
// adrift there is no place.
//
// Where friction is at work this is the near edge of its dead zone, which is
// 2·asin(Tf/T1) electrical wide for one phase (Jones, "Stepping Motor Physics",
// Friction and the Dead Zone); a rotor with inertia may end anywhere in it.
func (m Machine) Rest(f sequence.Field, from Position) ([]Position, Balance) {
	pull := m.Torque(f, from.Deg)
	if math.Abs(pull) <= m.Friction+levelTight {
		return m.stay(f, from)
	}
	way := math.Copysign(1, pull)
	if to, ok := m.slide(f, from.Deg, way); ok {
		return []Position{from.moved(to - from.Deg)}, m.kept(f, to)
	}
	return nil, Adrift
}

// stay is the case in which nothing overcomes friction at once.
func (m Machine) stay(f sequence.Field, from Position) ([]Position, Balance) {
	up := m.Torque(f, from.Deg+nudgeDeg) > levelTight*nudgeDeg
	down := m.Torque(f, from.Deg-nudgeDeg) < -levelTight*nudgeDeg
	if !(up && down) {
		return []Position{from}, m.kept(f, from.Deg)
	}
	if m.Friction > levelTight {
		return []Position{from}, Stuck
	}
	var both []Position
	for _, way := range []float64{1, -1} {
		to, ok := m.slide(f, from.Deg+way*nudgeDeg, way)
		if !ok {
			return nil, Adrift
		}
		both = append(both, from.moved(to-from.Deg))
	}
	return both, Either
}

// slide marches from deg the way it is pulled to the first place where the
// pull that way no longer exceeds friction; false after a whole pitch without.
func (m Machine) slide(f sequence.Field, deg, way float64) (to float64, ok bool) {
	over := func(x float64) bool { return way*m.Torque(f, x) > m.Friction }
	last := deg
	for travelled := marchDeg; travelled <= 360+2*marchDeg; travelled += marchDeg {
		next := deg + way*travelled
		if !over(next) {
			return foot(over, last, next), true
		}
		last = next
	}
	return 0, false
}

// foot bisects between a place that is pulled on and one that is not.
func foot(over func(float64) bool, on, off float64) float64 {
	if !over(off) && math.Abs(off-on) > 0 {
		for range 60 { // halves of a march step: far below the last bit
			mid := on + (off-on)/2
			if mid == on || mid == off {
				break
			}
			if over(mid) {
				on = mid
			} else {
				off = mid
			}
		}
	}
	return off
}

// kept says what keeps a rotor that has come to rest.
func (m Machine) kept(f sequence.Field, deg float64) Balance {
	switch {
	case !f.None():
		if m.Stiffness(f, deg) < 0 {
			return Stuck
		}
		return Held
	case m.Detent > m.Friction+math.Abs(m.Load):
		return Detent
	}
	return Loose
}
