package rotor

import "math"

// train is what lies between rotor and load: a gap, half of it to either side of
// the load. Either the two touch and are one inertia, and what passes between
// them pushes,
//
//	s·(J′·dω/dt + load + friction of it) ≥ 0,  s = +1 where the rotor pushes forward,
//
// or each goes by itself. Where they meet they go on together (a restitution of 0:
// teeth of a train do not bounce long), with the momentum of both: ω = (J·ωr +
// J′·ωl)/(J + J′). (Rigid bodies with Coulomb friction and one contact; from
// memory.)
type train struct {
	half   float64 // of the play, electrical rad; 0 without
	face   float64 // s; 0 while they do not touch
	parted bool    // the contact has just been lost
	load   float64 // N·m of the load, constant; all of it at the rotor
	dry    float64 // N·m
	hangs  float64 // N·m, amplitude of what goes with the angle
	mass   float64 // kg·m²
	stuck  bool    // the load, by itself
	sense  float64 // the way that the load moves by itself
}

// edge is how exactly the ends of the play are told, as a part of it.
const edge = 1e-9

// lead gives how far the rotor is ahead of the load, and its speed; electrical rad
// and rad/s of the rotor.
func (m *Motion) lead(y *vector) (ahead, loadSpeed float64) {
	if !m.loose {
		return m.train.face * m.train.half, y[speed]
	}
	return y[angle] - y[m.beyond+1], y[m.beyond]
}

// carry sets what the rotor moves: itself, or the load with it.
func (m *Motion) carry(face float64) {
	t := &m.train
	t.face, m.loose = face, face == 0 && t.half > 0
	m.places = ampere + m.currents
	m.load, m.dry, m.gravity, m.loadGravity = t.load, m.plant.DryFriction(), t.hangs, 0
	m.inertia = m.plant.TotalInertia()
	if m.loose {
		m.places += 2
		m.load, m.dry, m.gravity, m.loadGravity = 0, m.plant.Friction, 0, t.hangs
		m.inertia = m.plant.Inertia
	}
	m.upper, m.lower = m.dry+m.creep, m.dry+m.creep
	m.hang()
}

// engage decides whether rotor and load touch, with speeds made one where they
// have just met.
func (m *Motion) engage() {
	t := &m.train
	ahead, load := m.lead(&m.now)
	rotor, side := m.now[speed], 0.0
	if math.Abs(ahead) >= t.half*(1-edge) {
		side = math.Copysign(1, ahead)
		ahead = side * t.half
	}
	if side*(rotor-load) > 0 {
		rotor = (m.plant.Inertia*rotor + t.mass*load) / (m.plant.Inertia + t.mass)
		m.now[speed], load = rotor, rotor
	}
	parted := t.parted
	t.parted = false
	if side != 0 && rotor == load && !parted {
		m.carry(side)
		if m.pushes(side) {
			return
		}
	}
	m.carry(0)
	m.now[m.beyond], m.now[m.beyond+1] = load, m.now[angle]-ahead
	m.loadPerJ = 1 / t.mass
	back := t.load + t.hangs*math.Sin(m.hangs+m.perShaft*m.now[m.beyond+1])
	t.sense, t.stuck = load, false
	if load == 0 {
		t.sense, t.stuck = -back, math.Abs(back) <= t.dry
	}
	t.sense = math.Copysign(1, t.sense)
	m.loadPush = -t.load - t.sense*t.dry
	if t.stuck {
		m.loadPerJ = 0
	}
}

// pushes says whether rotor and load, touching on a side with one speed, stay
// together: at rest by friction, or because one pushes the other on.
func (m *Motion) pushes(side float64) bool {
	t, w := &m.train, m.now[speed]
	pull := m.pull(&m.now, m.load)
	sense := math.Copysign(1, w)
	if w == 0 {
		back := t.load + t.hangs*math.Sin(m.hangs+m.perShaft*m.now[angle])
		if side*back+t.dry >= 0 { // the load does not run away from it
			// Towards the load both break away, from it the rotor may by itself.
			alone := m.plant.Friction + m.creep + min(side*back, t.dry)
			if side > 0 {
				m.lower = alone
			} else {
				m.upper = alone
			}
			if -m.lower <= pull && pull <= m.upper {
				return true
			}
		}
		if math.Abs(pull) <= m.dry {
			return false // friction holds both, but the rotor by itself gets away
		}
		sense = math.Copysign(1, pull)
	}
	slope := (pull - sense*m.dry - m.damping*w) / m.inertia
	v, _ := m.pressure(side, sense, m.now[angle], slope, 0, w)
	return v >= 0
}

// pressure gives the torque, at the rotor, with which one pushes the other on a
// side, and its slope: from the acceleration and its slope.
func (m *Motion) pressure(side, sense, at, slope, jerk, w float64) (v, dv float64) {
	t := &m.train
	sin, cos := math.Sincos(m.hangs + m.perShaft*at)
	return side * (t.mass*slope + t.load + t.hangs*sin + sense*t.dry),
		side * (t.mass*jerk + t.hangs*cos*m.perShaft*m.poles*w)
}

// jerk gives the slope of the acceleration of a rotor that moves, for a state and
// its slope.
func (q *equations) jerk(y, dy *vector) float64 {
	sin, cos := math.Sincos(y[angle])
	a, b, da, db := y[ampere], y[ampere+1], dy[ampere], dy[ampere+1]
	if q.halves {
		a, b, da, db = a-y[ampere+2], b-y[ampere+3], da-dy[ampere+2], db-dy[ampere+3]
	}
	_, wave := detentWave(sin, cos, q.shiftSin, q.shiftCos)
	turning := -q.perAmp*(a*cos+b*sin) - 4*q.detent*wave - q.gravity*q.perShaft*math.Cos(q.hangs+q.perShaft*y[angle])
	return q.perJ * (q.perAmp*fieldTorque(da, db, sin, cos) + turning*dy[angle] - q.damping*dy[speed])
}
