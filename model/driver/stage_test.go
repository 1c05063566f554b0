package driver

import (
	"errors"
	"math"
	"strings"
	"testing"

	"coilwalk/model/files"
	"coilwalk/sequence"
)

func named(t *testing.T, name string) Stage {
	t.Helper()
	s, err := Named(name)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func near(a, b, within float64) bool { return math.Abs(a-b) <= within }

// Typical VCE(sat) 0.9, 1.1 and 1.3 V (ST Doc ID 5279 Rev 8, Table 4) and 0.9,
// 1.0 and 1.2 V (TI SLRS027O, 6.6) at 100, 200 and 350 mA; clamp diode typical
// 1.7 V at 350 mA (both).
func TestDarlingtonDrops(t *testing.T) {
	s := named(t, "darlington")
	for _, c := range []struct{ ampere, st, ti float64 }{{0.1, 0.9, 0.9}, {0.2, 1.1, 1.0}, {0.35, 1.3, 1.2}} {
		if got := s.Switch.At(c.ampere); got < c.ti-0.015 || got > c.st+0.015 {
			t.Errorf("%g A: %.3f V, want between %g and %g", c.ampere, got, c.ti, c.st)
		}
	}
	if got := s.Clamp.At(0.35); !near(got, 1.7, 0.01) {
		t.Errorf("clamp: %.3f V at 350 mA, want 1.7", got)
	}
}

// 5 V through 50 ohm and 0.9 V leave 82 mA (TI SLRS027O 9.2.2 gives the
// formula (Vsup − VCE)/R).
func TestDarlingtonCurrent(t *testing.T) {
	f := named(t, "darlington").Feeds(sequence.Row{1, 0, 0, 0}, sequence.Unipolar, 1)[0]
	if i := (5*f.Above.Rail - f.Above.Volts()) / (50 + f.Above.Ohms()); !near(i, 0.082, 0.001) {
		t.Errorf("%.4f A, want 0.082", i)
	}
}

// Source and sink together typically 2.55 V at 1 A and 3.7 V at 2 A (a maker's
// data sheet of a dual bipolar bridge, January 2000); 22 mohm lose 2.2 mV at 100 mA
// (a maker's data sheet of a 55 V logic-level MOSFET).
func TestOtherDrops(t *testing.T) {
	for _, c := range []struct {
		name         string
		ampere, want float64
	}{{"bridge", 1, 2.55}, {"bridge", 2, 3.7}, {"bridge-fast", 1, 2.55}, {"mosfet", 0.1, 0.0022}, {"ideal", 7, 0}} {
		if got := named(t, c.name).Switch.At(c.ampere); !near(got, c.want, 1e-9) {
			t.Errorf("%s at %g A: %g V, want %g", c.name, c.ampere, got, c.want)
		}
	}
}

func TestNamed(t *testing.T) {
	seen := map[string]bool{}
	for _, s := range Stages {
		if seen[s.Name] || s.Title == "" || s.Source == "" {
			t.Errorf("%q is twice in the list, or without title or source", s.Name)
		}
		seen[s.Name] = true
		if got := named(t, s.Name); got.Title != s.Title {
			t.Errorf("%s gives %s", s.Name, got.Title)
		}
	}
	for word, want := range map[string]string{"darlinton": "did you mean darlington?", "choper": "did you mean chopper?",
		"steam": "there are darlington, mosfet, bridge"} {
		_, err := Named(word)
		var c *files.Complaint
		if !errors.As(err, &c) || !strings.Contains(c.What, word) || !strings.HasPrefix(c.Right, want) {
			t.Errorf("%s: %v, want %q", word, err, want)
		}
	}
}

func TestAllows(t *testing.T) {
	both := map[string][2]bool{"darlington": {true, false}, "mosfet": {true, false}, "bridge": {false, true}, "bridge-fast": {false, true}, "small-bridge": {false, true},
		"mosfet-bridge": {false, true}, "mosfet-bridge-fast": {false, true}, "chopper": {false, true}, "current": {true, true}, "ideal": {true, true}}
	for _, s := range Stages {
		if _, told := both[s.Name]; !told {
			t.Errorf("%s: say above what it drives, unipolar and bipolar", s.Name)
		}
		for i, drive := range []sequence.Drive{sequence.Unipolar, sequence.Bipolar} {
			err := s.Allows(drive)
			if (err == nil) != both[s.Name][i] {
				t.Errorf("%s with a %s drive: %v", s.Name, drive, err)
			}
			if err != nil && (!strings.Contains(err.Error(), s.Title) || !strings.Contains(err.Error(), "ideal")) {
				t.Errorf("%s: %v says neither what is wrong nor what is right", s.Name, err)
			}
		}
	}
}

func TestWhatRegulates(t *testing.T) {
	for _, s := range Stages {
		if got, want := s.Regulates(), s.Name == "chopper" || s.Name == "current"; got != want {
			t.Errorf("%s regulates: %v", s.Name, got)
		}
		if got, want := s.Instant(), s.Name == "current"; got != want {
			t.Errorf("%s is instant: %v", s.Name, got)
		}
	}
}
