package power

import (
	"math"
	"testing"

	"coilwalk/model/driver"
	"coilwalk/model/motor"
	"coilwalk/model/quantity"
	"coilwalk/model/rotor"
	"coilwalk/sequence"
)

// What is said against a drive is what heat comes to of the same drive at rest.
func TestCostOfADrive(t *testing.T) {
	for _, c := range []struct {
		motor, stage, supply string
		ampere               float64
		judged, works        bool
		verdict              Verdict
	}{
		{"hybrid-8", "chopper", "24V", 0, true, true, Not},
		{"hybrid-8", "chopper", "24V", 0.5, true, true, Marginal},
		{"hybrid-8", "chopper", "5V", 0, true, false, Not},
		{"hybrid-8", "chopper", "8V", 0, true, true, Not},
		{"hybrid-4", "", "", 0, false, true, Not}, // rates are those of an ideal source, heat is of a chopper
		{"vent-flap", "", "", 0, true, true, Fine},
	} {
		m, stage, supply := asked(t, c.motor, c.stage, c.supply)
		d, err := Drives(m, stage, supply, "")
		if err != nil {
			t.Fatal(err)
		}
		if c.ampere > 0 {
			if err := d.SetTo(quantity.Amperes(c.ampere)); err != nil {
				t.Fatal(err)
			}
		}
		a := d.Cost()
		if (a != nil) != c.judged {
			t.Fatalf("%v: %v", c, a)
		}
		if a == nil {
			continue
		}
		q := d.Heat
		want, err := Judge(q)
		if err != nil || a.Verdict != c.verdict || want.Verdict != c.verdict || a.Works() != c.works || a.Rate != 0 {
			t.Errorf("%v: %v, works %v; judged by itself %v, %v", c, a.Verdict, a.Works(), want.Verdict, err)
		}
	}
}

// A stage that is set lower drives a weaker motor of the same flux, and one that sets
// no current is not set.
func TestSetTo(t *testing.T) {
	m, stage, supply := asked(t, "hybrid-8", "chopper", "24V")
	d, err := Drives(m, stage, supply, "")
	if err != nil {
		t.Fatal(err)
	}
	rated, _, err := d.Plant()
	if err != nil {
		t.Fatal(err)
	}
	if err := d.SetTo(quantity.Amperes(0.8)); err != nil {
		t.Fatal(err)
	}
	p, _, err := d.Plant()
	if err != nil || p.Current != 0.8 || p.FluxConstant != rated.FluxConstant || p.Supply != rated.Supply || math.Abs(p.OnePhase()/rated.OnePhase()-0.8/rated.Current) > 1e-9 {
		t.Errorf("%+v of %+v, %v", p, rated, err)
	}
	sweep := func(p rotor.Plant) float64 {
		r, _ := rotor.NewTrials(p, sequence.Half).Follow(rotor.Sweep{}, nil)
		return r.PullOut
	}
	if low, high := sweep(p), sweep(rated); !(low > 0 && low < high) {
		t.Errorf("it follows %v at 0.8 A, and %v as rated", low, high)
	}
	flap, _ := motor.BuiltIn("vent-flap")
	if d, err = Drives(flap, driver.Stage{}, driver.Supply{}, ""); err != nil || d.SetTo(quantity.Amperes(0.1)) == nil || d.Current != 0 {
		t.Errorf("an array is set to %v A, %v", d.Current, err)
	}
}

// What is damped is that part of the friction that grows with the speed; against the
// back-EMF less current flows, as heat counts it, than at a stand.
func TestTurningIsToldApart(t *testing.T) {
	for name, dry := range map[string]float64{"hybrid-8": 0, "vent-flap": 1} {
		m, _ := motor.BuiltIn(name)
		q, err := Ask(m, driver.Usual(m.Drive, true), driver.Supply{})
		if err != nil {
			t.Fatal(err)
		}
		q.Rate = 300
		if dry > 0 {
			q.Motor.Figures.Friction = quantity.NewtonMetres(0.001)
		}
		a, err := Judge(q)
		if err != nil || !a.Followed {
			t.Fatal(name, err)
		}
		b := a.Balance
		if rest := b.Friction - b.Damping; b.Damping <= 0 || (rest > 1e-9*b.Supply) != (dry > 0) {
			t.Errorf("%s: damping %g W of friction %g W", name, b.Damping, b.Friction)
		}
		coils := 2.0
		if a.Connection.Drive == sequence.Unipolar {
			coils = 4
		}
		i := a.Heating()
		if heat := coils * i * i * Copper(a.Ohms, 25, a.Final); math.Abs(heat-b.Copper) > 1e-9*b.Copper || i >= a.Driver.OutputAmpere {
			t.Errorf("%s: %g A make %g W, and %g W are told", name, i, heat, b.Copper)
		}
	}
}
