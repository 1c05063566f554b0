package terms

import (
	"fmt"
	"math"
	"strings"

	"coilwalk/model/driver"
	"coilwalk/model/motor"
	"coilwalk/model/quantity"
	"coilwalk/model/rotor"
	"coilwalk/sequence"
	"coilwalk/view/picture"
)

// plantOf gives a built-in motor behind a stage, at its rated voltage.
func plantOf(m motor.Motor, stage driver.Stage) rotor.Plant {
	p, _, err := rotor.PlantOf(m, stage, quantity.Voltage{})
	if err != nil {
		panic(err) // the built-in motors have what it takes
	}
	return p
}

// usual gives the stage that is usual for a motor.
func usual(m motor.Motor) driver.Stage { return driver.Usual(m.Drive, false) }

// drawResponse shows how a lightly damped rotor takes one row.
func drawResponse() Drawing {
	m := builtIn("hybrid-4")
	p := plantOf(m, usual(m))
	order := sequence.Full.Order()
	r, err := rotor.Respond(p, order.Row(0), order.Row(1), rotor.ResponseSeconds(p))
	if err != nil {
		panic(err)
	}
	way := picture.Line{Name: "one row", Ink: picture.Current, Mark: '*'}
	for i, t := range r.Times {
		if t > shownRings/math.Max(r.RingHz, 1) {
			break
		}
		way.X, way.Y = append(way.X, 1e3*t), append(way.Y, r.Degrees[i]/float64(p.PolePairs))
	}
	step := r.Step / float64(p.PolePairs)
	rest := picture.Line{Name: "rest", Ink: picture.Faint, Mark: '.', X: []float64{0, way.X[len(way.X)-1]}, Y: []float64{step, step}}
	return Drawing{fmt.Sprintf("a %s takes one full step: overshoots %.0f %%, rings at %.0f Hz", m.Name, 100*r.Overshoot, r.RingHz), plotHigh,
		func(g *picture.Grid, x, y, w int) {
			p := picture.Plot{Lines: []picture.Line{rest, way}, XName: "ms, degrees", Zero: true,
				Left: func(v float64) string { return fmt.Sprintf("%.1f", v) }, Below: func(v float64) string { return fmt.Sprintf("%.0f", v) }}
			p.Draw(g, x, y, w, plotHigh)
		}}
}

// shownRings is how many swings of a response are drawn.
const shownRings = 6

// drawnLoads is how many loads the curves over load are run at.
const drawnLoads = 6

// drawRates shows the start-stop and the pull-out rate over load, run in time.
func drawRates() Drawing {
	m := builtIn("vent-flap")
	p := plantOf(m, usual(m))
	points, _ := rotor.Curve(p, sequence.Half, rotor.CurveLoads(p, drawnLoads), func(float64) bool { return true })
	starts := picture.Line{Name: "starts at once", Ink: picture.Good, Mark: '*'}
	follows := picture.Line{Name: "follows, turning", Ink: picture.Current, Mark: '+'}
	for _, c := range points {
		starts.X, starts.Y = append(starts.X, c.StartStop), append(starts.Y, 1e3*c.Load)
		follows.X, follows.Y = append(follows.X, c.PullOut), append(follows.Y, 1e3*c.Load)
	}
	return Drawing{m.Title + " (an invented motor), half step: between the curves it slews", plotHigh,
		func(g *picture.Grid, x, y, w int) {
			p := picture.Plot{Lines: []picture.Line{follows, starts}, XName: "rows/s, mN.m", Zero: true, FromZero: true,
				Left: func(v float64) string { return fmt.Sprintf("%.0f", v) }, Below: func(v float64) string { return fmt.Sprintf("%.0f", v) }}
			p.Draw(g, x, y, w, plotHigh)
		}}
}

// drawRise shows how a coil's current comes up against its inductance: a plain
// switch at the rated voltage, the rotor too heavy to move.
func drawRise() Drawing {
	m := builtIn("hybrid-4")
	stage, err := driver.Named("ideal")
	if err != nil {
		panic(err)
	}
	p := plantOf(m, stage)
	tau := p.Inductance / p.Resistance
	p.Inertia = 1e3
	motion := rotor.NewMotion(&p)
	motion.Start(rotor.State{})
	motion.Energise(sequence.Wave.Order().Row(0))
	current := picture.Line{Name: "current", Ink: picture.Current, Mark: '*'}
	motion.Watch(tau/25, func(s rotor.State) {
		current.X, current.Y = append(current.X, 1e3*s.Seconds), append(current.Y, 1e3*s.Currents[0])
	})
	if err := motion.Advance(4 * tau); err != nil {
		panic(err)
	}
	constant := picture.Line{Name: "time constant", Ink: picture.Alert, Mark: '|', X: []float64{1e3 * tau, 1e3 * tau}, Y: []float64{0, current.Y[len(current.Y)-1] / 2}}
	return Drawing{fmt.Sprintf("the current of a %s's coil after its row begins: L/R is %.2g ms", m.Name, 1e3*tau), plotHigh,
		func(g *picture.Grid, x, y, w int) {
			p := picture.Plot{Lines: []picture.Line{current, constant}, XName: "ms, mA", Zero: true,
				Left: func(v float64) string { return fmt.Sprintf("%.0f", v) }, Below: func(v float64) string { return fmt.Sprintf("%.1f", v) }}
			p.Draw(g, x, y, w, plotHigh)
		}}
}

// gearsHigh is the height of a drawn train.
const gearsHigh = 9

// drawGears shows the train of the vent flap, as counted.
func drawGears() Drawing {
	m := builtIn("vent-flap")
	var pairs []picture.GearPair
	for _, mesh := range m.Train.Meshes {
		pairs = append(pairs, picture.GearPair{Driving: mesh.Driving, Driven: mesh.Driven})
	}
	title := fmt.Sprintf("%s: %s make %s turns to one of the shaft", m.Title, strings.ReplaceAll(m.Train.String(), ",", " "), m.Train.Ratio().FloatString(3))
	return Drawing{title, gearsHigh, func(g *picture.Grid, x, y, w int) {
		p := picture.Gears{Pairs: pairs}
		p.Draw(g, x, y, w, gearsHigh)
	}}
}

// drawBacklash shows the shaft over the rows that are sent, forward and back: it
// stands while the rotor takes up the play.
func drawBacklash() Drawing {
	m := builtIn("vent-flap")
	_, play, _ := m.Train.Play()
	ratio, _ := m.Train.Ratio().Float64()
	row := 360 / float64(8*m.PolePairs) / ratio // of the shaft, in half step
	back := 3 * play                            // where it turns round
	asked := picture.Line{Name: "asked", Ink: picture.Faint, Mark: '.'}
	shaft := picture.Line{Name: "shaft", Ink: picture.Current, Mark: '*'}
	for deg := 0.0; deg <= 2*back; deg += row {
		at := deg
		if deg > back {
			at = 2*back - deg
		}
		seen := at // it was last pushed forward
		if deg > back {
			seen = math.Min(back, at+play)
		}
		asked.X, asked.Y = append(asked.X, deg/row), append(asked.Y, at)
		shaft.X, shaft.Y = append(shaft.X, deg/row), append(shaft.Y, seen)
	}
	return Drawing{fmt.Sprintf("%s turns round: the shaft stands for the play, %.3g degrees, %.0f rows", m.Title, play, math.Ceil(play/row)), plotHigh,
		func(g *picture.Grid, x, y, w int) {
			p := picture.Plot{Lines: []picture.Line{asked, shaft}, XName: "rows, degrees", Zero: true,
				Left: func(v float64) string { return fmt.Sprintf("%.0f", v) }, Below: func(v float64) string { return fmt.Sprintf("%.0f", v) }}
			p.Draw(g, x, y, w, plotHigh)
		}}
}
