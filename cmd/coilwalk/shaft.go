package main

import (
	"errors"
	"fmt"
	"math/big"

	"github.com/spf13/cobra"

	"coilwalk/model/motor"
	"coilwalk/model/quantity"
	"coilwalk/view/report"
)

// shaftFlags are the options of "shaft".
type shaftFlags struct {
	mode            modeFlags
	train, believe  string
	backlash        string
	observed        []string
	turn, stepAngle quantity.Angle
	steps, stops    int64
	rings, teeth    int
	rotorTeeth      int
}

func (p *program) shaftCommand() *cobra.Command {
	var f shaftFlags
	c := &cobra.Command{
		Use:   "shaft",
		Short: "Say what a row is at the output shaft, exactly, and how not to drift",
		Long: `Say the exact ratio of the gear train, the rows to one turn of the output shaft,
and what comes of firmware that believes another figure. Plan a move, or the same
move again and again, so that no error adds up. Cross-check counted teeth with a
printed step angle. Say what was asked and what the shaft did, and learn why.`,
		Example: "  coilwalk shaft --believe 42:1\n      ratio   4669/110 = 42.445455 turns of the rotor to one of the shaft\n      The believed ratio 42:1 is 1344 rows to a turn, but a turn is 1358.255: each turn comes out 3.778° short.\n  coilwalk shaft --train 9:32,11:22 --stops 45\n  coilwalk shaft --turn 90deg --mode half\n  coilwalk shaft --rings 4 --teeth 8 --step-angle 5.625deg\n  coilwalk shaft --observed \"200 steps = 45 deg\"",
		Args:    noArgs,
		RunE: func(c *cobra.Command, _ []string) error {
			answer, err := p.shaft(c, &f)
			if err != nil {
				return err
			}
			return p.tell(answer)
		},
	}
	f.mode.add(c, "full")
	c.Flags().StringVar(&f.train, "train", "", "the train instead of the motor's: `teeth` as 9:32,11:22")
	c.Flags().StringVar(&f.backlash, "backlash", "", "the play: `degrees` at the output shaft, as 8deg, or of each mesh at its driven gear, as 1deg,2deg")
	c.Flags().StringArrayVar(&f.observed, "observed", nil, "what was asked and what was seen, as `\"200 steps = 45 deg\"`; again for each more")
	c.Flags().StringVar(&f.believe, "believe", "", "what the firmware holds true: a `ratio` as 64:1, or rows to a shaft turn as 2048")
	c.Flags().Var(&f.turn, "turn", "a move of the shaft, as 90deg")
	c.Flags().Int64Var(&f.steps, "steps", 0, "a move by this many rows")
	c.Flags().Int64Var(&f.stops, "stops", 0, "plan this many equal stops to a turn")
	c.Flags().IntVar(&f.rings, "rings", 0, "counted: rings of teeth in a can motor, with --teeth")
	c.Flags().IntVar(&f.teeth, "teeth", 0, "counted: teeth of one ring")
	c.Flags().IntVar(&f.rotorTeeth, "rotor-teeth", 0, "counted: teeth of a hybrid's rotor")
	c.Flags().Var(&f.stepAngle, "step-angle", "printed: the step angle of the rotor, as 7.5deg")
	return c
}

func (p *program) shaft(c *cobra.Command, f *shaftFlags) (*report.Shaft, error) {
	m, err := p.openMotor()
	if err != nil {
		return nil, err
	}
	mode, err := f.mode.chosen(c)
	if err != nil {
		return nil, err
	}
	if f.train != "" {
		if m.Train, err = motor.ParseTrain(f.train); err != nil {
			return nil, fmt.Errorf("--train: %w", err)
		}
	}
	if f.backlash != "" || f.train != "" {
		b, err := motor.ParseBacklash(f.backlash)
		if f.backlash != "" && err != nil {
			return nil, fmt.Errorf("--backlash: %w", err)
		}
		if m.Train, err = m.Train.WithBacklash(b); err != nil {
			return nil, fmt.Errorf("--backlash: %w", err)
		}
	}
	s := report.NewShaft(m, mode)
	perShaft := m.StepsPerShaftTurn(mode)
	belief := motor.Belief{Motor: m, Mode: mode}
	if c.Flags().Changed("believe") {
		if err := belief.Hold(f.believe); err != nil {
			return nil, fmt.Errorf("--believe %w", err)
		}
		s.Believe(belief)
	}
	if err := f.moves(c, s, perShaft); err != nil {
		return nil, err
	}
	if err := f.counts(c, &m.Counted); err != nil {
		return nil, err
	}
	counts, err := m.Counted.Counts()
	if err != nil {
		return nil, err
	}
	s.Count(counts)
	seen, err := motor.ParseSeen(f.observed)
	if err != nil {
		return nil, fmt.Errorf("--observed: %w", err)
	}
	s.Observe(belief, seen)
	return s, nil
}

// moves adds the moves that were asked for.
func (f *shaftFlags) moves(c *cobra.Command, s *report.Shaft, perShaft *big.Rat) error {
	asked := 0
	for _, name := range []string{"turn", "steps", "stops"} {
		if c.Flags().Changed(name) {
			asked++
		}
	}
	switch {
	case asked > 1:
		return errors.New("one of --turn, --steps and --stops is wanted")
	case c.Flags().Changed("turn"):
		deg := motor.Exactly(f.turn.Base())
		if deg.Sign() == 0 {
			return errors.New("--turn 0 is no move")
		}
		s.Turn(deg, f.turn.String()+" of the shaft")
		each := new(big.Rat).Mul(new(big.Rat).Abs(deg), perShaft)
		s.Stops(each.Quo(each, big.NewRat(360, 1)), "the same move again and again")
	case c.Flags().Changed("steps"):
		deg := new(big.Rat).Quo(big.NewRat(360, 1), perShaft)
		deg.Mul(deg, new(big.Rat).SetInt64(f.steps))
		s.Turn(deg, fmt.Sprintf("%s° of the shaft", deg.FloatString(4)))
	case c.Flags().Changed("stops"):
		if f.stops < 1 || f.stops > 1_000_000 {
			return fmt.Errorf("--stops %d can not be; 1 to 1000000 stops to a turn are wanted", f.stops)
		}
		s.Stops(new(big.Rat).Quo(perShaft, new(big.Rat).SetInt64(f.stops)), fmt.Sprintf("%d stops to a turn", f.stops))
	}
	return nil
}

// counts takes what was counted and printed; what the motor file says counts
// no more once something is counted here.
func (f *shaftFlags) counts(c *cobra.Command, into *motor.Counted) error {
	if c.Flags().Changed("rings") != c.Flags().Changed("teeth") {
		return errors.New("--rings and --teeth go together")
	}
	for _, count := range []struct {
		name string
		n    int
	}{{"rings", f.rings}, {"teeth", f.teeth}, {"rotor-teeth", f.rotorTeeth}} {
		if c.Flags().Changed(count.name) && count.n < 1 {
			return fmt.Errorf("--%s %d can not be counted", count.name, count.n)
		}
	}
	here := motor.Counted{Rings: f.rings, Teeth: f.teeth, RotorTeeth: f.rotorTeeth, StepAngle: f.stepAngle}
	if here.Given() {
		*into = here
	}
	return nil
}
