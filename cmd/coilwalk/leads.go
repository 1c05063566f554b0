package main

import (
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"coilwalk/model/files"
	"coilwalk/model/motor"
	"coilwalk/model/wiring"
	"coilwalk/view/report"
)

// leadsFlags are the options of "leads".
type leadsFlags struct {
	answers                   string
	ends, common, taps, coils string
	geared                    bool
}

func (p *program) leadsCommand() *cobra.Command {
	var f leadsFlags
	c := &cobra.Command{
		Use:   "leads [READINGS]",
		Short: "Say what a motor is from ohmmeter readings, and which lead goes where from what its shaft does",
		Long: `Read lines of "lead, lead, ohm" (or "open"), in any order, any pairs, and say
which kind of motor reads so: its coils, common and taps, the resistance of a
half-coil, faults, what ohms can not tell, and which reading would tell most next.

With --answers, read what the shaft did when leads were energised, an answer a
line: kick BN WH cw|ccw|slack (8 leads: or held), run BN WH GN GY
cw|ccw|buzz|still, pulse BN GN up|down|none, stiff BN GN yes|no, short BN GN
stiff|free (not with 5 leads), each also unsure, and lamp 1 3 (row 1 of wave
drive lights output 3). Say which lead sits on which coil end, with odds, and
which test tells most next; an empty file asks for the first. What the motor is
comes from the readings, from --ends, --taps or --coils, or from --motor, which
also gives the play and how many rows a run takes. Gears hide what kick and stiff
are about; with --geared=false the rotor itself is watched and turned by hand.
Ends with status 1 when a fault or a contradiction is found.`,
		Example: "  coilwalk leads readings.csv\n  printf 'BN,VT,52\\nWH,VT,51\\nBN,WH,104\\n' | coilwalk leads -\n      common  VT\n      51.6 ohm of a half-coil, read from 50.8 ohm to 51.9 ohm\n  coilwalk leads readings.csv --answers answers.txt\n  coilwalk leads --ends BN,WH,GN,GY --common VT --answers answers.txt",
		Args:    cobra.MaximumNArgs(1),
		RunE: func(c *cobra.Command, args []string) error {
			if c.Flags().Changed("answers") {
				return p.shaftAnswers(c, &f, args)
			}
			if len(args) != 1 {
				return errors.New("exactly one file of readings, or - for standard input, is wanted; or --answers with what the shaft did")
			}
			readings, err := p.readings(args[0])
			if err != nil {
				return err
			}
			answer := report.NewLeads(readings, wiring.Identify(readings))
			if err := p.tell(answer); err != nil {
				return err
			}
			if !answer.Sound() {
				return errFinding
			}
			return nil
		},
	}
	c.Flags().StringVar(&f.answers, "answers", "", "a `file` of what the shaft did, or - for standard input")
	c.Flags().StringVar(&f.ends, "ends", "", "with --answers: the four coil ends of a 5- or 6-lead `motor`, as BN,WH,GN,GY; 6 leads: in the order A+ B+ A- B- of motor files, so that the first and third are of one phase")
	c.Flags().StringVar(&f.common, "common", "", "with --ends: the common `lead` of a 5-lead motor")
	c.Flags().StringVar(&f.taps, "taps", "", "with --ends: the `taps` of a 6-lead motor: of the first and third end, then of the second and fourth")
	c.Flags().StringVar(&f.coils, "coils", "", "with --answers: the `coils` of a 4-lead motor or the halves of an 8-lead one, as BK/GN,TQ/BN")
	c.Flags().BoolVar(&f.geared, "geared", false, "with --answers: gears hide a single tick of the rotor; --geared=false: they do not, for the rotor can be reached")
	return c
}

func (p *program) readings(name string) ([]wiring.Reading, error) {
	text, err := files.ReadText(name, wiring.LongestFile, p.in)
	if err != nil {
		return nil, err
	}
	return wiring.ReadReadings(files.Called(name), text)
}

// shaftAnswers weighs what the shaft did.
func (p *program) shaftAnswers(c *cobra.Command, f *leadsFlags, args []string) error {
	fromStandard := 0
	for _, name := range append([]string{f.answers, p.motorName}, args...) {
		if name == files.Standard {
			fromStandard++
		}
	}
	if fromStandard > 1 {
		return errors.New("answers, readings and motor can not come from standard input together; name files for the others")
	}
	t, now, err := p.topology(c, f, args)
	if err != nil {
		return err
	}
	if c.Flags().Changed("geared") {
		t.Geared = f.geared
	}
	text, err := files.ReadText(f.answers, wiring.LongestFile, p.in)
	if err != nil {
		return err
	}
	replies, err := wiring.ReadReplies(files.Called(f.answers), text, t)
	if err != nil {
		return err
	}
	s := wiring.Sit(t)
	s.Answer(replies)
	answer := report.NewAnswers(s, now)
	if err := p.tell(answer); err != nil {
		return err
	}
	if !answer.Sound() {
		return errFinding
	}
	return nil
}

// topology takes what is known of the leads: as named here, as readings tell it,
// or from the motor, of which also the leads on its outputs are known.
func (p *program) topology(c *cobra.Command, f *leadsFlags, args []string) (t *wiring.Topology, now [4]motor.Lead, err error) {
	switch {
	case f.coils != "":
		t, err = coilsOf(f.coils)
	case f.ends != "":
		t, err = endsOf(f)
	case f.common != "" || f.taps != "":
		err = errors.New("--common and --taps go with --ends")
	case len(args) == 1:
		readings, err := p.readings(args[0])
		if err != nil {
			return nil, now, err
		}
		found, ok := wiring.OfAnswer(wiring.Identify(readings))
		if !ok {
			return nil, now, &files.Complaint{File: files.Called(args[0]), What: "these readings do not settle what the leads are, or tell of a fault", Right: "coilwalk leads " + args[0] + " says what is missing"}
		}
		t = found
	}
	if err == nil && t == nil && !c.Flags().Changed("motor") {
		err = errors.New("what the motor is is missing: give its readings, --ends BN,WH,GN,GY --common VT, --coils BK/GN,TQ/BN, or --motor")
	}
	if err != nil || !c.Flags().Changed("motor") {
		return t, now, err
	}
	m, err := p.openMotor()
	if err != nil {
		return nil, now, err
	}
	for k := range now {
		now[k] = m.Output(m.Wiring, k)
	}
	if t == nil {
		t = wiring.OfMotor(m)
	}
	t.Know(m)
	return t, now, nil
}

// coilsOf reads "BK/GN,TQ/BN": two ends of each coil or half.
func coilsOf(text string) (*wiring.Topology, error) {
	var coils [][2]motor.Lead
	for _, part := range strings.Split(text, ",") {
		a, b, both := strings.Cut(part, "/")
		if !both || strings.Contains(b, "/") {
			return nil, fmt.Errorf("--coils: %s is no coil; its two leads are wanted, as BK/GN (name a striped lead otherwise)", files.Quoted(part))
		}
		var coil [2]motor.Lead
		for i, name := range []string{a, b} {
			lead, err := motor.ParseLead(strings.TrimSpace(name))
			if err != nil {
				return nil, fmt.Errorf("--coils: %w", err)
			}
			coil[i] = lead
		}
		coils = append(coils, coil)
	}
	t, err := wiring.OfCoils(coils)
	if err != nil {
		return nil, fmt.Errorf("--coils: %w", err)
	}
	return t, nil
}

func endsOf(f *leadsFlags) (*wiring.Topology, error) {
	ends, err := wiring.ParseLeads(f.ends)
	if err != nil {
		return nil, fmt.Errorf("--ends: %w", err)
	}
	if len(ends) != 4 {
		return nil, fmt.Errorf("--ends: %d leads are given where four coil ends are wanted", len(ends))
	}
	switch {
	case f.common != "" && f.taps != "":
		return nil, errors.New("--common is for 5 leads, --taps for 6; one of them is wanted")
	case f.taps != "":
		taps, err := wiring.ParseLeads(f.taps)
		if err != nil {
			return nil, fmt.Errorf("--taps: %w", err)
		}
		if len(taps) != 2 {
			return nil, fmt.Errorf("--taps: two are wanted: of the first and third end, then of the second and fourth")
		}
		return wiring.OfSix([2]motor.Lead{ends[0], ends[2]}, [2]motor.Lead{ends[1], ends[3]}, [2]motor.Lead{taps[0], taps[1]})
	case f.common != "":
		common, err := motor.ParseLead(f.common)
		if err != nil {
			return nil, fmt.Errorf("--common: %w", err)
		}
		return wiring.OfFive(ends, common)
	}
	return nil, errors.New("--ends needs --common (5 leads) or --taps (6 leads); a 4- or 8-lead motor is given with --coils")
}
