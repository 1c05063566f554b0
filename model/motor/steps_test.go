package motor

import (
	"math/big"
	"testing"

	"coilwalk/sequence"
)

func mode(t *testing.T, name string, divide int) sequence.Mode {
	t.Helper()
	m, err := sequence.ModeNamed(name, divide, 0)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func TestStepsPerRotorTurn(t *testing.T) {
	for _, c := range []struct {
		polePairs int
		mode      string
		divide    int
		want      int
		source    string
	}{
		{8, "full", 0, 32, "4 rings of 8 teeth: common practice, no source"},
		{8, "wave", 0, 32, "as full step"},
		{8, "half", 0, 64, "4 rings of 8 teeth: common practice, no source"},
		{12, "full", 0, 48, "7.5 degree can motor: common practice, no source"},
		{50, "full", 0, 200, "50 teeth x 4 = 200: Nanotec, FAQ 164"},
		{100, "full", 0, 400, "100 teeth x 4, 0.9 degrees: Nanotec, FAQ 164"},
		{50, "half", 0, 400, "0.9 degrees: Phytron, glossary, Step Angle"},
		{50, "micro", 16, 3200, "1.8 degrees / 16: arithmetic"},
		{50, "micro", 256, 51200, "1.8 degrees / 256: arithmetic"},
	} {
		m := Motor{PolePairs: c.polePairs, Train: Train{Meshes: []Mesh{{1, 64}}}} // the train must not matter
		if got := m.StepsPerRotorTurn(mode(t, c.mode, c.divide)); got != c.want {
			t.Errorf("%d pole pairs, %s %d: %d, want %d (%s)", c.polePairs, c.mode, c.divide, got, c.want, c.source)
		}
	}
}

// S = 360/(Nt Np) with Np = 4 for two bipolar phases: Nippon Pulse, FAQ on
// rotary hybrid stepper motors. 50 pole pairs: 1.8 degrees full, 0.9 half:
// Phytron, glossary, Step Angle.
func TestStepAngle(t *testing.T) {
	for _, c := range []struct {
		polePairs int
		mode      string
		want      *big.Rat
	}{
		{50, "full", big.NewRat(18, 10)}, {50, "half", big.NewRat(9, 10)}, {100, "full", big.NewRat(9, 10)},
		{8, "full", big.NewRat(1125, 100)}, {8, "half", big.NewRat(5625, 1000)},
	} {
		rows := Motor{PolePairs: c.polePairs}.StepsPerRotorTurn(mode(t, c.mode, 0))
		if got := big.NewRat(360, int64(rows)); got.Cmp(c.want) != 0 {
			t.Errorf("%d pole pairs, %s: %s degrees, want %s", c.polePairs, c.mode, got, c.want)
		}
	}
}

func TestStepsPerShaftTurn(t *testing.T) {
	// The teeth of a small geared can motor, counted: Arduino forum, thread 71308
	// "Geared stepper motor", opening post and post 22.
	const counted = "9:32,11:22,9:26,10:31"
	for _, c := range []struct {
		train string
		ratio bool
		mode  string
		want  *big.Rat
	}{
		// 64 half steps a rotor turn and 64:1: common practice, no source.
		{"64:1", true, "full", big.NewRat(2048, 1)},
		{"64:1", true, "half", big.NewRat(4096, 1)},
		{counted, false, "half", big.NewRat(1650688, 405)}, // 4075 and 313/405: post 22
		{counted, false, "half", big.NewRat(4075*405+313, 405)},
		{counted, false, "full", big.NewRat(2037*405+359, 405)}, // worked from it
		{counted, false, "wave", big.NewRat(825344, 405)},
	} {
		parse := ParseTrain
		if c.ratio {
			parse = ParseRatio
		}
		train, err := parse(c.train)
		if err != nil {
			t.Fatal(err)
		}
		m := Motor{PolePairs: 8, Train: train}
		if got := m.StepsPerShaftTurn(mode(t, c.mode, 0)); got.Cmp(c.want) != 0 {
			t.Errorf("%s, %s: %s, want %s", c.train, c.mode, got, c.want)
		}
	}
	if got := (Motor{PolePairs: 50}).StepsPerShaftTurn(sequence.Full); got.Cmp(big.NewRat(200, 1)) != 0 {
		t.Errorf("without a train: %s, want the 200 of the rotor", got)
	}
}

// Output follows the wiring that is asked about, not the motor's own.
func TestOutput(t *testing.T) {
	m := Motor{Winding: Winding{Ends: [4]Lead{"a", "b", "c", "d"}}, Wiring: sequence.Straight}
	wiring := sequence.Permutation{sequence.BMinus, sequence.APlus, sequence.AMinus, sequence.BPlus}
	for k, want := range []Lead{"d", "a", "c", "b"} {
		if got := m.Output(wiring, k); got != want {
			t.Errorf("output %d carries %s, want %s", k+1, got, want)
		}
	}
}
