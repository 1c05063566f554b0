package rotor

import "math"

// guard is a condition under which the present equations hold: while its
// margin is not negative.
type guard struct {
	kind        guardKind
	coil        int
	was         float64 // margin at the start of the step
	is          float64 // and at its end
	going, goes float64 // their slopes, per second
}

type guardKind int8

const (
	moving     guardKind = iota // the rotor has not come to a stand
	stuckUp                     // the pull forward does not exceed friction
	stuckDown                   // nor the pull back
	overHold                    // the current has not fallen to its hold
	underHold                   // nor risen to it
	heldDown                    // the way above does not drive the current off its hold
	heldUp                      // nor the way below
	pressing                    // rotor and load, touching, push each other on
	closeUp                     // the rotor has not met the load before it
	closeDown                   // nor behind it
	loadMoving                  // the load has not come to a stand by itself
)

// tight is how closely the instant of an event is found, as a part of the step
// in which it lies.
const tight = 1e-12

// arm sets the guards of the present equations.
func (m *Motion) arm() {
	m.armed, m.listens = 0, false
	switch {
	case m.stuck:
		m.guard(stuckUp, 0)
		m.guard(stuckDown, 0)
	case m.dry > 0:
		m.guard(moving, 0)
	}
	switch {
	case m.loose:
		m.guard(closeUp, 0)
		m.guard(closeDown, 0)
		if m.train.dry > 0 && !m.train.stuck {
			m.guard(loadMoving, 0)
		}
	case m.train.half > 0 && !m.stuck:
		m.guard(pressing, 0)
	}
	for j := range m.currents {
		switch c := &m.coils[j]; {
		case c.linear || c.firm:
		case m.at[j] == above:
			m.guard(overHold, j)
		case m.at[j] == below:
			m.guard(underHold, j)
		default:
			m.guard(heldDown, j)
			m.guard(heldUp, j)
			m.listens = true
		}
	}
}

func (m *Motion) guard(kind guardKind, coil int) {
	g := &m.guards[m.armed]
	*g = guard{kind: kind, coil: coil}
	g.was, g.going = m.margin(g, &m.now, &m.stages[0])
	m.armed++
}

// margin gives a guard's margin in a state, and its slope.
func (m *Motion) margin(g *guard, y, dy *vector) (v, dv float64) {
	i := ampere + g.coil
	switch g.kind {
	case moving:
		return m.sense * y[speed], m.sense * dy[speed]
	case stuckUp, stuckDown:
		v, dv = m.pull(y, m.load), m.pullSlope(y, dy)
		if g.kind == stuckDown {
			return m.lower + v, dv
		}
		return m.upper - v, -dv
	case pressing:
		return m.pressure(m.train.face, m.sense, y[angle], dy[speed], m.jerk(y, dy), y[speed])
	case closeUp, closeDown:
		ahead, load := m.lead(y)
		v, dv = ahead, m.poles*(y[speed]-load)
		if g.kind == closeUp {
			v, dv = -v, -dv
		}
		return m.train.half*(1+edge) + v, dv
	case loadMoving:
		return m.train.sense * y[m.beyond], m.train.sense * dy[m.beyond]
	case overHold:
		return y[i] - m.coils[g.coil].hold, dy[i]
	case underHold:
		return m.coils[g.coil].hold - y[i], -dy[i]
	}
	v, dv = m.needs(g.coil, y, dy)
	if g.kind == heldDown {
		return v - m.coils[g.coil].lowest(), dv
	}
	return m.coils[g.coil].highest() - v, -dv
}

// crossing finds the first instant in the step of h seconds just tried at which
// a margin is lost, as a part x of the step; 1 and no event when none is. A
// margin that is lost and regained within the step counts when the cubic
// through its ends and slopes dips low enough to make it worth a look.
func (m *Motion) crossing(h float64) (x float64, event bool) {
	x = 1
	for n := range m.armed {
		g := &m.guards[n]
		g.is, g.goes = m.margin(g, &m.next, &m.stages[12])
		switch {
		case g.is < 0:
			if at := m.loss(g, h, x); !event || at < x {
				x, event = at, true
			}
		case g.going < 0 && g.goes > 0 && dips(g, h):
			if low, ok := m.dip(g, h); ok && low < x {
				x, event = m.loss(g, h, low), true
			}
		}
	}
	return x, event
}

// pin puts what has just lost its margin exactly on the edge: a speed to zero,
// a current to its hold.
func (m *Motion) pin() {
	for n := range m.armed {
		g := &m.guards[n]
		switch g.kind {
		case moving:
			if m.sense*m.now[speed] < 0 {
				m.now[speed] = 0
			}
		case loadMoving:
			if m.train.sense*m.now[m.beyond] < 0 {
				m.now[m.beyond] = 0
			}
		case pressing:
			var dy vector
			m.slope(&m.now, &dy)
			if v, _ := m.margin(g, &m.now, &dy); v < 0 {
				m.train.parted = true
			}
		case overHold, underHold:
			off := m.now[ampere+g.coil] - m.coils[g.coil].hold
			if (g.kind == overHold) == (off < 0) {
				m.now[ampere+g.coil] = m.coils[g.coil].hold
			}
		}
	}
}

// stickOrSlip decides what friction does to the rotor.
func (m *Motion) stickOrSlip() {
	pull := 0.0
	m.sense = m.now[speed]
	m.stuck = false
	if m.now[speed] == 0 {
		pull = m.pull(&m.now, m.load)
		m.sense, m.stuck = pull, -m.lower <= pull && pull <= m.upper
	}
	m.sense = math.Copysign(1, m.sense)
	m.push = -m.load - m.sense*m.dry
	m.perJ = 1 / m.inertia
	if m.stuck {
		m.perJ = 0
	}
}

// dips says whether the cubic through both ends of the step comes near zero.
func dips(g *guard, h float64) bool {
	lowest := min(g.was, g.is)
	for k := 1; k < 8; k++ {
		x := float64(k) / 8
		u := 1 - x
		lowest = min(lowest, u*u*((1+2*x)*g.was+x*h*g.going)+x*x*((1+2*u)*g.is-u*h*g.goes))
	}
	return lowest < 0.2*min(g.was, g.is)
}

// dip looks on the interpolant for a place where the margin is lost.
func (m *Motion) dip(g *guard, h float64) (x float64, ok bool) {
	low, high := 0.0, 1.0
	for range 6 { // narrows to a thousandth of the step
		best, bestX := math.Inf(1), 0.0
		for k := 1; k < 8; k++ {
			x := low + (high-low)*float64(k)/8
			v := m.marginAt(g, h, x)
			if v < 0 {
				return x, true
			}
			if v < best {
				best, bestX = v, x
			}
		}
		low, high = bestX-(high-low)/8, bestX+(high-low)/8
	}
	return 0, false
}

// marginAt gives the margin at the part x of the step.
func (m *Motion) marginAt(g *guard, h, x float64) float64 {
	m.interpolate(h)
	var y, dy vector
	m.curve.at(x, m.places, &y)
	m.slope(&y, &dy)
	v, _ := m.margin(g, &y, &dy)
	return v
}

// loss finds where the margin is lost, on the near side of x, where it is lost
// already (or not before x, when another guard has made x the end): a secant
// that keeps its bracket (Illinois), with a bisection where it is slow.
func (m *Motion) loss(g *guard, h, x float64) float64 {
	good, bad := 0.0, x
	vGood, vBad := g.was, m.marginAt(g, h, x)
	if vBad >= 0 {
		return x
	}
	if vGood <= 0 { // the step begins on the edge: find a place beyond it
		for n := 1; vGood <= 0; n++ {
			if n > 20 {
				return good // it goes over the edge at once
			}
			good = math.Ldexp(x, -n)
			vGood = m.marginAt(g, h, good)
		}
	}
	side := 0
	for n := 0; bad-good > tight && n < 100; n++ {
		mid := good + (bad-good)*vGood/(vGood-vBad)
		if n%3 == 2 || !(mid > good && mid < bad) {
			mid = good + (bad-good)/2
		}
		v := m.marginAt(g, h, mid)
		if v < 0 {
			bad, vBad = mid, v
			if side == -1 {
				vGood /= 2
			}
			side = -1
		} else {
			good, vGood = mid, v
			if side == 1 {
				vBad /= 2
			}
			side = 1
		}
	}
	return bad
}
