//go:build linux || darwin

package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

func TestWalkForwardAndBack(t *testing.T) {
	t.Parallel()
	x := open(t, binary, 80, 24)
	x.shows("vent flap", "half step", "row  1 of 8", "rotor  0.000°", "→ for the next row")
	x.press(right)
	x.shows("row  2 of 8", "step  +1", "field  45° ×1.41", "rotor  5.238°", "A+ and B+ on: the rotor turned 5.238° clockwise")
	x.press(right)
	x.shows("row  3 of 8", "field  90°", "B+ on")
	x.press(left)
	x.shows("row  2 of 8", "counter-clockwise")
	x.press(backspace) // undoes the step back: the rotor is where it was on row 3
	x.shows("row  3 of 8", "rotor  10.890°")
	x.press(backspace + backspace)
	x.shows("row  1 of 8", "step  0", "rotor  0.000°")
	x.press(backspace)
	x.shows("there is nothing left to rewind")
	x.press("q")
	if status := x.ends(); status != 0 {
		t.Errorf("status %d", status)
	}
	x.isRestored()
}

func TestSwappedLeadsShake(t *testing.T) {
	t.Parallel()
	x := open(t, binary, 120, 36)
	x.shows("row  1 of 8")
	x.press("w")
	x.shows("swap the leads on which two outputs?")
	x.press("2 3" + enter)
	x.shows("WH and GN swapped")
	x.press(right)
	x.shows("row  2 of 8", "both ends of a phase cancel", "field  none")
	x.press(right)
	x.shows("row  3 of 8", "opposite the rotor")
	// One whole cycle further the rotor is where it was: it shakes, and goes
	// nowhere.
	x.press("g" + "-9" + enter)
	x.shows("step  -9")
	x.press("g" + "8" + enter)
	first := reading(x.shows("step  +8"), "rotor")
	x.press("g" + "800" + enter)
	if again := reading(x.shows("step  +800"), "rotor"); again != first {
		t.Errorf("after 100 cycles the rotor is at %q, after one at %q", again, first)
	}
	x.press("x")
	x.press("g" + "1600" + enter)
	x.shows("step  +1 600", "+12 turns")
	x.press("q")
	x.ends()
}

// reading gives the words beside a name in the list of readings.
func reading(screen, name string) string {
	for _, line := range strings.Split(screen, "\n") {
		if _, after, ok := strings.Cut(line, " "+name+"  "); ok {
			return strings.TrimSpace(after)
		}
	}
	return ""
}

func TestSpaceStopsAndOnlyStops(t *testing.T) {
	t.Parallel()
	x := open(t, binary, 80, 24)
	x.shows("■ stopped")
	x.press(" ")
	x.press("+" + enter)
	x.shows("▶ running", "20 rows/s")
	for end := time.Now().Add(patience); strings.Contains(x.text(), "row  1 of 8"); time.Sleep(5 * time.Millisecond) {
		if time.Now().After(end) {
			t.Fatal("it does not run")
		}
	}
	x.press("  ")
	x.shows("■ stopped")
	time.Sleep(100 * time.Millisecond)
	at := reading(x.text(), "row")
	x.press("   ")
	time.Sleep(300 * time.Millisecond)
	if now := reading(x.text(), "row"); at == "" || now != at || !strings.Contains(x.text(), "■ stopped") {
		t.Errorf("after more spaces it went from row %s to %s", at, now)
	}
	x.press("?")
	x.shows("keys of walk", "swap the leads on two outputs", "Motor supply off before you touch a lead")
	x.press("?")
	x.shows("Forward: clockwise", "Motor supply off before you touch a lead") // there is a page more
	x.press("?")
	x.shows("■ stopped")
	x.press("\x03")
	if status := x.ends(); status != 0 {
		t.Errorf("ctrl+c: status %d", status)
	}
	x.isRestored()
}

// A table with two columns exchanged, opened with the motor it is for: the
// explorer names both swaps that cure it and the direction each gives.
func TestTableOfOnesOwn(t *testing.T) {
	t.Parallel()
	folder := t.TempDir()
	source := filepath.Join(folder, "flap.c")
	write(t, source, `/* invented: the vent flap's firmware, columns 2 and 3 exchanged by mistake */
static const unsigned char flap_rows[8][4] = {
	{1,0,0,0}, {1,0,1,0}, {0,0,1,0}, {0,1,1,0},
	{0,1,0,0}, {0,1,0,1}, {0,0,0,1}, {1,0,0,1},
};
`)
	motorFile := filepath.Join(folder, "flap.toml")
	write(t, motorFile, call(t, "", "motors", "show", "vent-flap", "--toml").out)
	x := open(t, binary, 120, 36, source, "--motor", motorFile)
	x.shows("T tells more: flap_rows: not sound: the columns stand in another order")
	x.press("T")
	text := x.shows("exchange columns 2 and 3", "exchange columns 1 and 4")
	for _, cure := range []string{
		"outputs 2 and 3 (WH and GN); it then turns forward, clockwise",
		"outputs 1 and 4 (BN and GY); it then turns in reverse, counter-clockwise"} {
		if !strings.Contains(strings.Join(strings.Fields(text), " "), cure) {
			t.Errorf("the screen does not name the cure %q:\n%s", cure, text)
		}
	}
	for cure, way := range map[string]string{"1": " clockwise", "2": " counter-clockwise"} {
		x.press(cure)
		x.shows("it should now turn" + way)
		for range 3 {
			x.press(right)
			x.shows("the rotor turned", way+", the shaft")
		}
		x.press("T")
		x.shows("[Table]", "sound: half step, ")
		x.press("\t") // from the last screen to the first
		x.shows("[Walk]")
		x.press("m" + "m" + "m" + "m" + "m") // through the step modes, and back to the table
		x.shows("table   forward")
		x.press("xT")
		x.shows("not sound")
	}
	x.press("q")
	x.ends()
	x.isRestored()
}

func write(t *testing.T, name, text string) {
	t.Helper()
	if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

func TestScreensWithoutColourAndInASCII(t *testing.T) {
	t.Setenv("NO_COLOR", "1")
	x := open(t, binary, 80, 24, "--ascii")
	x.shows("row  1 of 8", "right next")
	x.press(right)
	x.shows("row  2 of 8", "field  45 deg x1.41", "A+ S", "SS")
	for _, b := range x.sent() {
		if b >= 0x80 {
			t.Fatalf("a byte %#x was sent with --ascii", b)
		}
	}
	if text := string(x.sent()); strings.Contains(text, "[38;") || strings.Contains(text, "[48;") || strings.Contains(text, ";31m") {
		t.Error("a colour was sent with NO_COLOR")
	}
	x.press("q")
	x.ends()
}

func TestNoMovementWithoutAnimation(t *testing.T) {
	x := open(t, binary, 80, 24, "--no-animation")
	x.shows("row  1 of 8")
	time.Sleep(200 * time.Millisecond)
	before := len(x.sent())
	x.press(right)
	x.shows("row  2 of 8")
	time.Sleep(200 * time.Millisecond)
	frames := strings.Count(string(x.sent()[before:]), "row")
	if frames > 1 {
		t.Errorf("one step sent %d pictures", frames)
	}
	x.press("q")
	x.ends()
}

// Nothing is sent while nothing moves.
func TestIdleIsSilent(t *testing.T) {
	x := open(t, binary, 120, 36)
	x.shows("row  1 of 8")
	time.Sleep(300 * time.Millisecond)
	before := len(x.sent())
	time.Sleep(500 * time.Millisecond)
	if after := len(x.sent()); after != before {
		t.Errorf("%d bytes were sent while nothing moved", after-before)
	}
	x.press("q")
	x.ends()
}

func TestSizes(t *testing.T) {
	t.Parallel()
	for _, size := range [][2]int{{80, 24}, {100, 30}, {120, 36}, {200, 60}, {250, 80}} {
		t.Run(fmt.Sprint(size[0], "x", size[1]), func(t *testing.T) {
			x := open(t, binary, size[0], size[1], "--motor", "hybrid-8")
			text := x.shows("row  1 of 8", "q quit", "stator", "rotor", "B−")
			if strings.Contains(text, "…") && size[0] >= 120 {
				t.Errorf("words are cut:\n%s", text)
			}
			x.press("q")
			x.ends()
		})
	}
}

// The vent flap's exact steps to a turn and its drift, on the screen.
func TestShaftOnTheScreen(t *testing.T) {
	t.Parallel()
	x := open(t, binary, 80, 24, "--mode", "full")
	x.shows("row  1 of 4")
	x.press("S")
	x.shows("[Shaft]", "74704/55 rows to a turn", "= 1358.2545", "4669/110")
	x.press("jjj" + enter + "42:1" + enter)
	x.shows("-3.778° a turn", "firmware, 42:1")
	x.press("j" + enter + "45 stops" + enter)
	x.shows("30 rows, one more in 454 of")
	x.press("q")
	x.ends()
	x.isRestored()
}

// The fault bench: put one in, look at it shake on Walk, take it for what the own
// motor does, and read what explains it.
func TestFaultBench(t *testing.T) {
	t.Parallel()
	x := open(t, binary, 120, 36, "--motor", "hybrid-4")
	x.shows("row  1 of 8")
	x.press("F")
	x.shows("[Faults]", "put in a fault", "the model does", "turns clockwise")
	x.press(enter)
	x.shows("● BK and RD swapped", "buzzes, 4 places")
	x.press("W" + right + right)
	x.shows("BK and RD swapped", "row  3 of 8")
	x.press("Fm")
	x.shows("what explains it", "two leads swapped", "BK with RD")
	x.press("q")
	x.ends()
	x.isRestored()
}

// The rates of the motor, on the screen: the response at once, the rest when it
// was run, and a verdict on a rate of one's own.
func TestRatesOnTheScreen(t *testing.T) {
	x := open(t, reckoner, 120, 36)
	x.shows("row  1 of 8")
	x.press("R")
	x.shows("[Rates]", "low-side Darlington array, 12 V", "overshoots")
	x.shows("starts", "follows", "rpm at the shaft", "━follows")
	x.press("jjjjjj" + enter + "1500" + enter)
	x.shows("verdict", "buzzes; ramp from")
	x.press("q")
	if status := x.ends(); status != 0 {
		t.Errorf("status %d", status)
	}
	x.isRestored()
}

// A run at a rate that the motor follows, then one that it does not, with the real
// binary; stopped, the rotor is at rest, and a rewind takes the last row back.
func TestARunFollowsOrBuzzes(t *testing.T) {
	t.Parallel()
	x := open(t, binary, 80, 24)
	x.shows("row  1 of 8")
	x.press("p")
	x.shows("run at how many rows a second?")
	x.press("600" + enter + enter)
	x.shows("▶ running", "600 rows/s asked: in step, ", "26° electrical behind the field, no row lost")
	x.press(" ")
	x.shows("■ stopped", "clockwise")
	row := reading(x.text(), "row")
	x.press(backspace)
	for end := time.Now().Add(patience); reading(x.text(), "row") == row; time.Sleep(5 * time.Millisecond) {
		if time.Now().After(end) {
			t.Fatalf("the rewind left it at row %s", row)
		}
	}
	x.press("p" + "3000" + enter + enter)
	x.shows("3000 rows/s asked: it buzzes; ", "rows lost so far", "R tells rates")
	x.press(" ")
	x.shows("■ stopped")
	x.press("q")
	x.ends()
}
