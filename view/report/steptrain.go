package report

import (
	"fmt"
	"strings"

	"coilwalk/model/course"
	"coilwalk/model/motor"
)

// StepTrain is the answer of the command "read" for step and direction lines.
type StepTrain struct {
	Coilwalk int         `json:"coilwalk"`
	File     string      `json:"file"`
	Format   string      `json:"format"`
	Channels []string    `json:"channels"`
	Outputs  []string    `json:"outputs"` // step, direction, enable
	Divide   int         `json:"divide"`
	Sound    bool        `json:"sound"`
	Forward  int64       `json:"steps_forward"`
	Backward int64       `json:"steps_reverse"`
	Disabled int64       `json:"steps_disabled"`
	Position float64     `json:"position_steps"`
	ShaftDeg *float64    `json:"position_shaft_deg"`
	Runs     []ReadRun   `json:"runs"`
	Pauses   []ReadPause `json:"pauses"`
	SetupS   *float64    `json:"setup_min_s"`
	HoldS    *float64    `json:"hold_min_s"`
	PulseS   *float64    `json:"pulse_min_s"`
	RestS    *float64    `json:"rest_min_s"`
	Runts    int64       `json:"runts"`
	Enabled  *float64    `json:"enabled"` // share of the time
	Faults   []ReadFault `json:"faults"`
	Notes    []string    `json:"notes"`
	motor    *motor.Motor
	read     Read
}

// NewStepTrain gathers what was found. Notes come with what was not judged.
func NewStepTrain(of Recorded, q course.StepLines, t *course.StepTrain) StepTrain {
	s := StepTrain{Coilwalk: Version, File: of.File, Format: of.Recording.Format, Channels: []string{}, Outputs: t.Lines, Divide: max(1, q.Divide),
		Sound: len(t.Faults) == 0, Forward: t.Forward, Backward: t.Backward, Disabled: t.Disabled, Position: t.Position(q.Divide),
		Runs: []ReadRun{}, Pauses: []ReadPause{}, SetupS: positive(t.Setup), HoldS: positive(t.Hold), PulseS: positive(t.Pulse), RestS: positive(t.Rest),
		Runts: t.Runts, Faults: []ReadFault{}, Notes: append([]string{}, of.Recording.Notes()...), motor: of.Motor}
	for _, c := range of.Recording.Channels {
		s.Channels = append(s.Channels, c.Name)
	}
	at := func(tick int64) float64 { return moment(float64(tick) * t.Tick) }
	for _, run := range t.Runs {
		s.Runs = append(s.Runs, ReadRun{run.Mode, run.Direction.String(), at(run.From), at(run.To), run.Row, run.Rows, positive(run.Least), positive(run.Median), positive(run.Most)})
	}
	for _, p := range t.Pauses {
		s.Pauses = append(s.Pauses, ReadPause{at(p.From), at(p.To), p.Held})
	}
	for _, f := range t.Faults {
		s.Faults = append(s.Faults, ReadFault{Kind: f.Kind, TimeS: at(f.At), Row: f.Row, Channels: []string{}, Times: f.Times, Text: f.Text, Cause: f.Cause, Cure: f.Cure})
	}
	if of.Motor != nil {
		deg := degrees(s.Position * 360 / steps(*of.Motor))
		s.ShaftDeg = &deg
	}
	if q.Enable != course.Unsaid && len(t.Lines) > 2 {
		s.Enabled = &t.Enabled
	}
	s.notes(q, t)
	s.read = Read{Runs: s.Runs, Pauses: s.Pauses, Faults: s.Faults, MoreFaults: t.MoreFault}
	return s
}

func (s *StepTrain) notes(q course.StepLines, t *course.StepTrain) {
	if q.Divide == 0 {
		s.Notes = append(s.Notes, "A step was counted as a full step: --divide says how many microsteps the module makes of one.")
	}
	s.Notes = append(s.Notes, "A high direction line was taken for forward; which way the shaft turns hangs on the wiring.")
	if q.Setup == 0 && q.Pulse == 0 {
		s.Notes = append(s.Notes, "Times are told and not judged: --setup and --pulse give the limits of your module's data sheet.")
	}
	if len(t.Lines) > 2 && q.Enable == course.Unsaid {
		s.Notes = append(s.Notes, "Steps were counted whatever the enable line says: --enable high or low says which level lets the module work.")
	}
}

// Text writes the answer in plain words.
func (s StepTrain) Text() string {
	var b strings.Builder
	judged := "sound"
	switch n := len(s.Faults) + s.read.MoreFaults; {
	case n == 1:
		judged = "a fault"
	case n > 1:
		judged = fmt.Sprintf("%d faults", n)
	}
	fmt.Fprintf(&b, "%s: %s: %s steps forward, %s in reverse\n", s.File, judged, Count(s.Forward), Count(s.Backward))
	fmt.Fprintf(&b, "\n%s; step, direction and enable lines: %s\n", s.Format, strings.Join(s.Outputs, ", "))
	fmt.Fprintf(&b, "position %s full steps, at %d steps to a full one", Signed(s.Position, 3), s.Divide)
	if s.ShaftDeg != nil {
		fmt.Fprintf(&b, ", %s° at the shaft of %s", Signed(*s.ShaftDeg, 2), s.motor.Name)
	}
	fmt.Fprintln(&b)
	for _, time := range []struct {
		seconds *float64
		words   string
	}{{s.SetupS, "the direction stands %s at least before a step\n"}, {s.HoldS, "and %s at least after one\n"},
		{s.PulseS, "the step line is active for %s at least\n"}, {s.RestS, "and at rest for %s at least between steps\n"}} {
		if time.seconds != nil {
			fmt.Fprintf(&b, time.words, Lasting(*time.seconds))
		}
	}
	if s.Runts > 0 {
		fmt.Fprintf(&b, "%s pulses are less than a fifth as long as is usual: runts\n", Count(s.Runts))
	}
	if s.Enabled != nil {
		fmt.Fprintf(&b, "enabled %.0f %% of the time\n", 100**s.Enabled)
	}
	s.read.writeFaults(&b)
	s.read.writeRuns(&b)
	for _, n := range s.Notes {
		fmt.Fprintf(&b, "note: %s\n", n)
	}
	return b.String()
}

// Clean says whether nothing is wrong.
func (s StepTrain) Clean() bool { return s.Sound }

// Clean says whether nothing is wrong, cautions apart.
func (r Read) Clean() bool { return r.Sound }
