package power

import (
	"testing"

	"coilwalk/model/driver"
	"coilwalk/model/rotor"
	"coilwalk/sequence"
)

// What decides, for boards and supplies that people ask about. Limits: USB 2.0,
// 7.2.1 (100 mA promised, 500 mA granted); ST Doc ID 5279 (500 mA an output); TI
// SLRS008C (600 mA); a dual bipolar bridge (2 A). Leads: a sink can not reverse the coil of a
// 4-lead motor, nor a bridge part the common of five.
func TestWhatDecides(t *testing.T) {
	for _, c := range []struct {
		motor, stage, supply string
		change               func(q *Question)
		kind                 Kind
		verdict              Verdict
	}{
		{"geared-can", "darlington", "5V", nil, "", Fine},
		{"geared-can", "darlington", "usb", nil, SupplyCurrent, Marginal},
		{"geared-can", "darlington", "usb", inMode(sequence.Wave), "", Fine},
		{"geared-can", "darlington", "pin", nil, NeverSupply, Not},
		{"geared-can", "darlington", "regulator", nil, SupplyCurrent, Not},
		{"geared-can", "darlington", "block", nil, SupplyLasts, Not},
		{"geared-can", "darlington", "12V", nil, WindingHeat, Not},
		{"geared-can", "bridge", "5V", nil, FitsLeads, Not},
		{"geared-can", "mosfet", "5V", func(q *Question) { q.Logic = 3.3 }, LogicLevel, Marginal},
		{"geared-can", "mosfet", "5V", func(q *Question) { q.Logic = 1.8 }, LogicLevel, Not},
		{"geared-can", "darlington", "5V", func(q *Question) { q.Logic = 3.3 }, "", Fine},
		{"geared-can", "darlington", "60V", nil, SupplyHigh, Not},
		{"vent-flap", "darlington", "5V", nil, Hold, Marginal},
		{"vent-flap", "darlington", "12V", func(q *Question) { q.Load = 0.03 }, LoadHeld, Marginal},
		{"vent-flap", "darlington", "12V", func(q *Question) { q.Load = 0.06 }, LoadHeld, Not},
		{"hybrid-4", "darlington", "12V", nil, FitsLeads, Not},
		{"hybrid-4", "small-bridge", "12V", nil, OutputCurrent, Not},
		{"hybrid-4", "bridge", "4V", nil, SupplyLow, Not},
		{"hybrid-4", "bridge", "12V", nil, OutputCurrent, Not},
		{"hybrid-4", "bridge", "6V", nil, Junction, Not},
		{"hybrid-4", "chopper", "24V", func(q *Question) { q.Hold = 0.5 }, "", Fine},
		{"hybrid-4", "chopper", "24V", func(q *Question) { q.Current, q.Hold = 0.75, 0.5 }, Hold, Marginal}, // half of half is weak, half alone a choice
		{"hybrid-4", "chopper", "24V", func(q *Question) { q.Current, q.Load = 0.6, 0.05 }, "", Fine},       // 40 % of 400 mN.m hold 50 well
		{"hybrid-4", "chopper", "24V", func(q *Question) { q.Hold = 0 }, Hold, Not},
		{"hybrid-4", "chopper", "24V", func(q *Question) { q.Current, q.Rate = 0.75, 20000 }, FollowsRate, Not},
		{"vent-flap", "darlington", "12V", func(q *Question) { q.Rate = 6000 }, FollowsRate, Marginal}, // its inertia is estimated
		{"vent-flap", "darlington", "12V", func(q *Question) { q.Rate = 300 }, "", Fine},
		{"hybrid-4", "chopper", "24V", func(q *Question) { q.Current = 0.9 }, OutputCurrent, Marginal},
	} {
		a := judged(t, asks(t, c.motor, c.stage, c.supply, c.change))
		if a.Verdict != c.verdict || c.kind != "" && a.Checks[0].Kind != c.kind {
			found, _ := a.Check(c.kind)
			t.Errorf("%s on %s, %s: %s by %+v, want %s by %+v", c.motor, c.stage, c.supply, a.Verdict, a.Checks[0], c.verdict, found)
		}
	}
}

// A rise that rests on an estimate alone is a caution; one that the motor's sheet
// gives, a fault.
func TestEstimatesAreCautions(t *testing.T) {
	q := asks(t, "hybrid-4", "current", "", nil)
	q.Current = 1.25 * q.Current
	a := judged(t, q)
	if heat, _ := a.Check(WindingHeat); heat.Verdict != Marginal || a.After < 130 {
		t.Errorf("estimated: %+v", heat)
	}
	q.Motor.Figures.Thermal.Set("7 K/W")
	if heat, _ := judged(t, q).Check(WindingHeat); heat.Verdict != Not {
		t.Errorf("given: %+v", heat)
	}
}

// The questions of a beginner get a cure that holds when it is asked anew.
func TestCures(t *testing.T) {
	for _, c := range []struct {
		motor, stage, supply string
		kind                 ChangeKind
		name                 string
		verdict              Verdict
	}{
		{"geared-can", "darlington", "usb", ToRest, "wave", Fine},
		{"geared-can", "darlington", "12V", AddSeries, "", Fine},
		{"geared-can", "darlington", "pin", OtherSupply, "usb", Marginal},
		{"geared-can", "bridge", "5V", OtherStage, "darlington", Fine},
		{"vent-flap", "darlington", "usb", OtherSupply, "bench", Fine},
		{"hybrid-4", "small-bridge", "12V", OtherStage, "chopper", Marginal},
		{"hybrid-4", "chopper", "24V", HoldLower, "", Fine},
		{"hybrid-4", "darlington", "12V", OtherStage, "chopper", Marginal},
	} {
		a := judged(t, asks(t, c.motor, c.stage, c.supply, nil))
		found := false
		last := Fine
		for _, cure := range Cures(a) {
			if cure.Answer.Verdict < last || cure.Answer.Verdict >= a.Verdict {
				t.Errorf("%s on %s: %v comes to %s after %s", c.motor, c.stage, cure.Change, cure.Answer.Verdict, a.Verdict)
			}
			last = cure.Answer.Verdict
			found = found || cure.Kind == c.kind && (c.name == "" || cure.Name == c.name) && cure.Answer.Verdict == c.verdict
		}
		if !found {
			t.Errorf("%s on %s, %s: %s %q is no cure of %+v", c.motor, c.stage, c.supply, c.kind, c.name, a.Checks[0])
		}
	}
	// a cure keeps the port that was named: a MOSFET would only draw more from it
	for _, c := range Cures(judged(t, asks(t, "geared-can", "darlington", "usb", nil))) {
		if c.Kind != OtherSupply && c.Answer.Supply.Name != "usb" {
			t.Errorf("%v leaves the port", c.Change)
		}
	}
	if a := judged(t, asks(t, "geared-can", "darlington", "5V", nil)); Cures(a) != nil {
		t.Error("what is fine needs no cure")
	}
}

// The resistor that is named brings the current to the rating.
func TestSeriesResistor(t *testing.T) {
	q := asks(t, "geared-can", "darlington", "12V", nil)
	r, ok := judged(t, q).SeriesFor(0.1)
	if !ok || !near(r.Ohms, (12-0.9)/0.1-50, 1e-6) || !near(r.Watts, 0.01*r.Ohms, 1e-9) {
		t.Errorf("%+v", r)
	}
	q.Series = r.Ohms
	if a := judged(t, q); !near(a.Driver.OutputAmpere, 0.1, 1e-6) {
		t.Errorf("%g A", a.Driver.OutputAmpere)
	}
	if _, ok := judged(t, asks(t, "geared-can", "darlington", "5V", nil)).SeriesFor(0.1); ok {
		t.Error("nothing to take up")
	}
	if _, ok := judged(t, asks(t, "hybrid-4", "chopper", "24V", nil)).SeriesFor(1); ok {
		t.Error("a chopper needs none")
	}
}

// The rise of a current is the one that the rotor's motion has with the rotor held
// fast: bipolar, so that no other half takes part.
func TestRise(t *testing.T) {
	for _, c := range []struct {
		stage, supply string
		part          float64
	}{{"bridge", "6V", 0.9}, {"mosfet-bridge", "3V", 0.9}, {"chopper", "24V", 1}} {
		a := judged(t, asks(t, "hybrid-4", c.stage, c.supply, inMode(sequence.Wave)))
		p, _, err := a.plant(coil{ohms: a.Ohms, rated: a.Rated}, 25, 25, a.Supply.Volts, a.Driver.OutputAmpere)
		if err != nil {
			t.Fatal(err)
		}
		p.Inertia, p.Detent = 1e3, 0
		m := rotor.NewMotion(&p)
		m.Start(rotor.State{})
		m.Energise(sequence.Row{1, 0, 0, 0})
		if err := m.Advance(a.Rise.Seconds); err != nil {
			t.Fatal(err)
		}
		if got, want := m.State().Currents[0], c.part*a.Driver.OutputAmpere; !near(got, want, 2e-3*want) {
			t.Errorf("%s: after %g s %g A, want %g", c.stage, a.Rise.Seconds, got, want)
		}
	}
	if a := judged(t, asks(t, "hybrid-4", "chopper", "8V", func(q *Question) { q.Current = 4.5 })); a.Rise.Seconds != 0 || a.Rise.Rate != 0 {
		t.Errorf("what never gets there has no time: %+v", a.Rise)
	}
}

// ½·L·I²: 2.8 mH at 1.7 A 4.05 mJ, 12.8 mH at 2.12 A 28.8 mJ (formula standard;
// inductances of catalogues of hybrids).
func TestStored(t *testing.T) {
	for _, c := range []struct {
		inductance     string
		ampere, millis float64
	}{{"2.8mH", 1.7, 4.05}, {"12.8mH", 2.12, 28.8}} {
		q := asks(t, "hybrid-4", "chopper", "24V", nil)
		q.Motor.Figures.Inductance.Set(c.inductance)
		q.Connection = connectionFor(q.Motor, q.Motor.Drive)
		q.Current = c.ampere
		if got := 1e3 * judged(t, q).Stored; !near(got, c.millis, 0.06) {
			t.Errorf("%s at %g A: %g mJ, want %g", c.inductance, c.ampere, got, c.millis)
		}
	}
}

// Every kind of supply gets its answer, and a pin is never one.
func TestOnEach(t *testing.T) {
	want := map[string]Verdict{"usb": Marginal, "usb3": Marginal, "block": Not, "regulator": Not, "bench": Fine, "pin": Not}
	all := OnEach(asks(t, "geared-can", "darlington", "5V", nil))
	if len(all) != len(driver.Supplies) {
		t.Errorf("%d supplies", len(all))
	}
	for _, s := range all {
		if s.Answer.Verdict != want[s.Supply.Name] {
			t.Errorf("%s: %s by %+v", s.Supply.Name, s.Answer.Verdict, s.Answer.Checks[0])
		}
	}
}

// Switched off, a rotor goes into a detent from a two-phase row, and its position
// with it; what can not be is refused.
func TestOffAndBadQuestions(t *testing.T) {
	if stays, known := judged(t, asks(t, "hybrid-4", "chopper", "24V", inMode(sequence.Full))).Stays(); stays || !known {
		t.Errorf("full step: stays %v, known %v", stays, known)
	}
	if stays, known := judged(t, asks(t, "hybrid-4", "chopper", "24V", inMode(sequence.Wave))).Stays(); !stays || !known {
		t.Errorf("wave: stays %v, known %v", stays, known)
	}
	for _, change := range []func(q *Question){
		func(q *Question) { q.Duty = 1.5 }, func(q *Question) { q.Rate = -1 }, func(q *Question) { q.Supply.Volts = 0 },
		func(q *Question) { q.Ambient = -300 }, func(q *Question) { q.Current = 0 }, func(q *Question) { q.Series = -1 },
	} {
		if _, err := Judge(asks(t, "geared-can", "darlington", "5V", change)); err == nil {
			t.Error("a question that can not be is answered")
		}
	}
}

// A supply that nobody named is one that the stage stands with ease, whatever the motor.
func TestASupplyThatSuitsIsStood(t *testing.T) {
	regulated := 0
	for _, s := range driver.Stages {
		if s.Limits.Most == 0 || !s.Regulates() {
			continue
		}
		for _, name := range []string{"vent-flap", "hybrid-4", "hybrid-6", "hybrid-8", "can-48"} {
			regulated++
			q := asks(t, name, s.Name, "", nil)
			if v := q.Supply.Volts; v > 0.8*s.Limits.Most || v < s.Limits.Least {
				t.Errorf("%s on %s: %g V suits, of %g to %g", name, s.Name, v, s.Limits.Least, s.Limits.Most)
			}
		}
	}
	if regulated == 0 {
		t.Error("no stage regulates")
	}
}
