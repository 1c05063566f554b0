package motor

import (
	"math/big"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"coilwalk/sequence"
)

// Text loses nothing: Parse gives the same motor, to the digit and the unit.
func TestTextLosesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := drawnMotor(t)
		again, err := Parse("x", m.Text())
		if err != nil {
			t.Fatalf("%v\nin\n%s", err, m.Text())
		}
		if !sameMotor(m, again) {
			t.Fatalf("was   %+v\ncomes %+v\nwritten\n%s", m, again, m.Text())
		}
	})
}

// All 24 wirings, whose outputs are easily written the wrong way round.
func TestEveryWiringComesBack(t *testing.T) {
	for _, wiring := range sequence.Permutations() {
		m, _ := BuiltIn("hybrid-4")
		m.Wiring = wiring
		again, err := Parse("x", m.Text())
		if err != nil || again.Wiring != wiring {
			t.Errorf("%v comes back as %v, %v", wiring, again.Wiring, err)
		}
	}
}

// The text itself, once by hand: a Text and a Parse that err alike would pass
// a round trip.
func TestText(t *testing.T) {
	m := Motor{
		Name: "loom", Title: `a "loom"`, Origin: `c:\motors # 3`,
		Winding:   Winding{Ends: [4]Lead{"BN", "WH/RD", "GN", "GY"}, Taps: [2]Lead{"VT", "x"}},
		PolePairs: 8,
		Train:     Train{Meshes: []Mesh{{9, 32}, {11, 22}}},
		Drive:     sequence.Bipolar,
		Wiring:    sequence.Permutation{sequence.BMinus, sequence.APlus, sequence.BPlus, sequence.AMinus},
		Figures:   Figures{DetentAt45: true},
	}
	for _, err := range []error{m.Figures.Voltage.Set("12 V"), m.Figures.OnePhase.Set("350 gf.cm"), m.Figures.Load.Set("-1.5 N.cm")} {
		if err != nil {
			t.Fatal(err)
		}
	}
	got := string(m.Text())
	for _, line := range []string{
		`name = "loom"`, `title = "a \"loom\""`, `origin = "c:\\motors # 3"`,
		"[winding]", `ends = ["BN", "WH/RD", "GN", "GY"]`, `taps = ["VT", "x"]`,
		"[rotor]", "pole_pairs = 8", "[train]", `meshes = "9:32,11:22"`,
		"[wiring]", `outputs = ["GY", "BN", "WH/RD", "GN"]`, `drive = "bipolar"`,
		"[figures]", `voltage = "12 V"`, `one_phase_torque = "350 gf.cm"`, `detent_at = "two-phase"`, `load = "-1.5 N.cm"`,
	} {
		found := false
		for _, l := range strings.Split(got, "\n") {
			rest, begins := strings.CutPrefix(l, line)
			found = found || begins && (rest == "" || strings.HasPrefix(rest, "  #"))
		}
		if !found {
			t.Errorf("no line %s in\n%s", line, got)
		}
	}
	if strings.Contains(got, "common") || strings.Contains(got, "inner") || strings.Contains(got, "ratio") || strings.Contains(got, "current =") {
		t.Errorf("more than the motor has:\n%s", got)
	}
	if !strings.Contains(got, "32 full steps") || !strings.Contains(got, "at the output shaft") {
		t.Errorf("without a word of explanation:\n%s", got)
	}
	if !strings.HasSuffix(got, "\n") || strings.Contains(got, "\r") {
		t.Errorf("lines end oddly: %q", got)
	}
}

// The longest that may be, in letters of several bytes.
func TestLongestTextsComeBack(t *testing.T) {
	m, _ := BuiltIn("hybrid-4")
	m.Name, m.Title, m.Origin = strings.Repeat("é", 32), strings.Repeat("ü", 60), strings.Repeat("漢", 300)
	if again, err := Parse("x", m.Text()); err != nil || !sameMotor(m, again) {
		t.Errorf("comes back as %+v, %v", again, err)
	}
}

// A printed ratio stays a printed ratio: its sense of turning is not known.
func TestNominalStaysNominal(t *testing.T) {
	m, _ := BuiltIn("hybrid-4")
	m.Train = Train{Nominal: big.NewRat(64, 1)}
	again, err := Parse("x", m.Text())
	if err != nil || again.Train.Nominal == nil || again.Train.Meshes != nil {
		t.Errorf("%v, %v", again.Train, err)
	}
	if _, known := again.Train.Against(); known {
		t.Error("the sense of turning has become known")
	}
}
