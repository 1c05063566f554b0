package rotor

import (
	"math"

	"coilwalk/model/driver"
	"coilwalk/sequence"
)

// Power says where the supply's power goes at an instant, all in watts:
//
//	Supply = Copper + Switch + Clamp + Viscous + Dry + Load + Storing
type Power struct {
	Supply  float64 // net of what clamps and braking return to it
	Copper  float64
	Switch  float64 // in what is on
	Clamp   float64 // in diodes
	Viscous float64
	Dry     float64 // of motor and load
	Load    float64 // what the shaft gives to the constant and the gravity-like load
	Storing float64 // into the coils' field, the motion, and against the detent
}

// Power gives the balance in a state under the present row and on the present
// ways of the currents: State(), or what Watch is given. The parts are worked
// out each by itself, so that the balance is a check.
func (m *Motion) Power(s State) Power {
	if m.fault != nil {
		return Power{}
	}
	y, dy := m.vector(s), vector{}
	m.slope(&y, &dy)
	var p Power
	for j := range m.currents {
		i, r := y[ampere+j], m.plant.Resistance
		p.Copper += r * i * i
		c := &m.coils[j]
		way := &c.feed.Above
		switch {
		case c.firm || m.at[j] == held: // as much of the supply as it takes, and the switch's own
			v, _ := m.needs(j, &y, &dy)
			lost := way.Switch.At(math.Abs(i)) * math.Abs(i)
			p.Switch += lost
			p.Supply += v*i + lost
			continue
		case m.at[j] == below:
			way = &c.feed.Below
		}
		p.spend(way, i, m.plant.Supply)
	}
	w := y[speed]
	p.Viscous = m.damping * w * w
	p.Dry = m.dry * math.Abs(w)
	p.Load = (m.load + m.gravity*math.Sin(m.hangs+m.perShaft*y[angle])) * w
	p.Storing = m.inertia*w*dy[speed] + m.plant.magnetising(&y, &dy)
	if m.loose {
		t, w := &m.train, y[m.beyond]
		p.Dry += t.dry * math.Abs(w)
		p.Load += (t.load + t.hangs*math.Sin(m.hangs+m.perShaft*y[m.beyond+1])) * w
		p.Storing += t.mass * w * dy[m.beyond]
	}
	if m.detent != 0 {
		wave, _ := detentWave(math.Sin(y[angle]), math.Cos(y[angle]), m.shiftSin, m.shiftCos)
		p.Storing += m.detent * wave * w
	}
	return p
}

func (p *Power) spend(way *driver.Path, i, supply float64) {
	p.Supply += way.Rail * supply * i
	i = math.Abs(i)
	p.Switch += way.Switch.At(i) * i
	p.Clamp += way.Diode.At(i) * i
}

// Stored gives the energy in the coils' field, the motion, and the detent, in J;
// the detent's is zero midway between its foot and its crest.
func (m *Motion) Stored(s State) float64 {
	if m.fault != nil {
		return 0
	}
	y := m.vector(s)
	_, wave := detentWave(math.Sin(y[angle]), math.Cos(y[angle]), m.shiftSin, m.shiftCos)
	moving := 0.5 * m.inertia * y[speed] * y[speed]
	if m.loose {
		moving += 0.5 * m.train.mass * y[m.beyond] * y[m.beyond]
	}
	// ½·Li² is half of what a slope of i would put in
	return moving + 0.5*m.plant.magnetising(&y, &y) - m.detent/(4*m.poles)*wave
}

// magnetising gives i·L·di/dt over all coils, with the coupling of the halves.
func (p *Plant) magnetising(y, dy *vector) float64 {
	i, di := y[ampere:], dy[ampere:]
	sum := 0.0
	for j := range p.currents() {
		if sum += i[j] * di[j]; p.Drive == sequence.Unipolar {
			sum -= p.Coupling * i[j] * di[(j+2)%4]
		}
	}
	return p.Inductance * sum
}

// vector is the other way round from state.
func (m *Motion) vector(s State) vector {
	y := vector{speed: s.Speed, angle: (float64(s.Place.Pitch-m.pitch)*360 + s.Place.Deg) * math.Pi / 180}
	copy(y[ampere:ampere+m.currents], s.Currents[:])
	if m.loose {
		y[m.beyond], y[m.beyond+1] = s.LoadSpeed, y[angle]-s.Lead*math.Pi/180
	}
	return y
}
