package main

import (
	"errors"
	"fmt"
	"os"
	"os/signal"
	"path/filepath"
	"strings"
	"syscall"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/term"
	"github.com/spf13/cobra"

	"coilwalk/cmd/coilwalk/quits"
	"coilwalk/model/bench"
	"coilwalk/model/files"
	"coilwalk/model/recording"
	"coilwalk/model/table"
	"coilwalk/model/wiring"
	"coilwalk/view"
	"coilwalk/view/opened"
	"coilwalk/view/plain"
	"coilwalk/view/settings"
	"coilwalk/view/tour"
)

// explorer is the command without a name.
type explorer struct {
	*program
	mode         modeFlags
	check        checkFlags
	recorded     readFlags
	plain        bool
	ascii, still bool
	theme, color choice

	started func(*tea.Program) (stop func()) // when the screen runs; nil for nothing
	ending  func(why string)                 // before anything ends it but a key; nil for nothing
}

func (x *explorer) flags(c *cobra.Command) {
	x.mode.add(c, "half")
	x.check.add(c)
	x.recorded.addOwn(c)
	c.Flags().BoolVar(&x.plain, "plain", false, "no screen: words in, a line of words out")
	x.looks(c)
}

func (x *explorer) run(c *cobra.Command, args []string) error {
	if x.json {
		return errors.New("the explorer has no JSON; coilwalk order --json and coilwalk check --json have")
	}
	b, opened, err := x.sit(c, args)
	if err != nil {
		return err
	}
	if x.plain {
		m := plain.Mode{Sitting: said(b, opened), Open: x.again(c)}
		return m.Run(x.in, x.out)
	}
	in, out, ok := x.terminal()
	if !ok {
		return errors.New("the explorer needs a terminal that can place its cursor; without one, coilwalk --plain takes words, and coilwalk order and coilwalk check print")
	}
	outlet := view.NewOutlet(out)
	set := x.settings(c, out, outlet)
	set.Tour = len(args) == 0 && first()
	return x.show(view.New(b, set, opened), in, outlet)
}

// first says whether the walk-through is to be shown: the first time, which is
// kept. Where it can not be kept it is shown only when it is asked for, or it would
// come at every start.
func first() bool {
	folder := settings.Find()
	return !folder.Seen(tour.Seen) && folder.See(tour.Seen) == nil
}

// hands gives the terminal that this is run in, if it is in one.
func (p *program) hands() (in, out *os.File, ok bool) {
	in, isFile := p.in.(*os.File)
	out, outFile := p.out.Writer.(*os.File)
	return in, out, isFile && outFile && term.IsTerminal(in.Fd()) && term.IsTerminal(out.Fd())
}

// terminal gives the terminal that a picture can be drawn on. TERM=dumb says that
// it is one on which none can.
func (p *program) terminal() (in, out *os.File, ok bool) {
	in, out, ok = p.hands()
	return in, out, ok && os.Getenv("TERM") != "dumb"
}

// sit sets the bench up: motor, mode or table, wiring; and opens what a file
// holds, told by what stands in it.
func (x *explorer) sit(c *cobra.Command, args []string) (*bench.Bench, view.Opened, error) {
	var opened view.Opened
	if x.motorName == files.Standard || len(args) == 1 && args[0] == files.Standard {
		return nil, opened, errors.New("keys and words come from standard input here, so no file can; name a file instead of -")
	}
	if len(args) == 1 && strings.EqualFold(filepath.Ext(args[0]), ".toml") {
		if c.Flags().Changed("motor") {
			return nil, opened, fmt.Errorf("%s is a motor file, and --motor names another; give one of them", args[0])
		}
		x.motorName, args = args[0], nil
	}
	m, err := x.openMotor()
	if err != nil {
		return nil, opened, err
	}
	mode, err := x.mode.chosen(c)
	if err != nil {
		return nil, opened, err
	}
	onOutputs, err := parseWiring(x.check.wiring)
	if err != nil {
		return nil, opened, err
	}
	b := bench.New(m)
	b.SetMode(mode)
	if onOutputs != nil {
		b.SetWiring(*onOutputs)
	}
	if len(args) == 1 {
		if err = x.file(c, args[0], b, &opened); err != nil {
			return nil, opened, err
		}
	}
	b.Restart()
	return b, opened, nil
}

// file opens what a file holds, told by its beginning: a recording, readings, or
// else a step table.
func (x *explorer) file(c *cobra.Command, name string, b *bench.Bench, opened *view.Opened) (err error) {
	head, err := files.Head(name, headBytes)
	if err != nil {
		return err
	}
	if recording.Like(head) {
		opened.Recorded, err = x.recording(c, name)
		return err
	}
	if opened.Readings, err = x.readingsIn(name); err == nil && opened.Readings == nil {
		opened.Checked, err = x.table(c, name, b)
	}
	return err
}

// headBytes of a file tell what it holds.
const headBytes = 1 << 12

// recording opens a recording; its rows are read beside the screen.
func (x *explorer) recording(c *cobra.Command, name string) (*opened.Recording, error) {
	f := &x.recorded
	if x.check.pins == stepDirection {
		return nil, fmt.Errorf("the screen shows the four outputs of a driver; step and direction lines are told by coilwalk read %s --pins %s", name, stepDirection)
	}
	f.wiring, f.pins = x.check.wiring, x.check.pins
	if c.Flags().Changed("active") {
		f.active.value = c.Flags().Lookup("active").Value.String()
	}
	f.direction.value = c.Flags().Lookup("direction").Value.String()
	o, err := x.open(c, name, f)
	if err != nil {
		return nil, err
	}
	r := &opened.Recording{File: filepath.Base(files.Called(name)), Source: o.recorded(name), Loading: o.loading, Question: o.question, Motor: o.motor, Whole: f.rotor, Close: o.reader.Close}
	if o.motor != nil {
		machine, err := x.machine(o.motor, &f.machineFlags)
		if err == nil {
			r.Machine = machine
		} else if f.rotor || f.given() {
			o.reader.Close()
			return nil, err
		}
	}
	return r, nil
}

// readingsIn gives the readings of a file that holds some, else nil.
func (x *explorer) readingsIn(name string) ([]wiring.Reading, error) {
	text, err := files.Read(name, wiring.LongestFile, x.in)
	if err != nil || !wiring.LikeReadings(text) {
		return nil, nil // the table reader says better what is wrong with it
	}
	return wiring.ReadReadings(files.Called(name), text)
}

// table opens a step table and puts it on the bench.
func (x *explorer) table(c *cobra.Command, name string, b *bench.Bench) (*opened.Table, error) {
	if c.Flags().Changed("mode") {
		return nil, errors.New("a table is walked as it is; --mode goes without one, and m changes to a step mode later")
	}
	k, err := x.checks(c, name, &x.check)
	if err != nil {
		return nil, err
	}
	_, verdicts, err := k.judge()
	if err != nil {
		return nil, err
	}
	b.SetTable(verdicts[0].Outputs, verdicts[0].Taken)
	again := func(bits table.BitOrder) ([]table.Verdict, error) {
		k.options.Bits = bits
		_, verdicts, err := k.judge()
		return verdicts, err
	}
	return &opened.Table{File: filepath.Base(k.name), Verdicts: verdicts, Question: k.question, Again: again}, nil
}

// show runs the explorer on the terminal until it is left, and sees to it that
// the terminal is put back whatever happens.
func (x *explorer) show(screen tea.Model, in *os.File, out *view.Outlet) (err error) {
	signals := make(chan os.Signal, 4)
	inlet := &view.Inlet{File: in, Gone: func() {
		select {
		case signals <- syscall.SIGHUP:
		default: // there are others
		}
	}}
	p := tea.NewProgram(screen, tea.WithInput(inlet), tea.WithOutput(out), tea.WithAltScreen(), tea.WithFPS(30),
		tea.WithoutSignalHandler(), tea.WithoutCatchPanics(), tea.WithFilter(out.Sizes))
	out.Free = func() { p.Send(view.Sent{}) }
	defer out.Settle(settleTime)
	signal.Notify(signals, endings...)
	quits.InOrder()
	defer signal.Stop(signals)
	ended := make(chan syscall.Signal, 1)
	done := make(chan struct{})
	defer close(done)
	go func() {
		for {
			select {
			case s := <-signals:
				x.ends("coilwalk was ended or suspended by a signal")
				if suspends(s) {
					suspend(p, out)
					continue
				}
				if number, ok := s.(syscall.Signal); ok {
					ended <- number
				}
				p.Quit()
			case <-done:
			}
			return
		}
	}()
	if x.started != nil {
		defer x.started(p)()
	}
	defer func() {
		if r := recover(); r != nil {
			x.ends("a fault of coilwalk itself")
			p.Kill()
			_ = p.ReleaseTerminal()
			err = crash(r)
		}
	}()
	_, err = p.Run()
	select {
	case s := <-ended:
		return signalled{s}
	default:
		return err
	}
}

// settleTime is how long a terminal is waited for that takes nothing more. The
// last 4 kB a system does not take back; a line of 9600 baud needs more than four
// seconds for them, one of 4800 baud more than eight.
const settleTime = 9 * time.Second

// ends says that the screen is about to end, to who must know before.
func (x *explorer) ends(why string) {
	if x.ending != nil {
		x.ending(why)
	}
}
