package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestMotorsNewAsksAndWrites(t *testing.T) {
	file := filepath.Join(t.TempDir(), "flap.toml")
	answers := []string{"", "", "", "seven", "5", "brown WHT GN", "brown WHT GN BN", "brown WHT GN GY", "gy", "VT", "33", "32", "9:23,10:27,11:29,12:28", "2deg,1deg", "3deg", "WH BN GN GY", "12", "12 V", "", "120 ohm", "45 mN.m"}
	r := call(t, strings.Join(answers, "\n")+"\n", "motors", "new", file)
	if r.status != 0 {
		t.Fatalf("status %d, said %q after\n%s", r.status, r.errs, r.out)
	}
	for _, want := range []string{"4, 5, 6 or 8 is wanted", "4 wanted", "stands twice", "that 4 divides", "for 4 meshes", "has no unit"} {
		if !strings.Contains(r.out, want) {
			t.Errorf("it did not object with %q:\n%s", want, r.out)
		}
	}
	show := call(t, "", "motors", "show", file).out
	for _, want := range []string{"flap: flap", "5 leads, common VT", "4669/110", "WH     output 1", "12 V", "120 ohm"} {
		if !strings.Contains(show, want) {
			t.Errorf("the file lacks %q:\n%s", want, show)
		}
	}
	long := strings.Repeat("n", 61)
	r = call(t, strings.Join(append([]string{"two words", "word", long, "a title", "\x1b[2J", "me"}, answers[3:]...), "\n")+"\n", "motors", "new", filepath.Join(filepath.Dir(file), "\x1b.toml"))
	if r.status != 0 || strings.Contains(r.out, "\x1b") || strings.Count(r.out, "is wanted.\n  again") < 1 || !strings.Contains(r.out, "60 plain characters are wanted.\n  again") || !strings.Contains(r.out, "300 plain characters on one line are wanted.\n  again") {
		t.Errorf("words that a motor file refuses are not refused at once: status %d, said %q after\n%q", r.status, r.errs, r.out)
	}
	before, _ := os.ReadFile(file)
	call(t, "\n\n\n4\n", "motors", "new", file, "--force")
	if after, _ := os.ReadFile(file); string(after) != string(before) {
		t.Error("answers that ended too soon changed the file")
	}
	r = call(t, "\n\n\n4\n", "motors", "new", file+"2")
	if _, err := os.Stat(file + "2"); r.status != 2 || err == nil {
		t.Errorf("answers that ended too soon: status %d, file there: %v", r.status, err == nil)
	}
}

// Who does not want to go on leaves, and goes on with what was there before.
func TestMotorsNewIsLeft(t *testing.T) {
	file := filepath.Join(t.TempDir(), "half.toml")
	if r := call(t, "\nquit\n\n4\n", "motors", "new", file); r.status != 2 || !strings.Contains(r.errs, "left before the last question; nothing was written") {
		t.Errorf("status %d, said %q", r.status, r.errs)
	}
	r := call(t, "newmotor "+file+"\n\n\n quit \nnext\n", "--plain")
	if r.status != 0 || !strings.Contains(r.out, "left before the last question; nothing was written") || !strings.Contains(r.out, "step 1, row 2 of 8") {
		t.Errorf("status %d, said %q after\n%s", r.status, r.errs, r.out)
	}
	if _, err := os.Stat(file); err == nil {
		t.Error("a file was written")
	}
}

// Readings answer the questions about the leads; the counts those about the
// rotor.
func TestMotorsNewTakesReadings(t *testing.T) {
	file := filepath.Join(t.TempDir(), "six.toml")
	readings := filepath.Join("..", "..", "testdata", "readings", "six.csv")
	answers := "\n\n\n\n\n\n4x12, 3.75deg\n\nbipolar\n\n\n\n\n\n"
	r := call(t, answers, "motors", "new", file, "--readings", readings)
	if r.status != 0 || !strings.Contains(r.out, "is the half-step angle, which agrees") {
		t.Fatalf("status %d, said %q after\n%s", r.status, r.errs, r.out)
	}
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{`ends = ["BK", "BU", "GN", "RD"]`, `taps = ["YE", "WH"]`, "pole_pairs = 12", "rings = 4", "teeth = 12", `step_angle = "3.75`, `resistance = "30 ohm"`, `drive = "bipolar"`} {
		if !strings.Contains(string(text), want) {
			t.Errorf("the file lacks %s:\n%s", want, text)
		}
	}
	broken := filepath.Join("..", "..", "testdata", "readings", "broken.csv")
	call(t, answers, "motors", "new", file+"2", "--readings", broken).complains(t, "do not settle", "coilwalk leads")
	// With what the shaft did the order is that which turns.
	for _, c := range []struct{ readings, shaft, want string }{
		{readings, "kick BK RD cw\nkick RD GN cw\n", `ends = ["BK", "RD", "GN", "BU"]`},
		{readings, "kick BK RD ccw\nkick RD GN ccw\n", `ends = ["BK", "BU", "GN", "RD"]`},
		{filepath.Join("..", "..", "testdata", "readings", "flap.csv"), "kick BN GY cw\nkick BN WH slack\nkick BN GN ccw\n", `ends = ["BN", "GY", "WH", "GN"]`},
	} {
		shaft := filepath.Join(t.TempDir(), "answers.txt")
		if err := os.WriteFile(shaft, []byte(c.shaft), 0o644); err != nil {
			t.Fatal(err)
		}
		r := call(t, "\n\n\n\n\n\n32\n\n\n\n\n\n\n\n", "motors", "new", shaft+".toml", "--readings", c.readings, "--answers", shaft)
		text, err := os.ReadFile(shaft + ".toml")
		if err != nil || !strings.Contains(string(text), c.want) {
			t.Errorf("%q: status %d, %v, said %q, want %s:\n%s\n%s", c.shaft, r.status, err, r.errs, c.want, text, r.out)
		}
	}
	few := filepath.Join(t.TempDir(), "few.txt")
	if err := os.WriteFile(few, []byte("kick BK RD unsure\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	call(t, answers, "motors", "new", file+"2", "--readings", readings, "--answers", few).complains(t, "do not settle which lead")
	call(t, answers, "motors", "new", file+"2", "--answers", few).complains(t, "goes with --readings")
}

// In the line mode the same is newmotor and motor: until then it is said whose motor
// the bench has, and what the meter's leads take off is told.
func TestPlainMotorOfReadings(t *testing.T) {
	mine := filepath.Join(t.TempDir(), "mine.toml")
	const still = "The bench still has another motor, vent flap: newmotor FILE makes a motor file of this one."
	words := "leads\nask\nanswer kick BK BU ccw\nanswer kick BK RD cw\nnewmotor " + mine + "\n\n\n\n\n\n\n48\n\n\n\n\n\n\n\nmotor " + mine + "\nquit\n"
	r := call(t, words, "--plain", filepath.Join("..", "..", "testdata", "readings", "six.csv"))
	out := strings.Join(strings.Fields(r.out), " ")
	if n := strings.Count(out, still); r.status != 0 || n != 3 { // as it opens, at leads, and once the shaft has told
		t.Errorf("status %d, said %d times:\n%s", r.status, n, r.out)
	}
	for _, want := range []string{"300 mohm of the meter's own leads", "The readings tell the leads, and the shaft which goes where.", "6 leads, taps YE and WH, 48 steps a rotor turn."} {
		if !strings.Contains(out, want) {
			t.Errorf("it does not say %q:\n%s", want, r.out)
		}
	}
	if text, err := os.ReadFile(mine); err != nil || !strings.Contains(string(text), `ends = ["BK", "RD", "GN", "BU"]`) {
		t.Errorf("%v:\n%s", err, text)
	}
}

// Each figure says which it is and what was taken for it, so that a line too many is
// seen at once; what the file gives in the end stands in one line.
func TestMotorsNewSaysWhatItTook(t *testing.T) {
	file := filepath.Join(t.TempDir(), "four.toml")
	// a line too many before the 12 V: they are asked for as a current, and refused
	r := call(t, "\n\n\n4\nBK RD GN BU\n200\n\n\n\n12 V\n0.4 A\n30 ohm\n\n", "motors", "new", file)
	if r.status != 0 {
		t.Fatalf("status %d, said %q after\n%s", r.status, r.errs, r.out)
	}
	for _, want := range []string{"1 of 4, voltage: rated", ": \x20 left out\n2 of 4, current: rated", "  taken: 0.4 A\n3 of 4, resistance", "  taken: 30 ohm\n",
		"four.toml, with current 0.4 A, resistance 30 ohm; not given: voltage, holding torque. Look at it"} {
		if !strings.Contains(r.out, want) {
			t.Errorf("it does not say %q:\n%s", want, r.out)
		}
	}
	r = call(t, "newmotor "+file+"2.toml\n\n\n\n4\nBK RD GN BU\n200\n\n\n\n\n\n\n", "--plain")
	if said := strings.Join(strings.Fields(r.out), " "); !strings.Contains(said, "with none of its figures; not given: voltage, current, resistance, holding torque.") {
		t.Errorf("it does not say what is not given:\n%s", r.out)
	}
}

// The line mode keeps the train that shaft has by a word, as Shaft does by a key.
func TestTheLineModeKeepsTheTrain(t *testing.T) {
	file := filepath.Join(t.TempDir(), "kept.toml")
	r := call(t, "shaft train 9:32,11:22\nsave motor "+file+"\nsave motor "+file+"\nquit\n", "--plain", "--motor", "hybrid-4")
	if !strings.Contains(r.out, "is there already") {
		t.Errorf("a file that is there is written over:\n%s", r.out)
	}
	show := call(t, "", "motors", "show", file).out
	for _, want := range []string{"kept: kept", "train            9:32,11:22", "4 leads"} {
		if !strings.Contains(show, want) {
			t.Errorf("the file lacks %q:\n%s", want, show)
		}
	}
}
