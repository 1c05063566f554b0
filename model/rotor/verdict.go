package rotor

// Verdict says whether a motor follows a rate, and how to bring it there.
type Verdict int

const (
	Starts      Verdict = iota // at once, from a stand
	StartsAbove                // it starts, but lower rates do not: it lies in a window
	NeedsRamp                  // only when brought there from a rate that starts
	InHole                     // between rates that start: a resonance
	NotFollowed                // at all
)

// For judges a rate in rows a second. From is the rate to start from where it
// needs a ramp, with some room; To is the highest that is followed.
func (r Rates) For(rate float64) (v Verdict, from float64) {
	const room = 0.85 // of the start–stop rate: loads and motors scatter
	if rate <= r.StartStop {
		return Starts, rate
	}
	for _, w := range r.Windows {
		if rate >= w.From && rate <= w.To {
			return StartsAbove, rate
		}
	}
	for _, h := range r.Holes {
		if rate > h.From && rate < h.To {
			return InHole, room * r.StartStop
		}
	}
	if rate <= r.PullOut {
		return NeedsRamp, room * max(r.StartStop, r.top())
	}
	return NotFollowed, room * r.StartStop
}

// top gives the highest rate that starts.
func (r Rates) top() float64 {
	if n := len(r.Windows); n > 0 {
		return r.Windows[n-1].To
	}
	return r.StartStop
}

// GoesOn says whether a motor that turns goes on at a rate.
func (r Rates) GoesOn(rate float64) bool {
	for _, b := range r.LostAt {
		if rate > b.From && rate < b.To {
			return false
		}
	}
	return rate <= max(r.PullOut, r.StartStop)
}
