package main

import (
	"context"
	"errors"
	"fmt"
	"math"
	"runtime/debug"

	"github.com/spf13/cobra"

	"coilwalk/model/course"
	"coilwalk/model/files"
	"coilwalk/model/motor"
	"coilwalk/model/recording"
	"coilwalk/view/report"
)

// settled is a recording whose outputs are known.
type settled struct {
	reader   *recording.Reader
	loading  *course.Loading
	question course.Question
	motor    *motor.Motor // that the person named; nil without
}

// open opens a recording and settles which channels are the outputs.
func (p *program) open(c *cobra.Command, file string, f *readFlags) (o settled, err error) {
	if file == files.Standard && p.motorName == files.Standard {
		return o, errors.New("the recording and the motor can not both come from standard input; name a file for one of them")
	}
	if o.motor, err = p.named(c); err != nil {
		return o, err
	}
	if o.motor == nil && f.machineFlags.given() {
		return o, errors.New("--stage, --supply and --inertia go with --motor: they say how that motor is fed and loaded")
	}
	if o.question, err = f.question(o.motor); err != nil {
		return o, err
	}
	options, err := f.options(c)
	if err != nil {
		return o, err
	}
	debug.SetGCPercent(earlyGC)
	if o.reader, err = recording.Open(file, p.in, options); err != nil {
		return o, notARecording(err, file)
	}
	if o.loading, err = course.Begin(o.reader, f.channelNames(), o.question.Pins); err != nil {
		o.reader.Close()
	}
	return o, err
}

// earlyGC collects when a fifth has been added: rows are flat arrays, so that it
// costs next to nothing, and the most that is held stays near what is there.
const earlyGC = 20 // per cent

// recorded is what a report tells of it.
func (o settled) recorded(file string) report.Recorded {
	return report.Recorded{File: files.Called(file), Recording: o.reader, Choice: o.loading.Choice, Motor: o.motor}
}

// found is what a recording came to.
type found interface {
	Text() string
	Clean() bool
}

// read reads a recording and judges it.
func (p *program) read(c *cobra.Command, file string, f *readFlags) (found, error) {
	if f.pins == stepDirection {
		return p.readSteps(c, file, f)
	}
	o, v, err := p.judged(c, file, f)
	if err != nil {
		return nil, err
	}
	return report.NewRead(o.recorded(file), v), nil
}

// judged reads the rows of a recording and judges them.
func (p *program) judged(c *cobra.Command, file string, f *readFlags) (o settled, v *course.Verdict, err error) {
	if o, err = p.open(c, file, f); err != nil {
		return o, nil, err
	}
	defer o.reader.Close()
	ctx := context.Background() // ctrl+c ends it outright: also while a pipe gives nothing
	rows, err := o.loading.Rows(ctx, nil)
	if err != nil {
		return o, nil, err
	}
	v = course.Judge(rows, o.loading.Choice.Outputs, o.question)
	if o.motor != nil {
		v, err = p.hold(ctx, v, o.motor, f)
	}
	return o, v, err
}

// readRows writes the rows between two times as CSV.
func (p *program) readRows(c *cobra.Command, file string, f *readFlags) error {
	_, v, err := p.judged(c, file, f)
	if err != nil {
		return err
	}
	from, to := math.Inf(-1), math.Inf(1)
	if f.from.Given() {
		from = f.from.Base()
	}
	if f.to.Given() {
		to = f.to.Base()
	}
	return report.WriteRows(p.out, v, from, to)
}

// readSteps reads the step and direction lines of a driver module.
func (p *program) readSteps(c *cobra.Command, file string, f *readFlags) (found, error) {
	m, err := p.named(c)
	if err != nil {
		return nil, err
	}
	options, err := f.options(c)
	if err != nil {
		return nil, err
	}
	r, err := recording.Open(file, p.in, options)
	if err != nil {
		return nil, err
	}
	defer r.Close()
	q := course.StepLines{Falling: f.edge.value == "falling", Divide: f.divide, Setup: f.setup.Base(), Pulse: f.pulse.Base()}
	switch f.enable.value {
	case "high":
		q.Enable = course.High
	case "low":
		q.Enable = course.Low
	}
	train, err := course.ReadSteps(context.Background(), r, f.channelNames(), q)
	if err != nil {
		return nil, err
	}
	return report.NewStepTrain(report.Recorded{File: files.Called(file), Recording: r, Motor: m}, q, train), nil
}

// fits says which options do not go together.
func (f *readFlags) fits(c *cobra.Command, json bool) error {
	steps := f.pins == stepDirection
	for _, name := range []string{"edge", "enable", "divide", "setup", "pulse"} {
		if !steps && c.Flags().Changed(name) {
			return fmt.Errorf("--%s goes with --pins step-direction only", name)
		}
	}
	for _, name := range []string{"wiring", "active", "direction", "at", "rows", "rotor", "stage", "supply", "inertia"} {
		if steps && c.Flags().Changed(name) {
			return fmt.Errorf("--%s does not go with --pins step-direction", name)
		}
	}
	switch {
	case f.rows && json:
		return errors.New("--rows writes CSV; leave --json out")
	case !f.rows && (f.from.Given() || f.to.Given()):
		return errors.New("--from and --to go with --rows only")
	case f.from.Given() && f.to.Given() && f.from.Base() > f.to.Base():
		return fmt.Errorf("--from %s is after --to %s; the earlier time is wanted first", f.from, f.to)
	case steps && f.divide < 0 || f.divide > 1024:
		return errors.New("--divide: 1 to 1024 microsteps to a full step are known")
	}
	return nil
}

// hold runs the motor along the rows. A motor that gives too little to be run is
// no reason not to tell the rest.
func (p *program) hold(ctx context.Context, v *course.Verdict, m *motor.Motor, f *readFlags) (*course.Verdict, error) {
	machine, err := p.machine(m, &f.machineFlags)
	if err == nil {
		defer p.reckons()()
		return v.Hold(ctx, machine, f.rotor)
	}
	if f.rotor || f.given() {
		return nil, err
	}
	v.LostWhy = "the motor can not be run: " + err.Error()
	return v, nil
}
