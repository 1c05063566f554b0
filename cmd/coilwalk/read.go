package main

import (
	"errors"
	"strings"

	"github.com/spf13/cobra"

	"coilwalk/model/course"
	"coilwalk/model/motor"
	"coilwalk/model/quantity"
	"coilwalk/model/recording"
	"coilwalk/model/table"
	"coilwalk/sequence"
)

// readFlags are the options that say how a recording is to be read, and what it
// is held against.
type readFlags struct {
	machineFlags
	channels, wiring, pins string
	active, at, direction  choice
	sampleRate             float64
	threshold, hysteresis  quantity.Voltage
	rotor                  bool

	rows         bool // of the command alone
	from, to     quantity.Time
	edge, enable choice
	divide       int
	setup, pulse quantity.Time
}

func (f *readFlags) add(c *cobra.Command) {
	f.active = choice{"", []string{"high", "low"}}
	f.direction = choice{"", []string{"forward", "reverse"}}
	c.Flags().StringVar(&f.wiring, "wiring", "", "the coil `ends` that outputs 1 to 4 drive, as A+,B+,A-,B-")
	c.Flags().StringVar(&f.pins, "pins", "", "what the channels are: coil-ends, two-line, phase-enable or step-direction (coil-ends)")
	c.Flags().Var(&f.active, "active", "the level that switches an output on: high, or low (found)")
	c.Flags().Var(&f.direction, "direction", "the way that most rows are meant to go, forward or reverse")
	f.addOwn(c)
	c.Flags().BoolVar(&f.rows, "rows", false, "write the rows as CSV, and nothing else")
	c.Flags().Var(&f.from, "from", "with --rows: from this time on, as 1.25s")
	c.Flags().Var(&f.to, "to", "with --rows: up to this time")
	f.addSteps(c)
}

// stepDirection is the kind of pins that are the lines of a driver module.
const stepDirection = "step-direction"

// addSteps adds the options for step and direction lines.
func (f *readFlags) addSteps(c *cobra.Command) {
	f.edge = choice{"rising", []string{"rising", "falling"}}
	f.enable = choice{"", []string{"high", "low"}}
	c.Flags().Var(&f.edge, "edge", "with step-direction: the edge of the step line that counts, rising or falling")
	c.Flags().Var(&f.enable, "enable", "with step-direction: the level of the enable line that lets the module work, high or low")
	c.Flags().IntVar(&f.divide, "divide", 0, "with step-direction: microsteps to a full step (1)")
	c.Flags().Var(&f.setup, "setup", "with step-direction: how long the direction must stand before a step, as 200ns")
	c.Flags().Var(&f.pulse, "pulse", "with step-direction: how long the step line must be active, and at rest, as 1us")
}

// addOwn adds the options that a step table has not as well.
func (f *readFlags) addOwn(c *cobra.Command) {
	f.at = choice{"inputs", []string{"inputs", "coils"}}
	c.Flags().StringVar(&f.channels, "channels", "", "of a recording: the `names` of the channels on outputs 1 to 4, as IN1,IN2,IN3,IN4 (found)")
	c.Flags().Var(&f.at, "at", "where it was probed: at the driver's inputs, or at the coils, where a sink that is on is low")
	c.Flags().Float64Var(&f.sampleRate, "sample-rate", 0, "of a CSV without times: rows a second")
	c.Flags().Var(&f.threshold, "threshold", "of a CSV with voltages: what is above is high, as 1.5V (found)")
	c.Flags().Var(&f.hysteresis, "hysteresis", "of a CSV with voltages: the band about the threshold in which a level stays, as 0.3V")
	c.Flags().BoolVar(&f.rotor, "rotor", false, "with --motor: run it along the whole recording, however long")
	f.machineFlags.add(c, "with --motor: ")
}

// options are what the recording's reader has to know.
func (f *readFlags) options(c *cobra.Command) (recording.Options, error) {
	if c.Flags().Changed("sample-rate") && !(f.sampleRate > 0 && f.sampleRate <= mostSampleRate) {
		return recording.Options{}, errors.New("--sample-rate takes rows a second, above 0 and up to 1e12, as 1000000")
	}
	if f.hysteresis.Base() < 0 {
		return recording.Options{}, errors.New("--hysteresis: a band can not be below 0; one is wanted as 0.3V")
	}
	return recording.Options{SampleRate: f.sampleRate, Threshold: f.threshold.Base(), Hysteresis: f.hysteresis.Base()}, nil
}

// mostSampleRate is faster than any recorder of pins.
const mostSampleRate = 1e12

// question gathers what the rows are held against; m is the motor that was
// named, nil without.
func (f *readFlags) question(m *motor.Motor) (q course.Question, err error) {
	if f.pins != "" {
		if q.Pins, err = table.ParsePins(f.pins); err != nil {
			return q, err
		}
	}
	switch f.active.value {
	case "high":
		q.Active = course.High
	case "low":
		q.Active = course.Low
	}
	if f.at.value == "coils" {
		if f.active.value != "" {
			return q, errors.New("--at coils says that a low level is on; leave --active out")
		}
		q.Active = course.Low
	}
	switch f.direction.value {
	case "forward":
		q.Direction = sequence.Forward
	case "reverse":
		q.Direction = sequence.Reverse
	}
	if m != nil {
		wiring := m.Wiring
		q.Wiring = &wiring
		for k := range q.Leads {
			q.Leads[k] = string(m.Output(wiring, k))
		}
	}
	wiring, err := parseWiring(f.wiring)
	if wiring != nil {
		q.Wiring, q.Leads = wiring, [4]string{}
	}
	if err == nil && q.Direction != sequence.Standing && q.Wiring == nil {
		err = errors.New("--direction needs the wiring, as the same rows turn either way by how the coils are wired; give --wiring or --motor")
	}
	return q, err
}

// channelNames parts the names of --channels.
func (f *readFlags) channelNames() (names []string) {
	for _, n := range strings.Split(f.channels, ",") {
		if n = strings.TrimSpace(n); n != "" {
			names = append(names, n)
		}
	}
	return names
}

// machine puts the motor that was named behind its driver stage, ready to be run
// along the rows.
func (p *program) machine(m *motor.Motor, f *machineFlags) (*course.Motor, error) {
	plant, estimates, d, err := p.plant(*m, f)
	if err == nil && d.Turned { // the rows were recorded of the drive that the motor has
		err = d.Stage.Allows(m.Drive)
	}
	if err != nil {
		return nil, err
	}
	out := &course.Motor{Name: m.Name, Plant: plant}
	for _, e := range estimates {
		out.Estimated = append(out.Estimated, strings.ReplaceAll(e.Figure, "_", " "))
		out.Caution = out.Caution || e.Figure == "inertia" // of all of them the rates hang on it most
	}
	return out, nil
}

// named gives the motor that the person named, and nil where the built-in one
// stands for it: no verdict rests on that.
func (p *program) named(c *cobra.Command) (*motor.Motor, error) {
	if !c.Flags().Changed("motor") {
		return nil, nil
	}
	m, err := p.openMotor()
	return &m, err
}

func (p *program) readCommand() *cobra.Command {
	var f readFlags
	c := &cobra.Command{
		Use:   "read RECORDING",
		Short: "Say what a recording of the driver's pins shows, and what is wrong in it",
		Long: `Read what a logic analyser or a simulator recorded of the four pins that drive a
motor, VCD or CSV, plain or packed (gzip, zstd), and say what the firmware really
sends: runs of one mode and direction, their rates, pauses, the position; and what
is wrong, at which time and row, what usually makes it, and what cures it.

Probe the driver's inputs. A coil's end swings to the motor's supply and, without
a clamp, to about twice that: more than the inputs of an analyser bear.

Ends with status 1 when there are faults.`,
		Example: "  coilwalk read pins.vcd\n  coilwalk read pins.csv --sample-rate 1000000 --motor my-motor.toml\n  zcat pins.vcd.gz | coilwalk read - --channels IN1,IN2,IN3,IN4",
		Args:    exactly("recording, or - for standard input,"),
		RunE: func(c *cobra.Command, args []string) error {
			if err := f.fits(c, p.json); err != nil {
				return err
			}
			if f.rows {
				return p.readRows(c, args[0], &f)
			}
			answer, err := p.read(c, args[0], &f)
			if err != nil {
				return err
			}
			if err := p.tell(answer); err != nil {
				return err
			}
			if !answer.Clean() {
				return errFinding
			}
			return nil
		},
	}
	f.add(c)
	return c
}
