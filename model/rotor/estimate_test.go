package rotor

import (
	"errors"
	"math"
	"strings"
	"testing"

	"coilwalk/model/driver"
	"coilwalk/model/files"
	"coilwalk/model/motor"
	"coilwalk/model/quantity"
	"coilwalk/sequence"
)

func builtIn(t *testing.T, name string) motor.Motor {
	t.Helper()
	m, ok := motor.BuiltIn(name)
	if !ok {
		t.Fatalf("no built-in motor %s", name)
	}
	return m
}

func figures(list []Estimate) string {
	var names []string
	for _, e := range list {
		names = append(names, e.Figure)
	}
	return strings.Join(names, " ")
}

// Every built-in motor comes to a plant on every stage that its drive allows,
// goes a few slow steps, and says which figures are guesses: just those that its
// file leaves out.
func TestPlantOfBuiltIns(t *testing.T) {
	for _, name := range motor.Names() {
		m := builtIn(t, name)
		for _, s := range driver.Stages {
			if s.Allows(m.Drive) != nil {
				continue
			}
			p, list, err := PlantOf(m, s, quantity.Volts(12))
			if err != nil {
				t.Fatalf("%s, %s: %v", name, s.Name, err)
			}
			var want []string
			for _, f := range []struct {
				name  string
				given bool
			}{
				{"inertia", m.Figures.Inertia.Given()}, {"detent_torque", m.Figures.Detent.Given()}, {"inductance", m.Figures.Inductance.Given()},
				{"damping", false}, {"coupling", len(m.Leads()) == 4}, {"friction", m.Figures.Friction.Given()},
			} {
				if !f.given {
					want = append(want, f.name)
				}
			}
			if got := figures(list); got != strings.Join(want, " ") {
				t.Errorf("%s: estimated %s, want %v", name, got, want)
			}
			for _, e := range list {
				if e.Why == "" || e.Shown == "" || e.Value < 0 {
					t.Errorf("%s: %+v", name, e)
				}
			}
			o := sequence.Full.Order()
			run := begun(&p, 45, o.Row(0))
			for k := range int64(8) {
				run.Energise(o.Row(k + 1))
				advance(t, run, 0.1*float64(k+1))
			}
			rest, ok, err := run.Settle(o.Row(8), 2)
			if edge := math.Asin(min(1, p.Machine().Friction/p.Field(o.Row(0)).Strength())) * 180 / math.Pi; err != nil || !ok || math.Abs(total(rest)-45-720) > edge+2 {
				t.Errorf("%s, %s: after 8 steps at %v°, %v %v", name, s.Name, total(rest), ok, err)
			}
		}
	}
}

// ψm = Th2/(√2·p·I), torques by the train to the rotor; a can of 16 mN·m at the
// rotor, in proportion to one of 73.4 mN·m with 12.5 g·cm², has 2.7 g·cm².
func TestPlantOfCan(t *testing.T) {
	m := motor.Motor{Name: "some", PolePairs: 8, Winding: motor.Winding{Ends: [4]motor.Lead{"BK", "BN", "OG", "YE"}, Common: "RD"},
		Figures: motor.Figures{Voltage: quantity.Volts(12), Resistance: quantity.Ohms(60), HoldingTorque: quantity.NewtonMetres(0.16), Load: quantity.NewtonMetres(0.02)}}
	m.Train, _ = motor.ParseRatio("10:1")
	p, _, err := PlantOf(m, stage(t, "mosfet"), quantity.Voltage{})
	if err != nil {
		t.Fatal(err)
	}
	for what, c := range map[string][2]float64{
		"flux constant": {p.FluxConstant, 0.016 / (math.Sqrt2 * 8 * 0.2)}, "T1": {p.OnePhase(), 0.016 / math.Sqrt2},
		"inertia": {p.Inertia, 12.5e-7 * 16 / 73.4}, "detent": {p.Detent, 0.0016}, "inductance": {p.Inductance, 60 * 0.85e-3},
		"supply": {p.Supply, 12}, "load": {p.Machine().Load, 0.002 / (0.016 / math.Sqrt2)}, "friction": {p.Friction, 0},
		"damping ratio": {p.Damping / (2 * math.Sqrt(8*p.OnePhase()*p.Inertia)), 0.05},
	} {
		if !near(c[0], c[1], 1e-9*max(1e-3, c[1])) {
			t.Errorf("%s: %g, want %g", what, c[0], c[1])
		}
	}
}

// Hybrids of a maker's catalogue (42 mm, p. 9: N·cm and g·cm²) are met
// within a factor of two, and their detents (N·cm) too.
func TestHybridEstimates(t *testing.T) {
	for _, c := range []struct{ hold, inertia, detent float64 }{{28, 34, 1.6}, {40, 54, 2.2}, {52, 68, 2.6}, {21, 34, 1.6}} {
		m := builtIn(t, "hybrid-4")
		m.Figures.Inertia, m.Figures.Detent = quantity.Inertia{}, quantity.Torque{}
		m.Figures.HoldingTorque = quantity.NewtonMetres(c.hold / 100)
		p, list, err := PlantOf(m, stage(t, "current"), quantity.Voltage{})
		if err != nil || figures(list) != "inertia detent_torque damping friction" {
			t.Fatalf("%v, %v", figures(list), err)
		}
		if r := p.Inertia * 1e7 / c.inertia; r < 0.5 || r > 2 {
			t.Errorf("%g N·cm: %g g·cm², want %g", c.hold, p.Inertia*1e7, c.inertia)
		}
		if r := p.Detent * 100 / c.detent; r < 0.5 || r > 2 {
			t.Errorf("%g N·cm: detent %g N·cm, want %g", c.hold, p.Detent*100, c.detent)
		}
		if list[0].Value != p.Inertia || !strings.Contains(list[0].Shown, "g.cm2") {
			t.Errorf("%+v for %g kg·m²", list[0], p.Inertia)
		}
	}
}

// Halves in series at 1/√2 of the rating hold √2 times as strongly, with 2R and
// 2(1 + k)L (a maker's table of an 8-lead motor, data sheet 23-305-DS8A: 3.0 A,
// 1.4 ohm, 3.2 mH, 215 N·cm; 2.12 A, 2.8 ohm, 12.8 mH, 300 N·cm).
func TestHalvesInSeries(t *testing.T) {
	m := builtIn(t, "hybrid-8")
	m.Drive = sequence.Bipolar
	p, _, err := PlantOf(m, stage(t, "chopper"), quantity.Volts(24))
	if err != nil {
		t.Fatal(err)
	}
	for what, c := range map[string][3]float64{"current": {p.Current, 2.12, 0.01}, "resistance": {p.Resistance, 2.8, 1e-9},
		"inductance": {p.Inductance, 12.8e-3, 0.2e-3}, "holding torque": {math.Sqrt2 * p.OnePhase(), 3.0, 0.05}} {
		if !near(c[0], c[1], c[2]) {
			t.Errorf("%s: %g, want %g", what, c[0], c[1])
		}
	}
}

// What is needed and not there is said.
func TestWhatIsMissing(t *testing.T) {
	for _, c := range []struct {
		stage string
		spoil func(*motor.Motor)
		want  string
	}{
		{"current", func(m *motor.Motor) { m.Figures.HoldingTorque = quantity.Torque{} }, "holding_torque"},
		{"current", func(m *motor.Motor) { m.Figures.Current = quantity.Current{} }, "current"},
		{"ideal", func(m *motor.Motor) { m.Figures.Resistance = quantity.Resistance{} }, "resistance"},
		{"chopper", func(*motor.Motor) {}, "supply"},
		{"darlington", func(*motor.Motor) {}, "bipolar"},
	} {
		m := builtIn(t, "hybrid-4")
		c.spoil(&m)
		var complaint *files.Complaint
		if _, _, err := PlantOf(m, stage(t, c.stage), quantity.Voltage{}); !errors.As(err, &complaint) || !strings.Contains(err.Error(), c.want) || complaint.Right == "" {
			t.Errorf("%s: %v", c.want, err)
		}
	}
	m := builtIn(t, "hybrid-4")
	m.Figures.Resistance, m.Figures.Inductance = quantity.Resistance{}, quantity.Inductance{}
	if _, list, err := PlantOf(m, stage(t, "current"), quantity.Voltage{}); err != nil || figures(list) != "damping friction" {
		t.Errorf("a current source needs no winding: %v, %v", figures(list), err)
	}
}

// An estimate says in its words what it says in its value, and a motor of just so many
// poles as hybrids have is one.
func TestEstimatesSayWhatTheyAre(t *testing.T) {
	for name, want := range map[string]struct{ detent, rise string }{"geared-can": {"10 %", "0.85 ms"}, "hybrid-4": {"5 %", "1.6 ms"}} {
		m := builtIn(t, name)
		m.Figures.Detent, m.Figures.Inductance = quantity.Torque{}, quantity.Inductance{}
		if want.detent == "5 %" {
			m.PolePairs = manyPoles
		}
		p, list, err := PlantOf(m, driver.Usual(m.Drive, false), quantity.Voltage{})
		if err != nil {
			t.Fatal(err)
		}
		said := map[string]string{}
		for _, e := range list {
			said[e.Figure] = e.Why
		}
		if !strings.HasPrefix(said["detent_torque"], want.detent+" of the holding torque") || !strings.Contains(said["inductance"], "of "+want.rise+",") {
			t.Errorf("%s: %q", name, said)
		}
		if m.Drive == sequence.Unipolar && !near(1e3*p.Inductance/p.Resistance, 0.85, 1e-6) {
			t.Errorf("%s: %g H, %g ohm", name, p.Inductance, p.Resistance)
		}
	}
}

// A resistance that is not given is the rated voltage over the rated current (Ohm's
// law); one that is given stands, whatever voltage is.
func TestResistanceOfVoltageAndCurrent(t *testing.T) {
	m := builtIn(t, "vent-flap")
	m.Figures.Voltage, m.Figures.Current = quantity.Volts(12), quantity.Amperes(0.1)
	for given, want := range map[quantity.Resistance]float64{{}: 120, quantity.Ohms(100): 100} {
		m.Figures.Resistance = given
		p, _, err := PlantOf(m, driver.Usual(m.Drive, false), quantity.Volts(12))
		if err != nil || !near(p.Resistance, want, 1e-9) {
			t.Errorf("%v given: %g ohm, %v, want %g", given, p.Resistance, err, want)
		}
	}
}
