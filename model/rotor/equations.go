package rotor

import "math"

// vector is the state that is integrated, and its slope. Eight places, so that an
// index masked by 7 needs no check: speed, angle, two or four currents, and while
// a load goes by itself its speed and angle.
type vector [8]float64

// The places in a vector.
const (
	speed  = 0 // ω of the rotor, rad/s
	angle  = 1 // θe, electrical rad, within about a pitch
	ampere = 2 // the first of the coil currents: A and B, or A+ B+ A- B-
)

// equations is the machine between two events, with everything worked out that
// does not change there:
//
//	vj = R·ij + L·dij/dt − k·L·dij′/dt + ej,  ej = −p·ψm·ω·sin(θe − αj)
//	J·dω/dt = p·ψm·(iB·cos θe − iA·sin θe) − Td·sin(4θe + φd) − B·ω − friction − load
//
// j′ the other half of the phase, iA and iB net currents. (The usual model of
// the two-phase permanent-magnet and hybrid motor; from memory.) The leakage
// (1 − k)·L is in across: the pair of equations is solved for its slopes.
type equations struct {
	places   int  // of the vector that are in use
	currents int  // 2, or 4
	beyond   int  // the place of the load's speed, if it goes by itself; its angle is the next
	halves   bool // unipolar: the currents are those of four half-coils
	poles    float64
	perAmp   float64 // p·ψm
	perJ     float64 // 1/J; 0 while the rotor sticks
	damping  float64 // B
	push     float64 // constant torque: load, and friction against the way it moves
	detent   float64
	shiftSin float64
	shiftCos float64
	gravity  float64
	hangs    float64 // shaft angle, with the phase of gravity, at the pitch's zero, rad
	perShaft float64 // shaft rad to an electrical one

	loose       bool    // the load goes by itself
	loadPerJ    float64 // 1/J′; 0 while it sticks
	loadPush    float64 // its constant torque, and friction
	loadGravity float64

	drive [4]float64 // V, of the way that each current takes
	ohms  [4]float64 // coil and way together
	own   [4]float64 // 1/H: what a coil's own voltage does to its current
	cross [4]float64 // 1/H: what the other half's does
}

// slope gives dy/dt. It is all that the integrator calls.
func (q *equations) slope(y, dy *vector) {
	sin, cos := math.Sincos(y[angle])
	back := q.perAmp * y[speed]
	backA, backB := back*sin, back*cos
	a := q.drive[0] - q.ohms[0]*y[ampere] + backA
	b := q.drive[1] - q.ohms[1]*y[ampere+1] - backB
	netA, netB := y[ampere], y[ampere+1]
	if q.halves {
		c := q.drive[2] - q.ohms[2]*y[ampere+2] - backA
		d := q.drive[3] - q.ohms[3]*y[ampere+3] + backB
		dy[ampere] = q.own[0]*a + q.cross[0]*c
		dy[ampere+1] = q.own[1]*b + q.cross[1]*d
		dy[ampere+2] = q.own[2]*c + q.cross[2]*a
		dy[ampere+3] = q.own[3]*d + q.cross[3]*b
		netA -= y[ampere+2]
		netB -= y[ampere+3]
	} else {
		dy[ampere] = q.own[0] * a
		dy[ampere+1] = q.own[1] * b
	}
	torque := q.perAmp*fieldTorque(netA, netB, sin, cos) + q.push - q.damping*y[speed]
	if q.detent != 0 {
		wave, _ := detentWave(sin, cos, q.shiftSin, q.shiftCos)
		torque -= q.detent * wave
	}
	if q.gravity != 0 {
		torque -= q.gravity * math.Sin(q.hangs+q.perShaft*y[angle])
	}
	dy[speed] = q.perJ * torque
	dy[angle] = q.poles * y[speed]
	if q.loose {
		w, at := q.beyond&7, (q.beyond+1)&7
		torque := q.loadPush
		if q.loadGravity != 0 {
			torque -= q.loadGravity * math.Sin(q.hangs+q.perShaft*y[at])
		}
		dy[w], dy[at] = q.loadPerJ*torque, q.poles*y[w]
	}
}

// pull gives the torque on a rotor at rest, without friction and damping.
func (q *equations) pull(y *vector, load float64) float64 {
	sin, cos := math.Sincos(y[angle])
	netA, netB := y[ampere], y[ampere+1]
	if q.halves {
		netA -= y[ampere+2]
		netB -= y[ampere+3]
	}
	wave, _ := detentWave(sin, cos, q.shiftSin, q.shiftCos)
	return q.perAmp*fieldTorque(netA, netB, sin, cos) - q.detent*wave - load - q.gravity*math.Sin(q.hangs+q.perShaft*y[angle])
}

// pullSlope gives the slope of pull while the rotor rests.
func (q *equations) pullSlope(y, dy *vector) float64 {
	sin, cos := math.Sincos(y[angle])
	netA, netB := dy[ampere], dy[ampere+1]
	if q.halves {
		netA -= dy[ampere+2]
		netB -= dy[ampere+3]
	}
	return q.perAmp * fieldTorque(netA, netB, sin, cos)
}

// emf gives the back-EMF ej of coil j and its slope.
func (q *equations) emf(j int, y, dy *vector) (e, de float64) {
	sin, cos := math.Sincos(y[angle])
	s, c := sin, cos // −sin(θe − αj) and its slope, by the quarter
	switch j {
	case 0:
		s, c = -sin, -cos
	case 1:
		s, c = cos, -sin
	case 3:
		s, c = -cos, sin
	}
	return q.perAmp * y[speed] * s, q.perAmp * (dy[speed]*s + y[speed]*c*dy[angle])
}
