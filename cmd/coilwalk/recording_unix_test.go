//go:build linux || darwin

package main

import "testing"

// The real binary on a real terminal: opened with its motor, each fault is gone
// to and walked over, back and forth.
func TestWalkThroughARecording(t *testing.T) {
	t.Parallel()
	x := open(t, reckoner, 120, 36, "../../testdata/recordings/flap-faults.vcd", "--motor", "vent-flap")
	x.shows("[ReCording]", "2 faults in half step", "row 1 ")
	x.press("n")
	x.shows("▶ outputs-permuted", "row 2 ", "Exchange IN2 and IN3")
	x.press("n")
	x.shows("▶ skipped-row", "row 121 ", "0.319840 s", "A row is missing before row 121")
	x.press(left)
	x.shows("row 120 ")
	x.press(right + right)
	x.shows("row 122 ")
	x.press("n")
	x.shows("▶ fast-start", "row 181 ", "3319 rows a second", "full steps out")
	x.press("p")
	x.shows("▶ skipped-row")
	x.press("W")
	x.shows("[Walk]")
	x.press("C")
	x.shows("[ReCording]", "▶ skipped-row")
	x.press("q")
	if status := x.ends(); status != 0 {
		t.Errorf("status %d", status)
	}
	x.isRestored()
}
