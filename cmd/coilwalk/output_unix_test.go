//go:build linux || darwin

package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
)

// printers are calls that print, one of each command.
var printers = [][]string{
	{"--version"}, {"--help"}, {"help"}, {"rates", "--help"}, {"completion", "bash"},
	{"order"}, {"order", "--json"}, {"leads", "../../testdata/readings/flap.csv"}, {"faults", "/dev/null"},
	{"check", "../../testdata/tables/good/slices.go"}, {"read", "../../testdata/recordings/flap.vcd"}, {"read", "../../testdata/recordings/flap.vcd", "--rows"},
	{"shaft"}, {"rates", "--motor", "hybrid-4"}, {"power"}, {"ramp", "--turn", "90deg", "--rate", "500/s"},
	{"write", "c"}, {"write", "card"}, {"motors", "list"}, {"motors", "show", "vent-flap"}, {"live"},
	{"--plain"},
}

// endsAs gives the exit status as a shell has it: 128 + n after signal n.
func endsAs(t *testing.T, c *exec.Cmd) int {
	t.Helper()
	err := c.Run()
	if exit := (*exec.ExitError)(nil); err != nil && !errors.As(err, &exit) {
		t.Fatal(err)
	}
	if ws := c.ProcessState.Sys().(syscall.WaitStatus); ws.Signaled() {
		return 128 + int(ws.Signal())
	}
	return c.ProcessState.ExitCode()
}

// printer makes a call ready; the line mode is given a word.
func printer(args []string) (c *exec.Cmd, errs *bytes.Buffer) {
	c, errs = exec.Command(reckoner, args...), new(bytes.Buffer)
	c.Stdin, c.Stderr = strings.NewReader("next\n"), errs
	return c, errs
}

// Whoever reads standard output and has seen enough ends every command at once and
// without a word, as the system's own tools end: by SIGPIPE, 141 to a shell. Where
// that signal is ignored, as under some supervisors, the status is the same.
func TestClosedPipe(t *testing.T) {
	t.Parallel()
	for _, args := range printers {
		for _, ignored := range []bool{false, true} {
			t.Run(strings.Join(args, " ")+map[bool]string{true: ", ignored"}[ignored], func(t *testing.T) {
				c, errs := printer(args)
				if ignored {
					c.Path, c.Args = "/bin/sh", append([]string{"sh", "-c", `trap "" PIPE; exec "$@"`, "sh"}, c.Args...)
				}
				r, w, err := os.Pipe()
				if err != nil {
					t.Fatal(err)
				}
				r.Close()
				c.Stdout = w
				status := endsAs(t, c)
				w.Close()
				if status != 141 || errs.Len() > 0 {
					t.Errorf("status %d, said %q; want 141 and no word", status, errs)
				}
			})
		}
	}
}

// Where the signal does not come, as it only comes for the process's own standard
// output, the status is the same.
func TestClosedPipeWithoutTheSignal(t *testing.T) {
	r, w, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	r.Close()
	defer w.Close()
	if status := run([]string{"motors", "list"}, strings.NewReader(""), w, w); status != 141 {
		t.Errorf("status %d, want 141", status)
	}
}

// Standard error that is closed, or whose reader has gone, changes no answer.
func TestClosedStandardError(t *testing.T) {
	t.Parallel()
	for _, redirect := range []string{"2>&-", "2>/dev/null"} {
		for args, want := range map[string]int{"order": 0, "nosuch": 2, "shaft --json": 0, "read ../../testdata/recordings/flap-faults.vcd": 1} {
			c := exec.Command("/bin/sh", "-c", reckoner+" "+args+" "+redirect)
			if status := endsAs(t, c); status != want {
				t.Errorf("%s %s: status %d, want %d", args, redirect, status, want)
			}
		}
	}
}

// With standard output closed from the start nobody wants the answer; a file that
// is asked for besides is whole, and nothing else gets into it.
func TestClosedStandardOutput(t *testing.T) {
	t.Parallel()
	file := filepath.Join(t.TempDir(), "flap.c")
	for _, args := range []string{"write c --out " + file, "write c --force --out " + file + " 0<&- 2>&-"} {
		if status := endsAs(t, exec.Command("/bin/sh", "-c", reckoner+" "+args+" >&-")); status != 0 {
			t.Errorf("%s: status %d", args, status)
		}
		want := call(t, "", "write", "c").out
		if got, err := os.ReadFile(file); err != nil || string(got) != want {
			t.Errorf("%s: %v, the file has %d bytes, want %d", args, err, len(got), len(want))
		}
	}
}

// A fault of ours in a command that has no screen: status 3 and one line, with the
// crash file, also where what is read is read ahead by another goroutine.
func TestFaultOfOursInACommand(t *testing.T) {
	t.Setenv("TMPDIR", t.TempDir())
	for _, c := range []struct {
		args []string
		in   io.Reader
	}{
		{[]string{"check", "-"}, faulty{}},
		{[]string{"leads", "-"}, faulty{}},
		{[]string{"read", "-"}, io.MultiReader(bytes.NewReader(longRecording(5<<20)), faulty{})},
	} {
		var out, errs strings.Builder
		status := run(c.args, c.in, &out, &errs)
		if said := errs.String(); status != 3 || strings.Count(said, "\n") != 1 || !strings.Contains(said, "a fault for the test; please report it with ") {
			t.Errorf("%v: status %d, said %q", c.args, status, said)
		}
	}
}

// A pipe that gives nothing more: ctrl+c ends what waits for it.
func TestInterruptedWhileAPipeGivesNothing(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		args []string
		text []byte
	}{
		{[]string{"check", "-"}, nil},
		{[]string{"leads", "-"}, nil},
		{[]string{"--plain"}, []byte("next\n")},
		{[]string{"read", "-"}, longRecording(500)},
		{[]string{"read", "-"}, longRecording(200_000)},
		{[]string{"read", "-", "--motor", "vent-flap", "--rotor"}, longRecording(200_000)},
	} {
		r, w, err := os.Pipe()
		if err != nil {
			t.Fatal(err)
		}
		cmd := exec.Command(reckoner, c.args...)
		cmd.Stdin = r
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		r.Close()
		if _, err := w.Write(c.text); err != nil {
			t.Error(err)
		}
		time.Sleep(slow(500 * time.Millisecond)) // it has read what there is
		_ = cmd.Process.Signal(os.Interrupt)
		if !endsSoon(cmd) {
			t.Errorf("%v, given %d bytes, is not ended by ctrl+c", c.args, len(c.text))
		} else if ws := cmd.ProcessState.Sys().(syscall.WaitStatus); ws.Signal() != syscall.SIGINT && ws.ExitStatus() != 130 {
			t.Errorf("%v: ended as %v", c.args, cmd.ProcessState)
		}
		w.Close()
	}
}

// longRecording makes a wave drive at 200 rows a second, of so many bytes or a line
// less.
func longRecording(bytesLong int) []byte {
	var b bytes.Buffer
	b.WriteString("$timescale 1 us $end\n$scope module pins $end\n")
	for k := range 4 {
		fmt.Fprintf(&b, "$var wire 1 %c IN%d $end\n", '!'+k, k+1)
	}
	b.WriteString("$upscope $end\n$enddefinitions $end\n#0\n1!\n0\"\n0#\n0$\n")
	for row := 1; b.Len() < bytesLong-40; row++ {
		fmt.Fprintf(&b, "#%d\n0%c\n1%c\n", row*5000, '!'+(row+3)%4, '!'+row%4)
	}
	return b.Bytes()
}

// endsSoon waits for a program to end, and ends it where it does not.
func endsSoon(c *exec.Cmd) bool {
	ended := make(chan error, 1)
	go func() { ended <- c.Wait() }()
	select {
	case <-ended:
		return true
	case <-time.After(slow(3 * time.Second)):
		_ = c.Process.Kill()
		<-ended
		return false
	}
}
