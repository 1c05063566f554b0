package driver

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"coilwalk/sequence"
)

// A curve goes through its points, is straight between them, and never drives a
// current, whatever was published.
func TestCurve(t *testing.T) {
	c := Curve{{0.1, 0.9}, {0.2, 1.05}, {0.35, 1.25}}
	for _, p := range []struct{ ampere, volts float64 }{{0.1, 0.9}, {0.15, 0.975}, {0.2, 1.05}, {0.35, 1.25}, {0.5, 1.45}, {0, 0.75}} {
		if got := c.At(p.ampere); !near(got, p.volts, 1e-12) {
			t.Errorf("%g V at %g A, want %g", got, p.ampere, p.volts)
		}
	}
	if got := (Curve{{0.6, 2.6}}).At(0.1); got != 2.6 {
		t.Errorf("one point: %g V", got)
	}
	rapid.Check(t, func(t *rapid.T) {
		c, i, v := Curve{}, 0.0, 0.0
		for range rapid.IntRange(1, 5).Draw(t, "points") {
			i += rapid.Float64Range(0.01, 1).Draw(t, "A")
			v += rapid.Float64Range(0, 3).Draw(t, "V")
			c = append(c, Point{i, v})
		}
		a := rapid.Float64Range(0, 8).Draw(t, "current")
		line := c.Line(a)
		if line.Volts < 0 || line.Ohms < 0 || math.IsNaN(line.Ohms) {
			t.Fatalf("%v at %g A: %+v drives a current", c, a, line)
		}
		if more := c.At(a + 0.1); more < c.At(a)-1e-9 && a >= c[0].Ampere {
			t.Fatalf("%v: less is lost at %g A than at %g", c, a+0.1, a)
		}
	})
}

// The published points are kept, typical and most, and the one straight line that
// the rates are run with meets the typical ones within 20 mV. ST Doc ID 5279
// Table 4 and TI SLRS027O 6.6; makers' data sheets of a dual bipolar
// bridge (January 2000), a quad half-bridge (TI SLRS008C) and a 55 V MOSFET.
func TestPublishedPoints(t *testing.T) {
	for _, c := range []struct {
		stage                 string
		ampere, typical, most float64
		within                float64 // of two makers
	}{
		{"darlington", 0.1, 0.9, 1.1, 0}, {"darlington", 0.2, 1.05, 1.3, 0.05}, {"darlington", 0.35, 1.25, 1.6, 0.05},
		{"bridge", 1, 2.55, 3.2, 0}, {"bridge", 2, 3.7, 4.9, 0}, {"small-bridge", 0.6, 2.6, 3.6, 0}, {"mosfet", 0.1, 0.0022, 0.0022, 0},
	} {
		s := named(t, c.stage)
		if got := s.Around(c.ampere, 25).Switch.At(c.ampere); !near(got, c.typical, c.within+1e-9) || !near(s.Switch.At(c.ampere), got, 0.02) {
			t.Errorf("%s at %g A: %g V by points, %g by the line, want %g", c.stage, c.ampere, got, s.Switch.At(c.ampere), c.typical)
		}
		if got := s.Worst(c.ampere, 25); !near(got, c.most, 1e-9) {
			t.Errorf("%s at %g A: at most %g V, want %g", c.stage, c.ampere, got, c.most)
		}
	}
	if cold, warm := named(t, "mosfet").Worst(1, 25), named(t, "mosfet").Worst(1, 125); !near(warm/cold, 1.5, 1e-9) {
		t.Errorf("a MOSFET's resistance at 125 °C is %g times that at 25 °C", warm/cold)
	}
}

// TI SLRS027O 9.2.2, equation 1: 5 V, 50 ohm and a drop of 0.9 V give 82 mA, of
// 1.1 V 78 mA.
func TestSteady(t *testing.T) {
	on := sequence.Row{1, 0, 0, 0}
	guaranteed := named(t, "darlington")
	guaranteed.Typical = guaranteed.Guaranteed
	for _, c := range []struct {
		stage  Stage
		drive  sequence.Drive
		row    sequence.Row
		supply float64
		ohms   float64
		want   [4]float64
		within float64
	}{
		{named(t, "darlington"), sequence.Unipolar, on, 5, 50, [4]float64{0.0823, 0, 0, 0}, 3e-4},
		{guaranteed, sequence.Unipolar, on, 5, 50, [4]float64{0.0785, 0, 0, 0}, 4e-4},
		{named(t, "darlington"), sequence.Unipolar, sequence.Row{1, 0, 1, 1}, 0.5, 50, [4]float64{}, 0},
		{named(t, "bridge"), sequence.Bipolar, sequence.Row{1, 0, 0, 1}, 12, 8, [4]float64{10.6 / 9.15, -10.6 / 9.15}, 1e-9}, // 1.4 V and 1.15 ohm through its points
		{named(t, "bridge"), sequence.Bipolar, sequence.Row{1, 0, 1, 0}, 12, 8, [4]float64{}, 0},
		{named(t, "small-bridge"), sequence.Bipolar, on, 12, 20, [4]float64{0.47}, 1e-9},
		{named(t, "mosfet-bridge"), sequence.Bipolar, on, 5, 9.5, [4]float64{0.5}, 1e-9},
		{named(t, "chopper"), sequence.Bipolar, sequence.Row{0, 1, 0, 0}, 24, 2, [4]float64{0, 1.5}, 1e-9},
		{named(t, "chopper"), sequence.Bipolar, sequence.Row{0, 1, 0, 0}, 2.5, 2, [4]float64{0, 1}, 1e-9}, // too little for its limit
		{named(t, "current"), sequence.Unipolar, on, 0, 0, [4]float64{1.5}, 0},
		{named(t, "ideal"), sequence.Bipolar, sequence.Row{0, 0, 1, 0}, 6, 2, [4]float64{-3}, 1e-9},
	} {
		got := c.stage.Steady(c.row, c.drive, 1.5, c.supply, c.ohms, 25)
		for j := range got {
			if !near(got[j], c.want[j], c.within) {
				t.Errorf("%s, %s at %g V: %v A, want %v", c.stage.Name, c.row.Bits(), c.supply, got, c.want)
			}
		}
	}
}

// The current that is found is the one at which drop and coil share the supply.
func TestSteadyShares(t *testing.T) {
	stages := slices.DeleteFunc(slices.Clone(Stages[:]), Stage.Regulates) // those share nothing: they hold a current
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.SampledFrom(stages).Draw(t, "stage")
		drive := sequence.Unipolar
		if s.Allows(drive) != nil {
			drive = sequence.Bipolar
		}
		supply, ohms := rapid.Float64Range(1, 40).Draw(t, "V"), rapid.Float64Range(0.5, 200).Draw(t, "ohm")
		tj := rapid.Float64Range(0, 150).Draw(t, "°C")
		i := s.Steady(sequence.Row{1, 0, 0, 0}, drive, 1, supply, ohms, tj)[0]
		lost := s.drop(s.Typical, i, tj).At(i)
		if i < 0 || i > 0 && !near(i*ohms+lost, supply, 1e-6*supply) || i == 0 && s.drop(s.Typical, 0, tj).Volts < supply-1e-9 {
			t.Fatalf("%s: %g A through %g ohm lose %g V of %g", s.Name, i, ohms, lost, supply)
		}
	})
}
