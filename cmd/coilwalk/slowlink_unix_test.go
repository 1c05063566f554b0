//go:build linux || darwin

package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
)

// slowLine is what a serial console at 9600 baud takes, about.
const slowLine = 1000 // bytes a second

// held is a rehearsal that is armed and runs, its record beside it.
func held(t *testing.T) (x *terminal, sitting string) {
	t.Helper()
	sitting = filepath.Join(t.TempDir(), "sitting.vcd")
	x = open(t, binary, 120, 36, "live", "--rehearse", "--record", sitting)
	x.shows("REHEARSAL off")
	x.press("a")
	x.shows("type on and press enter")
	time.Sleep(400 * time.Millisecond) // no hand is quicker
	x.press("on" + enter)
	x.shows("REHEARSAL armed")
	x.press("p60" + enter + enter)
	x.shows("REHEARSAL runs")
	return x, sitting
}

// times counts the moments in a record.
func times(t *testing.T, sitting string) int {
	t.Helper()
	text, err := os.ReadFile(sitting)
	if err != nil {
		t.Fatal(err)
	}
	return bytes.Count(text, []byte("\n#"))
}

// A terminal that takes 1 kB a second while pictures of 3 kB come thirty times as
// fast: the space bar switches the motor off within a second, and pictures are left out
// instead of piling up.
func TestSlowLink(t *testing.T) {
	t.Parallel()
	x, sitting := held(t)
	x.pace.Store(slowLine)
	time.Sleep(3 * time.Second)
	if before := times(t, sitting); before < 60 {
		t.Fatalf("only %d rows: it does not run", before)
	}
	x.press(" ")
	time.Sleep(time.Second)
	stopped := times(t, sitting)
	time.Sleep(time.Second)
	if later := times(t, sitting); later != stopped {
		t.Errorf("a second after the space bar %d rows still came in the next", later-stopped)
	}
	before := len(x.sent())
	x.pace.Store(0)
	x.shows("REHEARSAL off", "the load is free")
	x.settles()
	if piled := len(x.sent()) - before; piled > 40_000 { // the system's own buffers, and two pictures
		t.Errorf("%d bytes had piled up", piled)
	}
	x.press("q")
	if status := x.ends(); status != 0 {
		t.Errorf("status %d: %s", status, x.errs.String())
	}
	x.isRestored()
}

// Left while the line is full of pictures: the rest of them is given up, and what
// puts the terminal back arrives.
func TestLeavingOnASlowLink(t *testing.T) {
	t.Parallel()
	x := open(t, binary, 120, 36)
	x.shows("row  1 of 8")
	x.pace.Store(slowLine)
	x.press("z" + enter)
	time.Sleep(3 * time.Second)
	start := time.Now()
	x.press("q")
	if status := x.ends(); status != 0 {
		t.Errorf("status %d: %s", status, x.errs.String())
	}
	if took := time.Since(start); took > settleTime+slow(time.Second) {
		t.Errorf("it took %v to leave", took)
	}
	x.pace.Store(0)
	x.isRestored()
}

// A terminal that takes nothing any more: a key is a key, and a signal ends it.
func TestTerminalThatTakesNothing(t *testing.T) {
	t.Parallel()
	for _, end := range []struct {
		name   string
		how    func(*terminal)
		status int
	}{
		{"q", func(x *terminal) { x.press("q") }, 0},
		{"SIGTERM", func(x *terminal) { _ = x.cmd.Process.Signal(syscall.SIGTERM) }, 128 + 15},
		{"SIGHUP", func(x *terminal) { _ = x.cmd.Process.Signal(syscall.SIGHUP) }, 128 + 1},
	} {
		t.Run(end.name, func(t *testing.T) {
			t.Parallel()
			x, sitting := held(t)
			x.pace.Store(-1)
			time.Sleep(3 * time.Second) // all buffers are full
			end.how(x)
			start := time.Now()
			if status := x.ends(); status != end.status {
				t.Errorf("status %d, want %d", status, end.status)
			}
			if took := time.Since(start); took > settleTime+slow(2*time.Second) {
				t.Errorf("it took %v to end", took)
			}
			if x.modes() != x.before {
				t.Error("the terminal's settings were not put back")
			}
			text, err := os.ReadFile(sitting)
			if err != nil || !endsOff(string(text)) {
				t.Errorf("%v: the record does not end switched off", err)
			}
			x.pace.Store(0) // what was still on its way comes now
		})
	}
}

// endsOff says whether all four outputs stand at 0 at the end of a record.
func endsOff(text string) bool {
	levels := map[byte]byte{}
	for _, line := range strings.Split(text, "\n") {
		if len(line) == 2 && (line[0] == '0' || line[0] == '1') {
			levels[line[1]] = line[0]
		}
	}
	for k := byte('!'); k < '!'+4; k++ {
		if levels[k] != '0' {
			return false
		}
	}
	return true
}

// A terminal that is slow and is resized all the while: the picture at the end is
// of its size at the end, also where that is the one of before.
func TestResizesOnASlowLink(t *testing.T) {
	t.Parallel()
	x := open(t, binary, 100, 30)
	x.shows("row  1 of 8")
	x.press(enter)
	x.pace.Store(20 * slowLine)
	for i := range 300 {
		x.resize(80+(i*37)%120, 24+(i*13)%40)
		time.Sleep(2 * time.Millisecond)
	}
	x.resize(60, 30)
	x.resize(100, 30)
	before := len(x.sent())
	x.pace.Store(0)
	x.press(" ")
	x.shows("■ stopped", "q quit", "air gap")
	x.settles()
	if piled := len(x.sent()) - before; piled > 80_000 {
		t.Errorf("%d bytes had piled up", piled)
	}
	fits(t, x.text(), 100, 30)
	x.press("q")
	if status := x.ends(); status != 0 {
		t.Errorf("status %d", status)
	}
	x.isRestored()
}

// fits wants every line of the screen to be within it, and the last one to be used.
func fits(t *testing.T, text string, w, h int) {
	t.Helper()
	lines := strings.Split(strings.TrimRight(text, "\n"), "\n")
	for y, line := range lines {
		if y >= h || len([]rune(line)) > w {
			t.Errorf("line %d is out of the screen: %q", y, line)
		}
	}
	if len(lines) != h || !strings.Contains(lines[h-1], "q quit") {
		t.Errorf("the foot is not on the last of %d lines:\n%s", h, text)
	}
}
