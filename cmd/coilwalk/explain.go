package main

import (
	"strings"

	"github.com/spf13/cobra"

	"coilwalk/view/report"
	"coilwalk/view/terms"
)

func (p *program) explainCommand() *cobra.Command {
	var ascii bool
	c := &cobra.Command{
		Use:   "explain [WORD]",
		Short: "Explain a word of the trade, with a drawing where it helps",
		Long: `Say in a few sentences what a word means, why it matters at the bench, and where
it is seen in this program; with a drawing where that helps. Abbreviations and
other words for the same thing lead there too. Without a word, list them all.`,
		Example: "  coilwalk explain\n  coilwalk explain detent torque\n  coilwalk explain pull-in",
		Args:    cobra.ArbitraryArgs,
		RunE: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				return p.tell(report.NewLexicon())
			}
			entry, err := terms.Find(strings.Join(args, " "))
			if err != nil {
				return err
			}
			return p.tell(report.NewExplain(entry, ascii))
		},
	}
	c.Flags().BoolVar(&ascii, "ascii", false, "draw with ASCII marks only")
	return c
}

// explainedWords lists the words that a shell may complete.
func explainedWords() (words []string) {
	for _, e := range terms.All() {
		words = append(words, e.Word)
	}
	return words
}
