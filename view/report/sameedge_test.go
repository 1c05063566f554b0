package report

import (
	"testing"

	"coilwalk/model/driver"
	"coilwalk/model/motor"
	"coilwalk/model/quantity"
	"coilwalk/model/rotor"
	"coilwalk/sequence"
)

// No motor is told to start faster than it goes on.
func TestNoneStartsFasterThanItGoesOn(t *testing.T) {
	apart := 0
	for _, name := range []string{"hybrid-8", "vent-flap"} {
		m, _ := motor.BuiltIn(name)
		p, _, err := rotor.PlantOf(m, driver.Usual(m.Drive, false), quantity.Voltage{})
		if err != nil {
			t.Fatal(err)
		}
		found, _ := rotor.NewTrials(p, sequence.Half).Follow(rotor.Sweep{}, nil)
		if found.StartStop > found.PullOut {
			apart++
		}
		r := NewRates(m, sequence.Half, p, rotor.Response{}, found)
		r.Compare(sequence.Half, found)
		if c := r.Compared[0]; r.StartStop > r.PullOut || c.StartStop > c.PullOut {
			t.Errorf("%s: starts to %g and goes on to %g; %+v", name, r.StartStop, r.PullOut, c)
		}
	}
	if apart == 0 {
		t.Error("no edges came out apart: the case tries nothing")
	}
}
