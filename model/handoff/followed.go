package handoff

import (
	"fmt"

	"coilwalk/model/driver"
	"coilwalk/model/power"
	"coilwalk/model/quantity"
	"coilwalk/model/rotor"
)

// Unfollowed says that the motor loses steps on a move of these rows, by its model
// as it is driven, without a load; "" where it follows, and where it can not be said:
// a motor without a holding torque, currents between off and on, a start of more rows
// than mostJudged, a stage that can not drive it. It takes some milliseconds, along a
// ramp up to a second.
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
	d := w.driven()
	plant, _, err := d.Plant()
	if err != nil {
		return ""
	}
	behind := "behind the stage " + w.Behind()
	if d.Turned {
		behind += " (" + d.Connection.Name + ")"
	}
	if a := d.Cost(); a != nil && !a.Works() {
		return fmt.Sprintf("%s, which needs %s, %s does not follow any rows.", behind, quantity.Volts(d.Stage.Limits.Least).Rounded(3), w.Motor.Name)
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
	return fmt.Sprintf("by its model, %s and without a load, %s %s.", behind, w.Motor.Name, what)
}

// OtherDrive says that the stage that is set wants the coils joined otherwise than this
// file is for; "" where it does not.
func (w *Walk) OtherDrive() string {
	if w.Driven == nil || !w.Driven.Turned {
		return ""
	}
	return fmt.Sprintf("the stage %s drives this motor as %s, and this file is for a %s drive: change the drive, and make it anew.", w.Behind(), w.Driven.Connection.Name, w.Motor.Drive)
}

// driven gives how the motor is driven: by the usual stage where nobody says.
func (w *Walk) driven() power.Driven {
	if w.Driven != nil {
		return *w.Driven
	}
	d, _ := power.Drives(w.Motor, driver.Stage{}, driver.Supply{}, "") // nothing named can not be wrong
	return d
}

// Behind names the stage and what it is fed with.
func (w *Walk) Behind() string {
	d := w.driven()
	words := d.Stage.Name
	if volts := d.Feeds(); !d.Stage.Instant() && volts > 0 { // else it is no matter
		words += " on " + quantity.Volts(volts).Rounded(3)
	}
	if d.Current > 0 {
		words += " set to " + quantity.Amperes(d.Current).Rounded(3)
	}
	return words
}
