package handoff

import (
	"fmt"
	"strings"
	"testing"

	"coilwalk/sequence"
)

// The class for MicroPython run by MicroPython itself, on a stand-in for the pins
// of a board and a clock that each run sees alike: which pins change, in which
// order, and when, across the wrap of the clock. A look at that clock takes a
// microsecond, so a row comes up to a few too late.
func TestReferenceMicroPython(t *testing.T) {
	for _, mode := range sequence.WholeModes() {
		t.Run(mode.Name, func(t *testing.T) {
			w := ramped(t, mode)
			w.Board.Numbered, w.Board.Pins = true, [4]int{8, 6, 7, 2}
			w.Board.ActiveLow, w.IdleOff = mode.Name == sequence.Wave.Name, mode.Name == sequence.Full.Name
			run := outside{name: "source/micropython-" + mode.Name, given: map[string][]byte{"coil.py": made(t, "micropython", w)}, sources: []string{"source/pins.py", "source/pins.mjs"},
				npm: []string{"@micropython/micropython-webassembly-pyscript"}, command: "node pins.mjs", version: "node --version"}
			w.samePins(t, string(run.said(t)))
		})
	}
}

// samePins holds what was printed against the rows of the moves.
func (w *Walk) samePins(t *testing.T, said string) {
	t.Helper()
	lines := strings.Split(strings.TrimSpace(said), "\n")
	if lines[0] != "micropython (1, 28, 0)" {
		t.Fatalf("run by %q", lines[0])
	}
	lines = lines[1:]
	levels := w.Board.Levels(off)
	for k, number := range w.Board.Pins { // made outputs with nothing on
		if want := fmt.Sprintf("0 pin %d %d", number, levels[k]); lines[k] != want {
			t.Fatalf("line %q, want %q", lines[k], want)
		}
	}
	lines = lines[4:]
	var begun int
	put := func(row sequence.Row, due int) {
		t.Helper()
		next := w.Board.Levels(row)
		for _, on := range []bool{false, true} { // those that go off first
			for k := range next {
				if next[k] == levels[k] || (row[k] > 0) != on {
					continue
				}
				var at, number, level int
				if len(lines) == 0 {
					t.Fatal("the pins stop too soon")
				}
				if _, err := fmt.Sscan(lines[0], &at, &number, &level); err != nil || number != w.Board.Pins[k] || level != next[k] {
					t.Fatalf("%q, want pin %d at %d", lines[0], w.Board.Pins[k], next[k])
				}
				if due == 0 {
					begun = at
				} else if due > 0 && (at-begun < due-3 || at-begun > due+3) {
					t.Errorf("%q: %d us from the start, want %d", lines[0], at-begun, due)
				}
				lines = lines[1:]
			}
		}
		levels = next
	}
	position := int64(0)
	for n, rows := range []int64{9, -7, 0} {
		if n == 0 || w.IdleOff {
			put(w.Row(position), 0)
		} else { // the row is on already, so nothing shows when the move begins
			begun = -1
		}
		ticks := w.Pace.Intervals[0]
		for _, wait := range w.waits(leg{rows: rows}) {
			position += sign(rows)
			due := int(ticks * 1_000_000 * w.Pace.Prescale / w.Pace.ClockHz)
			if begun < 0 {
				due = -1
			}
			put(w.Row(position), due)
			ticks += wait
		}
		if w.IdleOff {
			put(off, -1)
		}
		if want := fmt.Sprintf("at %d", position); lines[0] != want {
			t.Fatalf("%q, want %q", lines[0], want)
		}
		lines = lines[1:]
	}
	put(off, -1)
	if len(lines) > 0 {
		t.Errorf("%d lines more than were meant, the first %q", len(lines), lines[0])
	}
}

func sign(n int64) int64 {
	if n < 0 {
		return -1
	}
	return 1
}
