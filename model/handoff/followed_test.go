package handoff

import (
	"os"
	"strings"
	"testing"

	"coilwalk/model/driver"
	"coilwalk/model/motor"
	"coilwalk/model/quantity"
	"coilwalk/model/rotor"
	"coilwalk/sequence"
)

// A file is cautioned of where the rates of the same model say that the motor would
// not take its rows, and only there: well below the start–stop rate and well above the
// pull-out rate, at once and along a ramp.
func TestUnfollowedAsRatesSay(t *testing.T) {
	names := []string{"vent-flap", "hybrid-6"}
	if os.Getenv("COILWALK_RACE") != "" { // nothing is done at once: one, so that all of it is run
		names = names[:1]
	}
	for _, name := range names {
		m, found := motor.BuiltIn(name)
		if !found {
			t.Fatal(name)
		}
		plant, _, err := rotor.PlantOf(m, driver.Usual(m.Drive, false), quantity.Voltage{})
		if err != nil {
			t.Fatal(err)
		}
		rates, _ := rotor.NewTrials(plant, sequence.Half).Follow(rotor.Sweep{}, nil)
		if err := rotor.NewTrials(plant, sequence.Half).Err(); err != nil || rates.StartStop < 100 || rates.PullOut < 1.1*rates.StartStop {
			t.Fatalf("%s: %v, %+v", name, err, rates)
		}
		between := 0.5 * (rates.StartStop + rates.PullOut)
		for _, c := range []struct {
			what        string
			start, rate float64 // rows a second; a ramp where they differ
			words       string
		}{
			{"slowly", 0.7 * rates.StartStop, 0.7 * rates.StartStop, ""},
			{"at once", between, between, "does not start at"},
			{"up to between", 0.7 * rates.StartStop, between, ""},
			{"too fast a start", between, 1.02 * between, "does not follow these rows"},
			{"too far up", 0.7 * rates.StartStop, 1.3 * rates.PullOut, "does not follow these rows"},
		} {
			pace, err := Speeding(UsualClock, UsualPrescale, c.start, c.rate, rates.StartStop) // a second or so
			if c.start == c.rate {
				pace, err = Even(UsualClock, UsualPrescale, c.rate)
			}
			if err != nil {
				t.Fatal(err)
			}
			w := &Walk{Motor: m, Mode: sequence.Half, Board: Plain, Pace: pace}
			if said := w.Unfollowed(); !strings.Contains(said, c.words) || (said == "") != (c.words == "") {
				t.Errorf("%s, %s, from %.0f to %.0f: %q, %q is wanted", name, c.what, c.start, c.rate, said, c.words)
			}
		}
	}
	// Between what it goes on at and what it turns at for a while, as rates tells it.
	m, err := motor.Parse("slow-swing", []byte(slowSwing))
	if err != nil {
		t.Fatal(err)
	}
	pace, err := Speeding(UsualClock, UsualPrescale, 550, 860, 1000)
	if err != nil {
		t.Fatal(err)
	}
	if said := (&Walk{Motor: m, Mode: sequence.Half, Board: Plain, Pace: pace}).Unfollowed(); !strings.Contains(said, "does not follow these rows") {
		t.Errorf("at a rate at which a swing grows: %q", said)
	}
	still, _ := motor.BuiltIn("vent-flap")
	still.Figures = motor.Figures{}
	pace, _ = Even(UsualClock, UsualPrescale, 9000)
	if said := (&Walk{Motor: still, Mode: sequence.Half, Board: Plain, Pace: pace}).Unfollowed(); said != "" {
		t.Errorf("of a motor without figures: %q", said)
	}
}

// slowSwing is a motor in which a swing grows for hundreds of rows below the rate at
// which it falls out at once (invented).
const slowSwing = `name = "slow-swing"
title = "a motor with a slow swing"
origin = "invented"
[winding]
ends = ["BK", "GN", "YE", "RD"]
taps = ["BU", "WH"]
[rotor]
pole_pairs = 50
[wiring]
outputs = ["BK", "GN", "YE", "RD"]
drive = "unipolar"
[figures]
voltage = "12 V"
resistance = "59.8 ohm"
holding_torque = "250 mN.m"
`
