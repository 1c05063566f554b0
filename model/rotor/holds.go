package rotor

import "math"

// Near its pull-out rate a motor may turn for hundreds of rows while a swing in it
// grows, from almost nothing until it falls out of step: its currents come late,
// and drive the swing instead of damping it. So a rate counts as followed only
// where the swing dies out, or where the motor is still in step after LongestWatch
// full steps.

// LongestWatch is how many full steps a trial of a rate watches a swing that does
// not die out.
const LongestWatch = 600

const (
	calmSteps = 24    // full steps that a swing is taken over: some periods of it
	calmSwing = 0.25  // electrical degrees from end to end
	calmFalls = 0.9   // a swing that dies out is so much smaller each time, at least
	calmNoise = 0.002 // electrical degrees: what smaller ones do is the tolerance's
)

// Calm watches a motor that turns at one rate, and says when it does so evenly.
type Calm struct {
	low, high, last float64
	seen, took      int
}

// See takes how far the rotor is behind its row, in electrical degrees, once each
// full step, and says whether its swing has died out.
func (c *Calm) See(behind float64) bool {
	if c.seen == 0 {
		c.low, c.high = behind, behind
	}
	c.low, c.high = min(c.low, behind), max(c.high, behind)
	if c.seen++; c.seen < calmSteps {
		return false
	}
	swing := c.high - c.low
	even := c.took > 0 && swing < calmSwing && (swing <= calmFalls*c.last || max(swing, c.last) < calmNoise)
	c.last, c.seen = swing, 0
	c.took++
	return even
}

// Holds brings a running motor to another rate, and says whether it goes on at it.
func (t *Trials) Holds(r Runs, rate float64) bool {
	r, ok := t.To(r, rate)
	if !ok {
		return false
	}
	perStep := max(1, int(math.Round(90/t.per)))
	m, now := t.motion, r.state.Seconds
	var calm Calm
	for k := range LongestWatch * perStep {
		r.row++
		r.rows++
		m.Energise(t.order.Row(r.row))
		now += 1 / rate
		if t.err = m.Advance(now); t.err != nil {
			return false
		}
		off := t.off(r.from, r.rows)
		if math.Abs(off) > 360 {
			return false
		}
		if k%perStep == 0 && calm.See(off) {
			return true
		}
	}
	return math.Abs(t.off(r.from, r.rows)) < 300
}

// endured gives the highest rate, up to one at which the motor falls out at once,
// that it goes on at. The runs are those on the way there, each faster than the
// last; 0 where it goes on at none of them. It is sought downwards, at first in
// steps of the share, for mostly it is near.
func (t *Trials) endured(runs []Runs, most, share float64) float64 {
	bad := 0.0
	for i := len(runs) - 1; i >= 0; i-- {
		holds := func(rate float64) bool { return t.Holds(runs[i], rate) }
		for rate, down := most, share; ; down *= 2 {
			rate = max(rate, runs[i].Rate)
			if holds(rate) {
				if bad == 0 {
					return rate
				}
				return t.edge(rate, bad, share, holds)
			}
			if bad = rate; rate <= runs[i].Rate {
				break
			}
			rate /= 1 + down
		}
		most = runs[i].Rate / (1 + share)
	}
	return 0
}
