package motor

import (
	"math/big"
	"slices"
	"strings"
	"testing"

	"coilwalk/model/quantity"
)

// The least that can be counted is taken, and nothing less.
func TestLeastCounts(t *testing.T) {
	for text, want := range map[string]Counted{"1x8": {Rings: 1, Teeth: 8}, "4x1": {Rings: 4, Teeth: 1}, "1 teeth": {RotorTeeth: 1}} {
		if c, err := ParseCounted(text); err != nil || c != want || !c.Given() {
			t.Errorf("%q: %+v, given %t, %v", text, c, c.Given(), err)
		}
	}
	for _, text := range []string{"0x8", "4x0", "0 teeth"} {
		if _, err := ParseCounted(text); err == nil {
			t.Errorf("%q is taken", text)
		}
	}
	if (Counted{}).Given() {
		t.Error("nothing counted counts as given")
	}
}

// Where a printed angle is the half-step angle of the teeth, the teeth have it,
// whichever was told first and whatever a third printed angle says.
func TestTeethBeforePrintedAngles(t *testing.T) {
	angle := func(steps int64) Count { return Count{"a step angle", big.NewRat(steps, 1), true} }
	teeth := Count{"rings", big.NewRat(24, 1), false}
	for _, c := range []struct {
		counts []Count
		steps  int64
		wrong  []int
	}{
		{[]Count{angle(48), teeth}, 24, nil},
		{[]Count{teeth, angle(48)}, 24, nil},
		{[]Count{angle(48), teeth, angle(96)}, 24, []int{2}},
		{[]Count{angle(96), angle(48), teeth}, 24, []int{0}},
		{[]Count{angle(24), angle(24), {"rings", big.NewRat(20, 1), false}}, 24, []int{2}},
	} {
		if g := Agree(c.counts); g.Steps != c.steps || !slices.Equal(g.Wrong, c.wrong) {
			t.Errorf("%+v: %d steps, wrong %v; wanted %d and %v (%s)", c.counts, g.Steps, g.Wrong, c.steps, c.wrong, g.Text)
		}
	}
}

// Once round electrically is one pole pair.
func TestAtRotor(t *testing.T) {
	if deg := (Motor{PolePairs: 8}).AtRotor(360); deg != 45 {
		t.Errorf("360° electrical are %g° of a rotor of 8 pole pairs", deg)
	}
}

func TestSeveralObservations(t *testing.T) {
	one := "200 steps = 45 deg"
	many := slices.Repeat([]string{one}, mostSeen)
	many[3] = "1 turn = 342 deg"
	seen, err := ParseSeen(many)
	if err != nil || len(seen) != mostSeen || seen[3].Steps || !seen[4].Steps {
		t.Errorf("%d of %d observations, %v", len(seen), mostSeen, err)
	}
	if _, err := ParseSeen(append(many, one)); err == nil || !strings.Contains(err.Error(), "at most 24") {
		t.Errorf("one more: %v", err)
	}
	if _, err := ParseSeen([]string{one, "45 deg"}); err == nil {
		t.Error("a bad one is taken")
	}
}

// Just as long as may be, and a letter more.
func TestLongTexts(t *testing.T) {
	longest := strings.Repeat("9", mostDigits)
	for text, good := range map[string]bool{longest: true, longest + "/" + longest: true, longest + "9": false, "1/" + longest + "9": false} {
		if _, ok := number(text); ok != good {
			t.Errorf("%s is a number: %t", text, ok)
		}
	}
}

// A figure is written with what it is of, where that is in doubt, and else alone.
func TestFiguresSayWhatTheyAreOf(t *testing.T) {
	text := Figures{Voltage: quantity.Volts(12), Resistance: quantity.Ohms(120)}.text(false)
	if !strings.Contains(text, "voltage = \"12 V\"  # across one coil\n") || !strings.Contains(text, "resistance = \"120 ohm\"\n") {
		t.Errorf("written:\n%s", text)
	}
}
