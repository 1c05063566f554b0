//go:build linux || darwin

package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// The pictures of the README are of the program as it is: each is taken anew off
// a real terminal and must be the one that is kept. COILWALK_RECORD=1 keeps it.
func TestPictures(t *testing.T) {
	for _, p := range []struct {
		name  string
		w, h  int
		args  []string
		first string     // shown before a key is pressed
		keys  [][]string // keys, and what they have to lead to
		light bool
	}{
		{name: "walk", w: 120, h: 36, first: "row  1 of 8",
			keys: [][]string{{right, "row  2 of 8"}, {right, "row  3 of 8"}, {right, "row  4 of 8", "B+ and A− on"}}},
		{name: "swapped", w: 80, h: 24, first: "row  1 of 8", light: true,
			keys: [][]string{{"w", "which two outputs"}, {"2 3" + enter, "WH and GN swapped"}, {right, "row  2 of 8"}, {right, "row  3 of 8"}}},
		{name: "leads", w: 100, h: 30, args: []string{"../../testdata/readings/flap.csv"}, first: "[Leads]"},
		{name: "faults", w: 100, h: 30, first: "row  1 of 8", keys: [][]string{{"F", "[Faults]"}}},
		{name: "recording", w: 120, h: 36, args: []string{"../../testdata/recordings/flap-faults.vcd", "--motor", "vent-flap"}, first: "2 faults in half step",
			keys: [][]string{{"n", "row 2 "}, {"n", "row 121 ", "fast-start"}, {"n", "row 181 ", "full steps out"}}},
		{name: "rates", w: 100, h: 30, first: "row  1 of 8", keys: [][]string{{"R", "[Rates]", "follows 2744"}}},
		{name: "power", w: 100, h: 30, first: "row  1 of 8", keys: [][]string{{"P", "[Power]"}}},
		{name: "take-along", w: 120, h: 36, first: "row  1 of 8", keys: [][]string{{"A", "[Take Along]"}}},
	} {
		t.Run(p.name, func(t *testing.T) {
			t.Parallel()
			args := append([]string{"--no-animation", "--color", "always"}, p.args...)
			theme := "dark"
			if p.light {
				theme = "light"
			}
			x := open(t, reckoner, p.w, p.h, append(args, "--theme", theme)...)
			x.shows(p.first)
			for _, k := range p.keys {
				x.press(k[0])
				x.shows(k[1:]...)
			}
			x.shows("? ") // the foot, drawn last
			x.settles()
			x.isPicture(filepath.Join("..", "..", "testdata", "pictures", p.name+".svg"), p.light)
		})
	}
}

// settles waits until nothing more is reckoned, and what was sent has come.
func (x *terminal) settles() {
	x.t.Helper()
	for last, same := "", 0; same < 20; {
		text := x.text()
		if same++; text != last || strings.Contains(text, "reckoning") {
			last, same = text, 0
		}
		time.Sleep(20 * time.Millisecond)
	}
}

func (x *terminal) isPicture(path string, light bool) {
	x.t.Helper()
	x.mu.Lock()
	got := svg(x.screen, light)
	x.mu.Unlock()
	if os.Getenv("COILWALK_RECORD") != "" {
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			x.t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			x.t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(path)
	if err != nil {
		x.t.Fatal(err)
	}
	if got != string(want) {
		x.t.Errorf("%s is not what the screen shows today; .ci/pictures takes it anew. The screen:\n%s", path, x.text())
	}
}
