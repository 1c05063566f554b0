//go:build linux || darwin

package main

import (
	"bytes"
	"io"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"
)

func TestSignalsRestoreTheTerminal(t *testing.T) {
	t.Parallel()
	for _, s := range []syscall.Signal{syscall.SIGTERM, syscall.SIGHUP, syscall.SIGINT, syscall.SIGQUIT} {
		t.Run(s.String(), func(t *testing.T) {
			x := open(t, binary, 80, 24)
			x.shows("row  1 of 8")
			x.press(enter) // it is running when the signal comes
			x.shows("▶ running")
			if err := x.cmd.Process.Signal(s); err != nil {
				t.Fatal(err)
			}
			if status := x.ends(); status != 128+int(s) {
				t.Errorf("status %d, want %d", status, 128+int(s))
			}
			x.isRestored()
		})
	}
}

// A command that is asked to quit ends with the status of that, and without a trace.
func TestCommandsQuitQuietly(t *testing.T) {
	t.Parallel()
	for _, args := range [][]string{{"motors", "new", filepath.Join(t.TempDir(), "mine.toml")}, {"--plain"}} {
		c := exec.Command(reckoner, args...)
		in, err := c.StdinPipe() // held open: both wait for words
		if err != nil {
			t.Fatal(err)
		}
		defer in.Close()
		out, err := c.StdoutPipe()
		if err != nil {
			t.Fatal(err)
		}
		var said bytes.Buffer
		c.Stderr = &said
		if err := c.Start(); err != nil {
			t.Fatal(err)
		}
		if _, err := out.Read(make([]byte, 1)); err != nil { // it is at work
			t.Fatal(err)
		}
		_ = c.Process.Signal(syscall.SIGQUIT)
		_, _ = io.Copy(io.Discard, out)
		_ = c.Wait()
		if status := c.ProcessState.ExitCode(); status != 128+3 || strings.Contains(said.String(), "goroutine") {
			t.Errorf("%v: status %d, said %q", args, status, said.String())
		}
	}
}

// It listens before the libraries get ready, which is most of the time before main.
func TestQuitsBeforeTheLibraries(t *testing.T) {
	t.Parallel()
	c := exec.Command(reckoner, "--version")
	c.Env = append(os.Environ(), "GODEBUG=inittrace=1")
	said, err := c.CombinedOutput()
	ours, libraries := strings.Index(string(said), "init coilwalk/cmd/coilwalk/quits @"), regexp.MustCompile(`init \S+(runewidth|bubbletea|lipgloss|serial|cobra) @`).FindAllStringIndex(string(said), -1)
	if err != nil || ours < 0 || len(libraries) < 4 || ours > libraries[0][0] {
		t.Errorf("%v: ours at %d, the libraries at %v:\n%s", err, ours, libraries, said)
	}
}

// From the first moment of the program to a moment at which it runs: whenever a
// signal comes, the terminal is as it was. Before it takes the terminal a signal
// simply ends it.
func TestSignalsAtAnyMoment(t *testing.T) {
	t.Parallel()
	all := []syscall.Signal{syscall.SIGTERM, syscall.SIGHUP, syscall.SIGINT, syscall.SIGQUIT}
	// Started by nohup, or beside a script, a program ignores some until it asks for
	// them, and one that comes before is lost, as it is meant to be.
	all = slices.DeleteFunc(all, func(s syscall.Signal) bool { return signal.Ignored(s) })
	inTime := 0
	for k := range 48 {
		s := all[k%len(all)]
		x := open(t, reckoner, 80, 24)
		time.Sleep(time.Duration(k) * 6 * time.Millisecond)
		_ = x.cmd.Process.Signal(s)
		switch status := x.ends(); status {
		case 128 + int(s):
			inTime++
		case -int(s):
		case 2: // the runtime's own end at SIGQUIT, in the first milliseconds, before anything of ours
			if s != syscall.SIGQUIT {
				t.Errorf("%v after %d ms: status 2", s, 6*k)
			}
		default:
			t.Errorf("%v after %d ms: status %d", s, 6*k, status)
		}
		if x.modes() != x.before {
			t.Errorf("%v after %d ms: the terminal's settings were not put back", s, 6*k)
		}
		for end := time.Now().Add(patience); len(leftOn(x.sent())) > 0 && time.Now().Before(end); {
			time.Sleep(time.Millisecond)
		}
		if left := leftOn(x.sent()); len(left) > 0 {
			t.Errorf("%v after %d ms: these modes were left: %v", s, 6*k, left)
		}
	}
	if inTime < 8 {
		t.Errorf("only %d of 48 signals met the program at work", inTime)
	}
}

// Suspended, as by a job's control, the terminal is the shell's; going on, it is
// ours again, with the picture.
func TestSuspended(t *testing.T) {
	t.Parallel()
	x := open(t, binary, 80, 24)
	x.shows("row  1 of 8")
	x.press(right)
	x.shows("row  2 of 8")
	for range 2 {
		_ = x.cmd.Process.Signal(syscall.SIGTSTP)
		x.until(func(string) bool { return x.modes() == x.before && len(leftOn(x.sent())) == 0 })
		time.Sleep(100 * time.Millisecond)
		if x.modes() != x.before || len(leftOn(x.sent())) > 0 {
			t.Error("it took the terminal again before it went on")
		}
		before := len(x.sent())
		_ = x.cmd.Process.Signal(syscall.SIGCONT)
		x.until(func(string) bool { return strings.Contains(string(x.sent()[before:]), "of 8") })
		x.shows("row  2 of 8", "q quit")
		if len(leftOn(x.sent())) == 0 || x.modes() == x.before {
			t.Error("the terminal was not taken again")
		}
	}
	x.press(right)
	x.shows("row  3 of 8")
	x.press("q")
	if status := x.ends(); status != 0 {
		t.Errorf("status %d", status)
	}
	x.isRestored()
}

// Stopped outright for seconds, which no program sees: what a run would have sent
// meanwhile is left out, and not made up for in a burst.
func TestStoppedForSeconds(t *testing.T) {
	t.Parallel()
	x := open(t, binary, 80, 24)
	x.shows("row  1 of 8")
	x.press("p50" + enter + enter)
	x.shows("▶ running", "50 rows/s")
	time.Sleep(500 * time.Millisecond)
	_ = x.cmd.Process.Signal(syscall.SIGSTOP)
	time.Sleep(100 * time.Millisecond)
	before := steps(t, x)
	time.Sleep(4 * time.Second)
	_ = x.cmd.Process.Signal(syscall.SIGCONT)
	x.until(func(string) bool { return steps(t, x) != before })
	if after := steps(t, x); before < 5 || after-before > 50+50*int(slow(1)) {
		t.Errorf("in 4 s of standing still it went from step %d to %d", before, after)
	}
	x.press(" ")
	x.shows("■ stopped")
	x.press("q")
	if status := x.ends(); status != 0 {
		t.Errorf("status %d", status)
	}
	x.isRestored()
}

// step is the line of Walk that tells how far a run has come.
var step = regexp.MustCompile(`  step  \+([0-9]+)`)

// steps reads how far a run has come.
func steps(t *testing.T, x *terminal) int {
	t.Helper()
	m := step.FindStringSubmatch(x.text())
	if m == nil {
		t.Fatalf("no step in\n%s", x.text())
	}
	n, err := strconv.Atoi(m[1])
	if err != nil {
		t.Fatal(err)
	}
	return n
}

// A terminal whose window is shut, at rest and while it runs.
func TestTerminalThatGoesAway(t *testing.T) {
	t.Parallel()
	for _, keys := range []string{"", enter} {
		x := open(t, binary, 80, 24)
		x.shows("row  1 of 8")
		x.shuts(keys)
		if status := x.ends(); status != 128+1 {
			t.Errorf("status %d, want %d", status, 128+1)
		}
	}
}

// shuts closes our side of the terminal after some keys. What is read of it is read
// to an end first: a file is not closed while it is read.
func (x *terminal) shuts(keys string) {
	x.t.Helper()
	x.pace.Store(-1)
	x.press(keys + "t") // the other theme, so that something is sent
	time.Sleep(200 * time.Millisecond)
	x.file.Close()
}

// The same where no signal tells of it: only the first program of a session gets
// one, and here that is a shell that does not pass it on.
func TestTerminalThatGoesAwayWithoutASignal(t *testing.T) {
	t.Parallel()
	for _, keys := range []string{"", enter} {
		status := filepath.Join(t.TempDir(), "status")
		x := open(t, "/bin/sh", 80, 24, "-c", `trap "" HUP; "$0"; echo $? >"$1"`, binary, status)
		x.shows("row  1 of 8")
		x.shuts(keys)
		var text []byte
		for end := time.Now().Add(patience); len(text) == 0 && time.Now().Before(end); time.Sleep(10 * time.Millisecond) {
			text, _ = os.ReadFile(status)
		}
		if string(text) != "129\n" {
			t.Errorf("status %q, want 129", text)
		}
	}
}
