package main

import (
	"bytes"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"coilwalk/cmd/coilwalk/quits"
	"coilwalk/view/settings"
	"coilwalk/view/tour"
)

// binary is the real program, built once for all end-to-end tests; reckoner is
// the same without the race detector, under which the motor's motion takes
// twenty times as long. Commands that do things at once are run by the first.
var binary, reckoner string

// atOnce are the commands that do things at once.
var atOnce = []string{"read"}

// faultyCall asks the tests' program, in its environment, to be a coilwalk with a
// fault: for what can only be seen from outside.
const faultyCall = "COILWALK_TEST_FAULTY"

// faulty is an input that meets a fault of ours.
type faulty struct{}

func (faulty) Read([]byte) (int, error) { panic("a fault for the test") }

func TestMain(m *testing.M) {
	if os.Getenv(faultyCall) != "" {
		os.Exit(run([]string{"check", "-"}, faulty{}, os.Stdout, os.Stderr))
	}
	quits.InOrder() // asked to quit, tests are to tell where they were
	flag.Parse()
	// Those that run side by side here wait for a screen or a clock, not for a processor.
	_ = flag.Set("test.parallel", "5")
	if worker := flag.Lookup("test.fuzzworker"); worker != nil && worker.Value.String() == "true" {
		os.Exit(m.Run()) // calls the program in its own process, and is started often
	}
	os.Exit(withBinary(m))
}

func withBinary(m *testing.M) int {
	folder, err := os.MkdirTemp("", "coilwalk-test-")
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		return 1
	}
	defer os.RemoveAll(folder)
	binary = filepath.Join(folder, "coilwalk")
	if err := build(binary, ".", underRace); err != nil {
		fmt.Fprintln(os.Stderr, err)
		return 1
	}
	if reckoner = binary; underRace {
		reckoner = filepath.Join(folder, "reckoner")
		if err := build(reckoner, ".", false); err != nil {
			fmt.Fprintln(os.Stderr, err)
			return 1
		}
	}
	// Nothing of the machine that tests run on may show in the results.
	for _, name := range []string{"NO_COLOR", "COLORFGBG", "COLORTERM", "CLICOLOR", "CLICOLOR_FORCE"} {
		os.Unsetenv(name)
	}
	os.Setenv("COILWALK_CONFIG", folder)
	if err := settings.Folder(folder).See(tour.Seen); err != nil { // tests begin without the walk-through
		fmt.Fprintln(os.Stderr, err)
		return 1
	}
	return m.Run()
}

func build(to, what string, race bool) error {
	args := []string{"build", "-o", to}
	if race {
		args = append(args, "-race")
	}
	out, err := exec.Command("go", append(args, what)...).CombinedOutput()
	if err != nil {
		return fmt.Errorf("go build %s: %v\n%s", what, err, out)
	}
	return nil
}

// result is what a call of the binary left.
type result struct {
	out, errs string
	status    int
}

// call runs the binary with words on its standard input.
func call(t *testing.T, in string, args ...string) result {
	t.Helper()
	program := reckoner
	if len(args) > 0 && slices.Contains(atOnce, args[0]) && !slices.Contains(args, "--motor") {
		program = binary
	}
	c := exec.Command(program, args...)
	var out, errs bytes.Buffer
	c.Stdin, c.Stdout, c.Stderr = strings.NewReader(in), &out, &errs
	err := c.Run()
	if _, exited := err.(*exec.ExitError); err != nil && !exited {
		t.Fatal(err)
	}
	noRace(t, errs.String())
	return result{out.String(), errs.String(), c.ProcessState.ExitCode()}
}

func noRace(t *testing.T, errs string) {
	t.Helper()
	if strings.Contains(errs, "DATA RACE") {
		t.Errorf("the race detector found:\n%s", errs)
	}
}

// complains wants status 2, nothing on standard output, and one line of words
// on standard error that holds each of the given parts.
func (r result) complains(t *testing.T, parts ...string) {
	t.Helper()
	if r.status != 2 {
		t.Errorf("status %d, want 2; said %q", r.status, r.errs)
	}
	if r.out != "" {
		t.Errorf("wrote %q to standard output", r.out)
	}
	if strings.Count(r.errs, "\n") != 1 || strings.Contains(r.errs, "goroutine") {
		t.Errorf("want one clear line, got %q", r.errs)
	}
	for _, p := range parts {
		if !strings.Contains(r.errs, p) {
			t.Errorf("want %q in %q", p, r.errs)
		}
	}
}
