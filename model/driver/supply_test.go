package driver

import (
	"strings"
	"testing"

	"coilwalk/sequence"
)

func supplied(t *testing.T, name string) Supply {
	t.Helper()
	s, err := ParseSupply(name)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// USB 2.0, 7.2.1: five unit loads of 100 mA, and at least 4.75 V with them drawn.
// USB 3: six of 150 mA, and 4.45 V.
func TestSupplyKinds(t *testing.T) {
	for _, c := range []struct {
		name                 string
		volts, limit, leaves float64
	}{{"usb", 5, 0.5, 4.75}, {"usb3", 5, 0.9, 4.46}, {"pin", 5, 0.02, 4.5}, {"12 V", 12, 0, 12}, {"0.5kV", 500, 0, 500}} {
		s := supplied(t, c.name)
		if s.Volts != c.volts || s.Limit != c.limit || !near(s.Leaves(c.limit), c.leaves, 1e-9) {
			t.Errorf("%s: %g V, %g A, %g V with them drawn", c.name, s.Volts, s.Limit, s.Leaves(c.limit))
		}
	}
	if supplied(t, "pin").Never == "" || supplied(t, "USB").Never != "" {
		t.Error("only a pin is never a supply")
	}
	for text, want := range map[string]string{"ubs": "did you mean usb?", "steam": "a voltage as 12V, or one of usb", "0V": "more than 0 V", "-5V": "more than 0 V", "12": "no unit", "": "nothing is given"} {
		if _, err := ParseSupply(text); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v, want %q", text, err, want)
		}
	}
}

// By hand: 50 ohm at 5 V behind half an ohm leave 4.95 V; behind a limit of 50 mA
// they fall to 2.5 V. A chopper of 10 W behind 2 ohm at 12 V: u² − 12u + 20 = 0,
// the higher of 10 and 2 V. One of 30 W can not be fed at all by that.
func TestSupplyMeets(t *testing.T) {
	soft := Supply{Volts: 5, Ohms: 0.5, Limit: 0.05}
	load := func(u float64) float64 { return u / 49.5 }
	if got := soft.Meets(load, false); !near(got, 4.95, 1e-9) {
		t.Errorf("unlimited: %g V", got)
	}
	if got := soft.Meets(load, true); !near(got, 49.5*0.05, 1e-6) {
		t.Errorf("limited: %g V", got)
	}
	twelve := Supply{Volts: 12, Ohms: 2}
	for watts, want := range map[float64]float64{10: 10, 30: 0} {
		if got := twelve.Meets(func(u float64) float64 { return watts / max(u, 1e-9) }, false); !near(got, want, 1e-6) {
			t.Errorf("%g W: %g V, want %g", watts, got, want)
		}
	}
	if got := twelve.Meets(func(float64) float64 { return 0 }, true); got != 12 {
		t.Errorf("no load: %g V", got)
	}
}

// ITrip = VREF/(8·RS): with 0.1 ohm, 0.58 V set 0.725 A and 0.72 V 0.9 A (data
// sheet of a chopper module's part; the worked settings at second hand).
func TestReference(t *testing.T) {
	r := named(t, "chopper").Reference
	for ampere, want := range map[float64]float64{0.725: 0.58, 0.9: 0.72} {
		if got := r.Volts(ampere); !near(got, want, 1e-9) {
			t.Errorf("%g A: %g V, want %g", ampere, got, want)
		}
	}
}

// Input needed at most 2.4 V at 200 mA, 2.7 at 250, 3.0 at 300 (ST Doc ID 5279
// Table 4, TI SLRS027O 6.6): so 3.3 V logic works up to there.
func TestInputs(t *testing.T) {
	in := named(t, "darlington").Input
	for _, c := range []struct {
		level, ampere float64
		works         bool
	}{{3.3, 0.1, true}, {3.3, 0.3, true}, {3.3, 0.4, false}, {5, 0.5, true}, {2.5, 0.2, true}, {2.5, 0.25, false}} {
		if got := in.Works(c.level, c.ampere); got != c.works {
			t.Errorf("%g V at %g A: %v", c.level, c.ampere, got)
		}
	}
	if named(t, "mosfet").Input.Works(3.3, 1) || !named(t, "mosfet").Input.Works(5, 1) || !named(t, "ideal").Input.Works(1, 1) {
		t.Error("a MOSFET needs 5 V at its gate, an ideal switch nothing")
	}
}

// Every stage that is of a real kind says what it stands, and keeps to it.
func TestStagesSayWhatTheyStand(t *testing.T) {
	for _, s := range Stages {
		if s.Name == "current" || s.Name == "ideal" {
			continue
		}
		l := s.Limits
		for field, missing := range map[string]bool{"Limits.Output": l.Output <= 0, "Limits.Thermal": l.Thermal <= 0, "Limits.Most above Least": l.Most <= l.Least,
			"Limits.Keep below Hottest": l.Keep >= l.Hottest, "Limits.PerPackage": l.PerPackage < 1, "ClampsTo": s.ClampsTo == "", "Input.Silent": s.Input.Silent == "", "Typical": len(s.Typical) == 0} {
			if missing {
				t.Errorf("%s: %s is wanted", s.Name, field)
			}
		}
		for _, p := range s.Typical { // the line of the motion goes by the points that figures are read from
			if line := s.Switch.At(p.Ampere); !near(line, p.Volts, 0.1*p.Volts+0.01) {
				t.Errorf("%s at %g A: Switch loses %g V, and Typical is %g V", s.Name, p.Ampere, line, p.Volts)
			}
		}
		if s.Regulates() != (s.Reference.Gain > 0) {
			t.Errorf("%s: what is set has a reference, and nothing else", s.Name)
		}
		for _, p := range s.Guaranteed {
			if typical := s.Around(p.Ampere, 25).Switch.At(p.Ampere); typical > p.Volts {
				t.Errorf("%s at %g A: typically %g V, at most %g", s.Name, p.Ampere, typical, p.Volts)
			}
		}
		for _, d := range sequence.Drives {
			if s.Allows(d) == nil && s.Steady(sequence.Row{1, 0, 0, 0}, d, 0.1, 12, 50, 25)[0] <= 0 {
				t.Errorf("%s drives nothing", s.Name)
			}
		}
	}
}
