package report

import (
	"fmt"
	"math"
	"strings"

	"coilwalk/model/driver"
	"coilwalk/model/motor"
	"coilwalk/sequence"
)

// Motors is the answer of "motors list".
type Motors struct {
	Coilwalk int     `json:"coilwalk"`
	Motors   []Motor `json:"motors"`
}

// Motor is the answer of "motors show" and, within a list, one motor.
type Motor struct {
	Coilwalk  int               `json:"coilwalk"`
	Name      string            `json:"name"`
	Title     string            `json:"title"`
	Origin    string            `json:"origin"`
	Leads     []string          `json:"leads"`
	Ends      []string          `json:"ends"`
	Common    *string           `json:"common"`
	Taps      []string          `json:"taps"`
	Inner     []string          `json:"inner"`
	Guessed   bool              `json:"order_guessed"`
	PolePairs int               `json:"pole_pairs"`
	Train     *string           `json:"train"`
	Ratio     string            `json:"ratio"`
	PerRotor  int               `json:"steps_per_rotor_turn"`
	Counted   *string           `json:"counted"`
	Backlash  *float64          `json:"backlash_deg"`
	PerShaft  string            `json:"steps_per_shaft_turn"`
	Outputs   []string          `json:"outputs"`
	Drive     string            `json:"drive"`
	Figures   map[string]string `json:"figures"`
	Connect   []Connection      `json:"connections"`
	motor     motor.Motor
}

// Connection is one way to connect the coils, with its figures.
type Connection struct {
	Name       string  `json:"name"`
	Drive      string  `json:"drive"`
	How        string  `json:"how"`
	Resistance *string `json:"resistance"`
	Inductance *string `json:"inductance"`
	Current    *string `json:"current"`
	Voltage    *string `json:"voltage"`
	Torque     float64 `json:"relative_torque"`
	Rise       *string `json:"time_constant"`
}

func connections(m motor.Motor) []Connection {
	out := []Connection{}
	for _, c := range m.Connections() {
		out = append(out, Connection{Name: c.Name, Drive: c.Drive.String(), How: c.How, Torque: degrees(c.Torque),
			Resistance: maybe(c.Resistance.Rounded(3)), Inductance: maybe(c.Inductance.Rounded(3)), Current: maybe(c.Current.Rounded(3)),
			Voltage: maybe(c.Voltage.Rounded(3)), Rise: maybe(c.Rise.Rounded(3))})
	}
	return out
}

// maybe gives nil for words that are not known.
func maybe(words string) *string {
	if words == "" {
		return nil
	}
	return &words
}

// NewMotor describes a motor; steps are full steps.
func NewMotor(m motor.Motor) Motor {
	out := Motor{Coilwalk: Version, Name: m.Name, Title: m.Title, Origin: m.Origin, Leads: names(m.Leads()), Ends: names(m.Ends[:]),
		Taps: []string{}, Inner: []string{}, Guessed: m.OrderGuessed, PolePairs: m.PolePairs, Ratio: m.Train.Ratio().RatString(),
		PerRotor: m.StepsPerRotorTurn(sequence.Full), PerShaft: m.StepsPerShaftTurn(sequence.Full).RatString(),
		Drive: m.Drive.String(), Figures: map[string]string{}, Connect: connections(m), motor: m}
	if m.Common != "" {
		c := string(m.Common)
		out.Common = &c
	}
	if m.Taps[0] != "" {
		out.Taps = names(m.Taps[:])
	}
	if m.Inner[0] != "" {
		out.Inner = names(m.Inner[:])
	}
	if m.Train.Geared() {
		t := m.Train.String()
		out.Train = &t
	}
	if counts, err := m.Counted.Counts(); err == nil && len(counts) > 0 {
		out.Counted = maybe(motor.Agree(counts).Text)
	}
	if _, sum, ok := m.Train.Play(); ok {
		sum = degrees(sum)
		out.Backlash = &sum
	}
	for k := range 4 {
		out.Outputs = append(out.Outputs, string(m.Output(m.Wiring, k)))
	}
	for _, f := range figures(m) {
		out.Figures[f[0]] = f[1]
	}
	return out
}

func names(leads []motor.Lead) []string {
	out := make([]string, len(leads))
	for i, l := range leads {
		out[i] = string(l)
	}
	return out
}

// figures lists a motor's known figures as name and value.
func figures(m motor.Motor) [][2]string {
	f := m.Figures
	detentAt := ""
	if f.DetentAt45 {
		detentAt = "two-phase"
	}
	var known [][2]string
	for _, pair := range [][2]string{
		{"voltage", f.Voltage.String()}, {"current", f.Current.String()}, {"resistance", f.Resistance.String()},
		{"inductance", f.Inductance.String()}, {"holding_torque", f.HoldingTorque.String()}, {"one_phase_torque", f.OnePhase.String()},
		{"detent_torque", f.Detent.String()}, {"detent_at", detentAt}, {"friction", f.Friction.String()},
		{"inertia", f.Inertia.String()}, {"load", f.Load.String()},
		{"thermal_resistance", f.Thermal.String()}, {"thermal_time", f.ThermalTime.String()}, {"insulation", f.Insulation.String()},
	} {
		if pair[1] != "" {
			known = append(known, pair)
		}
	}
	return known
}

// Given says in one line which of the figures that are asked for a motor gives.
func Given(m motor.Motor) string {
	f := m.Figures
	var given, not []string
	for _, one := range []struct{ name, text string }{{"voltage", f.Voltage.String()}, {"current", f.Current.String()}, {"resistance", f.Resistance.String()}, {"holding torque", f.HoldingTorque.String()}} {
		if one.text == "" {
			not = append(not, one.name)
		} else {
			given = append(given, one.name+" "+one.text)
		}
	}
	words := "none of its figures"
	if len(given) > 0 {
		words = strings.Join(given, ", ")
	}
	if len(not) > 0 {
		words += "; not given: " + strings.Join(not, ", ")
	}
	return words
}

// Cautions says what is not known of a motor that its file goes by all the same, and
// what is odd about its figures, though they can be.
func Cautions(m motor.Motor) (words []string) {
	if m.OrderGuessed {
		words = append(words, motor.GuessedOrder+". coilwalk leads --answers asks it; order_guessed then comes out of [winding]")
	}
	one := m.Figures.OnePhase.Base()
	if m.Figures.HoldingTorque.Given() {
		one = m.Figures.HoldingTorque.Base() / math.Sqrt2
	}
	if one <= 0 {
		return words
	}
	if m.Figures.Friction.Base() >= one {
		words = append(words, "friction is as strong as one phase holds: this motor would hardly move. Are both torques at the same shaft?")
	}
	if m.Figures.Detent.Base() >= one {
		words = append(words, "the detent is as strong as one phase holds: this motor would hardly leave it. Are both torques at the same shaft?")
	}
	return words
}

// Lacking says what a motor does not give without which nothing can be said of its
// currents or of its motion, and how to come by it; none when it gives enough.
func Lacking(m motor.Motor) (words []string) {
	if _, ok := m.PhaseCurrent(); !ok {
		words = append(words, "power, rates and ramps want a phase current: give current, or voltage and resistance, under [figures]")
	} else if !m.Figures.Resistance.Given() && !m.Figures.Voltage.Given() && !driver.Usual(m.Drive, false).Instant() {
		words = append(words, "rates and ramps want a resistance: give resistance, or voltage and current, under [figures]")
	}
	if m.Figures.HoldingTorque.Base() <= 0 && m.Figures.OnePhase.Base() <= 0 {
		words = append(words, "rates and ramps want a torque: give holding_torque, or one_phase_torque, under [figures]; without a sheet, hang more and more weight on a lever at the held output shaft until it gives way: 100 g at 5 cm is 49 mN.m")
	}
	return words
}

// Text writes the list, a motor a line.
func (l Motors) Text() string {
	var b strings.Builder
	for _, m := range l.Motors {
		steps := fmt.Sprintf("%d steps a turn", m.PerRotor)
		if m.Train != nil {
			steps += ", train " + Ratio(m.motor.Train)
		}
		fmt.Fprintf(&b, "%-11s %d leads, %-32s %s\n", m.Name, len(m.Leads), steps, m.Origin)
	}
	return b.String()
}

// Text writes a motor as a page worth keeping.
func (out Motor) Text() string {
	m := out.motor
	var b strings.Builder
	line := func(name, format string, values ...any) {
		fmt.Fprintf(&b, "  %-16s %s\n", name, fmt.Sprintf(format, values...))
	}
	fmt.Fprintf(&b, "%s: %s\n", m.Name, m.Title)
	line("figures", "%s", m.Origin)
	line("winding", "%s", Winding(m))
	if m.OrderGuessed {
		line("", "%s", motor.GuessedOrder)
	}
	for k, e := range sequence.Ends {
		words := m.Ends[k].Words()
		if words == string(m.Ends[k]) {
			words = ""
		}
		line(e.String(), "%-6s output %d  %s", m.Ends[k], m.Wiring.Inverse()[e]+1, words)
	}
	line("drive", "%s: %s", m.Drive, m.Supply(m.Drive))
	if len(m.Drives()) > 1 {
		other := m.Drives()[1]
		if other == m.Drive {
			other = m.Drives()[0]
		}
		line("", "or %s: %s", other, m.Supply(other))
	}
	line("rotor", "%d pole pairs: %d full steps, %d half steps to a turn", m.PolePairs, out.PerRotor, 2*out.PerRotor)
	if out.Counted != nil {
		line("counted", "%s", *out.Counted)
	}
	if m.Train.Geared() {
		line("train", "%s, ratio %s = %s", m.Train, out.Ratio, Ratio(m.Train))
		line("shaft", "%s full steps to a turn (%s)", out.PerShaft, m.StepsPerShaftTurn(sequence.Full).FloatString(4))
		if w := Against(m.Train); w != "" {
			line("", "%s", w)
		}
		if out.Backlash != nil {
			line("backlash", "%s at the shaft", Angle(*out.Backlash, 2))
		}
	}
	for _, f := range figures(m) {
		line(strings.ReplaceAll(f[0], "_", " "), "%s", f[1])
	}
	b.WriteString("  connections, at equal heat:\n")
	for _, c := range out.Connect {
		words := []string{fmt.Sprintf("holds %s times", Fixed(c.Torque, 2))}
		for _, f := range []*string{c.Current, c.Resistance, c.Inductance, c.Voltage} {
			if f != nil {
				words = append(words, *f)
			}
		}
		if c.Rise != nil {
			words = append(words, "time constant "+*c.Rise)
		}
		fmt.Fprintf(&b, "    %-34s %s\n    %-34s %s\n", c.Name, strings.Join(words, ", "), "", c.How)
	}
	if len(m.Leads()) == 6 {
		fmt.Fprintf(&b, "    %s\n", motor.NoParallel)
	}
	return b.String()
}
