package power

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"coilwalk/model/motor"
	"coilwalk/model/quantity"
	"coilwalk/sequence"
)

// 50 ohm at 25 °C are 57.707 at 65 °C and 65.414 at 105 °C; 100 ohm at 20 °C are
// 131.434 at 100 °C: computed from the zero of copper's line at −234.5 °C
// (Electrical Engineering Portal, "Temperature rise"). The coefficient at 20 °C is
// 1/254.5 = 0.00393 per kelvin.
func TestCopper(t *testing.T) {
	for _, c := range []struct{ ohms, at, then, want float64 }{{50, 25, 65, 57.707}, {50, 25, 105, 65.414}, {100, 20, 100, 131.434}, {1, 20, 21, 1.00393}, {7, 40, 40, 7}} {
		if got := Copper(c.ohms, c.at, c.then); !near(got, c.want, 6e-4) {
			t.Errorf("%g ohm at %g °C are %g at %g °C, want %g", c.ohms, c.at, got, c.then, c.want)
		}
	}
}

// Thermal classes: A 105, B 130, F 155, H 180 °C (Croylek, "Temperature classes of
// electrical insulation").
func TestClasses(t *testing.T) {
	for letter, want := range map[motor.Insulation]float64{"Y": 90, "A": 105, "E": 120, "B": 130, "F": 155, "H": 180, "": 0} {
		if got := letter.Celsius(); got != want {
			t.Errorf("%s: %g °C, want %g", letter, got, want)
		}
	}
}

// A motor without thermal figures rises, with two phases on at its rated current or
// voltage, by what sheets of its kind allow: 80 K for hybrids (class B, two sheets),
// between 40 and 60 K for geared cans.
func TestRatedRise(t *testing.T) {
	for _, c := range []struct {
		motor, stage, supply string
		least, most          float64
	}{{"hybrid-4", "current", "", 80, 80}, {"hybrid-8", "current", "", 80, 80}, {"hybrid-6", "current", "", 80, 80}, {"geared-can", "ideal", "5V", 40, 60}, {"vent-flap", "ideal", "12V", 40, 60}} {
		a := judged(t, asks(t, c.motor, c.stage, c.supply, inMode(sequence.Full)))
		if rise := a.Final - 25; rise < c.least-0.01 || rise > c.most+0.01 {
			t.Errorf("%s: rises by %g K, want %g to %g", c.motor, rise, c.least, c.most)
		}
		if len(a.Estimates) < 3 {
			t.Errorf("%s: %v are all that is marked as estimated", c.motor, a.Estimates)
		}
	}
}

// With a steady heat the rise is P·Rth·(1 − e^(−t/τ)).
func TestWarms(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := Body{Thermal: rapid.Float64Range(1, 50).Draw(t, "K/W"), Seconds: rapid.Float64Range(60, 3000).Draw(t, "s")}
		watts := rapid.Float64Range(0, 5).Draw(t, "W")
		for _, w := range b.warms(20, 5*b.Seconds, func(float64) float64 { return watts }) {
			if want := 20 + watts*b.Thermal*(1-math.Exp(-w.Seconds/b.Seconds)); !near(w.Celsius, want, 2e-4*watts*b.Thermal+1e-9) {
				t.Fatalf("at %g s %g °C, want %g", w.Seconds, w.Celsius, want)
			}
		}
	})
}

// The temperature that is found is the one whose own heat makes it, and the course
// comes to it; a current that is held through copper warms it more and more where
// 0.00393·Rth·P reaches one, and no temperature is found.
func TestSettles(t *testing.T) {
	a := judged(t, asks(t, "geared-can", "darlington", "usb", nil))
	c, _ := a.coil()
	row := a.Mode.Order().Row(int64(a.Row - 1))
	if want := 25 + a.Body.Thermal*a.costs(row, c, a.Final, a.Driver.Junction).Copper; !near(a.Final, want, 0.01) {
		t.Errorf("settles at %g °C, its heat makes %g", a.Final, want)
	}
	if last := a.Course[len(a.Course)-1]; !near(last.Celsius, a.Final, 0.01*(a.Final-25)) {
		t.Errorf("goes to %g °C, settles at %g", last.Celsius, a.Final)
	}
	held := func(watts float64) float64 {
		return settles(20, 10, func(t float64) float64 { return Copper(watts, 20, t) })
	}
	if got := held(5); !near(got, 20+50/(1-50/254.5), 1e-3) { // solved by hand
		t.Errorf("5 W cold: %g °C", got)
	}
	if got := held(26); got != Hottest {
		t.Errorf("26 W cold run away, not to %g °C", got)
	}
}

// The package is as warm as its loss makes it: Tj = TA + RthJA·Σ Vi·Ii (TI SLRS027O,
// 9.2.2, equations 2 and 3). Two coils of 0.1 A at the most that is promised,
// 1.1 V, make 0.22 W.
func TestJunction(t *testing.T) {
	q := asks(t, "geared-can", "darlington", "6.1V", nil)
	q.Stage.Typical = q.Stage.Guaranteed
	a := judged(t, q)
	if !near(a.Cold.Stage(), 0.22, 1e-3) || !near(a.Driver.OutputAmpere, 0.1, 1e-4) {
		t.Errorf("%g W at %g A", a.Cold.Stage(), a.Driver.OutputAmpere)
	}
	if want := 25 + 70*a.Driver.Package; !near(a.Driver.Junction, want, 0.05) || a.Driver.Package > 0.22 {
		t.Errorf("%g W make %g °C, want %g", a.Driver.Package, a.Driver.Junction, want)
	}
	// a MOSFET's resistance rises as it warms: 0.5 ohm, 1 A in both phases, 60 K/W
	q = asks(t, "hybrid-4", "mosfet-bridge", "10V", inMode(sequence.Full))
	q.Series = 10 - 2.5
	a = judged(t, q)
	tj := a.Driver.Junction
	cost := a.costs(sequence.Row{1, 1, 0, 0}, coil{ohms: 2, rated: 1.5}, a.Final, tj)
	i := cost.Coils[0]
	if want := 25 + 60*2*i*i*0.5*(1+0.005*(tj-25)); !near(tj, want, 0.05) || tj < 60 {
		t.Errorf("%g A: %g °C, want %g", i, tj, want)
	}
}

// A duty of a half makes half of the copper's heat, and time limits it.
func TestDutyAndTime(t *testing.T) {
	all := judged(t, asks(t, "hybrid-4", "current", "", nil))
	half := judged(t, asks(t, "hybrid-4", "current", "", func(q *Question) { q.Duty = 0.5 }))
	if want := settles(25, all.Body.Thermal, func(t float64) float64 { return Copper(4.5, 25, t) }); !near(half.Final, want, 0.01) {
		t.Errorf("half of the time: %g °C, want %g", half.Final, want)
	}
	short := judged(t, asks(t, "hybrid-4", "current", "", func(q *Question) { q.For = 100 }))
	if short.After > 25+0.2*(all.Final-25) || short.After < 30 || short.Final != all.Final {
		t.Errorf("after 100 s %g °C of %g", short.After, short.Final)
	}
}

// The motor's own thermal figures count, and are not marked as estimated.
func TestOwnThermalFigures(t *testing.T) {
	q := asks(t, "hybrid-4", "current", "", inMode(sequence.Wave))
	q.Motor.Figures.Thermal, q.Motor.Figures.ThermalTime, q.Motor.Figures.Insulation = quantity.KelvinPerWatt(5), quantity.Seconds(300), "F"
	a := judged(t, q)
	if want := settles(25, 5, func(t float64) float64 { return Copper(4.5, 25, t) }); !near(a.Final, want, 1e-3) || a.Body.Class != 155 || a.Body.Seconds != 300 {
		t.Errorf("%g °C, want %g; %+v", a.Final, want, a.Body)
	}
	for _, e := range a.Estimates {
		if e.Figure == "thermal_resistance" || e.Figure == "thermal_time" || e.Figure == "insulation" {
			t.Errorf("%s is told to be estimated", e.Figure)
		}
	}
}
