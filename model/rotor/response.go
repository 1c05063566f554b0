package rotor

import (
	"math"

	"coilwalk/sequence"
)

// Response is how the rotor takes a single row from rest.
type Response struct {
	Step      float64 // electrical degrees from rest to rest
	Overshoot float64 // beyond the new rest, as a share of the step
	Rise      float64 // s, until it first passes the new rest; 0 when it never does
	RingHz    float64 // of what is left of its swings; 0 when it does not ring
	Settling  float64 // s, until it stays within a twentieth of the step; 0 when it did not in time
	Times     []float64
	Degrees   []float64 // electrical, from the old rest, at these times
	Rest      Position
	Adrift    bool // the load is more than the first row holds: it does not rest, and the rest is not known
}

// What is looked at of a response.
const (
	responsePoints = 2000
	within         = 0.05  // of the step: settled
	swinging       = 0.002 // of the step: below it a swing is no longer told from the rest
)

// Respond lets the rotor rest on one row, energises the next, and watches it for
// some seconds.
func Respond(p Plant, from, to sequence.Row, seconds float64) (r Response, err error) {
	if err := p.CheckPace(); err != nil {
		return r, err
	}
	if r.Adrift = p.adrift(from); r.Adrift {
		return r, nil
	}
	m := NewMotion(&p)
	deg, _ := from.Field().Degrees()
	m.Start(State{Place: Position{}.moved(deg)})
	m.Energise(from)
	if _, _, err = m.Settle(from, settleSeconds); err != nil {
		return r, err
	}
	start := m.State()
	start.Seconds = 0
	m.Start(start)
	m.Energise(to)
	m.Watch(seconds/responsePoints, func(s State) {
		r.Times = append(r.Times, s.Seconds)
		r.Degrees = append(r.Degrees, s.Place.From(start.Place))
	})
	if err = m.Advance(seconds); err != nil {
		return r, err
	}
	places, _ := p.Machine().Rest(p.Field(to), m.State().Place)
	if len(places) != 1 {
		return r, nil
	}
	r.Rest = places[0]
	r.Step = r.Rest.From(start.Place)
	r.read()
	return r, nil
}

// read takes overshoot, rise, ring and settling off the curve.
func (r *Response) read() {
	if math.Abs(r.Step) < 1 {
		return
	}
	last := 0 // sample at which it still swings to be seen
	for i, d := range r.Degrees {
		if math.Abs(d/r.Step-1) > swinging {
			last = i
		}
	}
	var crossings []float64
	for i, d := range r.Degrees {
		part := d / r.Step
		r.Overshoot = max(r.Overshoot, part-1)
		if math.Abs(part-1) > within {
			r.Settling = 0
			if i+1 < len(r.Times) {
				r.Settling = r.Times[i+1]
			}
		}
		if i > 0 && i <= last {
			before := r.Degrees[i-1] / r.Step
			if (before < 1) != (part < 1) {
				crossings = append(crossings, r.Times[i-1]+(r.Times[i]-r.Times[i-1])*(1-before)/(part-before))
			}
		}
	}
	if len(crossings) > 0 {
		r.Rise = crossings[0]
	}
	if n := len(crossings); n >= 3 { // the last swings are the small ones
		k := min(n-1, 6)
		k -= k % 2
		r.RingHz = float64(k) / 2 / (crossings[n-1] - crossings[n-1-k])
	}
}

// ResponseSeconds is long enough for a response to have settled: twenty rings.
func ResponseSeconds(p Plant) float64 { return 20 * 2 * math.Pi / p.RingRadians(1) }
