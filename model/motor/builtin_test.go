package motor

import (
	"slices"
	"strings"
	"testing"

	"coilwalk/sequence"
)

func TestEveryBuiltInMotor(t *testing.T) {
	entries, err := builtIn.ReadDir("builtin")
	if err != nil || len(entries) != len(Names()) {
		t.Errorf("%d motors lie in builtin, %d are named: %v", len(entries), len(Names()), err)
	}
	if Names()[0] != Default {
		t.Errorf("the default is not the first of %v", Names())
	}
	for i, name := range Names() {
		if slices.Index(Names(), name) != i {
			t.Errorf("%s is named twice", name)
		}
		m, ok := BuiltIn(name)
		if !ok || m.Name != name {
			t.Errorf("the built-in motor %s is %q, %v", name, m.Name, ok)
			continue
		}
		// No real product stands behind them, and each says so.
		if !strings.Contains(m.Origin, "invented") && !strings.Contains(m.Origin, "common practice") {
			t.Errorf("%s does not say where its figures come from: %q", name, m.Origin)
		}
		if m.Title == "" || m.Title == name {
			t.Errorf("%s has no title", name)
		}
		if _, ok := m.PhaseCurrent(); !ok {
			t.Errorf("%s: nobody can tell its current", name)
		}
		if !m.Figures.HoldingTorque.Given() && !m.Figures.OnePhase.Given() {
			t.Errorf("%s has no torque", name)
		}
		if again, err := Parse(name, m.Text()); err != nil || !sameMotor(m, again) {
			t.Errorf("%s comes back as %+v, %v; was %+v", name, again, err, m)
		}
	}
}

// What the titles and origins promise, counted by hand.
func TestBuiltInMotorsAreWhatTheySay(t *testing.T) {
	for name, want := range map[string]struct {
		leads     int
		drive     sequence.Drive
		rotor     int    // full steps to a turn
		shaftHalf string // half steps to a turn of the shaft
	}{
		// 23/9 x 27/10 x 29/11 x 28/12, 64 half steps
		"vent-flap":  {5, sequence.Unipolar, 32, "149408/55"},
		"geared-can": {5, sequence.Unipolar, 32, "4096"},
		"can-48":     {6, sequence.Unipolar, 48, "96"},
		"hybrid-4":   {4, sequence.Bipolar, 200, "400"},
		"hybrid-6":   {6, sequence.Unipolar, 200, "400"},
		"hybrid-8":   {8, sequence.Unipolar, 200, "400"},
	} {
		m, ok := BuiltIn(name)
		if !ok {
			t.Errorf("there is no %s", name)
			continue
		}
		rotor, shaft := m.StepsPerRotorTurn(sequence.Full), m.StepsPerShaftTurn(sequence.Half).RatString()
		if len(m.Leads()) != want.leads || m.Drive != want.drive || rotor != want.rotor || shaft != want.shaftHalf {
			t.Errorf("%s: %d leads, %s, %d full steps, %s half steps; want %v", name, len(m.Leads()), m.Drive, rotor, shaft, want)
		}
	}
}

// A caller may change the motor it was given.
func TestBuiltInMotorIsTheCallersOwn(t *testing.T) {
	m, _ := BuiltIn(Default)
	m.Train.Meshes[0] = Mesh{1, 1}
	if again, _ := BuiltIn(Default); again.Train.Meshes[0] == (Mesh{1, 1}) {
		t.Error("a change reached the built-in motor")
	}
	Names()[0] = "other"
	if Names()[0] != Default {
		t.Error("a change reached the names")
	}
}

func TestNoSuchBuiltInMotor(t *testing.T) {
	for _, name := range []string{"", "-", "Vent-Flap", "vent-flap.toml", "builtin/vent-flap", "../builtin/vent-flap"} {
		if m, ok := BuiltIn(name); ok {
			t.Errorf("BuiltIn(%q) is %s", name, m.Name)
		}
	}
}
