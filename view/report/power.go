package report

import (
	"fmt"
	"math"

	"coilwalk/model/power"
	"coilwalk/model/quantity"
)

// Power is the answer of the command "power": what a motor costs on a stage and a
// supply, how warm all gets, whether that will do, and what else would.
type Power struct {
	Coilwalk    int               `json:"coilwalk"`
	Motor       string            `json:"motor"`
	Connection  string            `json:"connection"`
	Drive       string            `json:"drive"`
	Stage       string            `json:"stage"`
	Supply      PowerSupply       `json:"supply"`
	Mode        string            `json:"mode"`
	Rate        *float64          `json:"rate"`
	Duty        float64           `json:"duty"`
	Hold        float64           `json:"hold"`
	Set         *float64          `json:"set_a"`
	Series      float64           `json:"series_ohm"`
	Ambient     float64           `json:"ambient_c"`
	For         *float64          `json:"for_s"`
	Verdict     string            `json:"verdict"`
	Checks      []PowerCheck      `json:"checks"`
	Cures       []PowerCure       `json:"cures"`
	Coil        *PowerCoil        `json:"coil"`
	Modes       []PowerMode       `json:"modes"`
	Both        *float64          `json:"both_halves_a"`
	Balance     *PowerBalance     `json:"balance"`
	Driver      *PowerDriver      `json:"driver"`
	Winding     *PowerWinding     `json:"winding"`
	Torque      *PowerTorque      `json:"torque"`
	Rise        *PowerRise        `json:"rise"`
	Stored      *float64          `json:"stored_j"`
	Clamp       string            `json:"clamp"`
	Input       string            `json:"input"`
	Follows     *bool             `json:"follows"`
	Off         []RatesOff        `json:"off"`
	Lasts       *float64          `json:"lasts_s"`
	Supplies    []PowerSupplied   `json:"supplies"`
	Connections []PowerConnection `json:"connections"`
	Reference   *PowerReference   `json:"reference"`
	Resistor    *PowerResistor    `json:"resistor"`
	Notes       []string          `json:"notes"`
	Cautions    []string          `json:"cautions"`
	Estimates   []PowerEstimate   `json:"estimates"`
	Sources     []string          `json:"sources"`

	answer *power.Answer
}

// PowerSupply is what feeds the motor.
type PowerSupply struct {
	Name     string   `json:"name"` // "" for a plain voltage
	Volts    float64  `json:"volts"`
	Promised *float64 `json:"promised_a"`
	Limit    *float64 `json:"limit_a"`
	Ohms     float64  `json:"ohm"`
}

// PowerCheck is one figure held against its limit.
type PowerCheck struct {
	Kind    string  `json:"kind"`
	Verdict string  `json:"verdict"`
	Value   float64 `json:"value"`
	Limit   float64 `json:"limit"`
	Text    string  `json:"text"`
}

// PowerCure is a change that makes the verdict better.
type PowerCure struct {
	Kind    string  `json:"kind"`
	Name    string  `json:"name"`
	Value   float64 `json:"value"`
	Verdict string  `json:"verdict"`
	Text    string  `json:"text"`
	short   string
}

// Short says a cure in a few words.
func (c PowerCure) Short() string { return c.short }

// PowerCoil is one coil, or half-coil.
type PowerCoil struct {
	Ohms  float64 `json:"ohm"` // at 25 °C
	Rated float64 `json:"rated_a"`
	Cold  float64 `json:"cold_a"`
	Warm  float64 `json:"warm_a"`
	Row   int     `json:"row"` // the row of the mode that costs most
}

// PowerMode is what a step mode draws, cold and slowly.
type PowerMode struct {
	Mode  string  `json:"mode"`
	Mean  float64 `json:"mean_a"`
	Peak  float64 `json:"peak_a"`
	Rest  float64 `json:"rest_a"`
	Least float64 `json:"rest_least_a"`
}

// PowerBalance is who gets how many watts.
type PowerBalance struct {
	Supply   float64 `json:"supply_w"`
	Copper   float64 `json:"copper_w"`
	Series   float64 `json:"series_w"`
	Driver   float64 `json:"driver_w"`
	Clamp    float64 `json:"clamp_w"`
	Friction float64 `json:"friction_w"`
	Damping  float64 `json:"damping_w"` // of friction_w
	Shaft    float64 `json:"shaft_w"`
	Source   float64 `json:"source_w"`
}

// PowerDriver is the stage's heat.
type PowerDriver struct {
	Output       float64 `json:"output_w"`
	Package      float64 `json:"package_w"`
	PackageMost  float64 `json:"package_most_w"`
	Junction     float64 `json:"junction_c"`
	JunctionMost float64 `json:"junction_most_c"`
}

// PowerWinding is the winding's heat.
type PowerWinding struct {
	Final   float64      `json:"final_c"`
	After   float64      `json:"after_c"`
	Class   float64      `json:"class_c"`
	Ohms    float64      `json:"ohm"`
	Seconds float64      `json:"time_constant_s"`
	Curve   [][2]float64 `json:"curve"` // s, °C
}

// PowerTorque is what is held at the shaft.
type PowerTorque struct {
	Cold float64 `json:"cold_nm"`
	Warm float64 `json:"warm_nm"`
	Part float64 `json:"part"`
}

// PowerRise is how long a current takes to get up.
type PowerRise struct {
	Constant float64  `json:"time_constant_s"`
	Seconds  *float64 `json:"seconds"`
	Rate     *float64 `json:"rate"`
}

// PowerSupplied is the same on another kind of supply.
type PowerSupplied struct {
	Name    string `json:"name"`
	Verdict string `json:"verdict"`
	Text    string `json:"text"`
	title   string
}

// PowerConnection is the same with the coils joined otherwise.
type PowerConnection struct {
	Name    string  `json:"name"`
	Drive   string  `json:"drive"`
	How     string  `json:"how"`
	Coil    float64 `json:"coil_a"`
	Supply  float64 `json:"supply_a"`
	Winding float64 `json:"winding_c"`
	Torque  float64 `json:"torque_nm"`
	Rate    float64 `json:"rise_rate"`
	Verdict string  `json:"verdict"`
}

// Title says the supply and its voltage.
func (s PowerSupplied) Title() string { return s.title }

// Line says what the connection comes to.
func (c PowerConnection) Line() string {
	words := fmt.Sprintf("%s: %s in a coil, winding %s", c.Name, amperes(c.Coil), celsius(c.Winding))
	if c.Torque > 0 {
		words += ", holds " + quantity.NewtonMetres(c.Torque).Rounded(3)
	}
	if c.Rate > 0 {
		words += ", current is up until " + rows(c.Rate)
	}
	return words
}

// PowerReference is how a chopper is set.
type PowerReference struct {
	Ampere float64 `json:"current_a"`
	Volts  float64 `json:"volts"`
	Sense  float64 `json:"sense_ohm"`
}

// PowerResistor is the one in series that brings the rated current.
type PowerResistor struct {
	Ohms  float64 `json:"ohm"`
	Watts float64 `json:"watt"`
}

// PowerEstimate is a figure that the motor does not give.
type PowerEstimate struct {
	Figure string  `json:"figure"`
	Value  float64 `json:"value_si"`
	Why    string  `json:"why"`
	shown  string
}

// significant rounds a figure for JSON, so that what iteration and another
// processor's arithmetic leave does not show.
func significant(v float64) float64 {
	if v == 0 || math.IsInf(v, 0) || math.IsNaN(v) {
		return 0
	}
	digits := math.Pow(10, 3-math.Floor(math.Log10(math.Abs(v))))
	return math.Round(v*digits) / digits
}

// NewPower puts an answer into its object.
func NewPower(a *power.Answer) *Power {
	s := a.Supply
	p := &Power{Coilwalk: Version, Motor: a.Motor.Name, Connection: a.Connection.Name, Drive: a.Connection.Drive.String(), Stage: a.Stage.Name,
		Supply: PowerSupply{Name: s.Name, Volts: significant(s.Volts), Promised: some(s.Promised), Limit: some(s.Limit), Ohms: s.Ohms},
		Mode:   a.Mode.Name, Rate: some(a.Rate), Duty: a.Duty, Hold: a.Hold, Series: significant(a.Series), Ambient: a.Ambient, For: some(a.For), Verdict: a.Verdict.String(),
		Checks: []PowerCheck{}, Cures: []PowerCure{}, Modes: []PowerMode{}, Off: []RatesOff{}, Supplies: []PowerSupplied{}, Connections: []PowerConnection{},
		Notes: []string{}, Cautions: []string{}, Estimates: []PowerEstimate{}, Sources: []string{a.Stage.Source, s.Source, burnSource},
		Clamp: a.Stage.ClampsTo, Input: silent(a), answer: a}
	for _, c := range a.Checks {
		p.Checks = append(p.Checks, PowerCheck{string(c.Kind), c.Verdict.String(), significant(c.Value), significant(c.Limit), CheckText(a, c)})
	}
	if _, misfit := a.Check(power.FitsLeads); misfit {
		return p
	}
	p.measures(a)
	for _, e := range a.Estimates {
		p.Estimates = append(p.Estimates, PowerEstimate{e.Figure, significant(e.Value), e.Why, e.Shown})
	}
	p.Notes, p.Cautions = powerNotes(a), PowerCautions(a)
	return p
}

// measures puts the figures in.
func (p *Power) measures(a *power.Answer) {
	if a.Stage.Regulates() {
		p.Set = some(a.Current)
		if r := a.Stage.Reference; r.Gain > 0 {
			p.Reference = &PowerReference{significant(a.Current), significant(r.Volts(a.Current)), r.Sense}
		}
	}
	p.Coil = &PowerCoil{significant(a.Ohms), significant(a.Rated), significant(a.Driver.OutputAmpere), significant(mostOf(a.Warm.Coils)), a.Row}
	for _, m := range a.Modes {
		p.Modes = append(p.Modes, PowerMode{m.Mode.Name, significant(m.Average), significant(m.Peak), significant(m.Rest.Ampere), significant(m.Least.Ampere)})
	}
	if a.Both != nil {
		p.Both = some(a.Both.Ampere)
	}
	b, d := a.Balance, a.Driver
	p.Balance = &PowerBalance{significant(b.Supply), significant(b.Copper), significant(b.Series), significant(b.Stage), significant(b.Clamp), significant(b.Friction), significant(b.Damping), significant(b.Shaft), significant(b.Source)}
	p.Driver = &PowerDriver{significant(d.Output), significant(d.Package), significant(d.PackageMost), significant(d.Junction), significant(d.JunctionMost)}
	p.Winding = &PowerWinding{Final: significant(a.Final), After: significant(a.After), Class: a.Body.Class, Ohms: significant(power.Copper(a.Ohms, 25, a.After)), Seconds: significant(a.Body.Seconds), Curve: [][2]float64{}}
	const every = 6 // points of the course
	for k := 0; k < len(a.Course); k += every {
		p.Winding.Curve = append(p.Winding.Curve, [2]float64{significant(a.Course[k].Seconds), significant(a.Course[k].Celsius)})
	}
	p.Torque = &PowerTorque{significant(a.ColdShaft), significant(a.WarmShaft), significant(a.Part)}
	if a.Rise.Constant > 0 {
		p.Rise = &PowerRise{significant(a.Rise.Constant), some(a.Rise.Seconds), some(a.Rise.Rate)}
	}
	p.Stored, p.Lasts = some(a.Stored), some(a.Lasts)
	if a.Turns {
		p.Follows = &a.Followed
	}
	p.Off = switchedOff(a.Off, a.Motor.PolePairs)
	if r, ok := a.SeriesFor(a.Rated); ok {
		p.Resistor = &PowerResistor{significant(r.Ohms), significant(r.Watts)}
	}
}

func mostOf(coils [4]float64) (most float64) {
	for _, i := range coils {
		most = math.Max(most, math.Abs(i))
	}
	return most
}

// Others adds what else could be done, and what it would be on other supplies and
// in other connections.
func (p *Power) Others(cures []power.Cure, supplies []power.Supplied, connections []*power.Answer) {
	for _, c := range cures {
		p.Cures = append(p.Cures, PowerCure{string(c.Kind), c.Name, significant(c.Value), c.Answer.Verdict.String(), CureText(c), toDo(c) + ": " + c.Answer.Verdict.String()})
	}
	if p.Coil == nil {
		return
	}
	for _, s := range supplies {
		first := s.Answer.Checks[0]
		text := CheckText(s.Answer, first)
		if s.Answer.Verdict == power.Fine {
			text = amperes(s.Answer.Driver.OutputAmpere) + " in a coil, " + amperes(s.Answer.Cold.Ampere) + " from the supply"
		}
		p.Supplies = append(p.Supplies, PowerSupplied{s.Supply.Name, s.Answer.Verdict.String(), text, s.Supply.Title + ", " + quantity.Volts(s.Supply.Volts).Rounded(3)})
	}
	for _, a := range connections {
		p.Connections = append(p.Connections, PowerConnection{a.Connection.Name, a.Connection.Drive.String(), a.Connection.How, significant(a.Driver.OutputAmpere), significant(a.Cold.Ampere),
			significant(a.After), significant(a.WarmShaft), significant(a.Rise.Rate), a.Verdict.String()})
	}
}

// Will says whether the verdict is anything but "not".
func (p *Power) Will() bool { return p.answer.Verdict != power.Not }
