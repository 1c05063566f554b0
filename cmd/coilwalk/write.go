package main

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"github.com/spf13/cobra"

	"coilwalk/model/files"
	"coilwalk/model/handoff"
	"coilwalk/model/quantity"
	"coilwalk/view/report"
)

// longestRamp bounds a file of intervals.
const longestRamp = 1 << 20 // bytes

// writeFlags are the options of "write".
type writeFlags struct {
	mode             modeFlags
	drive, wiring    string
	port, bits, pins string
	active           choice
	idleOff, stepper bool
	ramp             string
	rate, start      rowRate
	clock            quantity.Rate
	accel            float64
	prescale, rows   int64
	baud             int64
	out              string
	force            bool
}

func (p *program) writeCommand() *cobra.Command {
	f := writeFlags{active: choice{"high", []string{"high", "low"}}, rate: rowRate{quantity.PerSecond(handoff.UsualRate)}, clock: quantity.PerSecond(handoff.UsualClock)}
	c := &cobra.Command{
		Use:   "write KIND",
		Short: "Write the order for your own project: source, data, a recording",
		Long: `Write the energising order as your board has it: tables of both directions as
source text or data, a small stepping source, or a walk as a recording of the pins.
What is written is read back first and must be what was walked, else nothing is
written. Without --out it is printed; no file is replaced without --force.

` + kindLines(),
		Example: "  coilwalk write c --port PORTB --bits 0,1,2,3 --out flap.c\n  coilwalk write c --stepper --port PORTB --ramp 20000,15000,12000 --clock 16MHz --prescale 8 --idle-off --out flap.c\n  coilwalk write micropython --pins 2,3,4,5 --motor my-motor.toml\n  coilwalk write firmware --port PORTB --bits 0,1,2,3 --active low --out bench.c",
		Args:    oneKind,
		RunE: func(c *cobra.Command, args []string) error {
			kind, _ := report.KindNamed(args[0])
			w, err := p.walk(c, kind, &f)
			if err != nil {
				return err
			}
			return p.write(kind, w, &f)
		},
	}
	f.mode.add(c, "half")
	c.Flags().StringVar(&f.drive, "drive", "", "unipolar or bipolar (the motor's own)")
	c.Flags().StringVar(&f.wiring, "wiring", "", "the coil `ends` that outputs 1 to 4 drive, as A+,B+,A-,B- (the motor's own)")
	c.Flags().StringVar(&f.port, "port", "", "the `register` of the outputs, as PORTB")
	c.Flags().StringVar(&f.bits, "bits", "0,1,2,3", "the `bits` of outputs 1 to 4 there, 0 to 15")
	c.Flags().StringVar(&f.pins, "pins", "", "the pin `numbers` of outputs 1 to 4, as 2,3,4,5; micropython needs them")
	c.Flags().Var(&f.active, "active", "the level that switches an output on: high, or low")
	c.Flags().BoolVar(&f.idleOff, "idle-off", false, "coils off when nothing moves")
	c.Flags().BoolVar(&f.stepper, "stepper", false, "c and cpp: a stepping source that never waits, not tables alone")
	c.Flags().StringVar(&f.ramp, "ramp", "", "ticks from row to row of a start, as 20000,15000,12000, or a `file` of them")
	c.Flags().Var(&f.rate, "rate", "rows go out at this `rate`, in rows a second; with --accel a move speeds up to it")
	c.Flags().Var(&f.start, "start", "with --accel: the `rate` at which a move starts and stops (from a stand)")
	c.Flags().Float64Var(&f.accel, "accel", 0, "speed up by so many `rows/s` in each second (coilwalk ramp says what the motor follows)")
	c.Flags().Var(&f.clock, "clock", "of the controller")
	c.Flags().Int64Var(&f.prescale, "prescale", handoff.UsualPrescale, "clock cycles to a tick of the timer")
	c.Flags().Int64Var(&f.baud, "baud", handoff.UsualBaud, "firmware: `bits` a second of the serial line")
	c.Flags().Int64Var(&f.rows, "rows", 0, "vcd: rows of the move forward and of that back (two cycles, and the ramp)")
	c.Flags().StringVar(&f.out, "out", "", "the `file` to write; - prints")
	forceFlag(c, &f.force)
	return c
}

// kindLines lists the kinds for the help.
func kindLines() string {
	var b strings.Builder
	for _, k := range report.Kinds {
		fmt.Fprintf(&b, "    %-12s %s\n", k.Name, k.Title)
	}
	return strings.TrimRight(b.String(), "\n")
}

func kindNames() (words []string) {
	for _, k := range report.Kinds {
		words = append(words, k.Name)
	}
	return words
}

// oneKind wants the word of a kind.
func oneKind(_ *cobra.Command, args []string) error {
	words := kindNames()
	list := files.Either(words)
	if len(args) != 1 {
		return fmt.Errorf("one kind of file is wanted: %s", list)
	}
	if _, ok := report.KindNamed(args[0]); ok {
		return nil
	}
	if near := files.Nearest(args[0], words); near != "" {
		return fmt.Errorf("%s is no kind of file; did you mean %q?", files.Quoted(args[0]), "coilwalk write "+near)
	}
	return fmt.Errorf("%s is no kind of file; %s is wanted", files.Quoted(args[0]), list)
}

// walk gathers what is to be taken along.
func (p *program) walk(c *cobra.Command, kind handoff.Kind, f *writeFlags) (*handoff.Walk, error) {
	m, err := p.openMotor()
	if err != nil {
		return nil, err
	}
	if err := f.fit(c, kind); err != nil {
		return nil, err
	}
	w := &handoff.Walk{Motor: m, IdleOff: f.idleOff, Stepper: f.stepper, Baud: f.baud}
	if w.Mode, err = f.mode.chosen(c); err != nil {
		return nil, err
	}
	if drive, given, err := parseDrive(f.drive); err != nil {
		return nil, err
	} else if given {
		if err := m.Allows(drive); err != nil {
			return nil, err
		}
		w.Motor.Drive = drive
	}
	if wiring, err := parseWiring(f.wiring); err != nil {
		return nil, err
	} else if wiring != nil {
		w.Motor.Wiring = *wiring
	}
	if w.Board, err = f.board(c, kind); err != nil {
		return nil, err
	}
	if w.Pace, err = p.pace(c, f); err != nil {
		return nil, err
	}
	w.Rows, err = f.moved(c, kind, w)
	return w, err
}

// fit refuses options that say nothing of the kind.
func (f *writeFlags) fit(c *cobra.Command, kind handoff.Kind) error {
	if kind.Name != handoff.Bench {
		if c.Flags().Changed("baud") {
			return errors.New("--baud goes with firmware only; the other kinds have no serial line")
		}
		return nil
	}
	for _, name := range []string{"mode", "divide", "levels", "idle-off", "stepper", "ramp", "rate", "start", "accel", "prescale"} {
		if c.Flags().Lookup(name) != nil && c.Flags().Changed(name) {
			return fmt.Errorf("--%s says nothing of firmware: what rows there are, and when, is told it on its serial line", name)
		}
	}
	return nil
}

// board reads how the outputs sit on the controller.
func (f *writeFlags) board(c *cobra.Command, kind handoff.Kind) (b handoff.Board, err error) {
	b = handoff.Plain
	b.ActiveLow = f.active.value == "low"
	for _, one := range []struct {
		name, text string
		set        func(string) error
	}{{"port", f.port, b.SetPort}, {"bits", f.bits, b.SetBits}, {"pins", f.pins, b.SetPins}} {
		if !c.Flags().Changed(one.name) {
			continue
		}
		if err := one.set(one.text); err != nil {
			return b, fmt.Errorf("--%s: %w", one.name, err)
		}
	}
	if kind.Numbers && !b.Numbered {
		return b, fmt.Errorf("%s sets pins by their numbers; give those of outputs 1 to 4, as --pins 2,3,4,5", kind.Name)
	}
	return b, nil
}

// pace reads how the rows follow one another.
func (p *program) pace(c *cobra.Command, f *writeFlags) (handoff.Pace, error) {
	hz := f.clock.Base()
	if hz != math.Trunc(hz) || hz > 1e12 {
		return handoff.Pace{}, fmt.Errorf("--clock %s: whole cycles a second are wanted, as 16MHz", f.clock)
	}
	switch speeds := c.Flags().Changed("accel"); {
	case !speeds && c.Flags().Changed("start"):
		return handoff.Pace{}, errors.New("--start goes with --accel: it is the rate that a move speeds up from")
	case speeds && c.Flags().Changed("ramp"):
		return handoff.Pace{}, errors.New("--ramp and --accel both say how a move speeds up; give one of them")
	case speeds && !(f.accel > 0):
		return handoff.Pace{}, errors.New("--accel takes a number above 0, as 1500")
	case speeds && f.start.Base() > f.rate.Base():
		return handoff.Pace{}, fmt.Errorf("--start %s is above --rate %s", f.start, f.rate)
	case speeds:
		return handoff.Speeding(int64(hz), f.prescale, f.start.Base(), f.rate.Base(), f.accel)
	}
	if !c.Flags().Changed("ramp") {
		pace, err := handoff.Even(int64(hz), f.prescale, f.rate.Base())
		if err != nil {
			err = fmt.Errorf("--rate %s, --clock %s, --prescale %d: %w", f.rate, f.clock, f.prescale, err)
		}
		return pace, err
	}
	if c.Flags().Changed("rate") {
		return handoff.Pace{}, errors.New("--rate is for a move without a ramp; the last interval of --ramp says how fast it gets")
	}
	where, text := "--ramp", f.ramp
	if strings.Trim(f.ramp, "0123456789, ") != "" {
		if f.ramp == files.Standard && p.motorName == files.Standard {
			return handoff.Pace{}, errors.New("the ramp and the motor can not both come from standard input; name a file for one of them")
		}
		read, err := files.ReadText(f.ramp, longestRamp, p.in)
		if err != nil {
			return handoff.Pace{}, err
		}
		where, text = files.Called(f.ramp), string(read)
	}
	pace := handoff.Pace{ClockHz: int64(hz), Prescale: f.prescale}
	intervals, err := handoff.ParseIntervals(text)
	if err == nil {
		pace, err = pace.With(intervals)
	}
	var complaint *files.Complaint
	switch {
	case errors.As(err, &complaint) && where != "--ramp":
		complaint.File = where
	case err != nil:
		err = fmt.Errorf("%s: %w", where, err)
	}
	return pace, err
}

// moved gives the rows of each move of a recording.
func (f *writeFlags) moved(c *cobra.Command, kind handoff.Kind, w *handoff.Walk) (int64, error) {
	cycle, most := int64(w.Mode.Rows()), int64(1_000_000)
	if !c.Flags().Changed("rows") {
		return w.Usual(), nil
	}
	if !kind.Moves {
		return 0, errors.New("--rows goes with vcd only; the other kinds hold a cycle")
	}
	if f.rows < cycle || f.rows > most {
		return 0, fmt.Errorf("--rows %d: from one cycle, %d, to %d rows can be recorded", f.rows, cycle, most)
	}
	return f.rows, nil
}

// write makes the file, and prints it or puts it in its place.
func (p *program) write(kind handoff.Kind, w *handoff.Walk, f *writeFlags) error {
	printed := f.out == "" || f.out == files.Standard
	if !printed {
		if err := free(f.out, f.force); err != nil {
			return err
		}
	}
	name := f.out
	if printed {
		name = ""
	}
	text, err := report.Made(kind, w, name)
	if err != nil {
		return err
	}
	if printed && !p.json {
		_, err = p.out.Write(text)
		return err
	}
	if !printed {
		if err := into(f.out, text, f.force); err != nil {
			return err
		}
	}
	return p.tell(report.NewWritten(kind, w, f.out, printed, text))
}
