package rotor

import (
	"errors"
	"math"
	"strings"
	"testing"

	"coilwalk/model/files"
	"coilwalk/sequence"
)

func TestCheck(t *testing.T) {
	if p := everything(t, "darlington", sequence.Unipolar); p.Check() != nil {
		t.Errorf("a good plant: %v", p.Check())
	}
	for what, spoil := range map[string]func(*Plant){
		"pole pairs":    func(p *Plant) { p.PolePairs = 0 },
		"inertia":       func(p *Plant) { p.Inertia = 0 },
		"inductance":    func(p *Plant) { p.Inductance = 0 },
		"resistance":    func(p *Plant) { p.Resistance = -1 },
		"current":       func(p *Plant) { p.Current = 0 },
		"flux":          func(p *Plant) { p.FluxConstant = 0 },
		"ratio":         func(p *Plant) { p.Ratio = 0 },
		"friction":      func(p *Plant) { p.Friction = -1e-9 },
		"load friction": func(p *Plant) { p.Load.Friction = -1e-9 },
		"coupled":       func(p *Plant) { p.Coupling = 1 },
		"no number":     func(p *Plant) { p.Load.Torque = math.NaN() },
		"10000 V":       func(p *Plant) { p.Supply = 10_001 },
		"swing at": func(p *Plant) {
			p.Inertia, p.Load.Inertia, p.Play = p.OnePhase()*float64(p.PolePairs)*1e-11, 0, 0
		},
		"0.1 Hz":  func(p *Plant) { p.Load.Inertia = 1e7 },
		"detent":  func(p *Plant) { p.Detent = 101 * p.OnePhase() },
		"a watt":  func(p *Plant) { p.FluxConstant, p.Inertia = 1e3*p.FluxConstant, 1e3*p.Inertia },
		"finite":  func(p *Plant) { p.Damping = math.Inf(1) },
		"bipolar": func(p *Plant) { p.Drive = sequence.Bipolar },
	} {
		p := everything(t, "darlington", sequence.Unipolar)
		spoil(&p)
		var c *files.Complaint
		if err := p.CheckPace(); !errors.As(err, &c) || !strings.Contains(err.Error(), what) || c.Right == "" {
			t.Errorf("%s: %v", what, err)
		}
	}
	p := spring(t) // a current source needs no winding
	if err := p.Check(); err != nil {
		t.Error(err)
	}
}

// The field of a row at rest, worked out by hand, is where the currents end up.
func TestSteadyField(t *testing.T) {
	for _, c := range []struct {
		stage string
		drive sequence.Drive
		row   sequence.Row
		want  sequence.Field // A
	}{
		{"darlington", sequence.Unipolar, sequence.Row{1, 0, 0, 1}, sequence.Field{A: (5 - 0.77) / 51.4, B: -(5 - 0.77) / 51.4}},
		{"darlington", sequence.Unipolar, sequence.Row{1, 1, 1, 0}, sequence.Field{B: (5 - 0.77) / 51.4}},
		{"mosfet", sequence.Unipolar, sequence.Row{0, 0, 1, 0}, sequence.Field{A: -5 / 50.022}},
		{"bridge", sequence.Bipolar, sequence.Row{0, 0, 1, 0}, sequence.Field{A: -(5 - 1.4) / 51.15}},
		{"bridge", sequence.Bipolar, sequence.Row{1, 0, 1, 1}, sequence.Field{B: -(5 - 1.4) / 51.15}},
		{"bridge-fast", sequence.Bipolar, sequence.Row{}, sequence.Field{}},
		{"ideal", sequence.Bipolar, sequence.Row{0.5, 0, 0, 0.25}, sequence.Field{A: 0.05, B: -0.025}},
		{"chopper", sequence.Bipolar, sequence.Row{0.5, 0, 0, 0.25}, sequence.Field{A: 0.05, B: -0.025}},
		{"current", sequence.Unipolar, sequence.Row{0.5, 0, 0, 1}, sequence.Field{A: 0.05, B: -0.1}},
	} {
		p := everything(t, c.stage, c.drive)
		p.Friction = 1
		got := p.Field(c.row)
		if !near(0.1*got.A, c.want.A, 1e-12) || !near(0.1*got.B, c.want.B, 1e-12) {
			t.Errorf("%s, %v: %v, want %v A", c.stage, c.row, got, c.want)
		}
		i := advance(t, begun(&p, 0, c.row), 0.2).Currents
		if !near(i[0]-i[2], c.want.A, 1e-8) || !near(i[1]-i[3], c.want.B, 1e-8) {
			t.Errorf("%s, %v: runs to %v A, want %v", c.stage, c.row, i, c.want)
		}
	}
	p := spring(t)
	p.Current, p.FluxConstant = 1e-5, p.FluxConstant*1e4 // far less than an ampere is a current too
	if f := p.Field(aRow); f != (sequence.Field{A: 1}) {
		t.Errorf("a small current: %v", f)
	}
}

// The statics of a plant are the machine's own, in units of what one phase
// holds at its current; loads come to the rotor by the train.
func TestStaticsOfAPlant(t *testing.T) {
	p := everything(t, "bridge", sequence.Bipolar)
	m := p.Machine()
	const t1 = 0.1 * 0.1
	for what, c := range map[string][2]float64{"T1": {m.OnePhase, t1}, "detent": {m.Detent, 4e-4 / t1}, "shift": {m.DetentShift, 30},
		"friction": {m.Friction, (3e-4 + 1e-4) / t1}, "load": {m.Load, 2e-4 / t1}, "inertia": {p.TotalInertia(), 2e-7 + 4e-7/9}} {
		if !near(c[0], c[1], 1e-12) {
			t.Errorf("%s: %g, want %g", what, c[0], c[1])
		}
	}
	if got, want := p.RingRadians(1.2), math.Sqrt(16*t1*1.2/(2e-7+4e-7/9)); !near(got, want, 1e-9) {
		t.Errorf("rings at %g rad/s, want %g", got, want)
	}
	if got := p.RingRadians(-1); got != 0 {
		t.Errorf("rings at %g rad/s on a hill", got)
	}
}

// What a winding holds at a watt is T1/(I·√R), by arithmetic: 16 pole pairs with
// 0.1 N·m to an ampere on 0.01 ohm make 1 N·m/√W, twenty times as much flux 20.
func TestTorqueAtAWatt(t *testing.T) {
	for _, c := range []struct {
		perAmp, ohms float64
		right        bool
	}{{0.1, 0.01, true}, {0.95, 0.01, true}, {1.05, 0.01, false}, {2, 0.01, false}, {95, 100, true}, {105, 100, false}} {
		p := smallMotor(t)
		p.FluxConstant, p.Resistance, p.Inertia = c.perAmp/16, c.ohms, 1e-3
		if err := p.Check(); (err == nil) != c.right {
			t.Errorf("%g N·m/A on %g ohm: %v", c.perAmp, c.ohms, err)
		}
	}
}
