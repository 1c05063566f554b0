package rotor

import (
	"math"

	"coilwalk/sequence"
)

// atRest is the energy of what is left of the ringing, in T1·1 rad electrical,
// at which the rotor counts as having come to rest: half a degree of swing.
const atRest = 4e-5

// Settle advances under the present row until the rotor can no longer leave the
// rest that it rings about, and gives that; for limit seconds at most. ok is
// false when it has not come to rest by then, or is adrift. Gravity-like loads
// count with the value they have at the present shaft angle.
func (m *Motion) Settle(row sequence.Row, limit float64) (rest Position, ok bool, err error) {
	if m.fault != nil {
		return Position{}, false, m.fault
	}
	machine, field := m.plant.Machine(), m.plant.Field(row)
	until := m.seconds + limit
	for {
		machine.Load, machine.Friction = m.heldBack()/machine.OnePhase, m.dry/machine.OnePhase
		if rest, ok = m.calm(machine, field); ok {
			return rest, true, nil
		}
		if m.seconds >= until || m.spent() {
			return Position{}, false, nil
		}
		if err = m.Advance(min(until, m.seconds+m.longest)); err != nil {
			return Position{}, false, err
		}
	}
}

// heldBack gives the load on the rotor as it stands, in N·m.
func (m *Motion) heldBack() float64 {
	return m.load + m.gravity*math.Sin(m.hangs+m.perShaft*m.now[angle])
}

// calm says whether what is left of speed and offset is less than atRest, with
// the field that there is at rest, and the currents near theirs.
func (m *Motion) calm(machine Machine, field sequence.Field) (Position, bool) {
	i := sequence.Field{A: m.now[ampere], B: m.now[ampere+1]}
	if m.halves {
		i.A, i.B = i.A-m.now[ampere+2], i.B-m.now[ampere+3]
	}
	if math.Hypot(i.A/m.plant.Current-field.A, i.B/m.plant.Current-field.B) > 0.01 {
		return Position{}, false
	}
	here := m.State().Place
	if m.loose && !m.train.stuck && (m.now[m.beyond] != 0 || m.train.load != 0 || m.train.hangs != 0) {
		return Position{}, false // a load on its way comes back upon the rotor
	}
	if m.stuck {
		return here, true
	}
	swing := 0.5 * m.poles * m.inertia * m.now[speed] * m.now[speed] / machine.OnePhase
	if swing > atRest {
		return Position{}, false
	}
	places, _ := machine.Rest(field, here)
	if len(places) != 1 {
		return Position{}, false
	}
	off := places[0].From(here) * math.Pi / 180
	return places[0], swing+0.5*off*off*math.Abs(machine.Stiffness(field, places[0].Deg)) <= atRest
}

// longDwell is how long, in seconds, a row lasts at least whose rest is passed over.
const longDwell = 0.25

// Dwell stays on the present row up to a time. Of a long row only as much is run as
// the rotor needs to come to rest, so that rows may come as slowly as they like.
func (m *Motion) Dwell(row sequence.Row, untilSeconds float64) error {
	if left := untilSeconds - m.seconds; left > longDwell {
		if _, rests, err := m.Settle(row, left); err != nil || !rests {
			return err
		}
		if s := m.State(); s.Seconds < untilSeconds {
			work, most := m.work, m.most
			s.Seconds, s.Speed = untilSeconds, 0
			m.Start(s)
			m.Energise(row)
			m.work, m.most = work, most
			return nil
		}
	}
	return m.Advance(untilSeconds)
}
