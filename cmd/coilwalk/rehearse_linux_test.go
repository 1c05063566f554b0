package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// Nothing is energised by opening, by a stray key, by a paste, or by what comes
// quicker than a hand types.
func TestLiveIsArmedByHandOnly(t *testing.T) {
	t.Parallel()
	x := open(t, binary, 80, 24, "live", "--rehearse")
	x.shows("REHEARSAL off", "board  0000")
	for _, key := range []string{"m", "r", enter, left, right} {
		x.press(key)
	}
	x.shows("REHEARSAL off", "board  0000", "not armed")
	x.press("aon" + enter)
	x.shows("quicker than a hand types", "REHEARSAL off")
	x.press(escape)
	time.Sleep(100 * time.Millisecond)
	x.press("a")
	x.shows("type on and press enter")
	time.Sleep(400 * time.Millisecond)
	x.press("\x1b[200~on\x1b[201~")
	x.shows("a paste does not count")
	x.press("yes" + enter)
	x.shows("is not the word on", "REHEARSAL off")
	x.press(strings.Repeat(backspace, 3) + "on" + enter)
	x.shows("REHEARSAL armed", "board  0000")
	x.press(right)
	x.shows("REHEARSAL on", "board  1000", "moved  not known") // the row it stood at
	x.press(right)
	x.shows("REHEARSAL on", "board  0001", "ccw") // wave drive, turned round
	x.press("  ")
	x.shows("REHEARSAL off", "board  0000", "the load is free")
	x.press(right)
	x.shows("not armed", "board  0000")
	x.press("q")
	if status := x.ends(); status != 0 {
		t.Errorf("status %d: %s", status, x.errs.String())
	}
	x.isRestored()
}

// A test of the shaft is done by the program; the record has its rows and the
// answer, and the reader of recordings opens it.
func TestLiveAsksTheShaft(t *testing.T) {
	t.Parallel()
	sitting := filepath.Join(t.TempDir(), "sitting.vcd")
	x := open(t, binary, 80, 24, "live", "--rehearse", "--record", sitting)
	x.shows("REHEARSAL off")
	x.press("La")
	x.shows("? run BN", "p perform")
	x.press("p")
	x.shows("type on and press enter")
	time.Sleep(400 * time.Millisecond)
	x.press("on" + enter)
	x.shows("armed, nothing is on yet: p does the test", "REHEARSAL armed")
	x.press("p") // arming alone moves nothing
	x.shows("20 rows in this order")
	time.Sleep(1200 * time.Millisecond)
	x.press("p")
	x.shows("20 rows the other way")
	time.Sleep(1200 * time.Millisecond)
	x.shows("REHEARSAL on") // its last row is held
	x.press("W")            // where the bench's order is shown, which that row is none of: off with it
	x.shows("All off", "REHEARSAL armed", "board  0000")
	x.press("L1")
	x.shows("noted: run BN WH GN GY cw", "REHEARSAL armed")
	x.press("q")
	if status := x.ends(); status != 0 {
		t.Errorf("status %d: %s", status, x.errs.String())
	}
	text, err := os.ReadFile(sitting)
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"run BN WH GN GY: part 2 of 2", "answer: run BN WH GN GY cw", "Output 1: pin 8, coil end A+, lead BN"} {
		if !strings.Contains(string(text), want) {
			t.Errorf("the record does not hold %q", want)
		}
	}
	rows := moments(t, sitting, boardPins, false)
	if len(rows) < 40 || rows[len(rows)-1].any() {
		t.Errorf("the record has %d rows and ends at %s", len(rows), rows[len(rows)-1])
	}
	read := call(t, "", "read", sitting, "--wiring", "A+,B+,A-,B-")
	ways := func(forward, reverse int) bool {
		return strings.Contains(read.out, fmt.Sprintf("wave  forward          %d", forward)) && strings.Contains(read.out, fmt.Sprintf("wave  reverse          %d", reverse))
	}
	// The wait for the person's second key is a gap, its one finding, or a pause
	// where the machine was busy and rows came unevenly; the row at which it turns
	// round goes with either way.
	if read.status > 1 || !ways(21, 19) && !ways(20, 20) {
		t.Errorf("status %d; the reader says\n%s%s", read.status, read.out, read.errs)
	}
	again := call(t, "", "live", "--rehearse", "--record", sitting)
	again.complains(t, "terminal")
}

// A port that is none ends with 4 and one clear line.
func TestLiveWithoutABoard(t *testing.T) {
	t.Parallel()
	for port, says := range map[string]string{"/dev/no-such-port": "no such port", "/dev/null": "no serial port"} {
		x := open(t, binary, 80, 24, "live", port)
		if status := x.ends(); status != 4 || !strings.Contains(x.errs.String(), says) || strings.Contains(x.errs.String(), "goroutine") {
			t.Errorf("%s: status %d, %q", port, status, x.errs.String())
		}
	}
}
