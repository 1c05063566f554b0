package motor

import (
	"math"
	"testing"

	"coilwalk/model/quantity"
)

func TestPhaseCurrent(t *testing.T) {
	stated := quantity.Amperes(0.25)
	for _, c := range []struct {
		name    string
		figures Figures
		want    float64 // A
		ok      bool
	}{
		{"nothing", Figures{}, 0, false},
		{"voltage alone", Figures{Voltage: quantity.Volts(5)}, 0, false},
		{"resistance alone", Figures{Resistance: quantity.Ohms(50)}, 0, false},
		// 5 V at 50 ohm is 100 mA: Ohm's law.
		{"voltage over resistance", Figures{Voltage: quantity.Volts(5), Resistance: quantity.Ohms(50)}, 0.1, true},
		{"stated alone", Figures{Current: stated}, 0.25, true},
		{"stated goes before computed", Figures{Current: stated, Voltage: quantity.Volts(5), Resistance: quantity.Ohms(50)}, 0.25, true},
	} {
		i, ok := Motor{Figures: c.figures}.PhaseCurrent()
		if ok != c.ok || i.Given() != c.ok || math.Abs(i.Base()-c.want) > 1e-15 {
			t.Errorf("%s: %v, %v; want %g A, %v", c.name, i, ok, c.want, c.ok)
		}
	}
	if i, _ := (Motor{Figures: Figures{Current: stated}}).PhaseCurrent(); i != stated {
		t.Errorf("a stated current comes back as %v", i)
	}
}

// Figures in other units than the base ones.
func TestPhaseCurrentOfWrittenFigures(t *testing.T) {
	var f Figures
	for _, err := range []error{f.Voltage.Set("12000 mV"), f.Resistance.Set("0.15 kohm")} {
		if err != nil {
			t.Fatal(err)
		}
	}
	i, ok := Motor{Figures: f}.PhaseCurrent()
	if got := i.Rounded(3); !ok || got != "80 mA" {
		t.Errorf("12 V over 0.15 kohm: %s, want 80 mA", got)
	}
}
