package rotor

import (
	"math"
	"testing"

	"coilwalk/model/driver"
	"coilwalk/sequence"
)

// losing is a machine whose rotor is turned evenly from outside, lagging the field,
// for a circuit that counts who gets the supply's energy.
type losing struct {
	course
	Speed float64 // rad/s
	Lags  float64 // electrical rad, of the rotor at the first row; negative
	Curve driver.Curve
}

// rows is how many rows the circuit runs, a cycle of eight each time. The first is
// for the currents to come about.
const lossRows = 32

// turnedByHand is a geared can of 5 V and 50 ohm on more than it is made for, so
// that its currents go through all of the published points of a Darlington array.
func turnedByHand(tb testing.TB) (losing, outside) {
	tb.Helper()
	p := unipolarMotor(tb)
	p.Stage = stage(tb, "darlington")
	p.Supply, p.Inertia, p.Damping = 14, 1e4, 0
	const rate = 400 // rows a second
	c := losing{course: course{Plant: p, RowSeconds: 1.0 / rate, Rows: lossRows, Every: 1.0 / rate, Tolerance: 1e-6, LongestStep: 5e-6, Rounding: 1e-8, Edge: 10e-9}}
	c.Stray.Farad, c.Stray.Ohms = 20e-12, 1e6
	c.Speed = rate * math.Pi / 4 / float64(p.PolePairs)
	c.Lags = -0.6
	// below the first point and beyond the last as straight as between, and nothing
	// below its threshold
	all := p.Stage.Typical
	c.Curve = append(driver.Curve{{Ampere: 0, Volts: -1e3}, {Ampere: 0, Volts: all.At(0)}}, all...)
	c.Curve = append(c.Curve, driver.Point{Ampere: 1, Volts: all.At(1)})
	o := outside{input: "circuit/loss.cir", figures: c, agree: 1e-3, columns: []string{"s", "J given", "J copper", "J sinks", "J clamps"}}
	given := p.Supply * 0.3 * lossRows / rate // some measure of energy
	o.measure = []float64{given, given, given, given}
	return c, o
}

// energies runs the machine and gives, from the second cycle on, the energy given
// and that lost in copper, sinks and diodes, in J.
func (c *losing) energies(t *testing.T) (e [4]float64) {
	t.Helper()
	m := NewMotion(&c.Plant)
	m.Start(State{Speed: c.Speed, Place: Position{}.moved(c.Lags * 180 / math.Pi)})
	order := sequence.Half.Order()
	const parts = 400
	for k := range lossRows {
		m.Energise(order.Row(int64(k)))
		from := float64(k) * c.RowSeconds
		for i := range parts {
			x := (float64(i) + 0.5) / parts
			advance(t, m, from+x*x*c.RowSeconds)
			if k < 8 {
				continue
			}
			w, dt := m.Power(m.State()), 2*x/parts*c.RowSeconds
			for j, watts := range [4]float64{w.Supply, w.Copper, w.Switch, w.Clamp} {
				e[j] += watts * dt
			}
		}
		advance(t, m, from+c.RowSeconds)
	}
	return e
}

// What a driver turns into heat while a motor turns, held against a circuit whose
// sinks have all the published points: ours has the straight piece about the current
// that a coil comes to (driver.Stage.Around).
func TestReferenceDriverLoss(t *testing.T) {
	c, o := turnedByHand(t)
	all := o.samples(t)
	if len(all) != lossRows+1 {
		t.Fatalf("%d samples", len(all))
	}
	var want [4]float64
	for j := range want {
		want[j] = all[lossRows][j+1] - all[8][j+1]
	}
	i := c.Stage.Steady(sequence.Row{1, 0, 0, 0}, c.Drive, 1, c.Supply, c.Resistance, 25)[0]
	c.Stage = c.Stage.Around(i, 25)
	got := c.energies(t)
	for j, what := range [4]string{"given by the supply", "copper", "sinks", "clamps"} {
		apart := math.Abs(got[j]-want[j]) / want[j]
		t.Logf("%s: %.4g mJ, %.2g of it apart from the circuit", what, 1e3*got[j], apart)
		if apart > 1e-3 {
			t.Errorf("%s: %g J, the circuit has %g", what, got[j], want[j])
		}
	}
	off := c
	off.Stage.Switch.Volts *= 1.05
	if e := off.energies(t); math.Abs(e[2]-want[2]) < 0.01*want[2] {
		t.Errorf("a drop a twentieth off makes %g J, and would pass", e[2])
	}
}
