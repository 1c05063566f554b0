package report

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"coilwalk/model/motor"
	"coilwalk/model/quantity"
	"coilwalk/model/rotor"
	"coilwalk/model/travel"
	"coilwalk/sequence"
)

// Rates is the answer of the command "rates": what a motor does in time, and the
// rates that it follows.
type Rates struct {
	Coilwalk   int             `json:"coilwalk"`
	Motor      string          `json:"motor"`
	Connection string          `json:"connection"`
	Mode       string          `json:"mode"`
	Stage      string          `json:"stage"`
	Supply     float64         `json:"supply_v"`
	SupplyFrom string          `json:"supply_from"` // rated, suits or named
	Set        *float64        `json:"set_a"`       // what the stage was set to; null for the rated current
	Forbids    *Forbids        `json:"forbids"`     // what power says against it, held at rest
	Load       float64         `json:"load_nm"`
	Response   RatesResponse   `json:"response"`
	StartStop  float64         `json:"start_stop"`
	Windows    [][2]float64    `json:"windows"`
	Holes      [][2]float64    `json:"holes"`
	PullOut    float64         `json:"pull_out"`
	LostAt     [][2]float64    `json:"lost_at"`
	Fitted     *RatesFitted    `json:"fitted"`
	For        *RatesFor       `json:"for"`
	Reversal   *RatesReversal  `json:"reversal"`
	Compared   []RatesMode     `json:"compared"`
	Off        []RatesOff      `json:"off"`
	Curve      []RatesPoint    `json:"curve"`
	Estimates  []RatesEstimate `json:"estimates"`
	motor      motor.Motor
	mode       sequence.Mode
	stage      string
	rates      rotor.Rates
	fed        string // why on that supply, and what power takes
	turned     string // to another drive, for the stage
}

// RatesResponse is how the rotor takes one row from rest.
type RatesResponse struct {
	StepDeg   float64  `json:"step_deg"` // of the rotor
	Overshoot float64  `json:"overshoot"`
	RiseS     *float64 `json:"rise_s"`
	RingHz    *float64 `json:"ring_hz"`
	SettlingS *float64 `json:"settling_s"`
	Adrift    bool     `json:"adrift"` // the load is more than the row holds
}

// RatesFor is the verdict on one rate.
type RatesFor struct {
	Rate     float64  `json:"rate"`
	Followed bool     `json:"followed"`
	Starts   bool     `json:"starts"`
	RampFrom *float64 `json:"ramp_from"`
	Text     string   `json:"text"`
}

// RatesPoint is a point of the two curves over load.
type RatesPoint struct {
	Load      float64 `json:"load_nm"`
	StartStop float64 `json:"start_stop"`
	PullOut   float64 `json:"pull_out"`
}

// RatesEstimate is a figure that the motor does not give, and what hangs on it.
type RatesEstimate struct {
	Figure  string    `json:"figure"`
	Value   float64   `json:"value_si"`
	Why     string    `json:"why"`
	Starts  []float64 `json:"start_stop"` // with half and with twice the figure; [] where that was not run
	PullOut []float64 `json:"pull_out"`
	shown   string
}

// NewRates puts what was run into its object.
func NewRates(m motor.Motor, mode sequence.Mode, p rotor.Plant, response rotor.Response, r rotor.Rates) *Rates {
	r = sameEdge(r)
	told := starting(r)
	out := &Rates{Off: switchedOff(rotor.SwitchedOff(p, mode), m.PolePairs), Coilwalk: Version, Motor: m.Name, Mode: mode.Name, Stage: p.Stage.Name, Supply: degrees(p.Supply), Load: degrees(p.Load.Torque),
		StartStop: told.of(r.StartStop), PullOut: perSecond(r.PullOut), Windows: told.bands(r.Windows), Holes: told.bands(r.Holes), LostAt: apart(edges(r.LostAt)...).bands(r.LostAt),
		Compared: []RatesMode{}, Curve: []RatesPoint{}, Estimates: []RatesEstimate{}, motor: m, mode: mode, stage: p.Stage.Title, rates: r}
	out.Response = newResponse(m, response)
	return out
}

// sameEdge gives rates that do not start faster than they go on: each of these edges is
// sought to a two-hundredth, and where they are one they come out that far apart.
func sameEdge(r rotor.Rates) rotor.Rates {
	if r.PullOut > 0 && r.StartStop > r.PullOut && r.StartStop < 1.01*r.PullOut {
		r.StartStop = r.PullOut
	}
	return r
}

// NewIdleRates is the answer where nothing is run, for the stage does not work.
func NewIdleRates(m motor.Motor, mode sequence.Mode, p rotor.Plant) *Rates {
	out := NewRates(m, mode, p, rotor.Response{}, rotor.Rates{})
	out.Off = []RatesOff{}
	return out
}

func newResponse(m motor.Motor, response rotor.Response) RatesResponse {
	return RatesResponse{StepDeg: math.Round(m.AtRotor(response.Step)*1e4) / 1e4, Overshoot: math.Round(response.Overshoot*1e3) / 1e3,
		RiseS: some(response.Rise), RingHz: some(response.RingHz), SettlingS: some(response.Settling), Adrift: response.Adrift}
}

// ResponseLine says how the rotor of a motor takes a row.
func ResponseLine(m motor.Motor, response rotor.Response) string {
	return newResponse(m, response).words()
}

// some gives nil for a figure that there is none of, else three digits.
func some(v float64) *float64 {
	if v <= 0 {
		return nil
	}
	digits := math.Pow(10, 2-math.Floor(math.Log10(v)))
	v = math.Round(v*digits) / digits
	return &v
}

// Judge adds the verdict on a rate.
func (r *Rates) Judge(rate float64) {
	if idle := r.Forbids.Idle(); idle != nil {
		r.For = &RatesFor{Rate: rate, Text: r.motor.Title + " does not follow " + rowsGiven(rate) + ": " + r.Forbids.first}
		return
	}
	v, from := r.rates.For(rate)
	f := &RatesFor{Rate: rate, Followed: v != rotor.NotFollowed && v != rotor.InHole, Starts: v == rotor.Starts || v == rotor.StartsAbove}
	name, asked := r.motor.Title, rowsGiven(rate)
	starts := "it starts at up to " + rowsTold(r.StartStop)
	if r.rates.StartStop == 0 {
		starts = "it does not start at any rate swept from below"
	}
	switch v {
	case rotor.Starts:
		f.Text = fmt.Sprintf("%s starts and stops at %s", name, asked)
	case rotor.StartsAbove:
		f.Text = fmt.Sprintf("%s starts at %s, but not at some lower rates: any change of load may end that; ramping from %s is safer", name, asked, rows(travel.StartShare*r.StartStop))
	case rotor.NeedsRamp:
		f.RampFrom = some(from)
		f.Text = fmt.Sprintf("%s follows %s once it turns, but does not start there: %s, so a start at %s buzzes; ramp from %s", name, asked, starts, asked, rows(from))
	case rotor.InHole:
		f.RampFrom = some(from)
		f.Text = fmt.Sprintf("%s does not start at %s: a resonance lies there; start at %s and go through it quickly, or use finer steps or more friction", name, asked, rows(from))
	default:
		follows := "it follows none"
		if r.PullOut > 0 {
			f.RampFrom, follows = some(from), "once it turns it follows up to "+rowsTold(r.PullOut)
		}
		f.Text = fmt.Sprintf("%s does not follow %s: %s, and %s", name, asked, follows, starts)
	}
	r.For = f
}

// AddCurve adds the curves over load.
func (r *Rates) AddCurve(points []rotor.CurvePoint) {
	for _, p := range points {
		r.Curve = append(r.Curve, RatesPoint{Load: math.Round(p.Load*1e6) / 1e6, StartStop: perSecond(p.StartStop), PullOut: perSecond(p.PullOut)})
	}
}

// CurveLines says each point of the curves in words of its own.
func CurveLines(points []rotor.CurvePoint) (lines []string) {
	r := &Rates{}
	r.AddCurve(points)
	for _, p := range r.Curve {
		lines = append(lines, fmt.Sprintf("With %s at the shaft: starts at up to %s, pulls out at %s.", quantity.NewtonMetres(p.Load).Rounded(3), rows(p.StartStop), rows(p.PullOut)))
	}
	return lines
}

// AddEstimates adds the figures that were estimated, with what hangs on them.
func (r *Rates) AddEstimates(all []rotor.Estimate, runs []rotor.Sensitive) {
	for _, e := range all {
		one := RatesEstimate{Figure: e.Figure, Value: e.Value, Why: e.Why, Starts: []float64{}, PullOut: []float64{}, shown: e.Shown}
		for _, s := range runs {
			if s.Figure == e.Figure {
				one.Starts = []float64{perSecond(s.Half.StartStop), perSecond(s.Twice.StartStop)}
				one.PullOut = []float64{perSecond(s.Half.PullOut), perSecond(s.Twice.PullOut)}
			}
		}
		r.Estimates = append(r.Estimates, one)
	}
}

// Followed says whether the rate that was asked about is followed.
func (r *Rates) Followed() bool { return r.For == nil || r.For.Followed }

// upTo says at which rates a motor starts.
func upTo(rate float64) string {
	if rate == 0 {
		return "none"
	}
	return "up to " + rows(rate)
}

// InAll writes a rate, as it is told, in rows with full steps and turns beside it.
func (r *Rates) InAll(rate float64) string {
	if rate == 0 {
		return "none"
	}
	full := rate / float64(r.mode.PerStep)
	ratio, _ := r.motor.Train.Ratio().Float64()
	rpm := full / float64(4*r.motor.PolePairs) / ratio * 60
	turns := Fixed(rpm, 1)
	if rpm < 1 {
		turns = Told(perSecond(rpm))
	}
	return fmt.Sprintf("%s (%s full steps/s, %s rpm at the shaft)", rowsTold(rate), Told(perSecond(full)), turns)
}

// words says how the rotor takes a row.
func (a RatesResponse) words() string {
	if a.Adrift {
		return "is not held: the load is stronger, and drives the motor on"
	}
	words := []string{fmt.Sprintf("%s of the rotor, overshoots by %s %%", Angle(a.StepDeg, 3), Fixed(100*a.Overshoot, 0))}
	if a.RingHz != nil {
		words = append(words, fmt.Sprintf("rings at %s Hz", Told(*a.RingHz)))
	}
	if a.SettlingS != nil {
		words = append(words, "settles in "+quantity.Seconds(*a.SettlingS).Rounded(3))
	}
	return strings.Join(words, ", ")
}

// Text writes the answer in plain words.
func (r *Rates) Text() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s, %s, %s, %s", r.motor.Title, r.mode.Title, r.stage, quantity.Volts(r.Supply).Rounded(3))
	if r.Set != nil {
		fmt.Fprintf(&b, ", set to %s", amperes(*r.Set))
	}
	if r.Load != 0 {
		fmt.Fprintf(&b, ", load %s", quantity.NewtonMetres(r.Load).Rounded(3))
	}
	b.WriteString("\n")
	line := func(name, format string, values ...any) {
		fmt.Fprintf(&b, "  %-16s %s\n", name, fmt.Sprintf(format, values...))
	}
	if r.turned != "" {
		line("connected", "%s", r.turned)
	}
	if r.fed != "" {
		line("supply", "%s", r.fed)
	}
	if r.Forbids != nil {
		line("power", "%s", r.Forbids.Short())
	}
	if idle := r.Forbids.Idle(); idle != nil { // what a run would say is of a stage that works
		if r.For != nil {
			idle = errors.New(r.For.Text)
		}
		fmt.Fprintf(&b, "%s.\n", Sentence(idle.Error()))
		return b.String()
	}
	line("one row", "%s", r.Response.words())
	line("coils off", "%s", offWords(r.Off))
	line("start–stop rate", "%s", r.InAll(r.StartStop))
	for i, h := range r.Holes {
		line("", "not from %s to %s, then again up to %s", Told(h[0]), rowsTold(h[1]), rowsTold(r.Windows[i][1]))
	}
	line("pull-out rate", "%s", r.InAll(r.PullOut))
	if r.Stage == "current" {
		line("", "a current source has no limit of its own; a real driver falls far below: name your --stage and --supply")
	}
	for _, l := range r.LostAt {
		line("", "a motor brought up slowly falls out of step between %s and %s: a resonance", Told(l[0]), rowsTold(l[1]))
	}
	if len(r.Compared) > 0 {
		line("compared", "in full steps a second:")
		for _, m := range r.Compared {
			line("", "%s %s", modeTitle(m.Mode), m.Words())
		}
	}
	if r.Fitted != nil && r.Fitted.Text != "" {
		fmt.Fprintf(&b, "%s.\n", Sentence(r.Fitted.Text))
	}
	if r.For != nil {
		fmt.Fprintf(&b, "%s.\n", Sentence(r.For.Text))
	}
	if r.Reversal != nil {
		fmt.Fprintf(&b, "%s.\n", Sentence(r.Reversal.Text))
	}
	if len(r.Curve) > 0 {
		b.WriteString("  load at the shaft   starts at   pulls out at\n")
		for _, p := range r.Curve {
			fmt.Fprintf(&b, "  %-19s %-11s %s\n", quantity.NewtonMetres(p.Load).Rounded(3), Told(p.StartStop), Told(p.PullOut))
		}
	}
	if len(r.Estimates) > 0 {
		b.WriteString("Estimated, not given by the motor:\n")
		for _, e := range r.Estimates {
			fmt.Fprintf(&b, "  %-16s %s; %s\n", strings.ReplaceAll(e.Figure, "_", " "), e.shown, e.Why)
			if len(e.Starts) == 2 {
				fmt.Fprintf(&b, "  %-16s with half of it it starts at %s, with twice at %s\n", "", upTo(e.Starts[0]), strings.TrimPrefix(upTo(e.Starts[1]), "up to "))
			}
		}
		b.WriteString("What rests on estimates is a caution, not a promise: try it at the bench.\n")
	}
	b.WriteString("Brought up to speed a shaft stores energy and a geared one pinches; keep clear of it.\n")
	return b.String()
}
