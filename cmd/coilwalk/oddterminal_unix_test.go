//go:build linux || darwin

package main

import (
	"fmt"
	"io"
	"os"
	"os/exec"
	"strings"
	"testing"
	"time"

	"github.com/creack/pty"
)

// Without a terminal on either side the explorer and the real motor say what else
// would do; so they do on a terminal that can not place its cursor.
func TestWithoutATerminal(t *testing.T) {
	t.Parallel()
	master, tty, err := pty.Open()
	if err != nil {
		t.Fatal(err)
	}
	defer master.Close()
	defer tty.Close()
	for _, c := range []struct {
		name    string
		in, out *os.File
		term    string
	}{{"no input", nil, tty, "xterm"}, {"no output", tty, nil, "xterm"}, {"neither", nil, nil, "xterm"}, {"dumb", tty, tty, "dumb"}} {
		for _, args := range [][]string{nil, {"live", "--rehearse"}} {
			var errs strings.Builder
			cmd := exec.Command(reckoner, args...)
			cmd.Env = append(os.Environ(), "TERM="+c.term)
			if cmd.Stderr = &errs; c.in != nil {
				cmd.Stdin = c.in
			}
			if c.out != nil {
				cmd.Stdout = c.out
			}
			status := endsAs(t, cmd)
			if said := errs.String(); status != 2 || strings.Count(said, "\n") != 1 || !strings.Contains(said, "terminal") || args == nil && !strings.Contains(said, "coilwalk --plain") {
				t.Errorf("%s, %v: status %d, said %q", c.name, args, status, said)
			}
		}
	}
	tty.Close()
	if sent, _ := io.ReadAll(master); len(sent) > 0 { // its error is the end
		t.Errorf("%q was sent to the terminal", sent)
	}
}

// A terminal of a kind that nobody knows, or that does not say: the screen comes,
// without colour.
func TestUnknownTerminal(t *testing.T) {
	t.Parallel()
	for _, term := range []string{"TERM=", "TERM=of-our-own", "-TERM"} {
		x := openAs(t, func(_ *testing.T, c *exec.Cmd) {
			var env []string
			for _, e := range c.Env {
				if !strings.HasPrefix(e, "TERM=") {
					env = append(env, e)
				}
			}
			if c.Env = env; term != "-TERM" {
				c.Env = append(env, term)
			}
		}, reckoner, 80, 24)
		x.shows("row  1 of 8", "q quit")
		x.press(right)
		x.shows("row  2 of 8")
		x.press("q")
		if status := x.ends(); status != 0 {
			t.Errorf("%s: status %d", term, status)
		}
		x.isRestored()
		if sent := string(x.sent()); strings.Contains(sent, "38;5;") || strings.Contains(sent, "38;2;") {
			t.Errorf("%s: colours were sent that it may not have", term)
		}
	}
}

// Terminals that are too small for any picture, or that say no size: keys are keys,
// nothing is drawn beyond the edge, and in a bigger one the picture comes.
func TestTinyTerminals(t *testing.T) {
	t.Parallel()
	for _, size := range [][2]int{{0, 0}, {1, 1}, {20, 5}, {20, 24}, {80, 1}, {1, 60}, {79, 24}, {80, 23}} {
		t.Run(fmt.Sprint(size[0], "x", size[1]), func(t *testing.T) {
			w, h := size[0], size[1]
			x := open(t, reckoner, max(w, 1), max(h, 1))
			x.resize(w, h)
			x.until(func(string) bool { return strings.Contains(string(x.sent()), "\x1b[?2004h") })
			time.Sleep(100 * time.Millisecond) // keys before it listens would be the shell's
			x.press(right + enter)
			time.Sleep(300 * time.Millisecond)
			if lines := strings.Count(lastPicture(x.sent()), "\n"); lines >= max(h, 1) {
				t.Errorf("a picture has %d lines", lines+1)
			}
			for y, line := range strings.Split(strings.TrimRight(x.text(), "\n"), "\n") {
				if y >= max(h, 1) || len([]rune(line)) > max(w, 1) {
					t.Errorf("line %d is out of the screen: %q", y, line)
				}
			}
			x.press(" ")
			x.resize(80, 24)
			x.shows("■ stopped", "q quit")
			if steps(t, x) < 1 {
				t.Error("the keys did nothing")
			}
			x.resize(w, h)
			x.press("q")
			if status := x.ends(); status != 0 {
				t.Errorf("status %d", status)
			}
			x.isRestored()
		})
	}
}

// lastPicture gives what was sent since the cursor went home last.
func lastPicture(sent []byte) string {
	pictures := strings.Split(string(sent), "\x1b[H")
	return pictures[len(pictures)-1]
}

// queries are control sequences that a terminal answers: status, place, attributes,
// modes, colours, version.
var queries = []string{"\x1b[5n", "\x1b[6n", "\x1b[?6n", "\x1b[c", "\x1b[0c", "\x1b[>c", "\x1b[>0c", "\x1b[=c", "$p", "\x1b]10;?", "\x1b]11;?", "\x1b[>q", "\x1b[?u", "\x1bP+q", "\x1b[14t", "\x1b[18t"}

// A terminal is asked nothing, so none keeps the program waiting; and one that
// talks all the same, late answers to somebody else's questions and plain garbage,
// energises nothing and is survived.
func TestTerminalThatTalks(t *testing.T) {
	t.Parallel()
	x := open(t, binary, 80, 24, "live", "--rehearse")
	x.shows("REHEARSAL off")
	for _, q := range queries {
		if strings.Contains(string(x.sent()), q) {
			t.Errorf("the terminal was asked %q", q)
		}
	}
	answers := []string{"\x1b[0n", "\x1b[24;80R", "\x1b[?62;22c", "\x1b[>1;4402;0c", "\x1b]11;rgb:1e1e/1e1e/1e1e\x1b\\", "\x1b]10;rgb:ffff/ffff/ffff\a",
		"\x1bP>|of our own(1)\x1b\\", "\x1b[?2026;2$y", "\x1b[8;24;80t", "\x1b[I", "\x1b[O", "\x1b[<0;10;10M", "\x1b[M !!", "\x1b[1;5Z", "\x1b[999999999999;5u",
		"\xff\xfe\x80", "\x1b[", "\x1b]", "\x1bO", "\x1b\x1b\x1b", "\x00\x00", "\xf0\x9f\x98", strings.Repeat("\x1b[", 3000)}
	for _, a := range answers {
		x.press(a)
		time.Sleep(20 * time.Millisecond)
	}
	x.press(escape)
	time.Sleep(200 * time.Millisecond)
	x.press(escape + "W ")
	text := x.shows("[Walk]", "REHEARSAL off", "board  0000", "q quit")
	fits(t, text, 80, 24)
	x.press("a")
	x.shows("type on and press enter")
	x.press(escape)
	time.Sleep(200 * time.Millisecond)
	x.press("q")
	if status := x.ends(); status != 0 {
		t.Errorf("status %d: %s", status, x.errs.String())
	}
	x.isRestored()
}

// Hundreds of new sizes while it runs: at the end the picture is right, and neither
// the processor nor the line was kept busy by it.
func TestHundredsOfSizes(t *testing.T) {
	t.Parallel()
	x := open(t, reckoner, 80, 24)
	x.shows("row  1 of 8")
	x.press(enter)
	x.shows("▶ running")
	before, start := len(x.sent()), time.Now()
	for i := range 600 {
		x.resize(80+(i*37)%120, 24+(i*13)%40)
		time.Sleep(2 * time.Millisecond)
	}
	x.resize(100, 30)
	x.press(" ")
	x.shows("■ stopped")
	x.settles()
	took := time.Since(start)
	if sent, most := len(x.sent())-before, int(took.Seconds()*30+10)*24_000; sent > most { // a whole picture of 200x64 in each frame
		t.Errorf("%d bytes were sent in %v, more than %d", sent, took, most)
	}
	fits(t, x.text(), 100, 30)
	x.press("q")
	if status := x.ends(); status != 0 {
		t.Errorf("status %d", status)
	}
	if cpu := x.cmd.ProcessState.UserTime() + x.cmd.ProcessState.SystemTime(); cpu > took {
		t.Errorf("it took %v of a processor in %v", cpu, took)
	}
	x.isRestored()
}

// An answer that comes to no end, a megabyte of it, keeps no key back (once it did for
// half a minute); late ones to somebody else's question are no keys.
func TestAnswersThatNobodyAskedFor(t *testing.T) {
	t.Parallel()
	x := open(t, binary, 80, 24)
	x.shows("row  1 of 8")
	x.press("\x1b]11;rgb:1e1e/1e1e/1e1e\x1b\\\x1bP>|llllmmm(1)\x1b\\" + right)
	x.shows("row  2 of 8", "half step", "step  +1 ")
	x.press("\x1b]52;c;" + strings.Repeat("mlq ", 1<<18))
	time.Sleep(300 * time.Millisecond)
	began := time.Now()
	x.press(right)
	x.shows("row  3 of 8", "half step", "step  +2 ")
	if took := time.Since(began); took > 10*time.Second {
		t.Errorf("the key after it took %v", took)
	}
	x.press("q")
	if status := x.ends(); status != 0 {
		t.Errorf("status %d: %s", status, x.errs.String())
	}
}
