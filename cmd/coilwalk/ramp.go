package main

import (
	"context"
	"errors"
	"fmt"
	"math/big"
	"os"
	"os/signal"
	"slices"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"coilwalk/model/motor"
	"coilwalk/model/quantity"
	"coilwalk/model/travel"
	"coilwalk/sequence"
	"coilwalk/view/report"
	"coilwalk/view/sheet"
)

// rampFlags are the options of "ramp".
type rampFlags struct {
	machineFlags
	mode                 modeFlags
	turn                 quantity.Angle
	steps                int64
	after                choice
	rate, start          rowRate
	accel, decel         float64
	shape, method        choice
	clock                quantity.Rate
	prescale             float64
	bits                 int
	stop                 int64
	believes, rpm        int64
	delay                choice
	twice, floats, alone bool
}

func (p *program) rampCommand() *cobra.Command {
	var f rampFlags
	c := &cobra.Command{
		Use:   "ramp",
		Short: "Plan a move with acceleration: when each row is sent, in whole timer ticks",
		Long: `Plan a move of the output shaft: how many rows it is, exactly, and when each is
sent, with a start rate, an acceleration and a top rate, in whole ticks of a timer
whose errors do not add up. The motor is run through it, to see whether it follows.
A start rate and an acceleration that are left out come of the motor's model.

The other way round, --believes says what rate firmware really gives that reckons
its delay from steps to a turn and turns a minute.`,
		Example: "  coilwalk ramp --turn 90deg --rate 900/s\n      90 deg of the shaft: 679 rows of half step, forward, in 753 ms\n  coilwalk ramp --turn -90deg --rate 900/s --after forward --shape s\n  coilwalk ramp --steps 2000 --rate 1200/s --start 300/s --accel 1500 --clock 16MHz --prescale 8\n  coilwalk ramp --believes 2048 --rpm 12 --delay ms",
		Args:    noArgs,
		RunE: func(c *cobra.Command, _ []string) error {
			answer, err := p.ramp(c, &f)
			if err != nil {
				return err
			}
			if err := p.tell(answer); err != nil {
				return err
			}
			if !answer.Clean() {
				return errFinding
			}
			return nil
		},
	}
	f.mode.add(c, "half")
	f.after = choice{"", []string{"forward", "reverse"}}
	f.shape = choice{"trapezoid", []string{"trapezoid", "s"}}
	f.method = choice{"exact", []string{"exact", "recurrence"}}
	f.delay = choice{"ms", []string{"ms", "us"}}
	c.Flags().Var(&f.turn, "turn", "the move of the shaft, as 90deg; below zero in reverse")
	c.Flags().Int64Var(&f.steps, "steps", 0, "the move as a number of rows; below zero in reverse")
	c.Flags().Var(&f.after, "after", "the direction of the move before, forward or reverse: a reversal first takes up the play")
	c.Flags().Var(&f.rate, "rate", "goes up to this `rate`, in rows a second")
	c.Flags().Var(&f.start, "start", "starts at this `rate` (85 % of the start–stop rate of the motor's model)")
	c.Flags().Float64Var(&f.accel, "accel", 0, "speeds up by so many `rows/s` in a second (half of what the motor's model follows, or what just gets there)")
	c.Flags().Float64Var(&f.decel, "decel", 0, "slows down by so many `rows/s` in a second (as it speeds up)")
	c.Flags().Var(&f.shape, "shape", "trapezoid, at a constant acceleration, or s, at one that rises and falls")
	c.Flags().Var(&f.method, "method", "exact, or recurrence: the usual one in whole numbers, from a stand")
	c.Flags().Var(&f.clock, "clock", "of the timer, as 16MHz (1 MHz)")
	c.Flags().Float64Var(&f.prescale, "prescale", 1, "the timer's clock is divided by this `number`")
	c.Flags().IntVar(&f.bits, "bits", 16, "of the timer's counter: 8, 16 or 32")
	c.Flags().Int64Var(&f.stop, "stop", 0, "show the stop that is asked for at this `row`")
	f.machineFlags.add(c, "")
	c.Flags().BoolVar(&f.alone, "no-motor", false, "do not run the motor through it")
	c.Flags().Int64Var(&f.believes, "believes", 0, "firmware holds a turn to be so many `steps`: what does it really do?")
	c.Flags().Int64Var(&f.rpm, "rpm", 0, "with --believes: the turns a minute that it wants")
	c.Flags().Var(&f.delay, "delay", "with --believes: the unit of its delay, ms or us, reckoned in whole numbers")
	c.Flags().BoolVar(&f.twice, "twice", false, "with --believes: it waits half the delay twice in a step")
	c.Flags().BoolVar(&f.floats, "decimals", false, "with --believes: it reckons with decimals, and cuts the delay only")
	return c
}

func (p *program) ramp(c *cobra.Command, f *rampFlags) (found, error) {
	m, err := p.openMotor()
	if err != nil {
		return nil, err
	}
	mode, err := f.mode.chosen(c)
	if err != nil {
		return nil, err
	}
	believing := []string{"believes", "rpm", "delay", "twice", "decimals"}
	if c.Flags().Changed("believes") {
		c.Flags().Visit(func(g *pflag.Flag) {
			if err == nil && !slices.Contains(append(believing, "mode", "divide", "levels", "motor", "json"), g.Name) {
				err = fmt.Errorf("--%s does not go with --believes: that looks at a rate, not at a move", g.Name)
			}
		})
		if err != nil {
			return nil, err
		}
		return f.belief(m, mode)
	}
	for _, name := range believing {
		if c.Flags().Changed(name) {
			return nil, fmt.Errorf("--%s goes with --believes only", name)
		}
	}
	r := sheet.Ramp{Motor: m, Mode: mode, Started: f.start.Given(), Recurrence: f.method.value == "recurrence", Stop: f.stop, Alone: f.alone}
	if err := f.move(c, &r); err != nil {
		return nil, err
	}
	way, err := r.Rows()
	if err != nil {
		return nil, err
	}
	rows := r.Wish.Rows
	r.Timer = travel.Timer{Clock: f.clock.Base(), Prescale: f.prescale, Bits: f.bits}
	if !f.clock.Given() {
		r.Timer.Clock = 1e6
	}
	if err := r.Timer.Check(); err != nil {
		return nil, err
	}
	r.Wish = travel.Wish{Rows: rows, Start: f.start.Base(), Top: f.rate.Base(), Accel: f.accel, Decel: f.decel}
	if f.shape.value == "s" {
		r.Wish.Shape = travel.Smooth
	}
	for _, given := range []struct {
		name  string
		value float64
	}{{"accel", f.accel}, {"decel", f.decel}, {"prescale", f.prescale}, {"stop", float64(f.stop)}} {
		if c.Flags().Changed(given.name) && !(given.value > 0) {
			return nil, fmt.Errorf("--%s takes a number above 0, not %v", given.name, given.value)
		}
	}
	if err := r.Wish.Bounded(); err != nil {
		return nil, err
	}
	switch {
	case f.alone && f.accel == 0 && f.start.Base() < f.rate.Base():
		return nil, errors.New("with --no-motor nobody says how it speeds up: give --accel, as 1500, or a --start as high as --rate")
	case f.start.Given() && f.rate.Given() && f.start.Base() > f.rate.Base():
		return nil, fmt.Errorf("--start %s is above --rate %s", f.start, f.rate)
	case !f.rate.Given():
		return nil, errors.New("--rate is wanted: the rate to go up to, as 900/s")
	case f.stop < 0 || f.stop > rows:
		return nil, fmt.Errorf("--stop %d: a row of the move is wanted, 1 to %d", f.stop, rows)
	case f.method.value == "recurrence" && (f.shape.value == "s" || f.start.Given() && f.start.Base() > 0):
		return nil, errors.New("the recurrence starts from a stand and at a constant acceleration; leave --start and --shape out")
	case f.method.value == "recurrence" && f.accel == 0:
		return nil, errors.New("--method recurrence: --accel is wanted")
	}
	if !f.alone {
		if r.Plant, r.Estimates, r.Driven, err = p.plant(m, &f.machineFlags); err != nil {
			return nil, fmt.Errorf("%w (--no-motor plans without one)", err)
		}
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	defer p.reckons()()
	return r.Answer(ctx, way)
}

// move reads the move that is asked for.
func (f *rampFlags) move(c *cobra.Command, r *sheet.Ramp) error {
	turn, steps := c.Flags().Changed("turn"), c.Flags().Changed("steps")
	switch {
	case turn && steps:
		return errors.New("--turn and --steps both say how far; give one of them")
	case !turn && !steps:
		return errors.New("--turn or --steps is wanted, as --turn 90deg")
	case turn:
		r.Turns, r.Asked = new(big.Rat).Quo(motor.Exactly(f.turn.Base()), big.NewRat(360, 1)), f.turn.String()+" of the shaft"
	default:
		r.Turns, r.Asked = new(big.Rat).Quo(new(big.Rat).SetInt64(f.steps), r.Motor.StepsPerShaftTurn(r.Mode)), fmt.Sprintf("%d rows", f.steps)
	}
	switch f.after.value {
	case "forward":
		r.After = sequence.Forward
	case "reverse":
		r.After = sequence.Reverse
	}
	return nil
}

// belief says what comes of firmware's own reckoning.
func (f *rampFlags) belief(m motor.Motor, mode sequence.Mode) (found, error) {
	b := travel.Belief{StepsPerTurn: f.believes, RPM: f.rpm, Unit: 1e-3, PerMinute: 60_000, Twice: f.twice, Floating: f.floats}
	if f.delay.value == "us" {
		b.Unit, b.PerMinute = 1e-6, 60_000_000
	}
	real, err := b.Reckon()
	if err != nil {
		return nil, fmt.Errorf("--believes and --rpm: %w", err)
	}
	return report.NewBelief(m, mode, b, f.delay.value, real), nil
}
