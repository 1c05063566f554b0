package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/spf13/cobra"

	"coilwalk/model/bench"
	"coilwalk/model/driver"
	"coilwalk/model/files"
	"coilwalk/model/handoff"
	"coilwalk/model/live"
	"coilwalk/model/power"
	"coilwalk/sequence"
	"coilwalk/view"
	"coilwalk/view/plain"
)

// liveFlags are the options of "live".
type liveFlags struct {
	mode     modeFlags
	wiring   string
	pins     string
	active   choice
	baud     int
	record   string
	rehearse bool
	plain    bool
	stage    string
	supply   string
}

func (p *program) liveCommand(x *explorer) *cobra.Command {
	f := liveFlags{active: choice{"", []string{"high", "low"}}}
	c := &cobra.Command{
		Use:   "live [PORT]",
		Short: "Step a real motor from the keyboard, by a board on a serial port",
		Long: `Bind the explorer to a real motor: a board with Firmata on a serial port switches
the four outputs of your driver. Without PORT the serial ports are listed. Opening
a port energises nothing: that has to be armed, on the screen, after the cautions.
Space switches all coils off at once. They go off by themselves when coilwalk is
left or stopped, when the link fails or anything unexpected comes, after a minute
without a key, and, with the firmware that coilwalk write firmware writes, two
seconds after coilwalk or the cable has died.`,
		Example: "  coilwalk live\n  coilwalk live /dev/ttyACM0 --motor my-motor.toml --record sitting.vcd\n  coilwalk live --rehearse",
		Args:    cobra.MaximumNArgs(1),
		RunE: func(c *cobra.Command, args []string) error {
			return p.live(c, x, &f, args)
		},
	}
	f.mode.add(c, "half")
	flags := c.Flags()
	flags.StringVar(&f.wiring, "wiring", "", "the coil `ends` that outputs 1 to 4 drive, as A+,B+,A-,B- (the motor's own)")
	flags.StringVar(&f.pins, "pins", "", "the board's pin `numbers` of outputs 1 to 4 (those of the firmware, else 8,9,10,11)")
	flags.Var(&f.active, "active", "the level that switches an output on: high, or low (the firmware's own, else high)")
	flags.IntVar(&f.baud, "baud", handoff.UsualBaud, "of the serial port")
	flags.StringVar(&f.record, "record", "", "keep the sitting in a new `file`, for coilwalk read")
	flags.BoolVar(&f.rehearse, "rehearse", false, "no board: try the keys, nothing is energised")
	flags.BoolVar(&f.plain, "plain", false, "no screen: words in, a line of words out")
	flags.StringVar(&f.stage, "stage", "", "the driver `stage`, for currents and heat: "+driver.Names()+", or a stage file")
	flags.StringVar(&f.supply, "supply", "", "of the motor, a voltage as 12V or a `kind`: "+driver.SupplyNames())
	x.looks(c)
	return c
}

// live opens the explorer on a real motor.
func (p *program) live(c *cobra.Command, x *explorer, f *liveFlags, args []string) (err error) {
	switch {
	case p.json:
		return errors.New("a real motor is stepped by keys; there is no JSON of it")
	case f.rehearse && len(args) > 0:
		return errors.New("--rehearse goes without a port: it energises nothing")
	case !f.rehearse && len(args) == 0:
		return p.listPorts()
	}
	in, out, ok := p.terminal()
	if f.plain {
		in, out, ok = p.hands()
	}
	if !ok {
		return errors.New("a real motor is only stepped from a terminal, where a hand is at the keys")
	}
	b, err := p.liveBench(c, f)
	if err != nil {
		return err
	}
	wanted, err := f.wanted(c)
	if err != nil {
		return err
	}
	heat, err := p.liveHeat(b, f)
	if err != nil {
		return err
	}
	record, err := f.begin()
	if err != nil {
		return err
	}
	var link live.Link = live.NewNull()
	if !f.rehearse {
		fmt.Fprintf(p.errs, "asking the board on %s what it is …\n", args[0])
		board, err := live.Open(args[0], wanted)
		if err != nil {
			f.forget(record)
			if errors.As(err, new(live.Unfit)) { // the board is there, and was asked for what it is not
				return err
			}
			return unreached{err}
		}
		link = board
	}
	opened := view.Live{}
	if record != nil {
		r := live.Record(link, record, f.head(b, link), time.Now)
		link, opened.Record = r, r
	}
	x.plain = f.plain
	return p.grip(c, x, b, link, heat, opened, in, out)
}

// grip runs the explorer with a motor in hand. Whatever ends it, the coils are
// switched off before anything else.
func (p *program) grip(c *cobra.Command, x *explorer, b *bench.Bench, link live.Link, heat live.Heat, opened view.Live, in, out *os.File) (err error) {
	stirred := make(chan struct{}, 1)
	tell := func() {
		select {
		case stirred <- struct{}{}:
		default: // there is one waiting that will find this too
		}
	}
	runtime.GOMAXPROCS(runtime.NumCPU() + 2) // what another screen reckons may not keep a row waiting
	motor := live.Hold(link, heat, tell)
	defer func() {
		s := motor.State() // before the link ends because we end it
		closing := motor.Close()
		switch {
		case err != nil:
		case s.Lost:
			err = lost{s.Why}
		case closing != nil:
			err = closing
		}
	}()
	x.ending = func(why string) { motor.Off(why) }
	if x.plain {
		return x.speak(&plain.Mode{Sitting: plain.Sitting{Bench: b}, Live: &plain.Live{Motor: motor, Record: opened.Record, Stirred: stirred}})
	}
	opened.Motor = motor
	outlet := view.NewOutlet(out)
	screen := view.New(b, x.settings(c, out, outlet), view.Opened{Live: &opened})
	x.started = func(program *tea.Program) (stop func()) {
		end := make(chan struct{})
		go func() {
			for {
				select {
				case <-stirred:
					program.Send(view.Stirred{})
				case <-end:
					return
				}
			}
		}()
		return func() { close(end) }
	}
	return x.show(screen, in, outlet)
}

// lost is the outcome of a sitting whose link was lost.
type lost struct{ why string }

func (l lost) Error() string { return l.why }

// unreached is the outcome of a board that could not be opened.
type unreached struct{ error }

func (p *program) listPorts() error {
	ports, err := live.Ports()
	if err != nil {
		return fmt.Errorf("the serial ports can not be listed: %w; a port can still be named", err)
	}
	if len(ports) == 0 {
		_, err = fmt.Fprintln(p.out, "no serial port is told of; plug the board in, or name its port: coilwalk live PORT")
		return err
	}
	for _, port := range ports {
		if _, err := fmt.Fprintln(p.out, port); err != nil {
			return err
		}
	}
	_, err = fmt.Fprintln(p.out, "\ncoilwalk live PORT opens one; nothing is energised by that")
	return err
}

// liveBench sets the bench up.
func (p *program) liveBench(c *cobra.Command, f *liveFlags) (*bench.Bench, error) {
	m, err := p.openMotor()
	if err != nil {
		return nil, err
	}
	mode, err := f.mode.chosen(c)
	if err != nil {
		return nil, err
	}
	if onOutputs, err := parseWiring(f.wiring); err != nil {
		return nil, err
	} else if onOutputs != nil {
		m.Wiring = *onOutputs
	}
	b := bench.New(m)
	b.SetMode(mode)
	if outputs, _ := b.Ahead(); slices.ContainsFunc(outputs, func(r sequence.Row) bool { return !r.Whole() }) {
		return nil, fmt.Errorf("--mode %s: these are currents between off and on, which pins can not give; take %s", mode.Name, files.Either(sequence.WholeNames()))
	}
	return b, nil
}

// wanted reads what the board is to be.
func (f *liveFlags) wanted(c *cobra.Command) (live.Wanted, error) {
	w := live.Wanted{Baud: f.baud, Low: f.active.value == "low", Given: c.Flags().Changed("active")}
	if f.baud < 300 || f.baud > 4_000_000 {
		return w, fmt.Errorf("--baud %d: from 300 to 4000000 is wanted", f.baud)
	}
	if f.pins == "" {
		return w, nil
	}
	parts := strings.Split(f.pins, ",")
	if len(parts) != 4 {
		return w, fmt.Errorf("--pins %s: four numbers are wanted, as 8,9,10,11", files.Quoted(f.pins))
	}
	for k, part := range parts {
		n, err := strconv.Atoi(strings.TrimSpace(part))
		if err != nil || n < 0 || n > 127 {
			return w, fmt.Errorf("--pins %s: %s is no pin; 0 to 127 are", files.Quoted(f.pins), files.Quoted(part))
		}
		if slices.Contains(w.Pins[:k], n) {
			return w, fmt.Errorf("--pins %s: pin %d stands there twice; each output has one of its own", files.Quoted(f.pins), n)
		}
		w.Pins[k] = n
	}
	return w, nil
}

// liveHeat follows the winding, where the motor says enough for that.
func (p *program) liveHeat(b *bench.Bench, f *liveFlags) (live.Heat, error) {
	m := b.Motor()
	stage := driver.Usual(m.Drive, false)
	var err error
	if f.stage != "" {
		if stage, err = driver.Open(f.stage, p.in); err != nil {
			return nil, err
		}
	}
	var supply driver.Supply
	if f.supply != "" {
		if supply, err = driver.ParseSupply(f.supply); err != nil {
			return nil, err
		}
	}
	q, err := power.Ask(m, stage, supply)
	if err == nil {
		var w *power.Winding
		if w, err = power.Follow(q); err == nil {
			return &winding{w}, nil
		}
	}
	if f.stage != "" || f.supply != "" {
		return nil, err
	}
	return nil, nil // a motor without figures: nothing is reckoned
}

// winding is the heat of a motor as the live link wants it.
type winding struct{ *power.Winding }

// Pass implements live.Heat.
func (w *winding) Pass(coils sequence.Row, seconds float64) { w.Winding.Pass(coils, seconds) }

// Now implements live.Heat.
func (w *winding) Now() (celsius, most float64) { return w.Celsius, w.Class }

// begin makes the file of a sitting. One that is there is never replaced.
func (f *liveFlags) begin() (io.WriteCloser, error) {
	if f.record == "" {
		return nil, nil
	}
	file, err := os.OpenFile(f.record, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if errors.Is(err, os.ErrExist) {
		return nil, &files.Complaint{File: f.record, What: "this file is there already", Right: "choose another name"}
	}
	if err != nil {
		return nil, files.NotWritten(f.record, err)
	}
	return file, nil
}

// forget takes the empty file of a sitting away that never began.
func (f *liveFlags) forget(record io.Closer) {
	if record != nil {
		record.Close()
		_ = os.Remove(f.record)
	}
}

// head is what a record tells of the sitting.
func (f *liveFlags) head(b *bench.Bench, link live.Link) []string {
	m, about := b.Motor(), link.About()
	lines := []string{"A sitting with a real motor; 1 = the output is on, whatever level that is.",
		"Motor: " + m.Title, "Board: " + about.Firmware + " on " + about.Place}
	for k, end := range m.Wiring {
		lines = append(lines, fmt.Sprintf("Output %d: pin %d, coil end %s, lead %s", k+1, about.Pins[k], end, m.Output(m.Wiring, k)))
	}
	return lines
}
