package power

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"coilwalk/model/driver"
	"coilwalk/model/motor"
	"coilwalk/sequence"
)

// 5 V through 50 ohm and a drop of 0.9 V give 82 mA (TI SLRS027O, 9.2.2): two coils
// 164 mA in full step and on half of the rows of half step, one 82 mA in wave. A
// geared 5 V can motor of 50 ohm at 25 °C (a maker's data sheet of the kind).
func TestCurrentsOfEachMode(t *testing.T) {
	a := judged(t, asks(t, "geared-can", "darlington", "5V", nil))
	for k, want := range []struct{ average, peak, rest, least float64 }{{0.0823, 0.0823, 0.0823, 0.0823}, {0.1646, 0.1646, 0.1646, 0.1646}, {0.1235, 0.1646, 0.1646, 0.0823}} {
		m := a.Modes[k]
		if !near(m.Average, want.average, 6e-4) || !near(m.Peak, want.peak, 6e-4) || !near(m.Rest.Ampere, want.rest, 6e-4) || !near(m.Least.Ampere, want.least, 6e-4) {
			t.Errorf("%s: %g A on the mean, peak %g, rest %g and %g; want %+v", m.Mode.Name, m.Average, m.Peak, m.Rest.Ampere, m.Least.Ampere, want)
		}
	}
	// rated: 5 V/50 ohm, half a watt a coil at 25 °C
	ideal := judged(t, asks(t, "geared-can", "ideal", "5V", inMode(sequence.Wave)))
	if !near(ideal.Cold.Copper, 0.5, 1e-9) || !near(ideal.Cold.Ampere, 0.1, 1e-9) || !near(ideal.Cold.Strength, 1, 1e-9) {
		t.Errorf("rated: %+v", ideal.Cold)
	}
}

// Both halves of a phase on take twice the current of one, make twice its heat, and
// no field at all.
func TestBothHalves(t *testing.T) {
	a := judged(t, asks(t, "geared-can", "darlington", "5V", inMode(sequence.Wave)))
	if a.Both == nil || !near(a.Both.Ampere, 2*a.Cold.Ampere, 1e-9) || !near(a.Both.Copper, 2*a.Cold.Copper, 1e-9) || a.Both.Strength > 1e-12 || a.Cold.Strength < 0.8 {
		t.Errorf("%+v against %+v", a.Both, a.Cold)
	}
	if b := judged(t, asks(t, "hybrid-4", "chopper", "24V", nil)); b.Both != nil {
		t.Error("a bridge has no halves")
	}
}

// At its rating every connection makes the same heat, and the bipolar ones hold √2
// times as much (a maker's data sheet of an 8-lead motor: 3.0 A 1.4 ohm
// 215 N·cm unipolar; 2.12 A 2.8 ohm and 4.2 A 0.7 ohm 300 N·cm in series and in
// parallel).
func TestConnectionsAreOfEqualHeat(t *testing.T) {
	all := InEach(asks(t, "hybrid-8", "current", "24V", inMode(sequence.Full)))
	want := map[string]struct{ ampere, shaft float64 }{"unipolar": {3, 2.15}, "bipolar, half a coil": {3, 2.15},
		"bipolar, halves in series": {2.12, 3.0}, "bipolar, halves in parallel": {4.2, 3.0}}
	if len(all) != len(want) {
		t.Fatalf("%d connections", len(all))
	}
	for _, a := range all {
		w := want[a.Connection.Name]
		if !near(a.Driver.OutputAmpere, w.ampere, 0.05) || !near(a.ColdShaft, w.shaft, 0.05) || !near(a.Cold.Copper, 2*9*1.4, 1e-6) {
			t.Errorf("%s: %g A, %g N·m, %g W", a.Connection.Name, a.Driver.OutputAmpere, a.ColdShaft, a.Cold.Copper)
		}
	}
}

// What comes out of the supply goes somewhere, at rest and turning, on any stage;
// the source's own resistance comes on top.
func TestBalances(t *testing.T) {
	for _, c := range []struct {
		motor, stage, supply string
		rate, series         float64
	}{
		{"geared-can", "darlington", "usb", 0, 0}, {"geared-can", "darlington", "usb", 300, 10}, {"vent-flap", "mosfet", "12V", 200, 0}, {"hybrid-4", "bridge", "6V", 100, 1},
		{"hybrid-4", "chopper", "24V", 500, 0}, {"hybrid-4", "mosfet-bridge-fast", "5V", 0, 0}, {"hybrid-8", "chopper", "24V", 5, 0},
	} {
		a := judged(t, asks(t, c.motor, c.stage, c.supply, func(q *Question) { q.Rate, q.Series = c.rate, c.series }))
		b := a.Balance
		sum := b.Copper + b.Series + b.Stage + b.Clamp + b.Friction + b.Shaft
		if !near(b.Supply, sum, 4e-3*b.Supply) || b.Supply <= 0 || (c.series > 0) != (b.Series > 0) {
			t.Errorf("%s on %s at %g/s: %+v, sum %g", c.motor, c.stage, c.rate, b, sum)
		}
		if turns := c.rate >= slowRate; turns != (b.Friction > 0) || turns != a.Followed {
			t.Errorf("%s at %g/s: friction %g W, follows %v", c.motor, c.rate, b.Friction, a.Followed)
		}
	}
}

// A row takes the same power by its parts and by volts times ampere; a supply with
// a resistance of its own leaves less, and the current falls with it.
func TestCostAddsUp(t *testing.T) {
	names := motor.Names()
	stages := slices.DeleteFunc(slices.Clone(driver.Stages[:]), driver.Stage.Instant) // those have no currents to fall
	rapid.Check(t, func(t *rapid.T) {
		m, _ := motor.BuiltIn(rapid.SampledFrom(names).Draw(t, "motor"))
		s := rapid.SampledFrom(stages).Draw(t, "stage")
		q, err := Ask(m, s, driver.Supply{Title: "any", Volts: rapid.Float64Range(1, 40).Draw(t, "V"), Ohms: rapid.Float64Range(0, 5).Draw(t, "ohm")})
		if err != nil || s.Allows(q.Connection.Drive) != nil || q.Motor.Allows(q.Connection.Drive) != nil {
			t.Skip("it does not fit")
		}
		c, err := q.coil()
		if err != nil {
			t.Fatal(err)
		}
		row := sequence.Half.Order().Row(rapid.Int64Range(0, 7).Draw(t, "row"))
		cost := q.costs(row, c, rapid.Float64Range(0, 120).Draw(t, "°C"), 25)
		if !near(cost.In(), cost.Volts*cost.Ampere, 1e-6*(1+cost.In())) || cost.Volts > q.Supply.Volts+1e-9 {
			t.Fatalf("%+v", cost)
		}
		if !near(cost.Volts+q.Supply.Ohms*cost.Ampere, q.Supply.Volts, 1e-4*q.Supply.Volts) && !s.Regulates() {
			t.Fatalf("%g V of %g, %g A through %g ohm", cost.Volts, q.Supply.Volts, cost.Ampere, q.Supply.Ohms)
		}
		hotter := q.costs(row, c, 140, 25)
		if !s.Regulates() && hotter.Ampere > cost.Ampere+1e-9 {
			t.Fatalf("a warm winding takes more: %g and %g A", hotter.Ampere, cost.Ampere)
		}
		if s.Regulates() && math.Abs(cost.Coils[0]) > q.Current+1e-9 {
			t.Fatalf("%g A where %g is set", cost.Coils[0], q.Current)
		}
	})
}
