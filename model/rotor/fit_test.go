package rotor

import (
	"math"
	"testing"

	"coilwalk/sequence"
)

// Published worked example (natural frequency: an industrial knowledge base's
// correction of a forum thread, row "Worked example, natural frequency"): a
// stiffness of 0.611 N·m/rad and 56.8 Hz make 4.8e-6 kg·m².
func TestFitToARing(t *testing.T) {
	p := plantOf(t, "hybrid-4", "current")
	p.Detent = 0
	p.FluxConstant = 0.61115 / float64(p.PolePairs) / float64(p.PolePairs) / p.Current // p·T1 = p²·ψ·I is the stiffness
	list, err := p.FitRing(56.790, nil)
	if err != nil || math.Abs(p.Inertia/4.8e-6-1) > 1e-4 || len(list) != 1 || list[0].Figure != "inertia" {
		t.Errorf("%g, %v, %v", p.Inertia, list, err)
	}
	// What was fitted rings so: one phase on, on the machine in time.
	q := plantOf(t, "hybrid-4", "current")
	if _, err := q.FitRing(180, nil); err != nil {
		t.Fatal(err)
	}
	q.Damping = 2 * 0.03 * q.TotalInertia() * q.RingRadians(1)
	order := sequence.Wave.Order()
	r, err := Respond(q, order.Row(0), order.Row(1), 0.3)
	if err != nil || math.Abs(r.RingHz/180-1) > 0.03 {
		t.Errorf("rings at %.1f Hz, %v", r.RingHz, err)
	}
	if _, err := q.FitRing(0, nil); err == nil {
		t.Error("a ring of 0 Hz was fitted")
	}
}

func TestFitToAStartStopRate(t *testing.T) {
	motors := [][2]string{{"hybrid-4", "bridge"}, {"geared-can", "darlington"}}
	if raced {
		motors = motors[:1] // coupled halves take five times as long, and no two things are done at once
	}
	for _, m := range motors {
		p := plantOf(t, m[0], m[1])
		list, err := p.FitStart(700, sequence.Half, []Estimate{{Figure: "inertia"}, {Figure: "damping"}})
		if err != nil || len(list) != 2 || list[0].Figure != "damping" {
			t.Fatalf("%s: %v, %v", m[0], list, err)
		}
		points, _ := Curve(p, sequence.Half, []float64{0}, nil)
		if math.Abs(points[0].StartStop/700-1) > 0.03 {
			t.Errorf("%s, fitted to 700, starts at up to %.0f", m[0], points[0].StartStop)
		}
		if _, err := p.FitStart(1e5, sequence.Half, nil); err == nil {
			t.Errorf("%s was fitted to 100000 rows/s", m[0])
		}
	}
}
