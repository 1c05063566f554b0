package terms

import (
	"fmt"
	"math"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"coilwalk/model/driver"
	"coilwalk/model/motor"
	"coilwalk/model/rotor"
	"coilwalk/sequence"
	"coilwalk/view/picture"
)

// The words of the trade that the program shows: the list of the design, and what
// its screens and answers say besides.
var shown = []string{"lead", "coil", "half-coil", "centre tap", "common", "phase", "row", "order", "step mode", "wave drive", "full step", "half step",
	"microstep", "rotor", "pole pair", "tooth", "detent torque", "holding torque", "step angle", "load angle", "pull-in rate", "start–stop rate",
	"pull-out rate", "slew", "resonance", "train", "ratio", "mesh", "backlash", "low-side switch", "Darlington", "H-bridge", "clamp diode", "chopper",
	"recording", "channel", "edge", "glitch", "unipolar", "bipolar", "field angle", "stator", "electrical degrees", "air gap", "torque", "inertia",
	"friction", "lost steps", "lag", "overshoot", "ramp", "prescale", "duty", "carrier", "decay", "play", "drift", "swap", "buzz", "skips", "A+",
	"4-lead", "5-lead", "6-lead", "8-lead", "outputs", "rate", "rpm", "supply", "firmware", "stuck-low", "active low", "insulation class",
	"back-EMF", "inductance", "series", "parallel", "caution", "odds", "unstable balance", "rest", "forward"}

func TestEveryWordShownIsExplained(t *testing.T) {
	for _, word := range shown {
		if _, err := Find(word); err != nil {
			t.Error(err)
		}
	}
	for _, s := range driver.Stages {
		if _, err := Find(s.Name); err != nil {
			t.Errorf("stage %s wants a word in driver.go: %v", s.Name, err)
		}
	}
	for _, m := range append(sequence.Modes[:], sequence.Mode{Title: "microstep"}) {
		if _, err := Find(m.Title); err != nil {
			t.Errorf("step mode %s wants a word in order.go: %v", m.Title, err)
		}
	}
}

// The kinds of fault that answers name are explained: all that the README lists.
func TestEveryKindOfFaultIsExplained(t *testing.T) {
	readme, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	_, list, found := strings.Cut(string(readme), "Kinds of fault: ")
	list, _, ends := strings.Cut(list, ".\n")
	kinds := regexp.MustCompile("`([a-z-]+)`").FindAllStringSubmatch(list, -1)
	if !found || !ends || len(kinds) < 20 {
		t.Fatalf("only %d kinds of fault in the README", len(kinds))
	}
	for _, kind := range kinds {
		if _, err := Find(kind[1]); err != nil {
			t.Error(err)
		}
	}
}

// No word leads to two entries, and none is left without words to see.
func TestAWordLeadsToOneEntry(t *testing.T) {
	at := map[string]string{}
	for _, e := range All() {
		if len(e.See) == 0 {
			t.Errorf("%s: nothing to see", e.Word)
		}
		own := map[string]bool{}
		for _, w := range append([]string{e.Word}, e.Also...) {
			spelt := plain(w)
			if other, is := at[spelt]; is && other != e.Word {
				t.Errorf("%q leads to %q and to %q", w, other, e.Word)
			}
			at[spelt] = e.Word
			own[spelt] = true
		}
		_, _, near := e.Where()
		for _, w := range near {
			found, err := Find(w)
			if err != nil {
				t.Errorf("%s: %v", e.Word, err)
			} else if found.Word != w {
				t.Errorf("%s: near it %q, which is an entry as %q", e.Word, w, found.Word)
			}
		}
	}
}

// A beginner and a screen reader read these: two to five sentences, none long,
// no marks but ASCII.
func TestEntriesArePlain(t *testing.T) {
	for _, e := range All() {
		for _, r := range e.Text {
			if r > 0x7e || r < 0x20 {
				t.Errorf("%s: %q is no plain mark", e.Word, r)
			}
		}
		sentences := sentencesOf(e.Text)
		if n := len(sentences); n < 2 || n > 5 {
			t.Errorf("%s: %d sentences", e.Word, n)
		}
		for _, s := range sentences {
			if n := len(strings.Fields(s)); n > 28 {
				t.Errorf("%s: a sentence of %d words: %s", e.Word, n, s)
			}
		}
	}
}

// sentencesOf parts a text at full stops that end a sentence; a figure's does not.
func sentencesOf(text string) (all []string) {
	for _, part := range strings.Split(text, ". ") {
		if strings.TrimSpace(part) != "" {
			all = append(all, part)
		}
	}
	return all
}

// Figures in the texts are those of the engine.
func TestFiguresAreTheEngines(t *testing.T) {
	wave, full, half := sequence.Wave.Order(), sequence.Full.Order(), sequence.Half.Order()
	micro, err := sequence.Micro(8, 0)
	if err != nil {
		t.Fatal(err)
	}
	turns := map[sequence.Direction]int{}
	for _, p := range sequence.Permutations() {
		turns[p.Turns()]++
	}
	stronger := full.Row(0).Field().Strength() / wave.Row(0).Field().Strength()
	for _, c := range []struct{ word, says string }{
		{"wave drive", fmt.Sprintf("full step holds %.2f times as strongly", stronger)},
		{"full step", fmt.Sprintf("holds %.2f times as strongly", stronger)},
		{"half step", fmt.Sprintf("between %.0f and %.2f", half.Row(0).Field().Strength(), half.Row(1).Field().Strength())},
		{"holding torque", fmt.Sprintf("One phase alone holds %.2f of that", 1/stronger)},
		{"microstep", fmt.Sprintf("a 200-step motor want %d pulses", 200/4*micro.Rows())},
		{"mapping", fmt.Sprintf("Of the %d ways to plug four leads, %d turn the motor forward, %d turn it back, and in the other %d it only rocks",
			len(sequence.Permutations()), turns[sequence.Forward], turns[sequence.Reverse], turns[sequence.Standing])},
		{"time constant", fmt.Sprintf("%.0f percent of a change", 100*(1-math.Exp(-1)))},
		{"time constant", fmt.Sprintf("Three of them make %.0f percent", 100*(1-math.Exp(-3)))},
	} {
		e, err := Find(c.word)
		if err != nil {
			t.Fatal(err)
		}
		if !strings.Contains(e.Text, c.says) {
			t.Errorf("%s: want %q in %q", c.word, c.says, e.Text)
		}
	}
	for end, deg := range [4]int{0, 90, 180, 270} {
		if sequence.Ends[end].Axis() != deg {
			t.Errorf("%s points to %d", sequence.Ends[end], sequence.Ends[end].Axis())
		}
	}
	class := motor.Insulation("F")
	if e, _ := Find("insulation class"); !strings.Contains(e.Text, fmt.Sprintf("F %.0f", class.Celsius())) {
		t.Errorf("class F is %v", class.Celsius())
	}
}

// A load of half of the hold turns the rotor by asin ½, and the drawing says so:
// it is drawn by the engine, and this is not.
func TestTheLoadAngleIsDrawn(t *testing.T) {
	d := drawLoadAngle()
	if want := fmt.Sprintf("%.0f electrical degrees", math.Asin(drawnLoad)*180/math.Pi); !strings.Contains(d.Title, want) {
		t.Errorf("want %s in %q", want, d.Title)
	}
	if places, _ := (rotor.Machine{Load: 0.5}).Rest(sequence.Field{A: 1}, rotor.Position{}); len(places) != 1 {
		t.Errorf("it rests at %v", places)
	}
}

// Drawings keep to their room, in ASCII to ASCII, and are not empty.
func TestDrawingsKeepToTheirRoom(t *testing.T) {
	made := map[string]bool{}
	for _, e := range All() {
		if e.Draw == nil {
			continue
		}
		d := e.Draw()
		if made[d.Title] {
			continue
		}
		made[d.Title] = true
		if picture.Width(d.Title) > 76 {
			t.Errorf("%s: the title is %d wide", e.Word, picture.Width(d.Title))
		}
		for _, ascii := range []bool{false, true} {
			text := d.Text(ascii)
			lines := strings.Split(strings.TrimSuffix(text, "\n"), "\n")
			if len(lines) < 3 || len(lines) > d.Lines+1 {
				t.Errorf("%s: %d lines of %d\n%s", e.Word, len(lines), d.Lines+1, text)
			}
			for _, line := range lines {
				if picture.Width(line) > titleWide {
					t.Errorf("%s: a line is %d wide", e.Word, picture.Width(line))
				}
			}
			if ascii && strings.ContainsFunc(text, func(r rune) bool { return r > 0x7e || r < 0x20 && r != '\n' }) {
				t.Errorf("%s: not only ASCII:\n%s", e.Word, text)
			}
		}
		tall := picture.Grid{}
		tall.Resize(titleWide, d.Lines+6)
		d.Onto(&tall, 0, 2, titleWide)
		rows := strings.Split(tall.Text(picture.Dark, picture.NoColour), "\n")
		if strings.TrimSpace(rows[0]+rows[1]) != "" || strings.TrimSpace(strings.Join(rows[d.Lines+3:], "")) != "" {
			t.Errorf("%s: draws beyond its %d lines:\n%s", e.Word, d.Lines, strings.Join(rows, "\n"))
		}
	}
	if len(made) < 20 {
		t.Errorf("only %d drawings", len(made))
	}
}

func TestOtherWordsLeadThere(t *testing.T) {
	for other, word := range map[string]string{"pull-in": "start-stop rate", "Start–Stop Rate": "start-stop rate", "play": "backlash", "HALF STEPS": "half step",
		"pwm": "carrier", "ccw": "forward", "a+": "coil end", "Darlington array": "Darlington", "half_coil": "half-coil", "lost step": "lost steps", "Overshoots": "overshoot"} {
		if e, err := Find(other); err != nil || e.Word != word {
			t.Errorf("%s leads to %q (%v), want %s", other, e.Word, err, word)
		}
	}
	for wrong, near := range map[string]string{"detant torque": "detent torque", "baklash": "backlash", "kV": `"explain" without a word`} {
		if _, err := Find(wrong); err == nil || !strings.Contains(err.Error(), near) {
			t.Errorf("%s: want %q in %v", wrong, near, err)
		}
	}
	if !slices.Contains(All()[0].See, "Walk") {
		t.Error("the first entry leads nowhere")
	}
}
