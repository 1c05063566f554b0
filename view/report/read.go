package report

import (
	"fmt"
	"math"
	"strings"

	"coilwalk/model/course"
	"coilwalk/model/motor"
	"coilwalk/model/recording"
	"coilwalk/sequence"
)

// Read is the answer of the command "read": what a recording shows of a motor's
// four outputs.
type Read struct {
	Coilwalk   int           `json:"coilwalk"`
	File       string        `json:"file"`
	Format     string        `json:"format"`
	Channels   []string      `json:"channels"` // all that were recorded
	Outputs    []string      `json:"outputs"`  // the channel on each output
	Why        string        `json:"why"`      // these
	Active     string        `json:"active"`
	ActiveFrom string        `json:"active_from"`
	Wirings    []CheckWiring `json:"wirings"`
	Wiring     []string      `json:"wiring"`
	Taken      []string      `json:"taken"`
	Sound      bool          `json:"sound"`
	Rows       int64         `json:"rows"`
	FromS      float64       `json:"from_s"`
	ToS        float64       `json:"to_s"`
	SkewS      float64       `json:"skew_s"`
	Runs       []ReadRun     `json:"runs"`
	Pauses     []ReadPause   `json:"pauses"`
	Faults     []ReadFault   `json:"faults"`
	MoreFaults int           `json:"more_faults"`
	Position   *float64      `json:"position_steps"`
	ShaftDeg   *float64      `json:"position_shaft_deg"`
	Lost       *float64      `json:"lost_steps"`
	LostWhy    string        `json:"lost_steps_why"`
	Notes      []string      `json:"notes"`
	verdict    *course.Verdict
	motor      *motor.Motor
}

// ReadRun is rows of one mode in one direction.
type ReadRun struct {
	Mode      string   `json:"mode"`
	Direction string   `json:"direction"`
	FromS     float64  `json:"from_s"`
	ToS       float64  `json:"to_s"`
	Row       int64    `json:"row"`
	Rows      int64    `json:"rows"`
	Least     *float64 `json:"rate_min"`
	Median    *float64 `json:"rate_median"`
	Most      *float64 `json:"rate_max"`
}

// ReadPause is the time between two runs.
type ReadPause struct {
	FromS float64 `json:"from_s"`
	ToS   float64 `json:"to_s"`
	Held  bool    `json:"held"`
}

// ReadFault is something wrong.
type ReadFault struct {
	Kind     string   `json:"kind"`
	TimeS    float64  `json:"time_s"`
	Row      int64    `json:"row"`
	Channels []string `json:"channels"`
	Times    int      `json:"times"`
	Caution  bool     `json:"caution"` // it rests on estimated figures of the motor
	Text     string   `json:"text"`
	Cause    string   `json:"cause"`
	Cure     string   `json:"cure"`
}

// Recorded is what is known of a recording besides the verdict on it.
type Recorded struct {
	File      string
	Recording *recording.Reader
	Choice    course.Choice
	Motor     *motor.Motor // that the person named; nil without
}

// NewRead gathers what was found in a recording.
func NewRead(of Recorded, v *course.Verdict) Read {
	r := Read{Coilwalk: Version, File: of.File, Format: of.Recording.Format, Channels: []string{}, Outputs: of.Choice.Channels, Why: of.Choice.Why,
		Active: levelWords[v.Active], ActiveFrom: v.ActiveFrom, Wirings: []CheckWiring{}, Taken: ends(v.Taken), Sound: v.Sound,
		FromS: moment(v.Course.Seconds(v.Course.First)), ToS: moment(v.Course.Seconds(v.Course.Until)), SkewS: v.Skew,
		Runs: []ReadRun{}, Pauses: []ReadPause{}, Faults: []ReadFault{}, MoreFaults: v.More, Position: v.Position, Lost: v.Lost, LostWhy: v.LostWhy,
		Notes: append(append([]string{}, of.Recording.Notes()...), v.Notes...), verdict: v, motor: of.Motor}
	r.Rows = v.Rows()
	for _, p := range v.Pairings {
		r.Wirings = append(r.Wirings, CheckWiring(p))
	}
	if v.Wiring != nil {
		r.Wiring = ends(*v.Wiring)
	}
	seconds := func(at int64) float64 { return moment(v.Course.Seconds(at)) }
	for _, run := range v.Runs {
		r.Runs = append(r.Runs, ReadRun{run.Mode, run.Direction.String(), seconds(run.From), seconds(run.To), run.Row, run.Rows, positive(run.Least), positive(run.Median), positive(run.Most)})
	}
	for _, p := range v.Pauses {
		r.Pauses = append(r.Pauses, ReadPause{seconds(p.From), seconds(p.To), p.Held})
	}
	for _, f := range v.Faults {
		fault := ReadFault{Kind: f.Kind, TimeS: seconds(f.At), Row: f.Row, Channels: []string{}, Times: f.Times, Caution: f.Caution(), Text: f.Text, Cause: f.Cause, Cure: f.Cure}
		for _, o := range f.Outputs {
			fault.Channels = append(fault.Channels, v.Channels[o-1])
		}
		r.Faults = append(r.Faults, fault)
	}
	for _, c := range of.Recording.Channels {
		r.Channels = append(r.Channels, c.Name)
	}
	if of.Motor == nil {
		r.LostWhy = "no motor was named: --motor says which one follows these rows"
	} else if v.Position != nil {
		deg := degrees(*v.Position * 360 / steps(*of.Motor))
		r.ShaftDeg = &deg
	}
	return r
}

// steps is the full steps of a motor's shaft turn.
func steps(m motor.Motor) float64 {
	n, _ := m.StepsPerShaftTurn(sequence.Full).Float64()
	return n
}

var levelWords = map[course.Level]string{course.High: "high", course.Low: "low"}

// moment rounds a time for JSON to a picosecond, below what any recorder knows.
func moment(seconds float64) float64 { return math.Round(seconds*1e12) / 1e12 }

func positive(v float64) *float64 {
	if v <= 0 {
		return nil
	}
	return &v
}

// Clock writes a moment of a recording: as many decimals as tell its rows apart.
func Clock(seconds float64) string {
	sign := ""
	if seconds < 0 {
		sign, seconds = "-", -seconds
	}
	if seconds < 60 {
		return fmt.Sprintf("%s%.6f s", sign, seconds)
	}
	minutes := int(seconds) / 60
	rest := seconds - float64(60*minutes)
	if minutes < 60 {
		return fmt.Sprintf("%s%d:%09.6f", sign, minutes, rest)
	}
	return fmt.Sprintf("%s%d:%02d:%09.6f", sign, minutes/60, minutes%60, rest)
}

// PerSecond writes a rate.
func PerSecond(rate float64) string {
	if rate >= 1000 {
		return Count(int64(math.Round(rate)))
	}
	return fmt.Sprintf("%.4g", rate)
}

// Lasting writes a time with three digits and its unit, from two minutes on in
// minutes and hours.
func Lasting(seconds float64) string {
	switch {
	case seconds < 120:
		return course.Duration(seconds)
	case seconds < 7200:
		return fmt.Sprintf("%d min %d s", int(seconds)/60, int(seconds)%60)
	}
	hours := math.Floor(seconds / 3600)
	if hours > 1e9 { // a timescale that is wrong: more hours than can be counted
		return fmt.Sprintf("%.3g h", hours)
	}
	return fmt.Sprintf("%.0f h %.0f min", hours, math.Floor(math.Mod(seconds, 3600)/60))
}

// mostLines of runs and pauses are written in full.
const mostLines = 24

// Text writes the answer in plain words.
func (r Read) Text() string {
	var b strings.Builder
	b.WriteString(r.Summary())
	r.writeFaults(&b)
	r.writeRuns(&b)
	for _, n := range r.Notes {
		fmt.Fprintf(&b, "note: %s\n", n)
	}
	return b.String()
}

// Summary says all but the faults, the runs and the notes.
func (r Read) Summary() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s: %s\n", r.File, r.Judgement())
	fmt.Fprintf(&b, "\n%s, %s of it; outputs 1 to %d: %s (%s)\n", r.Format, Lasting(r.ToS-r.FromS), len(r.Outputs), strings.Join(r.Outputs, ", "), r.Why)
	fmt.Fprintf(&b, "a %s level is on (%s); taken for the coil ends %s\n", r.Active, r.ActiveFrom, strings.Join(r.Taken, ", "))
	fmt.Fprintf(&b, "%s rows", Count(r.Rows))
	if r.Position != nil {
		fmt.Fprintf(&b, "; commanded position %s full steps", Signed(*r.Position, 1))
	}
	if r.ShaftDeg != nil {
		fmt.Fprintf(&b, ", %s° at the shaft of %s", Signed(*r.ShaftDeg, 2), r.motor.Name)
	}
	fmt.Fprintf(&b, "\n")
	if r.SkewS > 0 {
		fmt.Fprintf(&b, "the pins of a row move within %s\n", Lasting(r.SkewS))
	}
	switch {
	case r.motor == nil:
	case r.Lost == nil:
		fmt.Fprintf(&b, "lost steps: not known; %s\n", r.LostWhy)
	case *r.Lost == 0:
		fmt.Fprintf(&b, "%s, run along it, loses no step\n", r.motor.Name)
	default:
		side := "behind"
		if *r.Lost*direction(r.Position) < 0 {
			side = "ahead"
		}
		fmt.Fprintf(&b, "%s, run along it, ends %s full steps %s of where it is commanded to\n", r.motor.Name, Fixed(math.Abs(*r.Lost), 0), side)
	}
	return b.String()
}

// direction gives 1, or −1 for a move that goes back.
func direction(position *float64) float64 {
	if position != nil && *position < 0 {
		return -1
	}
	return 1
}

// Judgement says in a line what is found.
func (r Read) Judgement() string {
	if len(r.Runs) == 0 && r.Sound {
		return "nothing moves in it"
	}
	modes := map[string]bool{}
	var parts []string
	for _, run := range r.Runs {
		if !modes[run.Mode] {
			modes[run.Mode] = true
			parts = append(parts, modeTitle(run.Mode))
		}
	}
	what := strings.Join(parts, ", ")
	if r.Sound && len(r.Faults) > 0 {
		if r.Lost != nil && *r.Lost != 0 {
			return "a caution: the rows are in order, but " + r.motor.Name + ", on estimated figures, does not follow them: " + what
		}
		return "sound, with a caution: " + what
	}
	if r.Sound {
		return "sound: " + what
	}
	if n := r.faults(); n > 1 {
		return fmt.Sprintf("%d faults in %s", n, what)
	}
	return "a fault in " + what
}

// faults counts those that are no cautions.
func (r Read) faults() (n int) {
	for _, f := range r.Faults {
		if !f.Caution {
			n++
		}
	}
	return n + r.MoreFaults
}

func (r Read) writeFaults(b *strings.Builder) {
	for i, f := range r.Faults {
		if i == mostLines {
			fmt.Fprintf(b, "\nand %d faults more; --json lists them\n", len(r.Faults)-i+r.MoreFaults)
			break
		}
		word := "fault"
		if f.Caution {
			word = "caution"
		}
		fmt.Fprintf(b, "\n%s: %s  at %s, row %s\n  %s\n", word, f.Kind, Clock(f.TimeS), Count(f.Row), f.Text)
		if f.Cause != "" {
			fmt.Fprintf(b, "  usually: %s\n", f.Cause)
		}
		if f.Cure != "" {
			fmt.Fprintf(b, "  cure: %s\n", f.Cure)
		}
	}
}

func (r Read) writeRuns(b *strings.Builder) {
	if len(r.Runs) == 0 {
		return
	}
	fmt.Fprintf(b, "\n"+runForm+"\n", "from", "lasts", "mode", "direction", "rows", "rows a second")
	for _, line := range RunLines(r, mostLines) {
		fmt.Fprintln(b, line)
	}
}

// runForm is the columns of a line on a run.
const runForm = "%-15s %10s  %-5s %-9s %9s  %s"

// RunLines writes a line for each run, and for each pause between runs; at most
// so many.
func RunLines(r Read, most int) (lines []string) {
	pause := 0
	for i, run := range r.Runs {
		for pause < len(r.Pauses) && r.Pauses[pause].ToS <= run.FromS {
			p := r.Pauses[pause]
			held := "coils off: nothing holds the rotor"
			if p.Held {
				held = "coils on: held, and warming"
			}
			lines = append(lines, fmt.Sprintf("%-15s %10s  pause, %s", Clock(p.FromS), Lasting(p.ToS-p.FromS), held))
			pause++
		}
		if len(lines) >= most-1 && i+1 < len(r.Runs) {
			return append(lines[:max(0, most-1)], fmt.Sprintf("and %s runs more", Count(int64(len(r.Runs)-i))))
		}
		lines = append(lines, fmt.Sprintf(runForm, Clock(run.FromS), Lasting(run.ToS-run.FromS), run.Mode, wayOf(run.Direction), Count(run.Rows), rates(run)))
	}
	return lines
}

// RunWords says each run, and each pause between runs, in words of its own.
func RunWords(r Read) (lines []string) {
	pause := 0
	for _, run := range r.Runs {
		for pause < len(r.Pauses) && r.Pauses[pause].ToS <= run.FromS {
			p := r.Pauses[pause]
			held := "coils off"
			if p.Held {
				held = "held, coils on"
			}
			lines = append(lines, fmt.Sprintf("pause of %s from %s: %s.", Lasting(p.ToS-p.FromS), Clock(p.FromS), held))
			pause++
		}
		words := fmt.Sprintf("%s, %s, %s rows from row %s, at %s, lasting %s", modeTitle(run.Mode), run.Direction, Count(run.Rows), Count(run.Row), Clock(run.FromS), Lasting(run.ToS-run.FromS))
		if rate := rates(run); rate != "" {
			words += "; rows a second: " + strings.Replace(rate, "…", "to", 1)
		}
		lines = append(lines, words+".")
	}
	return lines
}

func wayOf(direction string) string {
	if direction == sequence.Standing.String() {
		return "-"
	}
	return direction
}

// rates writes the rates of a run: one figure where it is steady.
func rates(run ReadRun) string {
	if run.Median == nil {
		return ""
	}
	if *run.Most < 1.15**run.Least {
		return PerSecond(*run.Median)
	}
	return fmt.Sprintf("%s … %s, mostly %s", PerSecond(*run.Least), PerSecond(*run.Most), PerSecond(*run.Median))
}
