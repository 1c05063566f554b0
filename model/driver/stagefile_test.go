package driver

import (
	"errors"
	"strings"
	"testing"

	"coilwalk/model/files"
	"coilwalk/sequence"
	"coilwalk/testdata/bounds"
)

const array = `name = "array-8"
title = "array on my board"
source = "its data sheet, table 4"
kind = "sink"

[drop]
at = ["100 mA", "350 mA"]
typical = ["0.9 V", "1.4 V"]
most = ["1.1 V", "1.7 V"]
diode = "1.2 V"

[limits]
output = "500 mA"
most_supply = "50 V"
per_package = 4
thermal_resistance = "70 K/W"

[input]
current = "1.35 mA"
logic = "2.4 V"
`

func TestStageFile(t *testing.T) {
	s, err := ParseStage("a.toml", []byte(array))
	if err != nil {
		t.Fatal(err)
	}
	if s.Name != "array-8" || s.Allows(sequence.Unipolar) != nil || s.Allows(sequence.Bipolar) == nil || s.Limits.Output != 0.5 || s.Limits.Thermal != 70 ||
		s.Limits.Keep != 125 || s.Limits.Hottest != 150 || !near(s.Around(0.1, 25).Switch.At(0.1), 0.9, 1e-12) || !near(s.Worst(0.35, 25), 1.7, 1e-12) || s.Input.Works(2.3, 1) {
		t.Errorf("%+v", s)
	}
	if i := s.Steady(sequence.Row{1, 0, 0, 0}, sequence.Unipolar, 1, 5.9, 50, 25)[0]; !near(i, 0.1, 1e-3) {
		t.Errorf("5.9 V and 50 ohm: %g A", i)
	}
	bridge := "name = 'b'\nsource = 'measured'\nkind = 'chopper'\n[drop]\nresistance = '0.8 ohm'\n[chopper]\nsense = '0.15 ohm'\ngain = 5\n"
	if s, err = ParseStage("b.toml", []byte(bridge)); err != nil || !s.Regulates() || !near(s.Reference.Volts(1), 0.75, 1e-12) || s.Switch != (Drop{Ohms: 0.8}) {
		t.Errorf("%v, %+v", err, s)
	}
}

// What is wrong in a stage file is told with its place and what would be right.
func TestBadStageFile(t *testing.T) {
	for _, c := range []struct{ from, to, want string }{
		{`kind = "sink"`, `kind = "sonk"`, `a.toml:4:1: there is no kind "sonk"; sink, bridge or chopper is wanted`},
		{`kind = "sink"`, "", `a.toml: there is no kind ""; sink`},
		{`kind = "sink"`, "kind = \"sink\"\ndecay = \"fast\"", `a.toml:5:1: only a bridge has a decay`},
		{`kind = "sink"`, "kind = \"sink\"\nswitch = \"valve\"", `a.toml:5:1: there is no switch "valve"`},
		{`source = "its data sheet, table 4"`, "", "it is not said where the figures come from"},
		{`name = "array-8"`, `name = "array 8"`, "a.toml:1:1: the stage has no usable name"},
		{`"0.9 V", "1.4 V"`, `"0.9 V"`, "a.toml:8:1: 1 drops for 2 currents"},
		{`"0.9 V", "1.4 V"`, `"0.9 V", "0.8 V"`, "a.toml:8:1: a drop falls"},
		{`"100 mA", "350 mA"`, `"350 mA", "100 mA"`, "a.toml:7:1: the currents of the drops do not rise"},
		{`diode = "1.2 V"`, "diode = \"1.2 V\"\nresistance = \"1 ohm\"", "a.toml:11:1: the drop is given twice"},
		{`diode = "1.2 V"`, `diode = "1.2 A"`, "a.toml:10:9:"},
		{`output = "500 mA"`, `output = "0 A"`, "a.toml:13:1: output must be above zero"},
		{`output = "500 mA"`, `outptu = "500 mA"`, `a.toml:13:1: there is no field "limits.outptu"; did you mean "output"?`},
		{`per_package = 4`, `per_package = 3`, "a.toml:15:1: 3 outputs can not share"},
		{`per_package = 4`, `least_supply = "60V"`, "a.toml:14:1: the highest supply is below the lowest"},
		{`logic = "2.4 V"`, "[chopper]\ngain = 8", "a.toml:20:2: only a chopper has a current to set"},
		{`at = ["100 mA", "350 mA"]`, `at = "100 mA"`, "a.toml:7:6:"},
	} {
		text := strings.Replace(array, c.from, c.to, 1)
		_, err := ParseStage("a.toml", []byte(text))
		var complaint *files.Complaint
		if !errors.As(err, &complaint) || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s for %s: %v, want %q", c.to, c.from, err, c.want)
		}
	}
	if _, err := Open("darlinton", nil); err == nil || !strings.Contains(err.Error(), "did you mean darlington?") {
		t.Errorf("a word like a stage's: %v", err)
	}
	if _, err := Open("./none.toml", nil); err == nil || strings.Contains(err.Error(), "driver stage") {
		t.Errorf("no such file: %v", err)
	}
}

// FuzzStages gives any text to the reader: a stage comes out that can be driven,
// or a complaint on one line.
func FuzzStages(f *testing.F) {
	f.Add(array)
	f.Add("name = 'b'\nsource = 'x'\nkind = 'bridge'\ndecay = 'fast'\n[drop]\nat = ['1 A']\ntypical = ['2 V']\n")
	f.Add("name = 'b'\nsource = 'x'\nkind = 'chopper'\nswitch = 'mosfet'\n[drop]\nresistance = '0 ohm'\n")
	f.Fuzz(func(t *testing.T, text string) {
		if len(text) > longestFile {
			return // Open refuses it
		}
		var s Stage
		var err error
		bounds.Hold(t, len(text), 4<<20, 20_000, func() { s, err = ParseStage("f.toml", []byte(text)) })
		var c *files.Complaint
		if err != nil {
			if !errors.As(err, &c) || strings.ContainsAny(err.Error(), "\n\x1b") {
				t.Fatalf("%q: %q", text, err)
			}
			return
		}
		for _, d := range sequence.Drives {
			if s.Allows(d) == nil {
				i := s.Steady(sequence.Row{1, 0, 0, 0}, d, 1, 12, 10, 25)[0]
				if !(i >= 0 && i <= 1.2+1e-9) {
					t.Fatalf("%q: %g A through 10 ohm at 12 V", text, i)
				}
			}
		}
	})
}
