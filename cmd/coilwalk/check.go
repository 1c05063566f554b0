package main

import (
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"coilwalk/model/files"
	"coilwalk/model/motor"
	"coilwalk/model/table"
	"coilwalk/sequence"
	"coilwalk/view/report"
)

// checkFlags are the options that say what a table is held against.
type checkFlags struct {
	wiring, pins, bits, direction, active, table string
}

func (f *checkFlags) add(c *cobra.Command) {
	c.Flags().StringVar(&f.wiring, "wiring", "", "the coil `ends` that columns 1 to 4 drive, as A+,B+,A-,B-")
	c.Flags().StringVar(&f.pins, "pins", "", "what the columns are: coil-ends, two-line or phase-enable (found)")
	c.Flags().Var(&choice{"msb", []string{"msb", "lsb"}}, "bits", "the bit that is column 1 of a packed row: msb, the highest, or lsb (left out, the bits that a file says its outputs have count first)")
	c.Flags().Var(&choice{"", []string{"forward", "reverse"}}, "direction", "with a wiring: the way that the table is meant to go, forward or reverse")
	c.Flags().Var(&choice{"high", []string{"high", "low"}}, "active", "the level that switches an output on: high, or low")
	c.Flags().StringVar(&f.table, "table", "", "only the table of this `name`")
}

// judging is a source with tables, and what they are held against.
type judging struct {
	name     string
	text     []byte
	only     string // the one table that is judged; "" for all
	options  table.Options
	question table.Question
	motor    *motor.Motor // that the question was taken from; nil where the person gave the wiring
}

// checks gathers what is needed to judge a file's tables.
func (p *program) checks(c *cobra.Command, file string, f *checkFlags) (k judging, err error) {
	if file == files.Standard && p.motorName == files.Standard {
		return k, errors.New("the table and the motor can not both come from standard input; name a file for one of them")
	}
	f.bits, f.direction = c.Flags().Lookup("bits").Value.String(), c.Flags().Lookup("direction").Value.String()
	f.active = c.Flags().Lookup("active").Value.String()
	k.name, k.only = files.Called(file), f.table
	if k.question, k.options, k.motor, err = p.question(c, f); err != nil {
		return k, err
	}
	k.text, err = files.Read(file, table.LongestFile, p.in)
	return k, err
}

// judge reads the tables and holds them against the question.
func (k *judging) judge() (*table.Source, []table.Verdict, error) {
	source, err := table.Read(k.name, k.text, k.options)
	if err != nil {
		return nil, nil, notATable(err, k.name, k.text)
	}
	if err := source.Only(k.name, k.only); err != nil {
		return nil, nil, err
	}
	for i := range source.Tables {
		if err := table.Fits(&source.Tables[i], k.question.Pins); err != nil {
			return nil, nil, &files.Complaint{File: k.name, Line: source.Tables[i].Line, What: err.Error()}
		}
	}
	note := k.asTheFileHasIt(source)
	verdicts := source.Judge(k.question)
	for i := range verdicts {
		if note != "" {
			verdicts[i].Notes = append([]string{note}, verdicts[i].Notes...)
		}
	}
	return source, verdicts, nil
}

// asTheFileHasIt takes the leads as a file's head says them, where they are on other
// outputs than the motor states: it was made for that plug. It says so.
func (k *judging) asTheFileHasIt(source *table.Source) (note string) {
	if k.motor == nil || source.Ends == nil || *source.Ends == k.motor.Wiring {
		return ""
	}
	m := *k.motor
	moved := report.Exchanged(m, *source.Ends)
	m.Wiring = *source.Ends
	k.question = of(m, k.question)
	return fmt.Sprintf("The file's head has the leads otherwise than the motor states: %s. So they are taken here; --wiring says otherwise.", moved)
}

// question gathers what a table is held against, and the motor whose plug that is where
// no wiring is given. Only a motor that the person
// named counts: a verdict never rests on the built-in one.
func (p *program) question(c *cobra.Command, f *checkFlags) (q table.Question, options table.Options, plugged *motor.Motor, err error) {
	if f.pins != "" {
		if options.Pins, err = table.ParsePins(f.pins); err != nil {
			return q, options, plugged, err
		}
		q.Pins = options.Pins
	}
	switch {
	case f.bits == "lsb":
		options.Bits = table.LSBFirst
	case c.Flags().Changed("bits"):
		options.Bits = table.MSBFirst
	}
	switch f.direction {
	case "forward":
		q.Direction = sequence.Forward
	case "reverse":
		q.Direction = sequence.Reverse
	}
	q.AnyDrive = true
	if c.Flags().Changed("motor") {
		m, err := p.openMotor()
		if err != nil {
			return q, options, plugged, err
		}
		q, plugged = of(m, q), &m
	}
	q.ActiveLow = f.active == "low"
	wiring, err := parseWiring(f.wiring)
	if err == nil && f.direction != "" && q.Wiring == nil && wiring == nil {
		err = errors.New("--direction needs the wiring, as the same table turns either way by how the coils are wired; give --wiring or --motor")
	}
	if wiring != nil {
		q.Wiring = wiring
		q.Leads, plugged = [4]string{}, nil // the motor's plug is not what was asked about
	}
	return q, options, plugged, err
}

func of(m motor.Motor, q table.Question) table.Question {
	wiring := m.Wiring
	q.Wiring, q.Drive, q.AnyDrive = &wiring, m.Drive, false
	for k := range q.Leads {
		q.Leads[k] = string(m.Output(wiring, k))
	}
	return q
}

func (p *program) checkCommand() *cobra.Command {
	var f checkFlags
	c := &cobra.Command{
		Use:   "check TABLE",
		Short: "Say whether a step table is sound, and what cures it",
		Long: `Read the step tables out of a source file (C, C++, Rust, Python, Go) or plain
rows of 0 and 1, and say for which wirings each is sound. With --wiring, or with
--motor and the wiring in its file, say whether it is sound there, which rows are
wrong, and which swaps cure it. Ends with status 1 when a table is not sound.`,
		Example: "  coilwalk check blinds.c\n  coilwalk check blinds.c --motor my-motor.toml\n  printf '1010\\n0110\\n0101\\n1001\\n' | coilwalk check -\n      sound for one wiring: full step, 4 rows\n      note: Columns 1 and 2 must be the two ends of one coil, columns 3 and 4 those of the other.",
		Args:    exactly("file with a step table, or - for standard input,"),
		RunE: func(c *cobra.Command, args []string) error {
			k, err := p.checks(c, args[0], &f)
			if err != nil {
				return err
			}
			source, verdicts, err := k.judge()
			if err != nil {
				return err
			}
			answer := report.NewCheck(files.Called(args[0]), source, verdicts)
			if err := p.tell(answer); err != nil {
				return err
			}
			if !answer.Sound {
				return errFinding
			}
			return nil
		},
	}
	f.add(c)
	return c
}
