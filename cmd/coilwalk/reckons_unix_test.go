//go:build linux || darwin

package main

import (
	"strings"
	"syscall"
	"testing"
	"time"
)

// long is a call that reckons for several seconds.
var long = []string{"rates", "--inertia", "100kg.cm2"}

// At a terminal who waits is told that it is at work; where standard output or error
// goes to a program or a file, or JSON is wanted, there is not a word of it.
func TestReckoningIsToldAtATerminal(t *testing.T) {
	t.Parallel()
	const line = "coilwalk is still reckoning; ctrl+c ends it"
	for _, c := range []struct {
		shell string
		args  []string
		told  bool
	}{
		{`exec "$0" "$@" 2>&1`, long, true},
		{`exec "$0" "$@" 2>&1`, append([]string{"--json"}, long...), false},
		{`"$0" "$@" 2>/dev/tty | cat`, long, false},
		{`exec "$0" "$@"`, long, false}, // the tests have standard error apart
	} {
		x := open(t, "/bin/sh", 100, 24, append([]string{"-c", c.shell, reckoner}, c.args...)...)
		if c.told {
			x.shows(line)
			_ = x.cmd.Process.Signal(syscall.SIGINT)
			x.ends()
			continue
		}
		time.Sleep(wonders + time.Second)
		shown := x.text()
		_ = syscall.Kill(-x.cmd.Process.Pid, syscall.SIGTERM)
		x.ends()
		if text := shown + x.errs.String(); strings.Contains(text, "reckoning") {
			t.Errorf("%s %v: it said\n%s", c.shell, c.args, text)
		}
	}
}

// What is done in time says nothing, nor does what is done while it would be said.
func TestReckoningThatIsDone(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ takes, wait time.Duration }{{0, 50 * time.Millisecond}, {200 * time.Millisecond, 20 * time.Millisecond}} {
		var said strings.Builder
		done := saysAfter(c.wait, &said)
		time.Sleep(c.takes)
		done()
		after := said.String()
		time.Sleep(2 * c.wait)
		if told := after != ""; said.String() != after || told != (c.takes > c.wait) || told && strings.Count(after, "\n") != 1 {
			t.Errorf("%v: %q, later %q", c, after, said.String())
		}
	}
}
