package report

import (
	"encoding/json"
	"fmt"
	"os"
	"strings"
	"testing"

	"coilwalk/model/driver"
	"coilwalk/model/motor"
	"coilwalk/model/power"
)

// Every built-in motor on every stage and kind of supply is answered in words and
// in JSON that hold: no figure that is none, no hole in a sentence, all objects or
// none. A person's question never ends in a word of ours for what is missing.
func TestPowerOfEverything(t *testing.T) {
	for _, name := range motor.Names() {
		m, _ := motor.BuiltIn(name)
		for i, stage := range driver.Stages {
			for k, supply := range driver.Supplies {
				if os.Getenv("COILWALK_RACE") != "" && i%3 != k%3 {
					continue // ten times as slow, and nothing is done at once
				}
				q, err := power.Ask(m, stage, supply)
				if err != nil {
					t.Fatal(err)
				}
				a, err := power.Sketch(q)
				if err != nil {
					t.Errorf("%s on %s, %s: %v", name, stage.Name, supply.Name, err)
					continue
				}
				p := NewPower(a)
				text := p.Text()
				for _, wrong := range []string{"NaN", "Inf", "%!", "<nil>", "  ;", "; .", ", ,", "-0 "} {
					if strings.Contains(text, wrong) {
						t.Errorf("%s on %s, %s: %q in\n%s", name, stage.Name, supply.Name, wrong, text)
					}
				}
				for _, c := range a.Checks {
					if CheckText(a, c) == "" {
						t.Errorf("%s has no words", c.Kind)
					}
				}
				raw, err := json.Marshal(p)
				if err != nil {
					t.Fatal(err)
				}
				var object map[string]any
				if err := json.Unmarshal(raw, &object); err != nil {
					t.Fatal(err)
				}
				if misfit := object["coil"] == nil; misfit != (object["balance"] == nil) || misfit != (object["winding"] == nil) || object["verdict"] == "" || misfit && object["verdict"] != "not" {
					t.Errorf("%s on %s: coil %v, balance %v, verdict %v", name, stage.Name, object["coil"], object["balance"], object["verdict"])
				}
				if fmt.Sprint(object["verdict"]) != a.Verdict.String() || p.Will() != (a.Verdict != power.Not) {
					t.Errorf("%s on %s: verdict %v of %s", name, stage.Name, object["verdict"], a.Verdict)
				}
			}
		}
	}
}
