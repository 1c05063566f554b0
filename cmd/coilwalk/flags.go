package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"coilwalk/model/files"
	"coilwalk/sequence"
)

func flagNames(c *cobra.Command) (names []string) {
	add := func(f *pflag.Flag) {
		if !f.Hidden {
			names = append(names, f.Name)
		}
	}
	c.Flags().VisitAll(add)
	c.InheritedFlags().VisitAll(add)
	return names
}

// noneEmpty refuses an option that is given nothing, as by a shell's variable that is
// not set: it would pass for one that was left out, and what was asked not be done.
func noneEmpty(c *cobra.Command, _ []string) (err error) {
	c.Flags().Visit(func(f *pflag.Flag) {
		if f.Value.Type() != "string" || f.Value.String() != "" || err != nil {
			return
		}
		wanted := "a value"
		if kind, _ := pflag.UnquoteUsage(f); kind == "file" {
			wanted = "a name"
		}
		err = fmt.Errorf("--%s is given nothing; %s is wanted after it, or leave it out", f.Name, wanted)
	})
	return err
}

// modeFlags are the options that choose a step mode.
type modeFlags struct {
	mode           string
	divide, levels int
}

func (m *modeFlags) add(c *cobra.Command, first string) {
	c.Flags().StringVar(&m.mode, "mode", first, "step `mode`: "+files.Either(sequence.ModeNames()))
	c.Flags().IntVar(&m.divide, "divide", 16, "with --mode micro: rows to a full step, 2 to 256")
	c.Flags().IntVar(&m.levels, "levels", 0, "with --mode micro: round currents to this many levels; 0 for none")
}

func (m *modeFlags) chosen(c *cobra.Command) (sequence.Mode, error) {
	if m.mode != "micro" && (c.Flags().Changed("divide") || c.Flags().Changed("levels")) {
		return sequence.Mode{}, fmt.Errorf("--divide and --levels go with --mode micro only")
	}
	return sequence.ModeNamed(m.mode, m.divide, m.levels)
}

// choice is a flag whose value is one of a few words.
type choice struct {
	value string
	words []string
}

func (c *choice) String() string { return c.value }
func (c *choice) Type() string   { return "word" }
func (c *choice) Set(text string) error {
	for _, w := range c.words {
		if w == text {
			c.value = text
			return nil
		}
	}
	return fmt.Errorf("%s is not known here; one of %s is wanted", files.Quoted(text), strings.Join(c.words, ", "))
}

// parseDrive reads a drive; "" gives the motor's own.
func parseDrive(text string) (d sequence.Drive, given bool, err error) {
	if text == "" {
		return 0, false, nil
	}
	for _, d := range sequence.Drives {
		if d.String() == text {
			return d, true, nil
		}
	}
	return 0, false, fmt.Errorf("there is no drive %s; unipolar or bipolar is wanted", files.Quoted(text))
}

// parseWiring reads the coil ends that columns 1 to 4 drive: "A+,B+,A-,B-".
func parseWiring(text string) (*sequence.Permutation, error) {
	if text == "" {
		return nil, nil
	}
	var p sequence.Permutation
	parts := strings.FieldsFunc(text, func(r rune) bool { return r == ',' || r == ' ' })
	if len(parts) != len(p) {
		return nil, fmt.Errorf("--wiring %s: four coil ends are wanted, as A+,B+,A-,B-, not %d", files.Quoted(text), len(parts))
	}
	for k, part := range parts {
		e, ok := sequence.ParseEnd(part)
		if !ok {
			return nil, fmt.Errorf("--wiring: %s is no coil end; A+, B+, A- and B- are", files.Quoted(part))
		}
		p[k] = e
	}
	if !p.Valid() {
		return nil, fmt.Errorf("--wiring %s names a coil end twice; each of A+ B+ A- B- is wanted once", files.Quoted(text))
	}
	return &p, nil
}
