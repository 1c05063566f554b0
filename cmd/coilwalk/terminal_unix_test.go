//go:build linux || darwin

package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

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

	mu   sync.Mutex
	raw  bytes.Buffer // all that was sent
	done chan struct{}
}

// patience bounds every wait; a wait ends as soon as what it waits for is there.
const patience = 15 * time.Second

// open starts a program in a terminal of w × h cells.
func open(t *testing.T, program string, w, h int, args ...string) *terminal {
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
	if err := x.cmd.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if x.cmd.ProcessState == nil {
			_ = x.cmd.Process.Kill()
			_ = x.cmd.Wait()
		}
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
	for {
		n, err := x.file.Read(buffer)
		if n > 0 {
			x.mu.Lock()
			x.raw.Write(buffer[:n])
			_, _ = x.screen.Write(buffer[:n])
			x.mu.Unlock()
		}
		if err != nil {
			return
		}
	}
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
		x.t.Fatalf("it does not end; the screen shows\n%s", x.text())
	}
	if ws, ok := x.cmd.ProcessState.Sys().(syscall.WaitStatus); ok && ws.Signaled() {
		return -int(ws.Signal())
	}
	return x.cmd.ProcessState.ExitCode()
}

// isRestored wants the terminal as it was: settings, main screen, cursor.
func (x *terminal) isRestored() {
	x.t.Helper()
	if x.modes() != x.before {
		x.t.Error("the terminal's settings were not put back")
	}
	pairs := [][2]string{{"\x1b[?1049h", "\x1b[?1049l"}, {"\x1b[?25l", "\x1b[?25h"}}
	undone := func() (left string) {
		raw := x.sent()
		for _, pair := range pairs {
			if on, off := bytes.LastIndex(raw, []byte(pair[0])), bytes.LastIndex(raw, []byte(pair[1])); on < 0 || off < on {
				left += fmt.Sprintf("%q at %d was not undone by %q at %d; ", pair[0], on, pair[1], off)
			}
		}
		return left
	}
	left := undone()
	for end := time.Now().Add(2 * time.Second); left != "" && time.Now().Before(end); left = undone() {
		time.Sleep(10 * time.Millisecond) // what was sent last is still on its way
	}
	if left != "" {
		x.t.Error(left)
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
