package handoff

import (
	"fmt"

	"coilwalk/model/driver"
	"coilwalk/model/quantity"
	"coilwalk/model/rotor"
)

// Unfollowed says that the motor loses steps on a move of these rows, by its model
// behind the usual stage at its rated voltage, without a load; "" where it follows,
// and where it can not be said: a motor without a holding torque, currents between
// off and on, a start of more rows than mostJudged. It takes some milliseconds, along
// a ramp up to a second.
func (w *Walk) Unfollowed() string {
	if w.unfollowed == nil {
		words := w.loses()
		w.unfollowed = &words
	}
	return *w.unfollowed
}

const (
	mostJudged    = 6000 // rows of a start that the motor is run through
	longestJudged = 1.0  // s: a row that stands for longer has come to rest
)

func (w *Walk) loses() string {
	if w.Mode.Shares || len(w.Pace.Intervals) > mostJudged {
		return ""
	}
	stage := driver.Usual(w.Motor.Drive, false)
	plant, _, err := rotor.PlantOf(w.Motor, stage, quantity.Voltage{})
	if err != nil {
		return ""
	}
	lasting := make([]float64, len(w.Pace.Intervals))
	for k, ticks := range w.Pace.Intervals {
		lasting[k] = min(w.Pace.seconds(ticks), longestJudged)
	}
	trials := rotor.NewTrials(plant, w.Mode)
	if trials.Paced(lasting) || trials.Err() != nil {
		return ""
	}
	what := fmt.Sprintf("does not start at %.4g rows a second", w.Pace.Rate())
	if w.Pace.Ramped() {
		what = fmt.Sprintf("does not follow these rows, from %.4g to %.4g a second", w.Pace.StartRate(), w.Pace.Rate())
	}
	return fmt.Sprintf("by its model, behind the stage %s and without a load, %s %s.", stage.Name, w.Motor.Name, what)
}
