package bench

import (
	"coilwalk/model/driver"
	"coilwalk/model/quantity"
	"coilwalk/model/rotor"
	"coilwalk/model/wiring"
)

// timedRun is a run in time: the rotor goes as its currents, its inertia and what
// drags on it let it go, and is where that takes it. Statics take over again when
// it has come to rest.
type timedRun struct {
	plant     rotor.Plant
	motions   []*rotor.Motion // one for each place that the rotor may be at
	pitchLost bool
	seconds   float64
	rowFrom   rotor.Position // where the first was when the present row came
	account   account
	kept      float64 // of the time that was handed in, the part that could be computed; evened out
}

// What a run in time is computed with. A picture has 33 ms, of which drawing
// takes well under one; at 40 to 60 ns an evaluation these are half a
// millisecond. A motor that takes more is shown slower than it is.
const (
	runTolerance   = 1e-5    // of Motion
	mostWork       = 10_000  // evaluations in an Elapse
	mostSettleWork = 400_000 // evaluations until a rest: 20 ms
	settleSeconds  = 1.0
	sampleSeconds  = 2e-3 // between looks at the lag, at most
)

// Plant gives the motor as a run drives it: behind the stage that is usual for
// its drive, at its rated voltage.
func (b *Bench) Plant() (rotor.Plant, error) {
	m := b.motor
	m.Drive = b.now.drive
	p, _, err := rotor.PlantOf(m, driver.Usual(m.Drive, false), quantity.Voltage{})
	return p, err
}

// start begins a run in time from the rest at hand, its currents long steady.
// Without a place to begin at, or figures, there is none.
func (b *Bench) start() {
	b.changes++
	b.untimed = nil
	if len(b.now.where.Places) == 0 {
		return
	}
	at := make([]rotor.State, len(b.now.where.Places))
	for i, p := range b.now.where.Places {
		at[i].Place = p
	}
	t, err := b.inMotion(at)
	if err != nil {
		b.untimed = err
		return
	}
	for _, m := range t.motions {
		t.settle(b, m)
		s := m.State()
		s.Seconds = 0
		m.Start(s)
		t.feed(b, m)
	}
	t.account.begin(b, t.motions[0].State().Place)
	b.timed = t
}

// inMotion gives the machine in motion under the present row, from the state at
// each place.
func (b *Bench) inMotion(states []rotor.State) (*timedRun, error) {
	plant, err := b.Plant()
	if err != nil {
		return nil, err
	}
	t := &timedRun{plant: plant, pitchLost: b.now.where.PitchLost, kept: 1, rowFrom: states[0].Place}
	for _, s := range states {
		s.Seconds = 0
		m := rotor.NewMotion(&t.plant)
		m.Tolerance = runTolerance
		m.Start(s)
		t.feed(b, m)
		t.motions = append(t.motions, m)
	}
	return t, nil
}

// turn lets time pass on a run in time, and gives the rows that came due.
func (b *Bench) turn(seconds float64) (rows int) {
	b.changes++
	t := b.timed
	for _, m := range t.motions {
		m.Limit(mostWork / len(t.motions))
	}
	left := seconds
	for left > 1e-12 {
		slice := min(left, (1-b.owed)/b.rate, sampleSeconds)
		went, whole, err := t.advance(slice)
		if err != nil {
			b.Stop()
			b.untimed = err
			return rows
		}
		left -= went
		b.owed += went * b.rate
		t.account.look(b, went, t.motions[0].State().Place)
		if !whole {
			break // the rest of the time is not computed in time
		}
		if b.owed > 1-1e-9 {
			b.owed = 0
			b.now.where = t.where()
			b.Next()
			rows++
		}
	}
	t.kept += 0.2 * ((seconds-max(left, 0))/seconds - t.kept)
	b.now.where = t.where()
	return rows
}

// advance runs every place on by some seconds; not the whole of them when the
// first gets no further within its limit.
func (t *timedRun) advance(by float64) (went float64, whole bool, err error) {
	until := t.seconds + by
	whole = true
	for i, m := range t.motions {
		if err := m.Advance(until); err != nil {
			return 0, false, err
		}
		if at := m.State().Seconds; i == 0 && at < until {
			until, whole = at, false
		}
	}
	if went = by; !whole {
		went = until - t.seconds
	}
	t.seconds = until
	return went, whole, nil
}

// energise puts the present row on.
func (t *timedRun) energise(b *Bench) {
	for _, m := range t.motions {
		t.feed(b, m)
	}
	t.rowFrom = t.motions[0].State().Place
	t.account.row(b, t.rowFrom)
}

// feed puts the present row on one motion. A broken lead carries nothing.
func (t *timedRun) feed(b *Bench, m *rotor.Motion) {
	m.Feed(wiring.Feeds(&t.plant, b.coils(), wiring.Broken(b.now.faults, b.now.drive)))
}

func (t *timedRun) states() []rotor.State {
	all := make([]rotor.State, len(t.motions))
	for i, m := range t.motions {
		all[i] = m.State()
	}
	return all
}

func (t *timedRun) where() rotor.Whereabouts {
	w := rotor.Whereabouts{Places: make([]rotor.Position, len(t.motions)), PitchLost: t.pitchLost}
	for i, m := range t.motions {
		w.Places[i] = m.State().Place
	}
	return w
}

// settle gives where a motion comes to rest under the present row. One that does
// not, because the load drives it on, or not within its limit, is left where it
// is.
func (t *timedRun) settle(b *Bench, m *rotor.Motion) rotor.Position {
	m.Limit(mostSettleWork / len(t.motions))
	if rest, ok, err := m.Settle(b.coils(), settleSeconds); ok && err == nil {
		return rest
	}
	return m.State().Place
}

// rest ends a run in time: the rotor comes to rest under the present row, and the
// statics say from there where that is. So a stopped rotor is where any other is.
func (b *Bench) rest() {
	t := b.timed
	b.untimed = nil
	if t == nil {
		return
	}
	b.timed, b.now.moving = nil, nil
	w := rotor.Whereabouts{PitchLost: t.pitchLost}
	for _, m := range t.motions {
		w.Places = append(w.Places, t.settle(b, m))
	}
	b.now.where, b.now.balance = b.machine.Follow(w, b.coils().Field())
	to, known := b.now.where.Known()
	if b.now.moved = known && len(t.motions) == 1 && !t.pitchLost; b.now.moved {
		b.now.turned = to.From(t.rowFrom)
	}
}

// settleAgain brings a moment out of a run in time, which a rewind has brought
// back, to the rest that a stop there would have come to.
func (b *Bench) settleAgain() {
	if b.now.moving == nil {
		return
	}
	if t, err := b.inMotion(b.now.moving); err == nil {
		b.timed = t
		b.rest()
	}
	b.now.moving = nil
}
