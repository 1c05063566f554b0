package report

import (
	"fmt"
	"math"

	"coilwalk/model/bench"
	"coilwalk/model/motor"
)

// Running says how a rotor that moves in time follows its rows, and whether it is
// something to worry about.
func Running(r bench.Reading, m motor.Motor) (words string, alarm bool) {
	t := r.InTime
	asked := Rate(r.Rate) + " rows/s asked"
	if !t.Certain {
		return asked + ": where it is at is not known; each place that it may be at is shown.", true
	}
	lag := lagWords(t.Lag)
	share := 1.0
	if t.Asked != 0 {
		share = t.Turned / t.Asked
	}
	lost := fmt.Sprintf("%s of %s rows lost so far", Count(max(t.Lost, -t.Lost)), Count(t.Rows))
	next := "."
	if !r.Rewired && len(r.Faults) == 0 {
		next = ". R tells rates."
	}
	switch {
	case !r.Commands():
		return fmt.Sprintf("%s: the rotor turned %s, %s now.", asked, Angle(m.AtRotor(t.Turned), 1), lag), false
	case t.Lost == 0:
		return fmt.Sprintf("%s: in step, %s, no row lost.", asked, lag), false
	case math.Abs(share) < buzzing:
		return fmt.Sprintf("%s: it buzzes; %s%s", asked, lost, next), true
	case share < 0:
		return fmt.Sprintf("%s: it turns the other way, by %s of what is asked.", asked, percent(-share)), true
	case t.Losing:
		return fmt.Sprintf("%s: it does not follow; %s%s", asked, lost, next), true
	}
	return fmt.Sprintf("%s: in step again; %s%s", asked, lost, next), true
}

// buzzing is the part of the way from which a rotor counts as turning.
const buzzing = 0.2

// lagWords says how far a rotor trails its field.
func lagWords(electricalDeg float64) string {
	return fmt.Sprintf("%s electrical %s the field", Angle(math.Abs(electricalDeg), 0), side(math.Round(electricalDeg)))
}

// Ran says what a run that was stopped has lost.
func Ran(r bench.Reading) string {
	t := r.InTime
	return fmt.Sprintf("the run at %s rows/s lost %s of %s rows", PerSecond(r.Rate), Count(max(t.Lost, -t.Lost)), Count(t.Rows))
}
