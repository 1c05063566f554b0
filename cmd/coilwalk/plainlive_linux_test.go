package main

import (
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
)

// says types a line and waits for what is answered.
func (x *terminal) says(line string, parts ...string) {
	x.t.Helper()
	x.press(line + "\n")
	x.shows(parts...)
}

// waitHand is longer than what counts as quicker than a hand.
const waitHand = 400 * time.Millisecond

// armInWords goes through the question, as a hand does.
func (x *terminal) armInWords() {
	x.t.Helper()
	asked, armed := x.told("To arm, type on"), x.told("Armed, nothing is on yet")
	x.press("arm\n")
	for end := time.Now().Add(patience); x.told("To arm, type on") == asked; time.Sleep(5 * time.Millisecond) {
		if time.Now().After(end) {
			x.t.Fatal("it was never asked for the word")
		}
	}
	time.Sleep(waitHand)
	x.press("on\n")
	for end := time.Now().Add(patience); x.told("Armed, nothing is on yet") == armed; time.Sleep(5 * time.Millisecond) {
		if time.Now().After(end) {
			x.t.Fatalf("it was never armed:\n%s", x.text())
		}
	}
}

// told counts how often something was said.
func (x *terminal) told(words string) int {
	x.mu.Lock()
	defer x.mu.Unlock()
	return strings.Count(x.raw.String(), words)
}

// In words a real motor is armed by a typed word only, stepped row by row, and
// switched off by a word, by an empty line, and by the end of the input.
func TestLiveInWords(t *testing.T) {
	t.Parallel()
	record := filepath.Join(t.TempDir(), "sitting.vcd")
	x := open(t, binary, 80, 60, "live", "--rehearse", "--plain", "--record", record)
	x.shows("Nothing is on.")
	x.says("next", "not armed")
	x.press("arm\non\n")
	x.shows("quicker than a hand types")
	x.says("board", "how its outputs stand: all outputs off")
	x.says("arm", "Support it, and keep fingers", "type on and press enter")
	time.Sleep(waitHand)
	x.says("yes", "is not the word on")
	x.says("board", "REHEARSAL off")
	x.armInWords()
	x.says("next 3", "step 2, row 3 of 8") // the first of them is the row it stood at
	x.says("board", "how its outputs stand: output 2 on")
	x.says("back", "step 1, row 2 of 8")
	x.says("mode micro 8", "pins can not give")
	x.says("rewind", "time can not be undone")
	x.says("nxet", `did you mean "next"`)
	x.says("run 50", "It runs at 50 rows a second")
	time.Sleep(300 * time.Millisecond)
	x.says("stop", "held: ", "intervals")
	x.says("swap 2 3", "say off first")
	x.says("rates", "a real motor is armed. Say off first")
	x.says("", "off and disarmed: the load is free; say arm to arm again")
	x.says("board", "how its outputs stand: all outputs off")
	x.says("swap 2 3", "output 2 GN")
	x.armInWords()
	x.says("next", "step ")
	x.press("\x04") // the end of the input
	if status := x.ends(); status != 0 || x.errs.Len() > 0 {
		t.Errorf("status %d: %s", status, x.errs.String())
	}
	rows := moments(t, record, boardPins, false)
	if len(rows) < 15 || rows[len(rows)-1].any() {
		t.Errorf("the record has %d rows and ends at %s", len(rows), rows[len(rows)-1])
	}
	sayable(t, strings.ReplaceAll(string(x.sent()), "\r", ""), false)
}

// A signal switches off before anything else, and is what it ended by.
func TestASignalSwitchesOffInWords(t *testing.T) {
	t.Parallel()
	for _, s := range []syscall.Signal{syscall.SIGTERM, syscall.SIGINT, syscall.SIGHUP} {
		record := filepath.Join(t.TempDir(), "sitting.vcd")
		x := open(t, binary, 80, 60, "live", "--rehearse", "--plain", "--record", record)
		x.shows("Nothing is on.")
		x.armInWords()
		x.says("next", "step 0, row 1 of 8", "not known")
		if err := x.cmd.Process.Signal(s); err != nil {
			t.Fatal(err)
		}
		if status := x.ends(); status != 128+int(s) {
			t.Errorf("%s: status %d: %s", s, status, x.errs.String())
		}
		if rows := moments(t, record, boardPins, false); len(rows) < 2 || rows[len(rows)-1].any() {
			t.Errorf("%s: the record has %d rows, and ends with coils on", s, len(rows))
		}
	}
}

// The guided tests are done in words too: the record has the rows and the answer.
func TestLiveAsksTheShaftInWords(t *testing.T) {
	t.Parallel()
	record := filepath.Join(t.TempDir(), "sitting.vcd")
	x := open(t, binary, 80, 60, "live", "--rehearse", "--plain", "--record", record)
	x.shows("Nothing is on.")
	x.says("ask", "Next: run BN")
	x.says("perform", "arm first, then perform")
	x.armInWords()
	x.says("perform", "20 rows in this order")
	time.Sleep(1200 * time.Millisecond)
	x.says("where", "A test of the shaft holds output")
	x.says("perform", "20 rows the other way")
	time.Sleep(1200 * time.Millisecond)
	x.says("answer cw", "noted: run BN WH GN GY cw; perform does the next test")
	x.says("quit")
	if status := x.ends(); status != 0 {
		t.Errorf("status %d: %s", status, x.errs.String())
	}
	text, err := os.ReadFile(record)
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"run BN WH GN GY: part 2 of 2", "answer: run BN WH GN GY cw"} {
		if !strings.Contains(string(text), want) {
			t.Errorf("the record does not hold %q", want)
		}
	}
}
