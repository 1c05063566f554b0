package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"coilwalk/view/report"
)

func (p *program) orderCommand() *cobra.Command {
	var mode modeFlags
	var reverse bool
	var start int
	var driveWord string
	c := &cobra.Command{
		Use:   "order",
		Short: "Print the energising order, a row a line",
		Long: `Print one cycle of the energising order: which outputs are on in each row, the
field that sets up, and where the rotor and the shaft of the motor come to rest.
Outputs are those of the motor's wiring, a lead a column.`,
		Example: "  coilwalk order --mode half\n      row    outputs 1 to 4     on           field  strength     rotor      shaft  rests\n        2     1    1    0    0   A+ B+            45°      1.41    5.599°    0.1319°  0.39° behind the field\n  coilwalk order --mode full --reverse --motor hybrid-4",
		Args:    noArgs,
		RunE: func(c *cobra.Command, _ []string) error {
			m, err := p.openMotor()
			if err != nil {
				return err
			}
			chosen, err := mode.chosen(c)
			if err != nil {
				return err
			}
			drive, given, err := parseDrive(driveWord)
			if err != nil {
				return err
			}
			if !given {
				drive = m.Drive
			} else if err := m.Allows(drive); err != nil {
				return err
			}
			if start < 1 || start > chosen.Rows() {
				return fmt.Errorf("--start %d is no row of %s; 1 to %d is wanted", start, chosen.Title, chosen.Rows())
			}
			return p.tell(report.NewOrder(m, chosen, drive, start, reverse))
		},
	}
	mode.add(c, "half")
	p.loadFlag(c)
	c.Flags().BoolVar(&reverse, "reverse", false, "go round the other way, from the same row")
	c.Flags().IntVar(&start, "start", 1, "the `row` to begin with, from 1")
	c.Flags().StringVar(&driveWord, "drive", "", "unipolar or bipolar (the motor's own)")
	return c
}
