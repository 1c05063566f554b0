package wiring

import (
	"math"

	"coilwalk/model/driver"
	"coilwalk/model/motor"
	"coilwalk/model/rotor"
)

// The runs of a trial at a rate: from rest anywhere in a pole pitch, with what
// loads may hang on a shaft that is said to be free. Cycles are counted after
// some that are not, so that a start that fails is told by what comes of it.
const (
	timeStarts    = 6    // places within a pole pitch to start from
	timeWarmUp    = 2    // cycles
	timeCounted   = 10   // cycles
	timeTolerance = 1e-4 // of rotor.Motion: what this decides is chance anyway
	oneSwing      = 15.0 // electrical degrees: a swing, or a stick in the dead zone, is no place of its own
)

var timeLoads = []float64{0, 0.06, -0.06} // in T1

// BehaveInTime runs the machine in time on a motor with faults, at a trial's
// rate: what a fault of wiring looks like there, and a rate that is too high for
// a start.
func BehaveInTime(m motor.Motor, p rotor.Plant, faults []Fault, t Trial) Behaviour {
	rows, sound := sentTo(m, m.Wiring, faults, t)
	broken := Broken(faults, m.Drive)
	b := Behaviour{Share: map[Does]float64{}, Hold: weakest(rows, sound)}
	rests := map[int]float64{}
	var whole []Fault // all but that of the supply, which is run as it is: with its voltage
	for _, f := range faults {
		if f.Kind != SupplySags {
			whole = append(whole, f)
		}
	}
	runs, _ := sentTo(m, m.Wiring, whole, t)
	feeds := make([][4]driver.Feed, len(runs))
	holds := make([]bool, len(runs))
	for k, row := range runs {
		holds[k] = !row.Field().None()
		if feeds[k] = Feeds(&p, row, broken); sags(faults) {
			feeds[k] = Sagging(&p, row)
		}
	}
	const weight = 1.0 / timeStarts / 3
	directions := map[Does]bool{}
	for _, load := range timeLoads {
		q := p
		q.Load.Torque += load * p.OnePhase() * p.Ratio
		motion := newTimed(&q)
		for start := range timeStarts {
			does, n := runInTime(motion, feeds, holds, t, float64(start)*360/timeStarts)
			b.Share[does] += weight
			if does == Buzzes {
				rests[n] += weight
			}
			directions[does] = true
		}
	}
	for n, w := range rests {
		if w > rests[b.Places] || w == rests[b.Places] && n < b.Places {
			b.Places = n
		}
	}
	b.Either = directions[Clockwise] && directions[CounterClockwise]
	return b
}

// newTimed gives the motion of a plant in trials.
func newTimed(p *rotor.Plant) *rotor.Motion {
	m := rotor.NewMotion(p)
	m.Tolerance = timeTolerance
	m.Start(rotor.State{})
	return m
}

// runInTime runs one start and says what it comes to, and among how many places
// it goes.
func runInTime(motion *rotor.Motion, rows [][4]driver.Feed, holds []bool, t Trial, deg float64) (Does, int) {
	motion.Start(rotor.State{Place: rotor.Position{Deg: deg}})
	var from, last rotor.Position
	var seen places
	moved := 0.0
	n := len(rows)
	for k := range (timeWarmUp + timeCounted) * n {
		motion.Feed(rows[k%n])
		if motion.Advance(float64(k+1)/t.Rate) != nil {
			return Still, 0
		}
		at := motion.State().Place
		if k == timeWarmUp*n-1 {
			from = at
		}
		if k >= timeWarmUp*n {
			moved = math.Max(moved, math.Abs(at.From(last)))
		}
		if k >= (timeWarmUp+timeCounted-1)*n && holds[k%n] {
			seen.add(math.Round(at.Deg/oneSwing) * oneSwing)
		}
		last = at
	}
	share := last.From(from) / (360 * timeCounted)
	switch {
	case share >= turnsFully:
		return Clockwise, 0
	case share <= -turnsFully:
		return CounterClockwise, 0
	case math.Abs(share) >= turnsAtAll:
		return Skips, 0
	case moved < 5:
		return Still, 0
	}
	return Buzzes, seen.count()
}
