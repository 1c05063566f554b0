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

// What power forbids is said of rates, what is set for one counts for all, and what is
// taken along is judged behind it.
func TestWhatDrivesIsJudgedAlike(t *testing.T) {
	for words, wants := range map[string][]string{
		"rates stage chopper\nrates supply 24V\n":                                 {"power: not so: 2.12 A through an output that stands 1 A for good"},
		"rates stage chopper\nrates supply 5V\nrates rate 500\n":                  {"hybrid, 8 leads does not follow 500 rows/s: 5 V are left at the stage, which needs 8 V to work at all."},
		"power chopper 24V\npower set to 800mA\nrates\n":                          {"chopper module, 24 V, set to 800 mA"},
		"power chopper 24V\npower set to 50mA\nramp rate 2600\nramp start 2600\n": {"falls out of step"},
		"power chopper 5V\ncurve\n":                                               {"needs 8 V to work at all, so the motor follows nothing"},
		"take rate 1500\n":                                                        {"Caution: by its model, behind the stage darlington on 4.2 V"},
		"rates stage chopper\nrates supply 24V\ntake rate 4000\n":                 {"Caution: by its model, behind the stage chopper on 24 V (bipolar, halves in series) and without a load"},
	} {
		m, _ := motor.BuiltIn("hybrid-8")
		var out strings.Builder
		if err := (&Mode{Sitting: Sitting{Bench: bench.New(m)}}).Run(strings.NewReader(words), &out); err != nil {
			t.Fatal(err)
		}
		for _, want := range wants {
			if said := strings.Join(strings.Fields(out.String()), " "); !strings.Contains(strings.ToLower(said), strings.ToLower(want)) {
				t.Errorf("%q: %q is not said:\n%s", words, want, out.String())
			}
		}
	}
}
