package report

import (
	"fmt"
	"math"
	"math/big"
	"strconv"
	"strings"

	"coilwalk/model/motor"
	"coilwalk/model/rotor"
	"coilwalk/model/travel"
	"coilwalk/sequence"
)

// Ramp is the answer of the command "ramp": a move, when each of its rows is
// sent, and whether the motor follows.
type Ramp struct {
	Coilwalk  int          `json:"coilwalk"`
	Motor     string       `json:"motor"`
	Mode      string       `json:"mode"`
	Asked     string       `json:"asked"`
	Direction string       `json:"direction"`
	Rows      int64        `json:"rows"` // those for the play among them
	PlayRows  int64        `json:"play_rows"`
	OffDeg    float64      `json:"off_deg"` // of the shaft, from what was asked
	Shape     string       `json:"shape"`
	Start     float64      `json:"start_rate"`
	StartFrom string       `json:"start_from"` // given or model
	Rate      float64      `json:"rate"`
	Peak      float64      `json:"peak_rate"`
	Accel     float64      `json:"accel"`
	AccelFrom string       `json:"accel_from"` // given, model, or none: the model follows none
	Decel     float64      `json:"decel"`
	Seconds   float64      `json:"seconds"`
	UpRows    float64      `json:"up_rows"`
	DownRows  float64      `json:"down_rows"`
	Timer     RampTimer    `json:"timer"`
	Intervals []int64      `json:"intervals"` // ticks from each row to the next
	Method    string       `json:"method"`    // exact or recurrence
	Note      *RampApart   `json:"recurrence"`
	Strains   []RampStrain `json:"strains"`
	Follows   *RampFollows `json:"follows"`
	Forbids   *Forbids     `json:"forbids"` // what power says against the drive
	Stop      *RampStop    `json:"stop"`
	Estimated []string     `json:"estimated"`
	Notes     []string     `json:"notes"`
	profile   travel.Profile
	sheet     motor.Motor
	found     rotor.Rates
	perStep   int64
}

// RampTimer is the timer that counts the intervals.
type RampTimer struct {
	ClockHz  float64 `json:"clock_hz"`
	Prescale float64 `json:"prescale"`
	Bits     int     `json:"bits"`
	TicksS   float64 `json:"ticks_per_s"`
}

// RampApart is how far the recurrence is from the exact intervals.
type RampApart struct {
	Whole float64 `json:"whole"` // of the move's time, as a share
	Worst float64 `json:"worst"` // of a single interval
}

// RampStrain is what makes the timer unfit.
type RampStrain struct {
	Row  int64  `json:"row"`
	Text string `json:"text"`
	Cure string `json:"cure"`
}

// RampFollows is what the motor makes of the move.
type RampFollows struct {
	Followed bool     `json:"followed"`
	Lost     float64  `json:"lost_steps"`
	Row      *int64   `json:"row"`     // at which it first falls out of step
	AtS      *float64 `json:"at_s"`    // when
	AtRate   *float64 `json:"at_rate"` // and at which rate
	Kind     string   `json:"kind"`
	Holds    *float64 `json:"holds_rate"`   // the highest that such a move is followed with, where no acceleration to the one asked for is
	Accel    *float64 `json:"holds_accel"`  // and with which acceleration
	MoreLoad *float64 `json:"more_load_nm"` // at the shaft, that it still follows with
}

// RampStop is a stop that is asked for in the middle.
type RampStop struct {
	Row       int64   `json:"row"`
	Rows      int64   `json:"rows"` // still sent
	Intervals []int64 `json:"intervals"`
	Seconds   float64 `json:"seconds"`
}

// NewRamp begins the answer: the move and its profile.
func NewRamp(m motor.Motor, mode sequence.Mode, way sequence.Direction, asked string, sent travel.Sent, p travel.Profile) *Ramp {
	r := &Ramp{Coilwalk: Version, Motor: m.Name, Mode: mode.Name, Asked: asked, Direction: way.String(), Rows: p.Rows,
		PlayRows: new(big.Int).Abs(sent.Play).Int64(), Shape: p.Shape.String(), Start: degrees(p.Start), StartFrom: "given", Rate: p.Top, Peak: degrees(p.Peak),
		Accel: degrees(p.Accel), AccelFrom: "given", Decel: degrees(p.Decel), Seconds: moment(p.Seconds), UpRows: degrees(p.Up), DownRows: degrees(p.Down), Intervals: []int64{},
		Method: "exact", Strains: []RampStrain{}, Estimated: []string{}, Notes: []string{}, profile: p, sheet: m}
	off := new(big.Rat).Quo(sent.Off, m.StepsPerShaftTurn(mode))
	deg, _ := off.Mul(off, big.NewRat(360, 1)).Float64()
	r.OffDeg = degrees(deg)
	return r
}

// Count adds the intervals in a timer's ticks, by the exact way or by the
// recurrence, and what is wrong with them.
func (r *Ramp) Count(t travel.Timer, method string) {
	r.Timer = RampTimer{t.Clock, max(1, t.Prescale), t.Bits, t.Ticks()}
	r.Intervals, r.Method = r.profile.Intervals(t), method
	if r.profile.Start == 0 && r.profile.Shape == travel.Trapezoid && r.profile.Rows > 1 {
		other := r.profile.Recurrence(t)
		whole, worst := travel.Apart(r.Intervals, other)
		r.Note = &RampApart{degrees(whole), degrees(worst)}
		if method == "recurrence" {
			r.Intervals = other
		}
	}
	for _, s := range t.Fits(r.Intervals) {
		r.Strains = append(r.Strains, RampStrain{s.Row + 1, s.Text, s.Cure})
	}
}

// Follow adds what the motor makes of it, beside the rates that it follows.
func (r *Ramp) Follow(f travel.Followed, room float64, mode sequence.Mode, found rotor.Rates, estimates []rotor.Estimate) {
	r.found, r.perStep = found, int64(mode.PerStep)
	r.Follows = &RampFollows{Followed: f.Kind == "", Lost: f.Lost, Kind: r.profile.Cause(f, mode, found)}
	if f.Kind == "" {
		r.Follows.MoreLoad = &room
	} else {
		row, at, rate := f.At+1, moment(r.profile.At(f.At)), degrees(r.profile.Rate(f.At))
		r.Follows.Row, r.Follows.AtS, r.Follows.AtRate = &row, &at, &rate
	}
	for _, e := range estimates {
		r.Estimated = append(r.Estimated, strings.ReplaceAll(e.Figure, "_", " "))
	}
	switch {
	case f.Cut && f.Even && f.Kind == "":
		r.Notes = append(r.Notes, "Of the even middle only a part was run with the motor: once it turns evenly nothing new comes.")
	case f.Cut && f.Kind == "":
		r.Notes = append(r.Notes, "Of the even middle only a part was run with the motor, and a swing had not died out there: it may still fall out later.")
	case f.Cut:
		r.Notes = append(r.Notes, "Of the even middle only a part was run with the motor; what it loses in all is reckoned from that.")
	}
	if f.Kind == "" && r.Start < r.Peak && !found.GoesOn(r.profile.Peak) {
		r.Notes = append(r.Notes, fmt.Sprintf("Only so short a move gets to %s: at that rate the motor falls out of step after a while, and goes on at up to %s.", rows(r.Peak), rows(found.PullOut)))
	}
}

// Holds adds the highest rate that such a move is followed with, and an
// acceleration to it, where it is not with the one asked for.
func (r *Ramp) Holds(rate, accel float64) {
	if f := r.Follows; f != nil && rate > 0 {
		accel = degrees(accel)
		f.Holds, f.Accel = &rate, &accel
	}
}

// Break adds a stop at a row, from 1.
func (r *Ramp) Break(row int64, t travel.Timer) error {
	s, err := r.profile.Stop(row - 1)
	if err != nil {
		return err
	}
	r.Stop = &RampStop{Row: row, Rows: s.Rows - 1, Intervals: s.Intervals(t), Seconds: s.Seconds}
	return nil
}

// Clean says whether motor and timer do what is asked.
func (r *Ramp) Clean() bool { return len(r.Strains) == 0 && (r.Follows == nil || r.Follows.Followed) }

// Text writes the answer in plain words.
func (r *Ramp) Text() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s: %s rows of %s, %s, in %s\n", r.Asked, Count(r.Rows), modeTitle(r.Mode), r.Direction, Lasting(r.Seconds))
	if r.PlayRows > 0 {
		fmt.Fprintf(&b, "%d of them first take up the play of the train after the reversal\n", r.PlayRows)
	}
	if r.OffDeg != 0 {
		fmt.Fprintf(&b, "a row is no less: the shaft ends %s° off, and the next move makes up for it\n", Signed(r.OffDeg, 4))
	}
	fmt.Fprintln(&b)
	fmt.Fprintf(&b, "starts at   %8s rows/s%s\n", PerSecond(r.Start), r.startBy())
	fmt.Fprintf(&b, "goes up to  %8s rows/s", PerSecond(r.Peak))
	if r.Peak < r.Rate*(1-1e-9) {
		fmt.Fprintf(&b, ", as the move is too short for %s at this acceleration", PerSecond(r.Rate))
	}
	fmt.Fprintln(&b)
	if r.UpRows >= 1 {
		fmt.Fprintf(&b, "speeds up   %8s rows/s², over %.0f rows%s%s\n", PerSecond(r.Accel), r.UpRows, shapeOf(r.Shape), r.accelBy())
		fmt.Fprintf(&b, "slows down  %8s rows/s², over %.0f rows\n", PerSecond(r.Decel), r.DownRows)
	}
	fmt.Fprintf(&b, "\nin ticks of %s, from each row to the next:\n  %s\n", frequency(r.Timer.TicksS), travel.Listed(r.Intervals, 24))
	if r.Method == "recurrence" {
		fmt.Fprintln(&b, "by the recurrence, its first interval 0.676 times the exact one")
	} else if len(r.Intervals) > 0 {
		fmt.Fprintln(&b, "each row's own time is rounded, so no error adds up: at most half a tick at any row")
		r.writeCommand(&b)
	}
	if r.Note != nil && r.Method == "recurrence" {
		fmt.Fprintf(&b, "the recurrence differs by %s %% over the whole, %s %% at worst in one interval\n", Signed(100*r.Note.Whole, 2), Fixed(100*r.Note.Worst, 1))
	}
	for _, s := range r.Strains {
		fmt.Fprintf(&b, "\nfault: %s\n  cure: %s\n", s.Text, s.Cure)
	}
	r.writeFollows(&b)
	if r.Forbids != nil {
		fmt.Fprintf(&b, "caution: power says %s\n", r.Forbids.Short())
	}
	if s := r.Stop; s != nil && s.Rows == 0 {
		fmt.Fprintf(&b, "\na stop asked for at row %s: it goes no faster than it may stop at once, and stops there\n", Count(s.Row))
	} else if s != nil {
		fmt.Fprintf(&b, "\na stop asked for at row %s: rows still sent: %d, in %s\n  %s\n", Count(s.Row), s.Rows, Lasting(s.Seconds), travel.Listed(s.Intervals, 24))
	}
	for _, n := range r.Notes {
		fmt.Fprintf(&b, "note: %s\n", n)
	}
	return b.String()
}

// writeCommand tells the command that writes a stepping source with this ramp, where
// one does, and the motor is not seen to lose steps on it.
func (r *Ramp) writeCommand(b *strings.Builder) {
	lost := r.Follows != nil && !r.Follows.Followed || len(r.Strains) > 0
	broken := r.Timer.ClockHz != math.Trunc(r.Timer.ClockHz) || r.Timer.Prescale != math.Trunc(r.Timer.Prescale)
	if lost || broken || r.Mode == "micro" || r.Shape != travel.Trapezoid.String() || r.UpRows < 1 || r.Accel != r.Decel {
		return
	}
	start := ""
	if r.Start > 0 {
		start = " --start " + bare(r.Start)
	}
	fmt.Fprintf(b, "a file with such a ramp: coilwalk write c --stepper --mode %s%s --rate %s --accel %s --clock %sHz --prescale %s\n",
		r.Mode, start, bare(r.Peak), bare(r.Accel), strconv.FormatFloat(r.Timer.ClockHz, 'f', -1, 64), bare(r.Timer.Prescale))
}

func (r *Ramp) writeFollows(b *strings.Builder) {
	f := r.Follows
	if f == nil {
		return
	}
	fmt.Fprintln(b)
	if f.Followed {
		spare := "still would with a load of " + Fixed(1e3**f.MoreLoad, 1) + " mN.m more at the shaft"
		if 1e3**f.MoreLoad < 0.05 {
			spare = "just so: any load more at the shaft is too much"
		}
		fmt.Fprintf(b, "%s, run through it, follows, and %s\n", r.Motor, spare)
	} else {
		fmt.Fprintf(b, "fault: %s, run through it, falls out of step at row %s, after %s, at %s, and ends %s full steps %s: %s\n", r.Motor, Count(*f.Row), Lasting(*f.AtS), rows(*f.AtRate),
			Fixed(math.Abs(f.Lost), 0), sideOf(f.Lost), r.why())
		switch {
		case f.Holds != nil:
			fmt.Fprintf(b, "  cure: such a move is followed at up to %s, speeding up by %s rows/s²: give --rate %.7g/s\n", rows(*f.Holds), PerSecond(*f.Accel), *f.Holds)
		default:
			fmt.Fprintln(b, "  cure: start slower, speed up over more rows, or go less fast; coilwalk rates says what it follows")
		}
	}
	if len(r.Estimated) > 0 {
		fmt.Fprintf(b, "  estimated: %s\n", strings.Join(r.Estimated, ", "))
	}
}

// bare writes a number as an option takes it.
func bare(v float64) string { return strconv.FormatFloat(v, 'g', 6, 64) }

func sideOf(lost float64) string {
	if lost < 0 {
		return "ahead"
	}
	return "behind"
}

// why says what a loss comes of.
func (r *Ramp) why() string {
	tooHigh := !r.found.GoesOn(r.profile.Peak)
	switch {
	case r.Follows.Kind == "fast-start":
		return "the start is too fast"
	case r.Follows.Kind == "steep-ramp" && (r.AccelFrom != "none" || !tooHigh): // with none that was tried does it get there
		return "the ramp is too steep"
	case r.found.PullOut == 0 && r.found.StartStop == 0:
		return "it starts at no rate; the load is too much for it"
	case tooHigh:
		return fmt.Sprintf("the rate is too high, for it goes on at up to %s only", rows(max(r.found.PullOut, r.found.StartStop)))
	}
	return fmt.Sprintf("the rate is too high for so long a move; coilwalk rates, which watches %s rows at a rate, does not see it", Count(rotor.LongestWatch*r.perStep))
}

func (r *Ramp) startBy() string {
	switch {
	case r.StartFrom == "given":
		return ""
	case r.Start >= r.Rate:
		return "  (at once: the motor's model starts at up to " + rows(r.found.StartStop) + ")"
	}
	return fmt.Sprintf("  (%.0f %% of the start–stop rate of the motor's model, %s)", 100*travel.StartShare, rows(r.found.StartStop))
}

func (r *Ramp) accelBy() string {
	switch r.AccelFrom {
	case "given":
		return ""
	case "none":
		return "  (only tried: with no acceleration to this rate does the motor's model follow)"
	}
	return "  (of the motor's model)"
}

func shapeOf(shape string) string {
	if shape == "s" {
		return ", S-shaped: that at most"
	}
	return ""
}

func frequency(hz float64) string {
	switch {
	case hz >= 1e6:
		return fmt.Sprintf("%.6g MHz", hz/1e6)
	case hz >= 1e3:
		return fmt.Sprintf("%.6g kHz", hz/1e3)
	}
	return fmt.Sprintf("%.6g Hz", hz)
}

// Belief is the answer of "ramp --believes": the rate that firmware really gives.
type Belief struct {
	Coilwalk int      `json:"coilwalk"`
	Motor    string   `json:"motor"`
	Mode     string   `json:"mode"`
	Steps    int64    `json:"steps_per_turn"` // as the firmware holds it
	Real     float64  `json:"steps_per_turn_real"`
	RPM      int64    `json:"rpm_asked"`
	Delay    int64    `json:"delay_units"`
	Rate     *float64 `json:"rate"` // null where it does not wait at all
	Wanted   float64  `json:"rate_wanted"`
	RealRPM  *float64 `json:"rpm_real"` // of the shaft
	Stages   []string `json:"reckoning"`
	Cure     string   `json:"cure"`
	unit     string
}

// NewBelief says what comes of a reckoning.
func NewBelief(m motor.Motor, mode sequence.Mode, b travel.Belief, unit string, r travel.Real) Belief {
	out := Belief{Coilwalk: Version, Motor: m.Name, Mode: mode.Name, Steps: b.StepsPerTurn, RPM: b.RPM, Delay: r.Delay, Wanted: r.Wanted, Stages: r.Stages, unit: unit}
	out.Real, _ = m.StepsPerShaftTurn(mode).Float64()
	if r.Delay > 0 {
		rate, rpm := r.Rate, r.Rate/out.Real*60
		out.Rate, out.RealRPM = &rate, &rpm
	}
	out.Cure = out.cure(mode)
	return out
}

// cure says what would bring it to what is asked.
func (b Belief) cure(mode sequence.Mode) string {
	var parts []string
	if b.Rate == nil || *b.Rate < 0.98*b.Wanted || *b.Rate > 1.02*b.Wanted {
		parts = append(parts, "multiply before you divide")
		if b.unit == "ms" {
			parts = append(parts, "reckon in microseconds")
		}
	}
	if off := float64(b.Steps) / b.Real; off < 0.98 || off > 1.02 {
		parts = append(parts, fmt.Sprintf("hold a turn of the shaft to be %s rows of %s (--mode says which is sent)", Fixed(b.Real, 2), modeTitle(mode.Name)))
	}
	return strings.Join(parts, "; ")
}

// Clean says whether it comes within a fiftieth of what is asked.
func (b Belief) Clean() bool {
	return b.RealRPM != nil && *b.RealRPM > 0.98*float64(b.RPM) && *b.RealRPM < 1.02*float64(b.RPM)
}

// Text writes it in plain words.
func (b Belief) Text() string {
	var w strings.Builder
	fmt.Fprintf(&w, "firmware that holds a turn to be %d steps and wants %d turns a minute reckons\n", b.Steps, b.RPM)
	for _, s := range b.Stages {
		fmt.Fprintf(&w, "  %s %s\n", s, b.unit)
	}
	if b.Rate == nil {
		fmt.Fprintf(&w, "that is no wait at all: it steps as fast as it can, and the motor only buzzes\n")
		fmt.Fprintf(&w, "cure: %s\n", b.Cure)
		return w.String()
	}
	fmt.Fprintf(&w, "that is %s rows a second, where %s are wanted\n", PerSecond(*b.Rate), PerSecond(b.Wanted))
	fmt.Fprintf(&w, "a turn of %s's shaft is %s rows of %s: it turns at %.4g a minute\n", b.Motor, Fixed(b.Real, 2), modeTitle(b.Mode), *b.RealRPM)
	if b.Cure != "" {
		fmt.Fprintf(&w, "cure: %s\n", b.Cure)
	}
	return w.String()
}
