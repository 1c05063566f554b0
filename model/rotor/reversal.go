package rotor

import (
	"math"

	"coilwalk/sequence"
)

// Reversal is what comes of turning round at a rate, at once.
type Reversal struct {
	Rate   float64 // rows a second
	Play   float64 // rows that the play of the train is, by its angle alone
	Stands float64 // rows from the first one back until the shaft goes back; 0 when it did not
	Lost   int64   // rows that the rotor did not follow; whole pitches
	Before bool    // it lost some before it was turned round: the rate is too high for a start
}

// What a reversal is: rows besides those of the play, one way and then the other,
// and how far the shaft has to go back to be seen to.
const (
	reversalRows = 40
	seenBack     = 0.1 // of a row
	looksPerRow  = 40
	slowest      = 10.0 // rows a second: below it the rotor rests between rows, and it is all the same
)

// Reverse starts a motor at a rate from a rest, the train's play taken up behind
// it, and turns it round at once. A load without inertia is where the train drags
// it to. Play is in degrees at the shaft.
func Reverse(p Plant, play float64, mode sequence.Mode, rate float64) (r Reversal, err error) {
	order, per := mode.Order(), 90/float64(mode.PerStep)
	asked := rate
	rate = max(rate, slowest)
	half := play / 2 * p.Ratio * float64(p.PolePairs)
	r = Reversal{Rate: asked, Play: 2 * half / per}
	if p.Load.Inertia > 0 {
		p.Play = play
	}
	if r.Before = p.adrift(order.Row(0)); r.Before {
		return r, p.Check()
	}
	m := NewMotion(&p)
	m.Tolerance = trialTolerance
	deg, _ := order.Row(0).Field().Degrees()
	m.Start(State{Place: Position{}.moved(deg), Lead: -half})
	m.Energise(order.Row(0))
	if _, _, err = m.Settle(order.Row(0), settleSeconds); err != nil {
		return r, err
	}
	from := m.State()
	from.Seconds = 0
	m.Start(from)

	there := reversalRows + int64(math.Ceil(r.Play))
	step := func(row, n int64) {
		m.Energise(order.Row(row))
		if err == nil {
			err = m.Advance(float64(n) / rate)
		}
	}
	load := -half // the shaft, in electrical degrees from where the rotor began
	drag := func(s State) {
		at := s.Place.From(from.Place)
		if p.Play > 0 {
			load = at - s.Lead
			return
		}
		load = min(max(load, at-half), at+half)
	}
	m.Watch(1/rate/looksPerRow, drag)
	for n := int64(1); n <= there; n++ {
		step(n, n)
	}
	off := m.State().Place.From(from.Place) - float64(there)*per
	r.Before = math.Abs(off) > hopeless/2
	farthest, turned := load, float64(there)/rate
	m.Watch(1/rate/looksPerRow, func(s State) {
		drag(s)
		farthest = max(farthest, load)
		if r.Stands == 0 && load < farthest-seenBack*per {
			r.Stands = (s.Seconds - turned) * rate
		}
	})
	for n := int64(1); n <= there; n++ {
		step(there-n, there+n)
	}
	if err != nil {
		return r, err
	}
	m.Watch(0, nil)
	if _, _, err = m.Settle(order.Row(0), settleSeconds); err != nil {
		return r, err
	}
	pitches := math.Round(m.State().Place.From(from.Place) / 360)
	r.Lost = int64(math.Abs(pitches) * 360 / per)
	return r, nil
}
