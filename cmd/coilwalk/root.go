package main

import (
	"errors"
	"fmt"
	"os"
	"runtime/debug"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"coilwalk/model/files"
	"coilwalk/model/motor"
	"coilwalk/view/report"
)

const about = `coilwalk steps a small stepper motor's coils, forward and back, and says what
each row of the energising order does to the rotor and to the output shaft.

Without a command it opens the explorer: on the built-in motor, on your own
with --motor, and on the step table out of your firmware when you name the file.`

// root puts the commands together.
func (p *program) root() *cobra.Command {
	x := explorer{program: p}
	root := &cobra.Command{
		Use:               "coilwalk [RECORDING | TABLE | READINGS | MOTOR.toml]",
		Short:             "Step a stepper motor's coils and see what each row does",
		Long:              about,
		Version:           version(debug.ReadBuildInfo()),
		Args:              p.oneTable,
		SilenceErrors:     true,
		SilenceUsage:      true,
		CompletionOptions: cobra.CompletionOptions{HiddenDefaultCmd: true},
		PersistentPreRunE: noneEmpty,
		RunE:              x.run,
	}
	root.SetVersionTemplate("coilwalk {{.Version}}\n")
	help := root.HelpFunc()
	root.SetHelpFunc(func(c *cobra.Command, args []string) {
		if help(c, args); !c.HasParent() {
			_, _ = fmt.Fprintf(c.OutOrStdout(), "\n%s\n", around) // where it can not be written, that is kept
		}
	})
	root.SetFlagErrorFunc(func(c *cobra.Command, err error) error {
		return flagError(c, err)
	})
	root.PersistentFlags().StringVar(&p.motorName, "motor", motor.Default, "a built-in motor by name, or a motor `file`")
	root.PersistentFlags().BoolVar(&p.json, "json", false, "answer as one JSON object")
	x.flags(root)
	p.loadFlag(root)
	root.AddCommand(p.orderCommand(), p.leadsCommand(), p.faultsCommand(), p.checkCommand(), p.readCommand(), p.shaftCommand(), p.ratesCommand(),
		p.powerCommand(), p.rampCommand(), p.writeCommand(), p.motorsCommand(), p.keysCommand(), p.liveCommand(&x), p.explainCommand(), p.troubleCommand())
	complete(root)
	return root
}

// oneTable allows one argument, and tells a mistyped command from a file.
func (p *program) oneTable(c *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	name := args[0]
	if _, err := os.Stat(name); err != nil && !strings.ContainsAny(name, `./\`) && name != files.Standard {
		var known []string
		for _, sub := range c.Commands() {
			if !sub.Hidden {
				known = append(known, sub.Name())
			}
		}
		what := fmt.Sprintf("%s is neither a command nor a file", files.Quoted(name))
		if near := files.Nearest(name, known); near != "" {
			return fmt.Errorf("%s; did you mean %q?", what, "coilwalk "+near)
		}
		return fmt.Errorf("%s; the commands are %s", what, strings.Join(known, ", "))
	}
	if len(args) > 1 {
		return fmt.Errorf("one file is wanted, not %d: %s", len(args), strings.Join(args, " "))
	}
	return nil
}

// flagError adds the nearest flag to an unknown one.
func flagError(c *cobra.Command, err error) error {
	text := err.Error()
	if name, ok := strings.CutPrefix(text, "unknown flag: --"); ok {
		near := files.Nearest(name, flagNames(c))
		if near != "" {
			return fmt.Errorf("there is no option --%s; did you mean --%s?", name, near)
		}
		return fmt.Errorf("there is no option --%s; coilwalk %s--help lists them", name, strings.TrimPrefix(c.CommandPath()+" ", "coilwalk "))
	}
	var value *pflag.InvalidValueError
	var missing *pflag.ValueRequiredError
	var unknown *pflag.NotExistError
	switch {
	case errors.As(err, &value):
		flag, given := "--"+value.GetFlag().Name, files.Quoted(value.GetValue())
		switch value.GetFlag().Value.Type() { // of these the library tells of its own inside
		case "int", "int64":
			return fmt.Errorf("%s %s: a whole number is wanted", flag, given)
		case "float64":
			return fmt.Errorf("%s %s: a plain number is wanted, without a unit", flag, given)
		case "bool":
			return fmt.Errorf("%s %s: this is on or off; leave the value out, or give true or false", flag, given)
		}
		return fmt.Errorf("%s: %w", flag, value.Unwrap())
	case errors.As(err, &missing):
		return fmt.Errorf("--%s wants a value after it; coilwalk %s--help says which", missing.GetFlag().Name, strings.TrimPrefix(c.CommandPath()+" ", "coilwalk "))
	case errors.As(err, &unknown):
		return fmt.Errorf("there is no option -%s; coilwalk %s--help lists them", unknown.GetSpecifiedName(), strings.TrimPrefix(c.CommandPath()+" ", "coilwalk "))
	}
	return err
}

// openMotor opens the motor that --motor names.
func (p *program) openMotor() (motor.Motor, error) {
	m, err := motor.Open(p.motorName, p.in)
	if err != nil || !p.load.Given() {
		return m, err
	}
	if !m.Figures.HoldingTorque.Given() && !m.Figures.OnePhase.Given() {
		return m, fmt.Errorf("--load: %s gives no holding torque, so a load has nothing to be held against", m.Name)
	}
	m.Figures.Load = p.load
	return m, nil
}

// loadFlag adds the load that the shaft turns against.
func (p *program) loadFlag(c *cobra.Command) {
	c.Flags().Var(&p.load, "load", "torque that pulls back at the shaft, as 5mN.m")
}

// tell writes an answer, as JSON when it was asked for.
func (p *program) tell(answer interface{ Text() string }) error {
	if p.json {
		return report.WriteJSON(p.out, answer)
	}
	_, err := fmt.Fprint(p.out, files.Plain(answer.Text()))
	return err
}

// noArgs refuses arguments in our own words.
func noArgs(_ *cobra.Command, args []string) error {
	if len(args) > 0 {
		return fmt.Errorf("nothing more is wanted here than options, not %s", files.Quoted(strings.Join(args, " ")))
	}
	return nil
}

// exactly wants one argument of a kind.
func exactly(what string) cobra.PositionalArgs {
	return func(_ *cobra.Command, args []string) error {
		if len(args) != 1 {
			return errors.New("exactly one " + what + " is wanted")
		}
		return nil
	}
}
