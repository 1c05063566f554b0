package main

import (
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"coilwalk/model/driver"
	"coilwalk/model/files"
	"coilwalk/model/motor"
	"coilwalk/model/power"
	"coilwalk/model/quantity"
	"coilwalk/view/report"
)

// powerFlags are the options of "power".
type powerFlags struct {
	mode       modeFlags
	stage      string
	supply     string
	connection string
	limit      quantity.Current
	source     quantity.Resistance
	rate       rowRate
	duty       string
	hold       string
	current    quantity.Current
	series     quantity.Resistance
	ambient    quantity.Temperature
	time       quantity.Time
	logic      quantity.Voltage
	load       quantity.Torque
	cooling    quantity.Thermal
}

func (p *program) powerCommand() *cobra.Command {
	var f powerFlags
	c := &cobra.Command{
		Use:   "power",
		Short: "What it costs: currents, heat, and whether driver and supply can do it",
		Long: `Say what a motor draws on a driver stage and a supply, in each step mode; who gets
the watts; how warm winding and driver get, and what torque is left then; whether
that will do, by which figure, and what would do better. Held at rest on the row
that costs most, or turning with --rate. Ends with status 1 when the verdict is
"not". A stage may also be a file (see the README).`,
		Example: "  coilwalk power --motor geared-can --stage darlington --supply usb\n      Marginal: it draws 162 mA: a port promises 100 mA; 500 mA only once the host grants them.\n  coilwalk power --motor hybrid-4 --stage chopper --supply 24V --hold 50% --rate 400\n  coilwalk power --motor hybrid-8 --stage chopper --supply 24V --limit 2A --connection parallel\n  coilwalk power --motor geared-can --stage my-board.toml --supply 5V",
		Args:    noArgs,
		RunE: func(c *cobra.Command, _ []string) error {
			answer, err := p.power(c, &f)
			if err != nil {
				return err
			}
			if err := p.tell(answer); err != nil {
				return err
			}
			if !answer.Will() {
				return errFinding
			}
			return nil
		},
	}
	f.mode.add(c, "half")
	flags := c.Flags()
	flags.StringVar(&f.stage, "stage", "", "the driver `stage`: "+driver.Names()+", or a stage file")
	flags.StringVar(&f.supply, "supply", "", "a voltage as 12V, or a `kind`: "+driver.SupplyNames()+" (what brings the rated current)")
	flags.StringVar(&f.connection, "connection", "", "how the coils are joined, a `word`: "+files.Either(motor.ConnectionWords))
	flags.Var(&f.limit, "limit", "what the supply may give, as 2A")
	flags.Var(&f.source, "source", "resistance of the supply and its leads, as 0.5ohm")
	flags.Var(&f.rate, "rate", "turning at this `rate`, in rows a second (held at rest)")
	flags.StringVar(&f.duty, "duty", "100%", "`part` of the time in which it is on")
	flags.StringVar(&f.hold, "hold", "100%", "`part` of the set current at rest, for a stage that sets it")
	flags.Var(&f.current, "current", "what a stage is set to that sets it, as 1.2A (the rated current)")
	flags.Var(&f.series, "series", "a resistor in series with each coil, as 10ohm")
	flags.Var(&f.ambient, "ambient", "temperature around it, as 25C (the default)")
	flags.Var(&f.time, "for", "how long it goes on, as 20min (for good)")
	flags.Var(&f.logic, "logic", "high level of the controller, as 3.3V, to have it judged")
	flags.Var(&f.load, "load", "what pulls at the output shaft, as 20mN.m")
	flags.Var(&f.cooling, "cooling", "junction to air with what cools the driver, as 15K/W (none)")
	return c
}

func (p *program) power(c *cobra.Command, f *powerFlags) (*report.Power, error) {
	if f.stage == files.Standard && p.motorName == files.Standard {
		return nil, errors.New("the stage and the motor can not both come from standard input; name a file for one of them")
	}
	q, driven, err := p.powerQuestion(c, f)
	if err != nil {
		return nil, err
	}
	defer p.reckons()()
	a, err := power.Judge(q)
	if err != nil {
		return nil, err
	}
	answer := report.NewPower(a)
	answer.Drives(driven, "rates")
	answer.Others(power.Cures(a), power.OnEach(q), power.InEach(q))
	return answer, nil
}

// powerQuestion puts the options into a question, and says how the motor is driven
// where it is run in time.
func (p *program) powerQuestion(c *cobra.Command, f *powerFlags) (q power.Question, d power.Driven, err error) {
	m, err := p.openMotor()
	if err != nil {
		return q, d, err
	}
	var stage driver.Stage
	if f.stage != "" {
		if stage, err = driver.Open(f.stage, p.in); err != nil {
			return q, d, err
		}
	}
	var supply driver.Supply
	if c.Flags().Changed("supply") {
		if supply, err = driver.ParseSupply(f.supply); err != nil {
			return q, d, fmt.Errorf("--supply: %w", err)
		}
	}
	if f.connection != "" {
		if _, err := power.ConnectionNamed(m, f.connection); err != nil {
			return q, d, fmt.Errorf("--connection: %w", err)
		}
	}
	if d, err = power.Drives(m, stage, supply, f.connection); err != nil {
		return q, d, err
	}
	if q, err = power.Asked(m, stage, supply, f.connection); err != nil {
		return q, d, err
	}
	if f.cooling.Given() {
		q.Stage.Limits.Thermal = f.cooling.Base()
	}
	if q.Mode, err = f.mode.chosen(c); err != nil {
		return q, d, err
	}
	if q.Duty, err = power.ParsePart(f.duty); err != nil {
		return q, d, fmt.Errorf("--duty: %w", err)
	}
	if q.Hold, err = power.ParsePart(f.hold); err != nil {
		return q, d, fmt.Errorf("--hold: %w", err)
	}
	if c.Flags().Changed("hold") && !q.Stage.Regulates() {
		return q, d, fmt.Errorf("--hold: a %s does not set its current; a lower supply, or --series, is the way to hold with less", q.Stage.Title)
	}
	if f.current.Given() && !q.Stage.Regulates() {
		return q, d, fmt.Errorf("--current: a %s does not set its current; the supply and the coil do", q.Stage.Title)
	}
	q.Rate, q.Series, q.For, q.Logic = f.rate.Base(), f.series.Base(), f.time.Base(), f.logic.Base()
	for _, given := range []struct {
		is   bool
		from float64
		to   *float64
	}{{f.limit.Given(), f.limit.Base(), &q.Supply.Limit}, {f.source.Given(), f.source.Base(), &q.Supply.Ohms}, {f.current.Given(), f.current.Base(), &q.Current},
		{f.ambient.Given(), f.ambient.Base(), &q.Ambient}, {f.load.Given(), f.load.Base(), &q.Load}} {
		if given.is {
			*given.to = given.from
		}
	}
	for _, given := range []struct {
		name string
		is   bool
		base float64
	}{{"limit", f.limit.Given(), f.limit.Base()}, {"logic", f.logic.Given(), f.logic.Base()}, {"cooling", f.cooling.Given(), f.cooling.Base()}, {"for", f.time.Given(), f.time.Base()}} {
		if given.is && !(given.base > 0) {
			return q, d, fmt.Errorf("--%s takes what is above 0; leave it out if it is not known", given.name)
		}
	}
	if f.limit.Given() {
		q.Supply.Promised = 0
	}
	return q, d, nil
}
