package main

import (
	"errors"
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"coilwalk/model/files"
	"coilwalk/model/motor"
	"coilwalk/model/wiring"
	"coilwalk/view/plain"
	"coilwalk/view/report"
)

func (p *program) motorsCommand() *cobra.Command {
	c := &cobra.Command{
		Use:   "motors",
		Short: "List, show, check and make motor files",
		Long: `A motor file says once what your motor is: leads, teeth, gears, wiring, figures.
Every command takes it by --motor, as it takes the built-in motors by name.`,
		Args: cobra.ArbitraryArgs,
		RunE: func(c *cobra.Command, args []string) error {
			words := []string{"list", "show", "check", "new"}
			if len(args) == 0 {
				return fmt.Errorf("what to do with motors is missing; list, show, check or new is wanted")
			}
			if near := files.Nearest(args[0], words); near != "" {
				return fmt.Errorf("there is no motors %s; did you mean %q?", files.Quoted(args[0]), "coilwalk motors "+near)
			}
			return fmt.Errorf("there is no motors %s; list, show, check or new is wanted", files.Quoted(args[0]))
		},
	}
	c.AddCommand(p.motorsList(), p.motorsShow(), p.motorsCheck(), p.motorsNew())
	return c
}

func (p *program) motorsList() *cobra.Command {
	return &cobra.Command{
		Use:   "list",
		Short: "List the built-in motors",
		Long: `List the built-in motors: name, leads, full steps to a rotor turn, train, and where
their figures come from. Start from the one that is most like yours.`,
		Example: "  coilwalk motors list\n      vent-flap   5 leads, 32 steps a turn, train 42.445:1\n  coilwalk motors list --json",
		Args:    noArgs,
		RunE: func(*cobra.Command, []string) error {
			list := report.Motors{Coilwalk: report.Version}
			for _, name := range motor.Names() {
				if m, ok := motor.BuiltIn(name); ok {
					list.Motors = append(list.Motors, report.NewMotor(m))
				}
			}
			return p.tell(list)
		},
	}
}

func (p *program) motorsShow() *cobra.Command {
	var asFile bool
	c := &cobra.Command{
		Use:   "show MOTOR",
		Short: "Show a motor, built in or from a file, as a page worth keeping",
		Long: `Show what is known of a motor: leads, steps, train, wiring, figures, and how its
coils can be connected, with what each way takes and gives. With --toml it is
printed as a motor file, to start your own from.`,
		Args:    cobra.MaximumNArgs(1),
		Example: "  coilwalk motors show vent-flap\n  coilwalk motors show vent-flap --toml > my-motor.toml",
		RunE: func(c *cobra.Command, args []string) error {
			if len(args) == 0 && c.Flags().Changed("motor") {
				args = []string{p.motorName}
			}
			if len(args) != 1 {
				return errors.New("exactly one motor, by its name or file, is wanted")
			}
			m, err := motor.Open(args[0], p.in)
			if err != nil {
				return err
			}
			if asFile {
				_, err = p.out.Write(m.Text())
				return err
			}
			return p.tell(report.NewMotor(m))
		},
	}
	c.Flags().BoolVar(&asFile, "toml", false, "print it as a motor file, to start your own from")
	return c
}

func (p *program) motorsCheck() *cobra.Command {
	return &cobra.Command{
		Use:   "check FILE",
		Short: "Say whether a motor file can be used, and where it can not",
		Long: `Read a motor file and say what motor it is, or the line that can not be right and
what would be. Counted teeth, steps and a printed step angle have to agree.`,
		Args:    exactly("motor file"),
		Example: "  coilwalk motors check my-motor.toml",
		RunE: func(_ *cobra.Command, args []string) error {
			m, err := motor.Open(args[0], p.in)
			if err != nil {
				return err
			}
			if p.json {
				return p.tell(report.NewMotor(m))
			}
			_, err = fmt.Fprintf(p.out, "%s: good: %s; %s\n", files.Called(args[0]), m.Title, report.Winding(m))
			for _, caution := range report.Cautions(m) {
				_, err = fmt.Fprintf(p.out, "caution: %s\n", caution)
			}
			return p.lacking(m, err)
		},
	}
}

func (p *program) motorsNew() *cobra.Command {
	var over bool
	var readings, answers string
	c := &cobra.Command{
		Use:   "new FILE",
		Short: "Ask for what a motor file holds, and write it",
		Long: `Ask for what a motor file needs, one question at a time, and write it. What you do
not know may be left out; readings of an ohmmeter and answers of the shaft fill in
the leads and their order.`,
		Example: "  coilwalk motors new mine.toml\n  coilwalk motors new mine.toml --readings readings.csv --answers answers.txt",
		Args:    exactly("name for the new file"),
		RunE: func(_ *cobra.Command, args []string) error {
			if err := free(args[0], over); err != nil {
				return err
			}
			var questions io.Writer = p.out
			if p.json {
				questions = p.errs
			}
			if answers != "" && readings == "" {
				return errors.New("--answers goes with --readings, which say what the leads are")
			}
			offer, err := p.offer(readings, answers)
			if err != nil {
				return err
			}
			m, err := plain.AskMotor(p.in, questions, args[0], offer)
			if err != nil {
				return err
			}
			if err := into(args[0], m.Text(), over); err != nil {
				return err
			}
			if p.json {
				return p.tell(report.NewMotor(m))
			}
			_, err = fmt.Fprintf(p.out, "Written: %[1]s, with %[2]s. Look at it with: coilwalk --motor %[1]s\n", files.Called(args[0]), report.Given(m))
			return p.lacking(m, err)
		},
	}
	forceFlag(c, &over)
	c.Flags().StringVar(&answers, "answers", "", "with --readings: take the order of the leads from a `file` of what the shaft did")
	c.Flags().StringVar(&readings, "readings", "", "take leads and resistance from a `file` of ohmmeter readings")
	return c
}

// lacking prints what a motor file may be given yet.
func (p *program) lacking(m motor.Motor, err error) error {
	for _, words := range report.Lacking(m) {
		_, err = fmt.Fprintf(p.out, "not in it yet: %s\n", words)
	}
	return err
}

// offer takes what readings tell of a motor, and what its shaft answered.
func (p *program) offer(name, answers string) (offer plain.Offer, err error) {
	if name == "" {
		return offer, nil
	}
	if name == files.Standard {
		return offer, errors.New("the answers come from standard input here, so no readings can; name a file instead of -")
	}
	readings, err := p.readings(name)
	if err != nil {
		return offer, err
	}
	a := wiring.Identify(readings)
	if offer.Winding, offer.Known = a.Winding(); !offer.Known {
		return offer, &files.Complaint{File: name, What: "these readings do not settle what the leads are, or tell of a fault", Right: "coilwalk leads " + name + " says what is missing"}
	}
	if answers != "" {
		if err := p.order(a, answers, &offer); err != nil {
			return offer, err
		}
	}
	return offer, offer.Resistance.Set(fmt.Sprintf("%.3g ohm", a.Ohm))
}

// order puts the leads in the order that the shaft's answers settle.
func (p *program) order(a wiring.Answer, name string, offer *plain.Offer) error {
	t, _ := wiring.OfAnswer(a)
	text, err := files.ReadText(name, wiring.LongestFile, p.in)
	if err != nil {
		return err
	}
	replies, err := wiring.ReadReplies(files.Called(name), text, t)
	if err != nil {
		return err
	}
	s := wiring.Sit(t)
	s.Answer(replies)
	if !s.Settled() {
		return &files.Complaint{File: name, What: "these answers do not settle which lead goes where", Right: "coilwalk leads READINGS --answers " + name + " says what to try next"}
	}
	offer.Winding, offer.Ordered = s.Winding(offer.Winding), true
	return nil
}
