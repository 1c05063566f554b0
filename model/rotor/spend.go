package rotor

import "math"

// Spent is what a motor that turns at a rate takes, on the mean over whole cycles
// of the order.
type Spent struct {
	Power              // W, means
	Peak    float64    // W, the most that is drawn from the supply at an instant
	Squares [4]float64 // A², means, of the coil currents
	Stored  float64    // J, what the cycles added to field, motion and detent: nothing, once it turns evenly
	Seconds float64    // that the cycles took
}

const (
	slowRate   = 20.0 // rows a second, from which a motor is brought up
	brought    = 1.5  // by which its rate rises at a time
	evenCycles = 4    // run before anything is counted
	spendRows  = 32   // counted
	spendParts = 96   // instants in a row
)

// Spend brings the motor up to a rate in rows a second and gives what it takes
// there; ok is false when it does not follow. The integrals are sums over instants
// that lie closer where a row begins, for there the currents change.
func (t *Trials) Spend(rate float64) (spent Spent, ok bool) {
	r, ok := t.Running(min(rate, slowRate))
	for ok && r.Rate < rate {
		r, ok = t.To(r, min(rate, brought*r.Rate))
	}
	if !ok || t.err != nil {
		return Spent{}, false
	}
	m := t.motion
	m.Start(r.state)
	now := r.state.Seconds
	cycle := t.order.Len()
	from := 0.0
	rows := cycle * max(1, (spendRows+cycle-1)/cycle)
	for k := range evenCycles*cycle + rows {
		r.row++
		r.rows++
		m.Energise(t.order.Row(r.row))
		if k == evenCycles*cycle {
			from = m.Stored(m.State())
		}
		for i := range spendParts {
			if k < evenCycles*cycle {
				break
			}
			x := (float64(i) + 0.5) / spendParts // of a row's time, squared
			if t.err = m.Advance(now + x*x/rate); t.err != nil {
				return Spent{}, false
			}
			spent.add(m, 2*x/spendParts/float64(rows))
		}
		now += 1 / rate
		if t.err = m.Advance(now); t.err != nil {
			return Spent{}, false
		}
		if math.Abs(t.off(r.from, r.rows)) > 360 {
			return Spent{}, false
		}
	}
	spent.Stored, spent.Seconds = m.Stored(m.State())-from, float64(rows)/rate
	return spent, true
}

// add counts the present instant for a part of the whole.
func (s *Spent) add(m *Motion, part float64) {
	state := m.State()
	p := m.Power(state)
	s.Supply += part * p.Supply
	s.Copper += part * p.Copper
	s.Switch += part * p.Switch
	s.Clamp += part * p.Clamp
	s.Viscous += part * p.Viscous
	s.Dry += part * p.Dry
	s.Load += part * p.Load
	s.Storing += part * p.Storing
	s.Peak = max(s.Peak, p.Supply)
	for j, i := range state.Currents {
		s.Squares[j] += part * i * i
	}
}
