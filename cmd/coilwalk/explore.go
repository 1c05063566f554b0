package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"path/filepath"
	"runtime/debug"
	"strings"
	"syscall"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/term"
	"github.com/muesli/termenv"
	"github.com/spf13/cobra"

	"coilwalk/model/bench"
	"coilwalk/model/files"
	"coilwalk/model/recording"
	"coilwalk/model/wiring"
	"coilwalk/view"
	"coilwalk/view/picture"
	"coilwalk/view/plain"
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

// looks are the options of how the screen looks.
func (x *explorer) looks(c *cobra.Command) {
	x.theme = choice{"auto", []string{"auto", "dark", "light"}}
	x.color = choice{"auto", []string{"auto", "always", "never"}}
	c.Flags().BoolVar(&x.ascii, "ascii", false, "draw with ASCII marks only")
	c.Flags().BoolVar(&x.still, "no-animation", false, "show the rotor at its rests only")
	c.Flags().Var(&x.theme, "theme", "colours for a dark or a light terminal: auto, dark or light")
	c.Flags().Var(&x.color, "color", "auto (none with NO_COLOR), always or never")
}

func (x *explorer) run(c *cobra.Command, args []string) error {
	if x.json {
		return errors.New("the explorer has no JSON; coilwalk order --json and coilwalk check --json have")
	}
	b, opened, err := x.sit(c, args)
	if err != nil {
		return err
	}
	if x.plain && opened.Recorded != nil {
		opened.Recorded.Close()
		return fmt.Errorf("a recording is told in plain words by coilwalk read %[1]s, and row by row by coilwalk read %[1]s --rows", args[0])
	}
	if x.plain {
		m := plain.Mode{Bench: b, Readings: opened.Readings}
		if opened.Checked != nil {
			m.File, m.Verdicts = opened.Checked.File, opened.Checked.Verdicts
		}
		return m.Run(x.in, x.out)
	}
	in, isFile := x.in.(*os.File)
	out, outFile := x.out.(*os.File)
	if !isFile || !outFile || !term.IsTerminal(in.Fd()) || !term.IsTerminal(out.Fd()) {
		return errors.New("the explorer needs a terminal; without one, coilwalk --plain takes words, and coilwalk order and coilwalk check print")
	}
	return x.show(view.New(b, x.settings(out), opened), in, out)
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
func (x *explorer) recording(c *cobra.Command, name string) (*view.Recorded, error) {
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
	r := &view.Recorded{File: filepath.Base(name), Source: o.recorded(name), Loading: o.loading, Question: o.question, Motor: o.motor, Whole: f.rotor, Close: o.reader.Close}
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
func (x *explorer) table(c *cobra.Command, name string, b *bench.Bench) (*view.Checked, error) {
	if c.Flags().Changed("mode") {
		return nil, errors.New("a table is walked as it is; --mode goes without one, and m changes to a step mode later")
	}
	_, verdicts, question, err := x.judge(c, name, &x.check)
	if err != nil {
		return nil, err
	}
	b.SetTable(verdicts[0].Outputs)
	b.SetWiring(verdicts[0].Taken)
	return &view.Checked{File: filepath.Base(name), Verdicts: verdicts, Question: question}, nil
}

func (x *explorer) settings(out io.Writer) view.Settings {
	s := view.Settings{Theme: picture.Dark, ASCII: x.ascii, Still: x.still, Terminal: out}
	if x.theme.value == "light" || x.theme.value == "auto" && lightBackground(os.Getenv("COLORFGBG")) {
		s.Theme = picture.Light
	}
	switch {
	case x.color.value == "never":
		s.Depth = picture.NoColour
	case x.color.value == "auto" && os.Getenv("NO_COLOR") != "":
		s.Depth = picture.NoColour
	default:
		s.Depth = depth(termenv.NewOutput(out).ColorProfile(), x.color.value == "always")
	}
	return s
}

func depth(p termenv.Profile, always bool) picture.Depth {
	switch p {
	case termenv.TrueColor, termenv.ANSI256:
		return picture.Colours256
	case termenv.ANSI:
		return picture.Colours16
	}
	if always {
		return picture.Colours16
	}
	return picture.NoColour
}

// lightBackground reads the hint that some terminals leave in COLORFGBG:
// "text;background" by number, 7 and 15 being white.
func lightBackground(hint string) bool {
	n := len(hint)
	return n >= 2 && (hint[n-2:] == ";7" || n >= 3 && hint[n-3:] == ";15")
}

// show runs the explorer on the terminal until it is left, and sees to it that
// the terminal is put back whatever happens.
func (x *explorer) show(screen tea.Model, in, out *os.File) (err error) {
	p := tea.NewProgram(screen, tea.WithInput(in), tea.WithOutput(out), tea.WithAltScreen(), tea.WithFPS(30),
		tea.WithoutSignalHandler(), tea.WithoutCatchPanics(), tea.WithFilter(sameSize()))
	signals := make(chan os.Signal, 4)
	signal.Notify(signals, endings...)
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
					suspend(p)
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
			err = x.crash(r)
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

// ends says that the screen is about to end, to who must know before.
func (x *explorer) ends(why string) {
	if x.ending != nil {
		x.ending(why)
	}
}

// crash keeps what is needed to mend a fault of ours.
func (x *explorer) crash(what any) error {
	words := fmt.Sprintf("a fault of coilwalk itself: %v", what)
	f, err := os.CreateTemp("", "coilwalk-crash-*.txt")
	if err != nil {
		return crashed{words}
	}
	defer f.Close()
	fmt.Fprintf(f, "%s\n\n%s", words, debug.Stack())
	return crashed{words + "; please report it with " + f.Name()}
}

// sameSize drops a size message that says nothing new: each one repaints all.
func sameSize() func(tea.Model, tea.Msg) tea.Msg {
	var last tea.WindowSizeMsg
	return func(_ tea.Model, msg tea.Msg) tea.Msg {
		if size, ok := msg.(tea.WindowSizeMsg); ok {
			if size == last {
				return nil
			}
			last = size
		}
		return msg
	}
}
