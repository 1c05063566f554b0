package main

import (
	"encoding/json"
	"strings"
	"testing"
)

// With the same options rates and power speak of one drive; where they do not take
// the same voltage both say which the other takes.
func TestRatesAndPowerSpeakOfOneDrive(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		args, from string
		same       bool
		rates      []string
	}{
		{"--motor hybrid-6 --stage chopper", "suits", true, []string{"bipolar, halves in series, for the stage can not feed a unipolar drive", "28 V suits the stage; power takes the same"}},
		{"--motor hybrid-6 --supply 24V", "named", true, nil},
		{"--motor hybrid-6", "rated", false, []string{"Run on the rated 12 V. Power takes 13.3 V"}},
	} {
		var r struct {
			Connection string
			Volts      float64 `json:"supply_v"`
			From       string  `json:"supply_from"`
		}
		var p struct {
			Connection string
			Supply     struct{ Volts float64 }
			Notes      []string
		}
		for command, into := range map[string]any{"rates": &r, "power": &p} {
			if err := json.Unmarshal([]byte(call(t, "", strings.Fields(command+" --json "+c.args)...).out), into); err != nil {
				t.Fatal(err)
			}
		}
		if r.Connection != p.Connection || r.Connection == "" || r.From != c.from || (r.Volts == p.Supply.Volts) != c.same {
			t.Errorf("%s: rates %+v, power %+v", c.args, r, p)
		}
		if notes := strings.Join(p.Notes, "\n"); !c.same && !strings.Contains(notes, "Rates runs on the rated 12 V") {
			t.Errorf("%s: power says nothing of rates: %s", c.args, notes)
		}
		out := call(t, "", strings.Fields("rates "+c.args)...).out
		for _, want := range c.rates {
			if !strings.Contains(out, want) {
				t.Errorf("%s: %q is not said:\n%s", c.args, want, out)
			}
		}
	}
}

// What power forbids rates and ramp say, and a stage that does not work on its supply
// follows nothing.
func TestWhatPowerForbidsIsSaid(t *testing.T) {
	t.Parallel()
	const drive = " --motor hybrid-8 --stage chopper --supply "
	for _, c := range []struct {
		args     string
		status   int
		has, not string
	}{
		{"rates --for 500" + drive + "24V", 0, "power            not so: 2.12 A through an output that stands 1 A for good\n", "when it stands"},
		{"rates --for 500" + drive + "24V --current 0.8A", 0, "chopper module, 24 V, set to 800 mA", "not so"},
		{"rates --for 500" + drive + "5V", 1, "does not follow 500 rows/s: 5 V are left at the stage, which needs 8 V to work at all", "start–stop"},
		{"rates" + drive + "5V", 0, "5 V are left at the stage, which needs 8 V to work at all, so the motor follows nothing", "pull-out"},
		{"rates --curve --plot none.svg" + drive + "5V", 2, "--plot: there is no curve: 5 V are left at the stage", ""},
		{"rates --motor hybrid-8 --current 1A", 2, "--current: the low-side Darlington array does not set its current", ""},
		{"ramp --steps 400 --rate 900/s" + drive + "24V", 0, "caution: power says not so: 2.12 A through an output", ""},
		{"ramp --steps 400 --rate 900/s" + drive + "5V", 2, "hybrid-8 is not run through it: 5 V are left at the stage", ""},
		{"power --rate 1900" + drive + "24V", 1, "Not so: 2.12 A through an output that stands 1 A for good, when it stands or turns slowly.", "friction  5"},
		{"power --rate 1900" + drive + "24V", 1, "standing, 2.12 A cold, 2.12 A warm; turning, ", ""},
	} {
		r := call(t, "", strings.Fields(c.args)...)
		if said := r.out + r.errs; r.status != c.status || !strings.Contains(said, c.has) || c.not != "" && strings.Contains(said, c.not) {
			t.Errorf("%s: status %d, %q is wanted and not %q:\n%s", c.args, r.status, c.has, c.not, said)
		}
	}
	for args, works := range map[string]bool{"rates" + drive + "24V": true, "rates" + drive + "5V": false, "ramp --steps 400 --rate 900/s" + drive + "24V": true} {
		var r struct {
			Forbids *struct {
				Works bool
				Text  string
			}
		}
		if err := json.Unmarshal([]byte(call(t, "", strings.Fields(args+" --json")...).out), &r); err != nil {
			t.Fatal(err)
		}
		if r.Forbids == nil || r.Forbids.Works != works || !strings.HasPrefix(r.Forbids.Text, "not so: ") {
			t.Errorf("%s: %+v", args, r.Forbids)
		}
	}
}
