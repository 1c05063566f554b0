package main

import (
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"coilwalk/model/motor"
	"coilwalk/model/power"
	"coilwalk/model/quantity"
	"coilwalk/model/rotor"
	"coilwalk/sequence"
	"coilwalk/view/picture"
	"coilwalk/view/report"
)

// ratesFlags are the options of "rates".
type ratesFlags struct {
	machineFlags
	mode   modeFlags
	load   quantity.Torque
	rate   rowRate
	ring   float64
	starts rowRate
	curve  bool
	plot   string
	force  bool
	play   string
}

func (p *program) ratesCommand() *cobra.Command {
	var f ratesFlags
	c := &cobra.Command{
		Use:   "rates",
		Short: "Run the motor in time: its response to a row, and the rates that it follows",
		Long: `Run a model of the machine and its driver stage in time. Say how the rotor takes a
row (overshoot, ring, settling), up to which rate it starts and stops, where
resonance makes holes in that, and up to which rate it follows once it turns.
Figures that the motor does not give are estimated and marked, with what hangs on
them. With --for, ends with status 1 when that rate is not followed.`,
		Example: "  coilwalk rates --for 3000\n      Vent flap does not follow 3000 rows/s: once it turns it follows up to\n  coilwalk rates --motor my-motor.toml --for 600\n  coilwalk rates --motor hybrid-4 --mode full --stage chopper --supply 24V --load 5N.cm\n  coilwalk rates --curve --plot curves.svg",
		Args:    noArgs,
		RunE: func(c *cobra.Command, _ []string) error {
			answer, err := p.rates(c, &f)
			if err != nil {
				return err
			}
			if err := p.tell(answer); err != nil {
				return err
			}
			if !answer.Followed() {
				return errFinding
			}
			return nil
		},
	}
	f.mode.add(c, "half")
	f.machineFlags.add(c, "")
	c.Flags().Var(&f.load, "load", "what pulls back at the output shaft, as 20mN.m")
	c.Flags().Var(&f.rate, "for", "judge this `rate`, in rows a second, and turning round at it")
	c.Flags().StringVar(&f.play, "backlash", "", "the play: `degrees` at the output shaft, as 8deg, or of each mesh at its driven gear, as 1deg,2deg")
	c.Flags().Float64Var(&f.ring, "ring", 0, "measured: it rings at so many `Hz` with one phase on; the inertia is fitted to that")
	c.Flags().Var(&f.starts, "starts", "measured: the start–stop `rate` in rows a second; the inertia is fitted to that")
	c.Flags().BoolVar(&f.curve, "curve", false, "both rates over the load")
	c.Flags().StringVar(&f.plot, "plot", "", "write the curves to a `file`: .csv, .svg or .png")
	forceFlag(c, &f.force)
	return c
}

// fit takes what was measured of the motor's motion.
func (f *ratesFlags) fit(c *cobra.Command, p *rotor.Plant, mode sequence.Mode, estimates []rotor.Estimate) ([]rotor.Estimate, error) {
	ring, starts := c.Flags().Changed("ring"), c.Flags().Changed("starts")
	switch {
	case ring && starts:
		return nil, errors.New("--ring and --starts both fit the inertia; give the one that was measured better")
	case ring && !(f.ring > 0 && f.ring < 1e5):
		return nil, errors.New("--ring takes a frequency above 0, in Hz")
	case starts && !(f.starts.Base() > 0 && f.starts.Base() <= 1e6):
		return nil, errors.New("--starts takes a rate above 0, in rows a second")
	case ring:
		return p.FitRing(f.ring, estimates)
	case starts:
		return p.FitStart(f.starts.Base(), mode, estimates)
	}
	return estimates, nil
}

// idle answers of a stage that does not work: there is nothing to be run.
func (f *ratesFlags) idle(c *cobra.Command, answer *report.Rates, driven power.Driven) (*report.Rates, error) {
	answer.Drives(driven, "power")
	if f.plot != "" {
		return nil, fmt.Errorf("--plot: there is no curve: %w", answer.Forbids.Idle())
	}
	if c.Flags().Changed("for") {
		answer.Judge(f.rate.Base())
	}
	return answer, nil
}

// curvePoints is how many loads the curves have.
const curvePoints = 16

func (p *program) rates(c *cobra.Command, f *ratesFlags) (*report.Rates, error) {
	if f.plot != "" { // before anything is run
		if err := picture.CurvesGoTo(f.plot); err != nil {
			return nil, fmt.Errorf("--plot: %w", err)
		}
		if err := free(f.plot, f.force); err != nil {
			return nil, err
		}
	}
	m, err := p.openMotor()
	if err != nil {
		return nil, err
	}
	mode, err := f.mode.chosen(c)
	if err != nil {
		return nil, err
	}
	if f.play != "" {
		b, err := motor.ParseBacklash(f.play)
		if err != nil {
			return nil, fmt.Errorf("--backlash: %w", err)
		}
		if m.Train, err = m.Train.WithBacklash(b); err != nil {
			return nil, fmt.Errorf("--backlash: %w", err)
		}
	}
	if c.Flags().Changed("for") && !(f.rate.Base() > 0 && f.rate.Base() <= 1e6) {
		return nil, errors.New("--for takes a rate above 0, in rows a second")
	}
	plant, estimates, driven, err := p.plant(m, &f.machineFlags)
	if err != nil {
		return nil, err
	}
	if f.load.Given() {
		plant.Load.Torque = f.load.Base()
	}
	driven.Heat.Mode, driven.Heat.Load = mode, plant.Load.Torque
	if forbids := report.ForbiddenBy(driven); forbids.Idle() != nil {
		return f.idle(c, report.NewIdleRates(m, mode, plant), driven)
	}
	defer p.reckons()()
	if estimates, err = f.fit(c, &plant, mode, estimates); err != nil {
		return nil, err
	}
	order := mode.Order()
	response, err := rotor.Respond(plant, order.Row(0), order.Row(1), rotor.ResponseSeconds(plant))
	if err != nil {
		return nil, err
	}
	trials := rotor.NewTrials(plant, mode)
	found, _ := trials.Follow(rotor.Sweep{}, nil)
	if err := trials.Err(); err != nil {
		return nil, err
	}
	answer := report.NewRates(m, mode, plant, response, found)
	answer.Drives(driven, "power")
	if f.starts.Given() {
		answer.Fit(f.starts.Base())
	}
	for _, other := range []sequence.Mode{sequence.Full, sequence.Half} {
		rates := found
		if other.Name != mode.Name {
			rates, _ = rotor.NewTrials(plant, other).Follow(rotor.Sweep{}, nil)
		}
		answer.Compare(other, rates)
	}
	if c.Flags().Changed("for") {
		answer.Judge(f.rate.Base())
		_, play, known := m.Train.Play()
		turned, err := rotor.Reverse(plant, play, mode, f.rate.Base())
		if err != nil {
			return nil, err
		}
		answer.AddReversal(turned, known)
	}
	answer.AddEstimates(estimates, rotor.Sensitivity(plant, estimates, mode))
	if f.curve || f.plot != "" {
		points, _ := rotor.Curve(plant, mode, rotor.CurveLoads(plant, curvePoints), nil)
		answer.AddCurve(points)
		if f.plot != "" {
			paper, err := picture.RateCurves(f.plot, fmt.Sprintf("%s, %s, %s, %s", m.Title, mode.Title, plant.Stage.Title, quantity.Volts(plant.Supply).Rounded(3)), points)
			if err != nil {
				return nil, fmt.Errorf("--plot: %w", err)
			}
			if err := into(f.plot, paper, f.force); err != nil {
				return nil, err
			}
		}
	}
	return answer, nil
}
