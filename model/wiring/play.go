package wiring

import (
	"fmt"
	"math"
	"strconv"

	"coilwalk/model/motor"
	"coilwalk/sequence"
)

// usualPlay is taken where nobody measured the play of a train, in degrees at the
// shaft: one sample of a small geared motor has about 7.25 (thread "Geared stepper
// motor" of a forum on controllers, in a reply).
const usualPlay = 8.0

// timesPlay is how many times the play a run must go each way: once to take it
// up, and enough beyond to see which way the shaft goes.
const timesPlay = 3

// aRound is the rows in which four leads take turns. Counts of rows are whole
// rounds, so that they end on the lead with which they began.
const aRound = 4

// Know takes from a motor what the asking goes by besides its leads: whether
// gears hide a tick, how small it is, and their play.
func (t *Topology) Know(m motor.Motor) {
	t.Steps = m.StepsPerRotorTurn(sequence.Full)
	t.Geared = m.Train.Geared()
	if t.Geared {
		t.Ratio, _ = m.Train.Ratio().Float64()
		_, t.Play, _ = m.Train.Play()
	}
}

// row gives how far one row of wave drive, a full step, turns what is watched: the
// shaft, or the rotor where it can be reached. In degrees; ok is false where the
// motor's figures are not known.
func (t *Topology) row() (deg float64, ok bool) {
	ratio := 1.0
	if t.Geared {
		ratio = t.Ratio
	}
	if t.Steps == 0 || ratio == 0 {
		return 0, false
	}
	return 360 / float64(t.Steps) / ratio, true
}

// play gives the play to reckon with, in degrees at the shaft.
func (t *Topology) play() float64 {
	switch {
	case !t.Geared:
		return 0
	case t.Play > 0:
		return t.Play
	}
	return usualPlay
}

// RunRows is how many rows a run goes each way: three rounds, and three times the
// play. ok is false where that can not be counted.
func (t *Topology) RunRows() (rows int, ok bool) {
	if !t.Geared {
		return 3 * aRound, true
	}
	deg, ok := t.row()
	if !ok {
		return 0, false
	}
	return max(3*aRound, rounds(timesPlay*t.play()/deg)), true
}

// ProofRows is how many rows a proof goes each way: as a run, and without gears a
// quarter turn, so that nobody can mistake which way it went.
func (t *Topology) ProofRows() (rows int, ok bool) {
	if t.Geared {
		return t.RunRows()
	}
	if t.Steps == 0 {
		return 5 * aRound, true // less than a turn of the coarsest motors, and enough to see of the finest
	}
	return rounds(float64(t.Steps) / 4), true
}

// rounds gives a count of rows in whole rounds, at least as many.
func rounds(rows float64) int { return aRound * int(math.Ceil(rows/aRound-1e-9)) }

// far says how far to go, in words.
func (t *Topology) far(rows int, counted bool) string {
	switch {
	case !t.Geared:
		return fmt.Sprintf("%d rows", rows)
	case counted:
		return fmt.Sprintf("%d rows (three times the play of %s)", rows, degrees(t.play()))
	}
	return fmt.Sprintf("three times the play, some %s of the shaft (with 32 full steps to a rotor turn and 64:1 these are %d rows)",
		degrees(timesPlay*t.play()), t.GuessedRows())
}

// GuessedRows is how many rows a run goes each way where they can not be counted:
// three times the play of a train of 64:1 behind 32 full steps.
func (t *Topology) GuessedRows() int { return rounds(timesPlay * t.play() / 360 * 32 * 64) }

// tick says how far a kick turns the shaft: half a full step.
func (t *Topology) tick() string {
	if deg, ok := t.row(); ok {
		return fmt.Sprintf("half a step, %s,", degrees(deg/2))
	}
	return "half a step"
}

// hidden says why what a rotor does at once can not be seen behind gears.
func (t *Topology) hidden() string {
	if deg, ok := t.row(); ok {
		return fmt.Sprintf("a tick is %s at the shaft, and the play of %s swallows it", degrees(deg/2), degrees(t.play()))
	}
	return "behind gears the play swallows a tick"
}

// degrees writes an angle with two digits that tell.
func degrees(deg float64) string {
	text := strconv.FormatFloat(deg, 'g', 2, 64)
	if deg >= 10 {
		text = strconv.FormatFloat(deg, 'f', 0, 64)
	}
	return text + "°"
}
