//go:build linux || darwin

package main

import (
	"bytes"
	"os"
	"os/exec"
	"regexp"
	"strings"
	"sync"
	"sync/atomic"
	"syscall"
	"testing"
	"time"
	"unicode/utf8"

	"github.com/creack/pty"
	"github.com/hinshun/vt10x"
	"golang.org/x/sys/unix"
)

// terminal is the binary in a real pseudo-terminal that answers no query, with
// its screen as a terminal would show it.
type terminal struct {
	t      *testing.T
	cmd    *exec.Cmd
	file   *os.File // our side
	screen vt10x.Terminal
	before unix.Termios
	errs   bytes.Buffer
	pace   atomic.Int64 // bytes a second that it takes; 0 for as many as come, below 0 for none

	mu   sync.Mutex
	raw  bytes.Buffer // all that was sent
	done chan struct{}
}

// patience bounds every wait; a wait ends as soon as what it waits for is there.
const patience = 30 * time.Second

// open starts a program in a terminal of w × h cells.
func open(t *testing.T, program string, w, h int, args ...string) *terminal {
	t.Helper()
	return openAs(t, func(*testing.T, *exec.Cmd) {}, program, w, h, args...)
}

// openAs starts it otherwise than usual.
func openAs(t *testing.T, how func(*testing.T, *exec.Cmd), program string, w, h int, args ...string) *terminal {
	t.Helper()
	x := &terminal{t: t, screen: vt10x.New(vt10x.WithSize(w, h)), done: make(chan struct{})}
	master, tty, err := pty.Open()
	if err != nil {
		t.Fatal(err)
	}
	if err := pty.Setsize(master, &pty.Winsize{Rows: uint16(h), Cols: uint16(w)}); err != nil {
		t.Fatal(err)
	}
	x.file = master
	x.before = x.modes()
	x.cmd = exec.Command(program, args...)
	x.cmd.Env = append(os.Environ(), "TERM=xterm-256color")
	x.cmd.Stdin, x.cmd.Stdout, x.cmd.Stderr = tty, tty, &x.errs
	x.cmd.SysProcAttr = &syscall.SysProcAttr{Setsid: true, Setctty: true}
	how(t, x.cmd)
	if err := x.cmd.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if x.cmd.ProcessState == nil {
			_ = x.cmd.Process.Kill()
			_ = x.cmd.Wait()
		}
		x.pace.Store(0)
		tty.Close()
		master.Close()
		<-x.done
		noRace(t, x.errs.String())
	})
	go x.read()
	return x
}

func (x *terminal) read() {
	defer close(x.done)
	buffer := make([]byte, 1<<16)
	var part []byte // of a character
	for {
		n, err := x.file.Read(x.takes(buffer))
		if n > 0 {
			x.mu.Lock()
			x.raw.Write(buffer[:n])
			all := append(part, buffer[:n]...)
			whole := len(all)
			for back := 1; back < utf8.UTFMax && back <= len(all); back++ { // the emulator takes no character in parts
				if utf8.RuneStart(all[len(all)-back]) {
					if !utf8.FullRune(all[len(all)-back:]) {
						whole -= back
					}
					break
				}
			}
			_, _ = x.screen.Write(all[:whole])
			part = append([]byte(nil), all[whole:]...)
			x.mu.Unlock()
		}
		if err != nil {
			return
		}
	}
}

// takes gives the part of a buffer that is taken next, when it is time for it.
func (x *terminal) takes(buffer []byte) []byte {
	const tick = 20 * time.Millisecond
	for x.pace.Load() < 0 {
		time.Sleep(tick)
	}
	pace := x.pace.Load()
	if pace == 0 {
		return buffer
	}
	start := time.Now()
	time.Sleep(tick)
	// By the clock: on a busy machine a sleep takes longer, and the line would be slower.
	due := max(1, min(int(pace*int64(time.Since(start))/int64(time.Second)), len(buffer)))
	return buffer[:due]
}

// modes gives the terminal's settings: echo, line editing and so on.
func (x *terminal) modes() unix.Termios {
	x.t.Helper()
	m, err := unix.IoctlGetTermios(int(x.file.Fd()), getTermios)
	if err != nil {
		x.t.Fatal(err)
	}
	return *m
}

// text gives the screen as words.
func (x *terminal) text() string {
	x.mu.Lock()
	defer x.mu.Unlock()
	return x.screen.String()
}

// sent gives the number of bytes sent so far, and all of them.
func (x *terminal) sent() []byte {
	x.mu.Lock()
	defer x.mu.Unlock()
	return append([]byte(nil), x.raw.Bytes()...)
}

// press sends keys.
func (x *terminal) press(keys string) {
	x.t.Helper()
	if _, err := x.file.WriteString(keys); err != nil {
		x.t.Fatal(err)
	}
}

const (
	right     = "\x1b[C"
	left      = "\x1b[D"
	backspace = "\x7f"
	enter     = "\r"
	escape    = "\x1b"
)

// shows waits until the screen holds all the words.
func (x *terminal) shows(words ...string) string {
	x.t.Helper()
	var text string
	for end := time.Now().Add(patience); time.Now().Before(end); time.Sleep(10 * time.Millisecond) {
		text = x.text()
		all := true
		for _, w := range words {
			all = all && strings.Contains(text, w)
		}
		if all {
			return text
		}
	}
	x.t.Fatalf("waited for %q; the screen shows\n%s\n%s", words, text, x.errs.String())
	return ""
}

// until waits until the screen is as it has to be.
func (x *terminal) until(is func(text string) bool) {
	x.t.Helper()
	for end := time.Now().Add(patience); time.Now().Before(end); time.Sleep(10 * time.Millisecond) {
		if is(x.text()) {
			return
		}
	}
	x.t.Fatalf("waited in vain; the screen shows\n%s\n%s", x.text(), x.errs.String())
}

// ends waits for the program to end and gives its exit status, 128 + n when
// signal n killed it outright.
func (x *terminal) ends() int {
	x.t.Helper()
	ended := make(chan error, 1)
	go func() { ended <- x.cmd.Wait() }()
	select {
	case <-ended:
	case <-time.After(patience):
		text := x.text()
		_ = x.cmd.Process.Signal(syscall.SIGABRT) // the runtime then tells where everything hangs
		<-ended
		x.t.Fatalf("it does not end; the screen shows\n%s\n%s", text, x.errs.String())
	}
	if ws, ok := x.cmd.ProcessState.Sys().(syscall.WaitStatus); ok && ws.Signaled() {
		return -int(ws.Signal())
	}
	return x.cmd.ProcessState.ExitCode()
}

// private is a control sequence that sets or resets a private mode (DECSET and
// DECRST): the cursor, the other screen, the mouse, bracketed paste.
var private = regexp.MustCompile("\x1b\\[\\?([0-9]+)([hl])")

// leftOn gives the private modes that are not as a terminal has them at first: all
// of them off but the cursor, 25.
func leftOn(sent []byte) (modes []string) {
	last := map[string]string{}
	for _, m := range private.FindAllSubmatch(sent, -1) {
		last[string(m[1])] = string(m[2])
	}
	for mode, set := range last {
		if (mode == "25") != (set == "h") {
			modes = append(modes, mode+set)
		}
	}
	return modes
}

// isRestored wants the terminal as it was: settings, main screen, cursor, mouse and
// bracketed paste.
func (x *terminal) isRestored() {
	x.t.Helper()
	if x.modes() != x.before {
		x.t.Error("the terminal's settings were not put back")
	}
	for end := time.Now().Add(patience); len(leftOn(x.sent())) > 0 && time.Now().Before(end); {
		time.Sleep(10 * time.Millisecond) // what was sent last is still on its way
	}
	if left := leftOn(x.sent()); len(left) > 0 {
		x.t.Errorf("these modes were left: %v", left)
	}
	if !bytes.Contains(x.sent(), []byte("\x1b[?1049h")) {
		x.t.Error("it never went to the other screen: nothing was tried")
	}
}

func (x *terminal) resize(w, h int) {
	x.t.Helper()
	x.mu.Lock()
	x.screen.Resize(w, h)
	x.mu.Unlock()
	if err := pty.Setsize(x.file, &pty.Winsize{Rows: uint16(h), Cols: uint16(w)}); err != nil {
		x.t.Fatal(err)
	}
}
