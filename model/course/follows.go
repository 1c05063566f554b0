package course

import (
	"context"
	"fmt"
	"sort"

	"coilwalk/model/rotor"
	"coilwalk/sequence"
)

// Motor is the machine that a course is held against.
type Motor struct {
	Name      string
	Plant     rotor.Plant
	Estimated []string // figures that its file does not give, on which its rates hang
	Caution   bool     // so much is estimated that what it does not follow is no more than a caution
}

// ByItself is how many rows a motor is run along without being asked: some
// seconds' work.
const ByItself = 100_000

// Bounds on what of a long course is run.
const (
	startRows  = 300 // of a run, from rest
	mostStarts = 40  // runs, in the order of time
	causeRows  = 8   // a slip so many rows after a fault comes of it
	firstRows  = 12  // a slip so early in a run comes of its start
)

// Whole says whether a motor is run along all of a course without being asked.
func (c *Course) Whole() bool { return c.n <= ByItself }

// Hold runs a motor along the course and gives the verdict with what it does not
// follow. Of a long course only the beginnings of its first runs are looked at,
// unless whole says otherwise.
func (v *Verdict) Hold(ctx context.Context, m *Motor, whole bool) (*Verdict, error) {
	if err := m.Plant.Check(); err != nil {
		return nil, err
	}
	if !v.Course.Whole() && !whole {
		return v.With(ctx, m, nil)
	}
	ride := NewRide(v, &m.Plant)
	if v.cured == nil { // else With rides on the cured order
		if err := ride.Run(ctx, v.Course.n); err != nil {
			return nil, err
		}
	}
	return v.With(ctx, m, ride)
}

// With gives the verdict with what a motor does not follow, by a ride that is
// over; without one by the beginnings of the first runs.
func (v *Verdict) With(ctx context.Context, m *Motor, ride *Ride) (*Verdict, error) {
	with := *v
	with.Faults = append([]Fault(nil), v.Faults...)
	if v.cured != nil { // as it is wired it only shakes: the rest is told of the motor as it will be
		with.Taken, with.codes = *v.cured, codesOf(*v.cured, v.Active == Low)
		if ride != nil {
			ride = NewRide(&with, &m.Plant)
			if err := ride.Run(ctx, v.Course.n); err != nil {
				return nil, err
			}
		}
	}
	if ride == nil {
		with.LostWhy = fmt.Sprintf("the recording has %d rows, and the motor is run along %d by itself; --rotor runs it along all", v.Course.n, ByItself)
		if err := with.starts(ctx, m); err != nil {
			return nil, err
		}
	} else {
		slips, lost := ride.Slips()
		with.Lost = &lost
		if err := with.blame(slips, m); err != nil {
			return nil, err
		}
	}
	if v.cured != nil {
		with.Taken, with.codes, with.Lost = v.Taken, v.codes, nil
		with.LostWhy = "the outputs are in a wrong order, and as they are the motor goes nowhere; the rest is told of it with the order cured"
	}
	if err := with.turnedTooFast(m); err != nil {
		return nil, err
	}
	with.sort()
	return &with, nil
}

// starts runs the motor from rest through the beginnings of runs.
func (v *Verdict) starts(ctx context.Context, m *Motor) error {
	for k, run := range v.Runs {
		if k == mostStarts {
			break
		}
		part := &Verdict{Course: v.Course.part(run.first, min(run.last, run.first+startRows)), Active: v.Active, Taken: v.Taken, codes: v.codes}
		ride := NewRide(part, &m.Plant)
		if err := ride.Run(ctx, part.Course.n); err != nil {
			return err
		}
		slips, _ := ride.Slips()
		for i := range slips {
			slips[i].Row += run.first
		}
		if err := v.blame(slips[:min(1, len(slips))], m); err != nil {
			return err
		}
	}
	return nil
}

// part gives some rows as a course of their own.
func (c *Course) part(first, last int) *Course {
	out := &Course{Tick: c.Tick, First: c.Row(first).At, Until: c.Row(last).At + c.Dwell(last)}
	for i := first; i <= last; i++ {
		out.add(c.Row(i))
	}
	return out
}

// blame says what each slip comes of: a fault just before it, the start of its
// run, or a ramp. A fault early in a run hides whether it starts too fast as well.
func (v *Verdict) blame(slips []Slip, m *Motor) error {
	hidden := map[*Run]bool{}
	whole := map[*Run]float64{}
	for _, s := range slips {
		whole[v.runAt(s.Row)] += s.Steps
	}
	for _, s := range slips {
		run := v.runAt(s.Row)
		if v.comesOf(s) {
			if run != nil && s.Row-run.first <= firstRows {
				hidden[run] = true
			}
			continue
		}
		if run == nil {
			continue
		}
		f := Fault{Kind: "lost-steps", At: v.Course.Row(s.Row).At, raw: s.Row, Times: 1, Count: int(s.Steps), caution: m.Caution}
		f.Long = v.rateAbout(s.Row)
		atOnce := v.rateAbout(run.first+1) >= 0.95*v.rateAbout(s.Row) // it goes at its rate from the start
		switch early := s.Row-run.first <= firstRows || atOnce && s.Row < run.last; {
		case early && v.turned(run):
			f.Kind, f.At, f.raw, f.Long = "reversal", run.From, run.first, v.rateAbout(run.first)
		case early:
			f.Kind, f.At, f.raw, f.Long = "fast-start", run.From, run.first, v.rateAbout(run.first+1)
		case v.rateAbout(s.Row) > 1.02*v.rateAbout(max(run.first+1, s.Row-firstRows)):
			f.Kind = "steep-ramp"
		}
		f.Text, f.Cause, f.Cure = followWords(v, &f, whole[run], m)
		v.addSlip(f)
	}
	return v.startedTooFast(hidden, m)
}

// turned says whether a run begins as another ends, the other way round.
func (v *Verdict) turned(run *Run) bool {
	for i := 1; i < len(v.Runs); i++ {
		if &v.Runs[i] == run {
			before := &v.Runs[i-1]
			return run.first-before.last <= 1 && run.Direction == -before.Direction && run.Direction != sequence.Standing
		}
	}
	return false
}

// addSlip keeps one fault a run of each kind: a rotor that has lost its rows goes
// on losing them.
func (v *Verdict) addSlip(f Fault) {
	run := v.runAt(f.raw)
	for i := range v.Faults {
		o := &v.Faults[i]
		if (o.Kind == "fast-start" || o.Kind == "steep-ramp" || o.Kind == "lost-steps" || o.Kind == "reversal") && v.runAt(o.raw) == run {
			return
		}
	}
	f.Row = max(1, v.Numbers.Of(f.raw))
	v.Faults = append(v.Faults, f)
}

// comesOf looks for a fault that a slip follows from, and says so there.
func (v *Verdict) comesOf(s Slip) bool {
	for i := range v.Faults {
		f := &v.Faults[i]
		if f.Kind == "glitch" || f.Kind == "quantised-timer" || f.Kind == "outputs-permuted" {
			continue
		}
		over := f.raw
		if f.Until > f.At {
			over = v.Course.Find(f.Until)
		}
		if s.Row >= f.raw-1 && s.Row <= over+causeRows || f.Kind == "no-order" {
			f.lost += s.Steps
			return true
		}
	}
	return false
}

// runAt gives the run that has a row, or has just ended.
func (v *Verdict) runAt(row int) *Run {
	k := sort.Search(len(v.Runs), func(i int) bool { return v.Runs[i].first > row }) - 1
	if k < 0 {
		return nil
	}
	return &v.Runs[k]
}

// rateAbout gives the rate about a row, in rows a second, of its own run.
func (v *Verdict) rateAbout(row int) float64 {
	run := v.runAt(row)
	if run == nil {
		return 0
	}
	from, to := max(run.first, row-2), min(run.last, row+2)
	if to <= from {
		return 0
	}
	return float64(to-from) / v.Course.Seconds(v.Course.Row(to).At-v.Course.Row(from).At)
}

const (
	turnCause = "A reversal is a stop and a start at once, and the load swings on."
	turnCure  = "Slow down below the start–stop rate before turning round."

	startCause = "A start above the start–stop rate, which falls with load and inertia."
	startCure  = "Start slower and speed up row by row: coilwalk rates says how fast it may start."
)

func (v *Verdict) told(kind string, raw int) bool {
	for _, f := range v.Faults {
		if f.Kind == kind && f.raw == raw {
			return true
		}
	}
	return false
}

func (m *Motor) estimates() string {
	if len(m.Estimated) == 0 {
		return ""
	}
	return fmt.Sprintf(" Its %s estimated.", listOf(m.Estimated))
}

func listOf(words []string) string {
	switch n := len(words); n {
	case 1:
		return words[0] + " is"
	default:
		text := words[0]
		for _, w := range words[1 : n-1] {
			text += ", " + w
		}
		return text + " and " + words[n-1] + " are"
	}
}

// followWords say what a motor does not follow, and that it comes to so many
// steps by the end of the run.
func followWords(v *Verdict, f *Fault, steps float64, m *Motor) (text, cause, cure string) {
	lost := fmt.Sprintf("%s loses %g full steps", m.Name, steps)
	if steps < 0 {
		lost = fmt.Sprintf("%s runs %g full steps ahead", m.Name, -steps)
	}
	run := v.runAt(f.raw)
	if f.Kind == "lost-steps" && run != nil && f.raw >= run.last {
		return fmt.Sprintf("It stops from %.0f rows a second at once, and %s.%s", f.Long, lost, m.estimates()),
			"A stop from above the start–stop rate: the load swings on.", "Slow down row by row before the last, as it should speed up before."
	}
	switch f.Kind {
	case "reversal":
		return fmt.Sprintf("It turns round at %.0f rows a second, and %s.%s", f.Long, lost, m.estimates()), turnCause, turnCure
	case "fast-start":
		return fmt.Sprintf("The run starts from rest at %.0f rows a second, and %s in the run.%s", f.Long, lost, m.estimates()),
			startCause, startCure
	case "steep-ramp":
		return fmt.Sprintf("It speeds up to %.0f rows a second faster than the rotor can, and %s from here on.%s", f.Long, lost, m.estimates()),
			"A ramp that asks more torque than is left at this rate.", "A longer ramp, or a higher supply; coilwalk rates says what it follows."
	}
	return fmt.Sprintf("At %.0f rows a second %s here.%s", f.Long, lost, m.estimates()), "A rate above the pull-out rate, a resonance, or a load that is too great.",
		"Another rate or step mode, or less load; coilwalk rates says what it follows."
}
