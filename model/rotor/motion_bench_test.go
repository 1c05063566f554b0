package rotor

import (
	"math"
	"testing"

	"coilwalk/sequence"
)

// A second of full steps at 100 a second, at the tolerance that runs have unless
// they ask for another. Beside the time: evaluations of the equations, and the
// error of the angle at the end against a run at 1e-13.

func BenchmarkBudgetTwoPhases(b *testing.B) {
	p := smallMotor(b)
	second(b, &p)
	b.ReportMetric(3.5e6, "allowed-ns")
}

// The same with all that can be on: dry friction, detent, a sample each
// millisecond.
func BenchmarkTwoPhasesWatched(b *testing.B) {
	p := smallMotor(b)
	p.Friction, p.Detent = 2e-4, 2e-4
	second(b, &p)
}

// Four half-coils coupled by 0.98 behind sinks and clamps, with dry friction.
func BenchmarkBudgetUnipolar(b *testing.B) {
	p := unipolarMotor(b)
	p.Friction = 2e-4
	second(b, &p)
	b.ReportMetric(78e6, "allowed-ns")
}

// The leakage is what bounds the steps: 0.98 → 0.998 makes it a tenth.
func BenchmarkUnipolarTightlyCoupled(b *testing.B) {
	p := unipolarMotor(b)
	p.Friction, p.Coupling = 2e-4, 0.998
	second(b, &p)
}

// A hybrid of 0.4 N·m on current: a start–stop trial of 100 rows and its
// settling.
func BenchmarkTrial(b *testing.B) {
	p := hybrid(b)
	o := sequence.Full.Order()
	m := NewMotion(&p)
	for b.Loop() {
		if _, ok, err := trial(m, o, 150); err != nil || !ok {
			b.Fatal(ok, err)
		}
	}
	b.ReportMetric(float64(m.Work().Evaluations), "evaluations")
}

func second(b *testing.B, p *Plant) {
	b.Helper()
	m := NewMotion(p)
	run := func() {
		m.Start(State{})
		m.Watch(1e-3, func(State) {})
		if err := fullSteps(m, 100); err != nil {
			b.Fatal(err)
		}
	}
	for b.Loop() {
		run()
	}
	work, got := m.Work(), m.State().Place
	m.Tolerance = 1e-13
	run()
	b.ReportMetric(float64(work.Evaluations), "evaluations")
	b.ReportMetric(math.Abs(got.From(m.State().Place))*math.Pi/180/16*1e9, "nrad-off")
}
