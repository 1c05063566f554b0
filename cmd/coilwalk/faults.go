package main

import (
	"errors"

	"github.com/spf13/cobra"

	"coilwalk/model/files"
	"coilwalk/model/wiring"
	"coilwalk/view/report"
)

func (p *program) faultsCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "faults SYMPTOMS",
		Short: "Say what is wrong from what a motor does in each step mode",
		Long: `Read lines of "half forward buzz": the step mode that was sent, the direction that
was commanded, and what the shaft did: cw, ccw, skips, buzz (with the places
counted, as buzz 2), still, weak, reverses (when held for a moment) or unsure; at a rate that is not slow,
with that, as "half forward buzz at 600".
Rank the faults that explain it, for a motor believed wired as its file says, by
running the rotor model on each of them; and name the trial that parts the
likeliest two. An empty file asks for the first trial.`,
		Example: "  coilwalk faults symptoms.txt --motor hybrid-4\n  printf 'half forward buzz\\nhalf reverse buzz\\n' | coilwalk faults -\n      40.8 %  Two leads swapped, or columns in the firmware: BN with WH, BN with GY, WH with GN or GN with GY",
		Args:    exactly("file of symptoms, or - for standard input,"),
		RunE: func(_ *cobra.Command, args []string) error {
			if args[0] == files.Standard && p.motorName == files.Standard {
				return errors.New("the symptoms and the motor can not both come from standard input; name a file for one of them")
			}
			m, err := p.openMotor()
			if err != nil {
				return err
			}
			text, err := files.ReadText(args[0], wiring.LongestFile, p.in)
			if err != nil {
				return notAFile(err, args[0])
			}
			symptoms, err := wiring.ReadSymptoms(files.Called(args[0]), text)
			if err != nil {
				return err
			}
			done := p.reckons()
			judged := wiring.NewSuspects(m).Judge(symptoms)
			done()
			if err := p.tell(report.NewFaults(m, symptoms, judged)); err != nil {
				return err
			}
			if len(symptoms) > 0 && len(judged.Ranked[0].Faults) > 0 {
				return errFinding
			}
			return nil
		},
	}
}
