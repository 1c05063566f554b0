package rotor

import "math"

// State is what the machine carries from one instant to the next.
type State struct {
	Seconds  float64
	Currents [4]float64 // A; bipolar phases A and B, unipolar the half-coils in field order
	Speed    float64    // rad/s of the rotor
	Place    Position
	// Behind a train with play, the load has a motion of its own.
	LoadSpeed float64 // rad/s of it, at the rotor
	Lead      float64 // electrical degrees that the rotor is ahead of it, up to half of the play either way
}

// State gives the present state.
func (m *Motion) State() State { return m.state(m.seconds, &m.now) }

func (m *Motion) state(seconds float64, y *vector) State {
	s := State{Seconds: seconds, Speed: y[speed], Place: Position{Pitch: m.pitch}.moved(y[angle] * 180 / math.Pi)}
	copy(s.Currents[:], y[ampere:ampere+m.currents])
	ahead, load := m.lead(y)
	s.Lead, s.LoadSpeed = ahead*180/math.Pi, load
	return s
}

// Watch asks for the state at every multiple of an interval from now on, while
// Advance runs; nil ends it. What see is given lies on the interpolant, of
// order 7.
func (m *Motion) Watch(everySeconds float64, see func(State)) {
	m.every, m.see = everySeconds, see
	if !(everySeconds > 0) {
		m.see = nil
	}
	m.from, m.shown = m.seconds, 0
}

// show gives whoever watches the states up to end, on a step of h seconds.
func (m *Motion) show(h, end float64) {
	for m.see != nil {
		due := m.from + float64(m.shown)*m.every
		if due > end {
			return
		}
		m.interpolate(h)
		var y vector
		m.curve.at(min(1, max(0, (due-m.seconds)/h)), m.places, &y)
		m.shown++
		m.see(m.state(due, &y))
	}
}

// fold takes whole pitches out of the angle, so that it keeps its precision
// however far the rotor runs.
func (m *Motion) fold() {
	if math.Abs(m.now[angle]) < 2*math.Pi {
		return
	}
	whole := math.Round(m.now[angle] / (2 * math.Pi))
	m.now[angle] -= whole * (2 * math.Pi)
	if m.loose {
		m.now[m.beyond+1] -= whole * (2 * math.Pi)
	}
	m.pitch += int64(whole)
	m.hang()
}

// hang works out the shaft angle at which the present pitch begins, as the load
// has it where it touches the rotor.
func (m *Motion) hang() {
	if m.plant.Load.Gravity == 0 {
		return
	}
	pitches := float64(m.plant.PolePairs) * m.plant.Ratio // to a turn of the shaft
	m.hangs = 2*math.Pi*math.Mod(float64(m.pitch), pitches)/pitches + m.plant.Load.GravityDeg*math.Pi/180 - m.perShaft*m.train.face*m.train.half
}
