package rotor

import (
	"math"
	"testing"

	"coilwalk/sequence"
)

// course is the plan of a run: full steps, each of RowSeconds, with samples
// every so often. Twenty-one tenths of a millisecond in rows of ten milliseconds
// come to lie at each tenth of a row.
type course struct {
	Plant
	RowSeconds float64
	Rows       int
	Every      float64 // s
	Tolerance  float64 // relative, of the outside program
	Absolute   float64 // likewise, as a part of 10 mA, 10 rad/s and 10 mrad; of ODE solvers
	Method     string  // likewise

	// what only the circuits have
	LongestStep float64 // s
	Rounding    float64 // V², of the bend where a diode begins to conduct
	Stray       struct{ Farad, Ohms float64 }
	Creep       float64 // rad/s at which dry friction is well on
	Edge        float64 // s, of a switch
}

// Seconds is how long it lasts.
func (c course) Seconds() float64 { return c.RowSeconds * float64(c.Rows) }

func secondOf(p Plant) course {
	return course{Plant: p, RowSeconds: 10e-3, Rows: 100, Every: 2.1e-3}
}

// ours gives the samples of our own engine: seconds, currents, rad/s, rad.
func (c course) ours(tb testing.TB, tolerance float64, rows []sequence.Row) [][]float64 {
	tb.Helper()
	m := NewMotion(&c.Plant)
	m.Tolerance = tolerance
	coils := 2
	if c.Drive == sequence.Unipolar {
		coils = 4
	}
	var samples [][]float64
	c.run(tb, m, rows, func(s State) {
		line := append([]float64{s.Seconds}, s.Currents[:coils]...)
		samples = append(samples, append(line, s.Speed, s.Place.Rotor(c.PolePairs)*math.Pi/180))
	})
	return samples
}

// run runs our own engine from a standstill.
func (c course) run(tb testing.TB, m *Motion, rows []sequence.Row, see func(State)) {
	tb.Helper()
	m.Start(State{})
	m.Watch(c.Every, see)
	for k := range c.Rows {
		m.Energise(rows[k%len(rows)])
		advance(tb, m, float64(k+1)*c.RowSeconds)
	}
}

var fullRows = []sequence.Row{{1, 1, 0, 0}, {0, 1, 1, 0}, {0, 0, 1, 1}, {1, 0, 0, 1}}

// columns names and measures what such a run gives: currents in parts of the
// phase current, speed in that of an electrical radian at the ring frequency,
// angle in electrical radians, of which a full step has 1.6.
func (c course) columns() (names []string, measure []float64) {
	names = []string{"s", "A of A", "A of B"}
	if c.Drive == sequence.Unipolar {
		names = []string{"s", "A of A+", "A of B+", "A of A-", "A of B-"}
	}
	for range names[1:] {
		measure = append(measure, c.Current)
	}
	poles := float64(c.PolePairs)
	return append(names, "rad/s", "rad"), append(measure, c.RingRadians(1)/poles, 1/poles)
}

// twoPhases is a bipolar machine for SciPy, which takes an explicit Runge–Kutta
// pair.
func twoPhases(tb testing.TB) (course, outside) {
	c := secondOf(smallMotor(tb))
	c.Method, c.Tolerance, c.Absolute = "DOP853", 1e-10, 1e-10
	o := outside{input: "ode/two-phases.py", figures: c, agree: 1e-8}
	o.columns, o.measure = c.columns()
	return c, o
}

// bipolarCircuit is the same machine for ngspice.
func bipolarCircuit(tb testing.TB) (course, outside) {
	c := secondOf(smallMotor(tb))
	c.Tolerance, c.LongestStep = 1e-8, 100e-6
	o := outside{input: "circuit/bipolar.cir", figures: c, agree: 1e-4}
	o.columns, o.measure = c.columns()
	return c, o
}

// unipolarCircuit has four half-coils, sinks, clamps, and dry friction on which
// the rotor comes to a stand. The circuit rounds what conducts over a millivolt
// and what sticks over 0.01 rad/s, for its solver: that, and its tolerance,
// bound how well we can agree.
func unipolarCircuit(tb testing.TB) (course, outside) {
	p := unipolarMotor(tb)
	p.Friction = 2e-4
	c := secondOf(p)
	c.Tolerance, c.LongestStep, c.Rounding, c.Creep, c.Edge = 1e-6, 100e-6, 1e-6, 0.01, 0.1e-6
	c.Stray.Farad, c.Stray.Ohms = 200e-12, 20e3
	o := outside{input: "circuit/unipolar.cir", figures: c, agree: 1e-3}
	o.columns, o.measure = c.columns()
	return c, o
}

// The motion of whole machines, held against other programs: how far ours is
// from them, and how far it would be with a figure a tenth off.
func TestReferenceMotion(t *testing.T) {
	for _, r := range []struct {
		name   string
		of     func(testing.TB) (course, outside)
		within float64 // of the measures of columns
	}{
		{"two phases", twoPhases, 2e-6},
		{"bipolar circuit", bipolarCircuit, 3e-4},
		{"unipolar circuit", unipolarCircuit, 1.5e-3},
	} {
		t.Run(r.name, func(t *testing.T) {
			c, o := r.of(t)
			want := o.samples(t)
			if len(want) != 477 {
				t.Fatalf("%d samples", len(want))
			}
			apart := o.apart(t, c.ours(t, DefaultTolerance, fullRows), want)
			if apart > r.within {
				t.Errorf("ours deviates by %.2g of an amplitude, more than %.2g", apart, r.within)
			}
			t.Logf("ours deviates by %.2g of an amplitude at most", apart)
			for _, tenth := range tenths {
				if tenth.halves && c.Drive == sequence.Bipolar {
					continue
				}
				off := c
				tenth.more(&off.Plant)
				if apart := o.apart(t, off.ours(t, DefaultTolerance, fullRows), want); apart < 1.5*r.within {
					t.Errorf("with the %s a tenth off ours deviates by %.2g, and would pass", tenth.of, apart)
				}
			}
		})
	}
}

// tenths are figures that are off; halves: which only the unipolar machine has.
var tenths = []struct {
	of     string
	halves bool
	more   func(*Plant)
}{
	{"resistance", false, func(p *Plant) { p.Resistance *= 1.1 }},
	{"inductance", false, func(p *Plant) { p.Inductance *= 1.1 }},
	{"supply", false, func(p *Plant) { p.Supply *= 1.1 }},
	{"flux constant", false, func(p *Plant) { p.FluxConstant *= 1.1 }},
	{"inertia", false, func(p *Plant) { p.Inertia *= 1.1 }},
	{"damping", false, func(p *Plant) { p.Damping *= 1.1 }},
	{"coupling", true, func(p *Plant) { p.Coupling *= 0.9 }},
	{"friction", true, func(p *Plant) { p.Friction *= 1.1 }},
	{"drop of the sinks", true, func(p *Plant) { p.Stage.Switch.Volts *= 1.1 }},
	{"drop of the clamps", true, func(p *Plant) { p.Stage.Clamp.Volts *= 1.1 }},
}

// The winding alone: two halves that take turns while the rotor is held. The
// recording has to show what such a pair does, or it would say little.
func TestReferencePhase(t *testing.T) {
	p := unipolarMotor(t)
	p.Friction = 1
	c := course{Plant: p, RowSeconds: 5e-3, Rows: 4, Every: 0.05e-3, Tolerance: 1e-7, LongestStep: 5e-6, Rounding: 1e-8, Edge: 10e-9}
	c.Stray.Farad, c.Stray.Ohms = 20e-12, 1e6
	o := outside{input: "circuit/phase.cir", figures: c, agree: 1e-4}
	o.columns, o.measure = []string{"s", "A of A+", "A of A-"}, []float64{c.Current, c.Current}
	want := o.samples(t)
	if len(want) != 401 {
		t.Fatalf("%d samples", len(want))
	}
	var ours [][]float64
	for _, s := range c.ours(t, DefaultTolerance, []sequence.Row{{1, 0, 0, 0}, {0, 0, 1, 0}}) {
		ours = append(ours, []float64{s[0], s[1], s[3]})
	}
	apart := o.apart(t, ours, want)
	if apart > 5e-4 {
		t.Errorf("ours deviates by %.2g of an amplitude", apart)
	}
	t.Logf("ours deviates by %.2g of an amplitude at most", apart)
	if idle := want[5]; idle[2] < 0.015 { // 0.25 ms after A+ is on
		t.Errorf("the idle half carries %g A by transformer action", idle[2])
	}
	if end, over := want[100], want[101]; over[1] > 0.9*end[1] || math.Abs(over[2]) > 1e-4 {
		t.Errorf("50 µs after hand-over from %v A: %v, and the new half should wait while the old one falls", end[1:], over[1:])
	}
	if later := want[150]; math.Abs(later[1]) > 1e-4 || later[2] < 0.05 {
		t.Errorf("2.5 ms after hand-over: %v A", later[1:])
	}
}
