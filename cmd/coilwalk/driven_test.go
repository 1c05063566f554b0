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
