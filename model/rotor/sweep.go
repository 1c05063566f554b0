package rotor

import (
	"math"
)

// Band is a range of rates, in rows a second.
type Band struct{ From, To float64 }

// Rates is what a motor can follow, in rows a second.
type Rates struct {
	StartStop float64 // the highest below which every swept rate starts and stops; 0 when none does
	Windows   []Band  // above that, rates that start too
	Holes     []Band  // below PullOut, rates that do not start although higher ones do
	PullOut   float64 // the highest that it goes on at once it turns, brought there little by little
	LostAt    []Band  // rates below PullOut at which a turning motor falls out of step
	Trials    int     // run for all this
}

// Sweep bounds the search: rates from Least to Most, each at most a twentieth
// above the last, edges to Edge.
type Sweep struct {
	Least, Most float64 // rows a second; 0 for what suits the plant
	Edge        float64 // a share of the rate; 0 for 1/200
}

// sweepRatio is from one swept rate to the next.
const sweepRatio = 1.05

// bounds fills in what suits a plant: from far below its ring frequency to far
// beyond where its currents can rise.
func (t *Trials) bounds(s Sweep) Sweep {
	ring := t.plant.RingRadians(1) / (2 * math.Pi) * 90 / t.per // rows a second, one a ring
	if s.Least <= 0 {
		s.Least = max(ring/16, 1)
	}
	if s.Most <= 0 {
		s.Most = 60 * ring
	}
	if s.Edge <= 0 {
		s.Edge = 1.0 / 200
	}
	return s
}

// enough failures in turn, each a twentieth above the last: no window is sought
// beyond.
const enoughFailed = 24

// Follow sweeps the rates at which the motor starts and stops, then brings it up
// from the highest of them until it falls out of step. It may be stopped by
// going, which is asked before each trial and told how far it is; what was
// found so far is then given, with ok false.
func (t *Trials) Follow(s Sweep, going func(rate float64) bool) (r Rates, ok bool) {
	if going == nil {
		going = func(float64) bool { return true }
	}
	s = t.bounds(s)
	before := t.Count
	starts, ok := t.starts(s, going)
	if len(starts) > 0 && starts[0].From <= s.Least {
		r.StartStop = starts[0].To
		for i, b := range starts[1:] {
			r.Windows = append(r.Windows, b)
			r.Holes = append(r.Holes, Band{starts[i].To, b.From})
		}
	} else {
		r.Windows = starts
	}
	if ok {
		ok = t.pullOut(&r, s, starts, going)
	}
	r.Trials = t.Count - before
	return r, ok && t.err == nil
}

// starts gives the bands of rates that start, their edges bisected.
func (t *Trials) starts(s Sweep, going func(float64) bool) (bands []Band, ok bool) {
	last, lastGood, failed := 0.0, false, 0
	for rate := s.Least; rate <= s.Most && failed < enoughFailed; rate *= sweepRatio {
		if !going(rate) {
			return bands, false
		}
		good := t.Start(rate)
		switch {
		case good && !lastGood:
			from := rate
			if last > 0 {
				from = t.edge(last, rate, s.Edge, func(x float64) bool { return !t.Start(x) })
			}
			bands = append(bands, Band{from, rate})
		case !good && lastGood:
			bands[len(bands)-1].To = t.edge(last, rate, s.Edge, t.Start)
		case good:
			bands[len(bands)-1].To = rate
		}
		failed++
		if good {
			failed = 0
		}
		last, lastGood = rate, good
	}
	return bands, true
}

// edge bisects between a rate at which is holds and one at which it does not, and
// gives the last at which it does.
func (t *Trials) edge(yes, no, share float64, is func(float64) bool) float64 {
	for math.Abs(no-yes) > share*yes {
		mid := (yes + no) / 2
		if is(mid) {
			yes = mid
		} else {
			no = mid
		}
	}
	return yes
}

// pullOut brings the motor up from each band that starts, and keeps the highest
// rate that it follows; where it falls out between two bands it is started anew
// in the higher.
func (t *Trials) pullOut(r *Rates, s Sweep, starts []Band, going func(float64) bool) (ok bool) {
	fell := 0.0 // where it fell out last; 0 where it did not
	for _, band := range starts {
		if band.To <= r.PullOut {
			continue
		}
		run, good := t.within(band)
		if !good {
			continue
		}
		if fell > 0 && band.From > fell { // above it runs again
			r.LostAt = append(r.LostAt, Band{fell, band.From})
		}
		runs, lost := []Runs{run}, 0.0
		for lost == 0 && run.Rate < s.Most {
			if !going(run.Rate) {
				return false
			}
			next, good := t.To(run, run.Rate*sweepRatio)
			if good {
				run = next
				runs = append(runs, run)
				continue
			}
			lost = t.edge(run.Rate, run.Rate*sweepRatio, s.Edge, func(rate float64) bool {
				_, good := t.To(run, rate)
				return good
			})
		}
		// What it turns at for a while it need not go on at.
		fast := max(lost, run.Rate)
		held := t.endured(runs, fast, s.Edge)
		r.PullOut, fell = max(r.PullOut, held), 0
		if lost > 0 || held < fast {
			fell = max(held, runs[0].Rate)
		}
	}
	return true
}

// within runs the motor at a rate of a band in which it starts: near an edge of it
// the start may hold for the rows of a trial and not for longer.
func (t *Trials) within(band Band) (run Runs, good bool) {
	for _, rate := range []float64{(band.From + band.To) / 2, band.From * sweepRatio, (band.From + 3*band.To) / 4} {
		if run, good = t.Running(rate); good {
			break
		}
	}
	return run, good
}
