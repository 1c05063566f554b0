package plain

import (
	"strings"
	"testing"

	"coilwalk/model/bench"
	"coilwalk/model/motor"
)

// What drives the motor is said once: of power it counts for rates, ramp and curve,
// and the other way round.
func TestRatesAndPowerShareWhatDrives(t *testing.T) {
	said := func(words string) string {
		m, _ := motor.BuiltIn("hybrid-6")
		var out strings.Builder
		if err := (&Mode{Sitting: Sitting{Bench: bench.New(m)}}).Run(strings.NewReader(words), &out); err != nil {
			t.Fatal(err)
		}
		return strings.Join(strings.Fields(out.String()), " ")
	}
	for words, wants := range map[string][]string{
		"power chopper 24V\nrates\n":                           {"Connected as bipolar, halves in series, for the stage can not feed a unipolar drive. ", "half step, chopper module, 24 V connected: bipolar, halves in series"},
		"rates supply 15V\npower\n":                            {"supply of 15 V;"},
		"rates connected half\npower connected\nlines power\n": {"connected: half. It asks", "supply: nothing"},
		"power\nrates\n":                                       {"13.3 V brings the rated current. Rates runs on the rated 12 V.", "Run on the rated 12 V. Power takes 13.3 V"},
		"rates stage chopper\nramp rate 300\n":                 {"note: Connected as bipolar, halves in series, for the stage can not feed a unipolar drive."},
		"rates connected sideways\npower\n":                    {"it can be unipolar, half, series", "unipolar; taps"},
	} {
		out := said(words)
		for _, want := range wants {
			if !strings.Contains(out, want) {
				t.Errorf("%q: %q is not said:\n%s", words, want, out)
			}
		}
	}
	curve := func(words string) string {
		_, after, _ := strings.Cut(said(words+"curve\n"), "With 0 mN.m")
		return after
	}
	if by := curve("rates supply 3V\n"); by == "" || curve("power darlington 3V\n") != by || curve("") == by {
		t.Error("a supply of power does not count for the curve")
	}
	if out := said("power chopper 24V\npower connected half\nramp rate 300\n"); strings.Count(out, "Connected as") != 1 { // by power, before it was named
		t.Errorf("ramp takes a connection of its own:\n%s", out)
	}
	if out := said("power chopper 24V\nramp supply 30V\nlines rates\n"); !strings.Contains(out, "supply: 24V.") {
		t.Errorf("a supply of ramp is its own:\n%s", out)
	}
}
