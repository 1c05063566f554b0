//go:build linux || darwin

package main

import (
	"errors"
	"os"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/creack/pty"
	"golang.org/x/sys/unix"

	"coilwalk/view"
)

// broken is a screen with a fault: it panics at the first key.
type broken struct{}

func (broken) Init() tea.Cmd { return nil }
func (broken) View() string  { return "here" }
func (broken) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	if _, key := msg.(tea.KeyMsg); key {
		panic("a fault for the test")
	}
	return broken{}, nil
}

// A fault of ours puts the terminal back, keeps what is needed to mend it, and
// is told in one line with status 3.
func TestFaultOfOurs(t *testing.T) {
	t.Setenv("TMPDIR", t.TempDir())
	master, tty, err := pty.Open()
	if err != nil {
		t.Fatal(err)
	}
	defer master.Close()
	defer tty.Close()
	modes := func() unix.Termios {
		m, err := unix.IoctlGetTermios(int(tty.Fd()), getTermios)
		if err != nil {
			t.Fatal(err)
		}
		return *m
	}
	before := modes()
	go func() {
		buffer := make([]byte, 4096)
		for seen := ""; ; {
			n, err := master.Read(buffer)
			if err != nil {
				return
			}
			if seen += string(buffer[:n]); strings.Contains(seen, "here") {
				_, _ = master.WriteString("x")
				seen = ""
			}
		}
	}()
	var errs strings.Builder
	x := explorer{program: &program{errs: &errs}}
	err = x.show(broken{}, tty, view.NewOutlet(tty))
	var c crashed
	if !errors.As(err, &c) {
		t.Fatalf("%v", err)
	}
	if modes() != before {
		t.Error("the terminal's settings were not put back")
	}
	if status := x.status(err); status != 3 {
		t.Errorf("status %d", status)
	}
	said := errs.String()
	if strings.Count(said, "\n") != 1 || !strings.Contains(said, "a fault for the test") {
		t.Errorf("said %q", said)
	}
	_, file, _ := strings.Cut(strings.TrimSpace(said), "report it with ")
	kept, err := os.ReadFile(file)
	if err != nil || !strings.Contains(string(kept), "crash_unix_test.go") {
		t.Errorf("the crash file %q does not say where: %v", file, err)
	}
}
