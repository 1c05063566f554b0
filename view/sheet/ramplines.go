package sheet

import (
	"cmp"
	"errors"
	"fmt"
	"math/big"
	"strconv"
	"strings"

	"coilwalk/model/files"
	"coilwalk/model/motor"
	"coilwalk/model/quantity"
	"coilwalk/model/travel"
	"coilwalk/sequence"
)

// RampLines are the lines of a ramp.
func RampLines(m motor.Motor) []Line[Ramp] {
	return []Line[Ramp]{
		{"move", "of the shaft, as 90deg, or by rows, as 2000 rows; below zero in reverse:", "90deg", (*Ramp).setMove},
		{"step mode", asksMode, "", (*Ramp).setMode},
		{"after", "the way of the move before, forward or reverse, or none:", "", (*Ramp).setAfter},
		{"rate", "to go up to, in rows a second:", "", (*Ramp).setRate},
		{"start", "starts at this rate; empty: what the motor's model gives:", "", (*Ramp).setStart},
		{"accel", "rows/s more in each second, and for slowing down, as 1500 or 1500 800:", "", (*Ramp).setAccel},
		{"shape", "trapezoid, or s:", "trapezoid", (*Ramp).setShape},
		{"method", "exact, or recurrence, the usual one in whole numbers:", "exact", (*Ramp).setMethod},
		{"clock", "of the timer, and cycles to a tick, as 16MHz 8:", "1MHz 1", (*Ramp).setClock},
		{"bits", "of the timer's counter, 8, 16 or 32:", "16", (*Ramp).setBits},
		{"stop", "show the stop that is asked for at this row:", "", (*Ramp).setStop},
		{"stage", "the driver stage, empty for that of rates and power; or none to run no motor through it:", "", (*Ramp).setStage},
		{"supply", "the motor supply, as 12V; empty for that of rates and power:", "", (*Ramp).setSupply},
		{"load", "what pulls back at the output shaft, as 20mN.m:", m.Figures.Load.String(), (*Ramp).setLoad},
		{"inertia", "of what hangs on the output shaft, as 5g.cm2:", "", (*Ramp).setInertia},
	}
}

// NewRamp is a sheet with nothing said yet, but for how the motor is driven.
func NewRamp(m motor.Motor, mode sequence.Mode, driven Shared) Ramp {
	return Ramp{Motor: m, Mode: mode, driven: driven, on: Rates{Motor: m, Mode: mode, Driving: Driving{Connection: driven[sharedConnected]}}}
}

// Plan says whether the sheet can be planned, and runs up the machine for it.
func (r *Ramp) Plan() (way sequence.Direction, err error) {
	if way, err = r.Rows(); err != nil {
		return way, err
	}
	w := r.Wish
	switch {
	case w.Top == 0:
		return way, errors.New("rate: the rate to go up to is wanted, as 900")
	case r.Started && w.Start > w.Top:
		return way, fmt.Errorf("start: %g rows a second are above the rate of %g", w.Start, w.Top)
	case r.Stop > w.Rows:
		return way, fmt.Errorf("stop: row %d is not of the move, which has %d rows", r.Stop, w.Rows)
	case r.Recurrence && (w.Shape == travel.Smooth || w.Start > 0):
		return way, errors.New("method: the recurrence starts from a stand and at a constant acceleration; empty start and shape")
	case r.Recurrence && w.Accel == 0:
		return way, errors.New("method: the recurrence wants an acceleration, under accel")
	case r.Alone && w.Accel == 0 && w.Start < w.Top:
		return way, errors.New("stage: without a motor nobody says how it speeds up; give accel, or a start as high as the rate")
	}
	if err := w.Bounded(); err != nil {
		return way, err
	}
	if err := r.Timer.Check(); err != nil || r.Alone {
		return way, err
	}
	r.on.Motor, r.on.Mode = r.Motor, r.Mode
	err = r.on.Machine()
	r.Plant, r.Estimates, r.Driven = r.on.Plant, r.on.Estimates, r.on.Driven
	return way, err
}

func (r *Ramp) setMove(text string) error {
	if number, ok := strings.CutSuffix(text, "rows"); ok {
		n, err := strconv.ParseInt(strings.TrimSpace(number), 10, 64)
		if err != nil {
			return fmt.Errorf("%s: a whole number of rows is wanted, as 2000 rows", files.Quoted(text))
		}
		r.Turns, r.Asked = new(big.Rat).SetInt64(n), fmt.Sprintf("%d rows", n)
		return nil // in rows until the step mode is known
	}
	var a quantity.Angle
	if err := a.Set(text); err != nil {
		return err
	}
	r.Turns, r.Asked = new(big.Rat).Quo(motor.Exactly(a.Base()), big.NewRat(360, 1)), a.String()+" of the shaft"
	return nil
}

func (r *Ramp) setMode(text string) (err error) {
	if text != "" {
		r.Mode, err = sequence.ParseMode(text)
	}
	if err == nil && strings.HasSuffix(r.Asked, "rows") {
		r.Turns.Quo(r.Turns, r.Motor.StepsPerShaftTurn(r.Mode))
	}
	return err
}

func (r *Ramp) setAfter(text string) error {
	switch text {
	case "", "none":
		r.After = sequence.Standing
	case "forward":
		r.After = sequence.Forward
	case "reverse":
		r.After = sequence.Reverse
	default:
		return fmt.Errorf("forward, reverse or none is wanted, not %s", files.Quoted(text))
	}
	return nil
}

func (r *Ramp) setRate(text string) (err error) {
	if text != "" {
		r.Wish.Top, err = quantity.Rows(text)
	}
	return err
}

func (r *Ramp) setStart(text string) (err error) {
	r.Started = text != ""
	if r.Started && text != "0" {
		r.Wish.Start, err = quantity.Rows(text)
	}
	return err
}

func (r *Ramp) setAccel(text string) error {
	into := []*float64{&r.Wish.Accel, &r.Wish.Decel}
	words := strings.Fields(text)
	if len(words) > len(into) {
		return fmt.Errorf("%s: rows/s more in each second are wanted, as 1500, or 1500 800", files.Quoted(text))
	}
	for k, word := range words {
		v, err := strconv.ParseFloat(word, 64)
		if err != nil || !(v > 0 && v <= travel.MostAccel) {
			return fmt.Errorf("%s is no acceleration; rows/s more in each second are wanted, above 0 and up to %d, as 1500", files.Quoted(word), travel.MostAccel)
		}
		*into[k] = v
	}
	return nil
}

func (r *Ramp) setShape(text string) error {
	smooth, err := second(text, "trapezoid", "s")
	if smooth {
		r.Wish.Shape = travel.Smooth
	}
	return err
}

func (r *Ramp) setMethod(text string) (err error) {
	r.Recurrence, err = second(text, "exact", "recurrence")
	return err
}

func (r *Ramp) setClock(text string) error {
	r.Timer.Clock, r.Timer.Prescale = 1e6, 1
	t := Take{ClockHz: 1e6, Prescale: 1}
	if err := t.setClock(text); err != nil {
		return err
	}
	r.Timer.Clock, r.Timer.Prescale = float64(t.ClockHz), float64(t.Prescale)
	return nil
}

func (r *Ramp) setBits(text string) (err error) {
	if text == "" {
		text = "16"
	}
	if r.Timer.Bits, err = strconv.Atoi(text); err != nil {
		return fmt.Errorf("%s: 8, 16 or 32 is wanted", files.Quoted(text))
	}
	return r.Timer.Check()
}

func (r *Ramp) setStop(text string) (err error) {
	if text == "" {
		return nil
	}
	if r.Stop, err = strconv.ParseInt(text, 10, 64); err != nil || r.Stop < 1 {
		return fmt.Errorf("%s: a row of the move is wanted, from 1 on", files.Quoted(text))
	}
	return nil
}

func (r *Ramp) setStage(text string) error {
	if r.Alone = text == "none"; r.Alone {
		return nil
	}
	if err := r.on.setStage(cmp.Or(text, r.driven[sharedStage])); err != nil {
		return err
	}
	if text != "" && !r.on.Stage.Regulates() { // a stage of its own, which is set to nothing
		return nil
	}
	return r.on.setCurrent(r.driven[sharedSet])
}

func (r *Ramp) setSupply(text string) error {
	return r.on.setSupply(cmp.Or(text, r.driven[sharedSupply]))
}

func (r *Ramp) setLoad(text string) error    { return r.on.setLoad(text) }
func (r *Ramp) setInertia(text string) error { return r.on.setInertia(text) }
