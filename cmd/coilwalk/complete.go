package main

import (
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"coilwalk/model/driver"
	"coilwalk/model/motor"
	"coilwalk/sequence"
)

// complete tells the shell what can follow: words where an option or an argument
// is one of a few, files where it is a file.
func complete(root *cobra.Command) {
	words := map[string][]string{
		"motor":  motor.Names(),
		"mode":   sequence.ModeNames(),
		"stage":  strings.Split(driver.Names(), ", "),
		"supply": strings.Split(driver.SupplyNames(), ", "),
	}
	for _, d := range sequence.Drives {
		words["drive"] = append(words["drive"], d.String())
	}
	pins := map[string][]string{"check": {"coil-ends", "two-line", "phase-enable"}}
	pins["read"] = append(pins["check"], "step-direction")
	each(root, func(c *cobra.Command) {
		words["pins"] = pins[c.Name()] // numbers, of the others
		c.LocalFlags().VisitAll(func(f *pflag.Flag) {
			list := words[f.Name]
			if few, ok := f.Value.(*choice); ok {
				list = few.words
			}
			if len(list) == 0 {
				return
			}
			rest := cobra.ShellCompDirectiveNoFileComp
			if f.Name == "motor" || f.Name == "stage" { // or a file of one's own
				rest = cobra.ShellCompDirectiveDefault
			}
			_ = c.RegisterFlagCompletionFunc(f.Name, cobra.FixedCompletions(list, rest)) // the one error is a flag told twice
		})
	})
	if write, _, err := root.Find([]string{"write"}); err == nil {
		write.ValidArgsFunction = cobra.FixedCompletions(kindNames(), cobra.ShellCompDirectiveNoFileComp)
	}
	if explain, _, err := root.Find([]string{"explain"}); err == nil {
		explain.ValidArgsFunction = cobra.FixedCompletions(explainedWords(), cobra.ShellCompDirectiveNoFileComp)
	}
	if trouble, _, err := root.Find([]string{"trouble"}); err == nil {
		trouble.ValidArgsFunction = cobra.FixedCompletions(troubleWords(), cobra.ShellCompDirectiveNoFileComp)
	}
	if show, _, err := root.Find([]string{"motors", "show"}); err == nil {
		show.ValidArgsFunction = cobra.FixedCompletions(motor.Names(), cobra.ShellCompDirectiveDefault)
	}
}

// each calls do for a command and all below it.
func each(c *cobra.Command, do func(*cobra.Command)) {
	do(c)
	for _, sub := range c.Commands() {
		each(sub, do)
	}
}
