package main

import (
	"strings"

	"github.com/spf13/cobra"

	"coilwalk/model/files"
	"coilwalk/view/report"
	"coilwalk/view/trouble"
)

func (p *program) troubleCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "trouble [WORDS]",
		Short: "Start from what goes wrong: what to look at first, and what to ask next",
		Long: `Say what your motor does wrong, in your own words. You are told what to look at
first, with the caution it needs, and the questions that find the reason, in
their order: each with the command that answers it, and what the model of your
motor says to it at once. Without words, list the troubles.`,
		Example: "  coilwalk trouble\n  coilwalk trouble it hums --motor hybrid-4\n  coilwalk trouble loses steps --motor my-motor.toml",
		Args:    cobra.ArbitraryArgs,
		RunE: func(c *cobra.Command, args []string) error {
			named := c.Flags().Changed("motor")
			file := trouble.Motor
			if named && p.motorName != files.Standard {
				file = p.motorName
			}
			m, err := p.openMotor()
			if err != nil {
				return err
			}
			if len(args) == 0 {
				return p.tell(report.NewTroubles(trouble.All(), file, m.Drive))
			}
			found, err := trouble.Match(strings.Join(args, " "))
			if err != nil {
				return err
			}
			answer := report.NewTroubles(found, file, m.Drive)
			answer.Ask(found[0], m, !named)
			return p.tell(answer)
		},
	}
}

// troubleWords lists the troubles by their short names.
func troubleWords() (words []string) {
	for _, t := range trouble.All() {
		words = append(words, t.Word)
	}
	return words
}
