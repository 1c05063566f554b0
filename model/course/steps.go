package course

import (
	"context"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"

	"coilwalk/model/files"
	"coilwalk/model/recording"
	"coilwalk/sequence"
)

// StepLines says what is known of the step, direction and enable lines of a
// driver module. Limits that are zero are not known: what was seen is then told,
// and not judged.
type StepLines struct {
	Falling bool    // the edge of the step line that counts
	Enable  Level   // that lets the module work; Unsaid when nobody knows
	Divide  int     // microsteps to a full step
	Setup   float64 // s: the direction must stand so long before a step
	Pulse   float64 // s: the step line must be high, and low, so long
	Reverse bool    // a high direction line is reverse
}

// StepTrain is what a module was told to do.
type StepTrain struct {
	Lines     []string // the channels: step, direction, and enable where there is one
	Tick      float64  // seconds
	From, To  int64    // ticks
	Forward   int64    // steps
	Backward  int64
	Disabled  int64 // steps while the enable line forbids it
	Runs      []Run
	Pauses    []Pause
	Setup     float64 // s: the shortest time that the direction stood before a step; 0 when it never changed
	Hold      float64 // s: the shortest time that it stood after one
	Pulse     float64 // s: the shortest that the step line was active
	Rest      float64 // s: the shortest that it was not, within a run
	Runts     int64   // pulses that are far shorter than is usual
	Faults    []Fault
	Enabled   float64 // share of the time, where the level is known
	MoreFault int
}

// runtShare of the usual pulse: a shorter one is a runt.
const runtShare = 0.2

// ReadSteps follows a step line. The channels are step, direction and perhaps
// enable.
func ReadSteps(ctx context.Context, r *recording.Reader, names []string, q StepLines) (*StepTrain, error) {
	chosen, err := stepChannels(r, names)
	if err != nil {
		return nil, err
	}
	if err := r.Watch(chosen); err != nil {
		return nil, err
	}
	s := &stepper{lines: q, train: &StepTrain{Tick: r.Tick}, setup: math.MaxInt64, hold: math.MaxInt64, active: math.MaxInt64, rest: math.MaxInt64, has: len(chosen) > 2}
	for _, n := range chosen {
		s.train.Lines = append(s.train.Lines, r.Channels[n].Name)
	}
	batch := make([]recording.Sample, 1<<13)
	for err == nil {
		var n int
		n, err = r.Next(batch)
		for i := range batch[:n] {
			s.sample(&batch[i])
		}
		if ctx.Err() != nil {
			return nil, ctx.Err()
		}
	}
	if !errors.Is(err, io.EOF) {
		return nil, err
	}
	return s.end(r.Until()), nil
}

func stepChannels(r *recording.Reader, names []string) ([]int, error) {
	if len(names) == 0 {
		if n := len(r.Channels); n != 2 && n != 3 {
			return nil, &files.Complaint{File: r.Name(), What: fmt.Sprintf("it has %d channels", n), Right: "name the step line, the direction line and, if it was recorded, the enable line with --channels; there are " + listed(r.Channels)}
		}
		return upTo(len(r.Channels)), nil
	}
	if len(names) != 2 && len(names) != 3 {
		return nil, &files.Complaint{What: fmt.Sprintf("--channels names %d channels", len(names)), Right: "the step line, the direction line and, if it was recorded, the enable line are wanted"}
	}
	return named(r, names, len(names))
}

// stepper goes through the samples.
type stepper struct {
	lines StepLines
	train *StepTrain
	has   bool // there is an enable line
	began bool
	last  recording.Sample

	turned     int64 // tick at which the direction last changed
	changed    bool  // it has
	stepped    int64 // tick of the last step
	way        sequence.Direction
	edge       int64 // tick at which the step line last moved
	moves      bool  // it has
	intervals  []int64
	pulses     []int64 // how long it was active, as far as they are kept
	steps      int64
	run        *Run
	setup      int64
	hold       int64
	active     int64
	rest       int64
	enabled    int64
	since      int64
	awaitsHold bool
}

// Bits of the samples.
const (
	stepBit = 1 << iota
	directionBit
	enableBit
)

func (s *stepper) sample(now *recording.Sample) {
	if !s.began {
		s.began, s.last, s.train.From, s.since = true, *now, now.At, now.At
		return
	}
	moved := (now.High ^ s.last.High) &^ (now.Unknown | s.last.Unknown)
	if s.on(s.last) {
		s.enabled += now.At - s.since
	}
	s.since = now.At
	if moved&directionBit != 0 {
		if s.awaitsHold {
			s.hold = min(s.hold, now.At-s.stepped)
			s.awaitsHold = false
		}
		s.turned, s.changed = now.At, true
	}
	if moved&stepBit != 0 {
		s.stepEdge(now)
	}
	s.last = *now
}

// on says whether the module may work.
func (s *stepper) on(at recording.Sample) bool {
	if !s.has || s.lines.Enable == Unsaid {
		return true
	}
	return (at.High&enableBit != 0) == (s.lines.Enable == High)
}

func (s *stepper) stepEdge(now *recording.Sample) {
	active := (now.High&stepBit != 0) != s.lines.Falling
	if s.moves {
		long := now.At - s.edge
		if !active {
			s.active = min(s.active, long)
			if len(s.pulses) < mostIntervals {
				s.pulses = append(s.pulses, long)
			}
			s.limit(s.lines.Pulse, long, "runt", now.At)
		} else if s.run != nil {
			s.rest = min(s.rest, long)
			s.limit(s.lines.Pulse, long, "runt", now.At)
		}
	}
	s.edge, s.moves = now.At, true
	if active {
		s.step(now)
	}
}

// limit keeps a fault where a time is shorter than it may be.
func (s *stepper) limit(least float64, long int64, kind string, at int64) {
	if least <= 0 || float64(long)*s.train.Tick >= least*(1-1e-9) {
		return
	}
	if len(s.train.Faults) >= mostFaults {
		s.train.MoreFault++
		return
	}
	s.train.Faults = append(s.train.Faults, Fault{Kind: kind, At: at, Row: s.steps, Times: 1, Long: float64(long) * s.train.Tick, Usual: least})
}

func (s *stepper) step(now *recording.Sample) {
	s.steps++
	way := sequence.Forward
	if (now.High&directionBit != 0) == s.lines.Reverse {
		way = sequence.Reverse
	}
	if !s.on(*now) {
		s.train.Disabled++
		return
	}
	if way == sequence.Forward {
		s.train.Forward++
	} else {
		s.train.Backward++
	}
	if s.changed && s.turned > s.stepped {
		long := now.At - s.turned
		s.setup = min(s.setup, long)
		s.limit(s.lines.Setup, long, "short-setup", now.At)
	}
	interval := now.At - s.stepped
	usual := int64(math.MaxInt64)
	if n := len(s.intervals); n > 0 {
		usual = s.intervals[n-1]
	}
	switch {
	case s.run != nil && way == s.way && float64(interval) <= pauseTimes*float64(usual):
		s.intervals = append(s.intervals, interval)
		s.run.Rows++
		s.run.To = now.At
	default:
		if s.run != nil {
			s.closeRun()
		}
		if s.stepped > 0 && usual < math.MaxInt64 && float64(interval) > pauseTimes*float64(usual) {
			s.train.Pauses = append(s.train.Pauses, Pause{From: s.stepped, To: now.At, Held: true})
		}
		s.run = &Run{Mode: "micro", Direction: way, From: now.At, To: now.At, Row: s.steps, Rows: 1}
	}
	s.way, s.stepped, s.awaitsHold = way, now.At, true
}

func (s *stepper) closeRun() {
	if n := len(s.intervals); n > 0 {
		slices.Sort(s.intervals)
		rate := func(d int64) float64 { return 1 / (float64(max(d, 1)) * s.train.Tick) }
		s.run.Least, s.run.Median, s.run.Most = rate(s.intervals[n-1]), rate(s.intervals[n/2]), rate(s.intervals[0])
	}
	s.intervals = s.intervals[:0]
	if s.lines.Divide <= 1 {
		s.run.Mode = "full"
	}
	if len(s.train.Runs) < mostRuns {
		s.train.Runs = append(s.train.Runs, *s.run)
	}
	s.run = nil
}

func (s *stepper) end(until int64) *StepTrain {
	t := s.train
	if s.run != nil {
		s.closeRun()
	}
	if s.on(s.last) {
		s.enabled += until - s.since
	}
	t.To = until
	if all := until - t.From; all > 0 {
		t.Enabled = float64(s.enabled) / float64(all)
	}
	seconds := func(d int64) float64 {
		if d == math.MaxInt64 {
			return 0
		}
		return float64(d) * t.Tick
	}
	t.Setup, t.Hold, t.Pulse, t.Rest = seconds(s.setup), seconds(s.hold), seconds(s.active), seconds(s.rest)
	if n := len(s.pulses); n > 0 {
		usual := slices.Clone(s.pulses)
		slices.Sort(usual)
		for _, p := range usual {
			if float64(p) < runtShare*float64(usual[n/2]) {
				t.Runts++
			}
		}
	}
	if t.Disabled > 0 {
		t.Faults = append(t.Faults, Fault{Kind: "disabled", Times: int(t.Disabled)})
	}
	for i := range t.Faults {
		t.say(&t.Faults[i])
	}
	return t
}

// Position gives where the module was told to go, in full steps.
func (t *StepTrain) Position(divide int) float64 {
	return float64(t.Forward-t.Backward) / float64(max(divide, 1))
}

func (t *StepTrain) say(f *Fault) {
	switch f.Kind {
	case "runt":
		f.Text = fmt.Sprintf("The step line stands for %s only; %s at least is wanted.", Duration(f.Long), Duration(f.Usual))
		f.Cause, f.Cure = "The line is set and cleared with nothing between.", "Wait between the two edges, or let a timer make the pulse."
	case "short-setup":
		f.Text = fmt.Sprintf("The direction changes %s before a step; %s at least is wanted.", Duration(f.Long), Duration(f.Usual))
		f.Cause, f.Cure = "Direction and step are written one right after the other.", "Wait after a change of direction, or change it right after the step before."
	case "disabled":
		f.Text = fmt.Sprintf("%d steps come while the enable line keeps the module off: it does not count them.", f.Times)
		f.Cause, f.Cure = "The enable line has the other active level, or is set too late.", "Set the line before the first step; many modules work with it low."
	}
}
