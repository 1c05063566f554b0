package rotor

import (
	"runtime"
	"sync"

	"coilwalk/sequence"
)

// CurvePoint is what a motor follows under a load.
type CurvePoint struct {
	Load      float64 // N·m at the output shaft, constant
	StartStop float64 // rows a second
	PullOut   float64 // rows a second
}

// The search for a curve's points: a step down from the last load's rate, a step
// up while it turns, and how near the edge is found.
const (
	curveFirst = 1.2
	curveDown  = 1.06
	curveUp    = 1.25
	curveEdge  = 1.0 / 100
)

// Curve gives pull-in (start–stop) and pull-out rates over loads, which rise.
// Each point is sought from the last one's rate downwards, so holes far below it
// are not looked for: Trials.Follow does that. It runs on all processors, and
// gives the same points however many there are. It may be stopped by going,
// which is told the share that is done; then ok is false.
func Curve(p Plant, mode sequence.Mode, loads []float64, going func(done float64) bool) (points []CurvePoint, ok bool) {
	points = make([]CurvePoint, len(loads))
	const part = 4 // loads that one search goes through, from the lightest on
	var mu sync.Mutex
	done, stopped := 0, false
	var fault any
	ask := func() bool {
		mu.Lock()
		defer mu.Unlock()
		if going != nil && !stopped {
			stopped = !going(float64(done) / float64(len(loads)))
		}
		return !stopped
	}
	parts := make(chan int)
	var wait sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), (len(loads)+part-1)/part) {
		wait.Add(1)
		go func() {
			defer wait.Done()
			defer func() { // a fault of ours is the caller's to see
				if r := recover(); r != nil {
					mu.Lock()
					fault, stopped = r, true
					mu.Unlock()
					for range parts {
					}
				}
			}()
			for from := range parts {
				t := NewTrials(p, mode)
				last := 0.0
				for i := from; i < min(from+part, len(loads)) && ask(); i++ {
					t.Load(loads[i])
					points[i] = t.point(loads[i], last)
					last = points[i].StartStop
					mu.Lock()
					done++
					mu.Unlock()
				}
			}
		}()
	}
	for from := 0; from < len(loads); from += part {
		parts <- from
	}
	close(parts)
	wait.Wait()
	if fault != nil {
		panic(fault)
	}
	return points, !stopped
}

// point seeks the rates under the present load, from those of a lighter one.
func (t *Trials) point(load, last float64) CurvePoint {
	at := CurvePoint{Load: load, StartStop: t.startStop(last)}
	if at.StartStop == 0 {
		return at
	}
	s := t.bounds(Sweep{})
	from := 0.8 * at.StartStop
	s.Least = at.StartStop * sweepRatio
	if above, _ := t.starts(s, func(float64) bool { return true }); len(above) > 0 { // over a resonance
		top := above[len(above)-1]
		from = (top.From + top.To) / 2
	}
	at.PullOut = max(at.StartStop, t.highest(from, s.Most))
	return at
}

// startStop seeks the rate up to which it starts under the present load, from that
// of a lighter one; 0 when there is none.
func (t *Trials) startStop(last float64) float64 {
	s := t.bounds(Sweep{})
	if last == 0 { // nothing to start from: upwards, coarsely
		good := 0.0
		for rate := 4 * s.Least; rate < s.Most && t.Start(rate); rate *= curveFirst {
			good = rate
		}
		if good == 0 {
			if !t.Start(s.Least) {
				return 0
			}
			good = s.Least
		}
		return t.edge(good, good*curveFirst, curveEdge, t.Start)
	}
	rate := last
	for rate > s.Least && !t.Start(rate) {
		rate /= curveDown
	}
	if rate <= s.Least {
		return 0
	}
	if rate < last {
		return t.edge(rate, rate*curveDown, curveEdge, t.Start)
	}
	return rate
}

// highest brings a motor up from a rate at which it starts, and gives the highest
// that it goes on at.
func (t *Trials) highest(from, most float64) float64 {
	run, good := t.Running(from)
	if !good {
		return 0
	}
	runs := []Runs{run}
	for run.Rate < most {
		next, good := t.To(run, run.Rate*curveUp)
		if !good {
			most = t.edge(run.Rate, run.Rate*curveUp, curveEdge, func(rate float64) bool {
				_, good := t.To(run, rate)
				return good
			})
			break
		}
		run = next
		runs = append(runs, run)
	}
	return t.endured(runs, max(most, run.Rate), curveEdge)
}

// CurveLoads gives so many loads at the shaft, from none to what one phase holds.
func CurveLoads(p Plant, n int) []float64 {
	loads := make([]float64, n)
	for i := range loads {
		loads[i] = p.OnePhase() * p.Ratio * float64(i) / float64(n-1)
	}
	return loads
}
