package main

import (
	"github.com/spf13/cobra"

	"coilwalk/model/files"
	"coilwalk/model/wiring"
	"coilwalk/view/report"
)

func (p *program) leadsCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "leads READINGS",
		Short: "Say what a motor is from ohmmeter readings between its leads",
		Long: `Read lines of "lead, lead, ohm" (or "open"), in any order, any pairs, and say
which kind of motor reads so: its coils, common and taps, the resistance of a
half-coil, faults, what ohms can not tell, and which reading would tell most next.
Ends with status 1 when a fault or a contradiction is found.`,
		Example: "  coilwalk leads readings.csv\n  printf 'BN,VT,52\\nWH,VT,51\\nBN,WH,104\\n' | coilwalk leads -",
		Args:    exactly("file of readings, or - for standard input,"),
		RunE: func(_ *cobra.Command, args []string) error {
			text, err := files.Read(args[0], wiring.LongestFile, p.in)
			if err != nil {
				return err
			}
			readings, err := wiring.ReadReadings(files.Called(args[0]), text)
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
}
