package rotor

import (
	"math"
	"testing"

	"coilwalk/sequence"
)

// worst gives the greatest difference in any place that is in use, in units of
// the tolerance.
func (m *Motion) worst(a, b *vector) float64 {
	d := 0.0
	for j := range m.places {
		d = max(d, m.weight[j]*math.Abs(a[j]-b[j]))
	}
	return d
}

// One step errs as h⁹ and the interpolant within it as h⁸: a method of order 8
// with an interpolant of order 7 (Hairer, Nørsett and Wanner, II.5 and II.6).
// Any coefficient that is wrong in a digit that counts lowers the order.
func TestOrderOfThePair(t *testing.T) {
	for _, c := range []struct {
		what  string
		plant Plant
		start State
		row   sequence.Row
		h     float64
	}{
		{"pendulum", spring(t), State{Place: position(-60), Speed: 40}, aRow, 1.5e-3},
		{"two coils", smallMotor(t), State{Place: position(20), Speed: 60, Currents: [4]float64{0.08, -0.03}}, abRow, 6e-4},
		{"four halves", unipolarMotor(t), State{Place: position(20), Speed: 60, Currents: [4]float64{0.08, 0.05, 0.02, 0.03}}, sequence.Row{1, 1, 1, 1}, 5e-5},
	} {
		if c.what == "four halves" {
			c.plant.Coupling = 0.6
		}
		fine := NewMotion(&c.plant)
		coarse := NewMotion(&c.plant)
		for _, m := range []*Motion{fine, coarse} {
			m.Tolerance = 1e-14
			m.Start(c.start)
			m.Energise(c.row)
		}
		var errs, inner [2]float64
		for n, h := range []float64{c.h, c.h / 2} {
			coarse.Start(c.start)
			coarse.Energise(c.row)
			coarse.trial(h)
			coarse.slope(&coarse.next, &coarse.stages[12])
			coarse.curve.ready = false
			coarse.interpolate(h)
			fine.Start(c.start)
			fine.Energise(c.row)
			for _, x := range []float64{0.15, 0.35, 0.5, 0.7, 0.9, 1} {
				advance(t, fine, x*h)
				var y vector
				coarse.curve.at(x, coarse.places, &y)
				inner[n] = max(inner[n], coarse.worst(&y, &fine.now))
			}
			errs[n] = coarse.worst(&coarse.next, &fine.now)
		}
		if order := math.Log2(errs[0]/errs[1]) - 1; order < 7.6 || order > 9.4 {
			t.Errorf("%s: order %.2f, errors %.3g", c.what, order, errs)
		}
		if order := math.Log2(inner[0]/inner[1]) - 1; order < 6.6 || order > 8.4 {
			t.Errorf("%s: interpolant of order %.2f, errors %.3g", c.what, order, inner)
		}
	}
}

// The estimate is no less than the error that a step makes, and not so much
// more that steps are wasted.
func TestEstimateCovers(t *testing.T) {
	p := smallMotor(t)
	for _, tolerance := range []float64{1e-5, 1e-7, 1e-9} {
		m, fine := NewMotion(&p), NewMotion(&p)
		m.Tolerance, fine.Tolerance = tolerance, 1e-14
		for h := 1e-5; h < 2e-3; h *= 1.3 {
			start := State{Place: position(30), Speed: 50, Currents: [4]float64{0.05, 0.02}}
			m.Start(start)
			m.Energise(bRow)
			size := m.trial(h)
			fine.Start(start)
			fine.Energise(bRow)
			advance(t, fine, h)
			if err := m.worst(&m.next, &fine.now) / 2; size < 1 && (err > max(size, 1e-6)*2 || err > 1) {
				t.Errorf("tolerance %g, step %.3g s: estimated %.3g, is %.3g", tolerance, h, size, err)
			}
		}
	}
}

// The decay that the longest step between events has to bear is borne: over a
// hundred time constants of the leakage nothing grows.
func TestStableStep(t *testing.T) {
	p := unipolarMotor(t)
	m := begun(locked(p), 0, sequence.Row{1, 0, 1, 0})
	m.now[ampere] = 0.0811 // near where both end up
	m.now[ampere+2] = 0.0811
	m.restart()
	h, want := m.longest, 4.1/50.5
	if tau := 20e-3 * 0.02 / 50.5; h < 5*tau || h > 6.4*tau {
		t.Fatalf("steps of %g time constants", h/tau)
	}
	for range 100 {
		m.trial(h)
		m.slope(&m.next, &m.stages[12])
		m.now, m.stages[0] = m.next, m.stages[12]
	}
	if got := m.now[ampere]; !near(got, want, 1e-9) {
		t.Errorf("%v A, want %v", got, want)
	}
}
