package rotor

import "math"

// side says which way a current takes.
type side int8

const (
	above side = 1
	held  side = 0
	below side = -1
)

// stable is how many of its time constants the pair can step over without a
// decay growing instead: a little less than the 6.4 at which its stability
// function passes 1 on the negative axis (computed from the coefficients).
const stable = 5.8

// restart works out, from the present state, which way each current takes and
// whether the rotor sticks, and arms the guards that end that.
func (m *Motion) restart() {
	if m.halves {
		m.choosePair(0, 2)
		m.choosePair(1, 3)
	} else {
		m.chooseCoil(0)
		m.chooseCoil(1)
	}
	if m.train.half > 0 {
		m.engage()
	}
	m.stickOrSlip()
	m.slope(&m.now, &m.stages[0])
	m.work.Evaluations++
	m.arm()
	fastest := m.leakage()
	m.longest = min(m.calmest, stable*fastest)
	m.step = min(m.step, m.longest, fastest)
	m.fold()
}

// leakage gives the time constant of the fastest thing of all, the common
// current of two halves that both conduct; infinite while none do.
func (m *Motion) leakage() float64 {
	shortest := math.Inf(1)
	for j := range 2 {
		if m.halves && m.at[j] != held && m.at[j+2] != held {
			l := m.plant.Inductance * (1 - m.plant.Coupling)
			shortest = min(shortest, 2*l/(m.ohms[j]+m.ohms[j+2]))
		}
	}
	return shortest
}

// leans says on which side of its hold a coil's current lies; free when it is
// neither, and the voltages decide.
func (m *Motion) leans(j int) (s side, free bool) {
	c, i := &m.coils[j], m.now[ampere+j]
	switch {
	case c.firm:
		return held, false
	case c.linear || i > c.hold:
		return above, false
	case i < c.hold:
		return below, false
	}
	return held, true
}

// chooseCoil is for a coil by itself.
func (m *Motion) chooseCoil(j int) {
	s, free := m.leans(j)
	if free {
		c := &m.coils[j]
		var still vector
		e, _ := m.emf(j, &m.now, &still)
		switch need := m.plant.Resistance*c.hold + e; {
		case need < c.lowest():
			s = above
		case need > c.highest():
			s = below
		}
	}
	m.take(j, s)
	m.own[j], m.cross[j] = 0, 0
	if s != held {
		m.own[j] = 1 / m.plant.Inductance
	}
}

// choosePair is for the halves of a phase: what one does decides the voltage
// of the other, so every pair of ways is tried, and the one that contradicts
// itself least is taken. (With an inductance matrix that is positive definite
// just one does not, as the linear complementarity problem teaches.)
func (m *Motion) choosePair(j, o int) {
	sj, freeJ := m.leans(j)
	so, freeO := m.leans(o)
	best, bestJ, bestO := math.Inf(1), sj, so
	for _, tryJ := range [3]side{held, above, below} {
		for _, tryO := range [3]side{held, above, below} {
			if !freeJ && tryJ != sj || !freeO && tryO != so {
				continue
			}
			m.couple(j, o, tryJ, tryO)
			wrong := 0.0
			if freeJ {
				wrong += m.contradicts(j, o)
			}
			if freeO {
				wrong += m.contradicts(o, j)
			}
			if wrong < best {
				best, bestJ, bestO = wrong, tryJ, tryO
			}
		}
	}
	m.couple(j, o, bestJ, bestO)
}

// couple sets the equations of a phase for the ways that its halves take.
func (m *Motion) couple(j, o int, sj, so side) {
	m.take(j, sj)
	m.take(o, so)
	l, k := m.plant.Inductance, m.plant.Coupling
	m.own[j], m.own[o], m.cross[j], m.cross[o] = 0, 0, 0, 0
	switch {
	case sj != held && so != held:
		own := 1 / (l * (1 - k*k))
		m.own[j], m.own[o], m.cross[j], m.cross[o] = own, own, k*own, k*own
	case sj != held:
		m.own[j] = 1 / l
	case so != held:
		m.own[o] = 1 / l
	}
}

func (m *Motion) take(j int, s side) {
	m.at[j] = s
	w := &m.coils[j].above
	if s == below {
		w = &m.coils[j].below
	}
	m.drive[j], m.ohms[j] = w.drive, m.plant.Resistance+w.ohms
}

// contradicts gives, in volts, how far the way that coil j takes at its hold is
// from being its own consequence; 0 when it is.
func (m *Motion) contradicts(j, o int) float64 {
	var dy vector
	m.slope(&m.now, &dy)
	rise := m.plant.Inductance * dy[ampere+j]
	switch m.at[j] {
	case above:
		return max(0, -rise)
	case below:
		return max(0, rise)
	}
	need, _ := m.needs(j, &m.now, &dy)
	return max(0, m.coils[j].lowest()-need, need-m.coils[j].highest())
}

// needs gives the voltage across a coil whose current stays at its hold, and
// its slope: R·hold + e − k·L·di′/dt, i′ the current of the other half.
func (m *Motion) needs(j int, y, dy *vector) (v, dv float64) {
	e, de := m.emf(j, y, dy)
	v, dv = m.plant.Resistance*m.coils[j].hold+e, de
	if m.halves {
		o := (j + 2) % 4
		_, deOther := m.emf(o, y, dy)
		kl := m.plant.Coupling * m.plant.Inductance
		v -= kl * dy[ampere+o]
		dv -= kl * m.own[o] * (-m.ohms[o]*dy[ampere+o] - deOther)
	}
	return v, dv
}
