package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
)

// Standard output on a full disk: status 2 and a sentence, whatever prints.
func TestFullOutput(t *testing.T) {
	t.Parallel()
	for _, args := range printers {
		c, errs := printer(args)
		full, err := os.OpenFile("/dev/full", os.O_WRONLY, 0)
		if err != nil {
			t.Fatal(err)
		}
		c.Stdout = full
		status := endsAs(t, c)
		full.Close()
		if said := errs.String(); status != 2 || said != "coilwalk: standard output could not be written: no space left on device\n" {
			t.Errorf("%v: status %d, said %q", args, status, said)
		}
	}
}

// cramped makes a shell command whose files may not grow beyond some kB: how a
// disk that fills up in the middle of a file looks to a program.
func cramped(program string, args ...string) (shell string, all []string) {
	return "/bin/sh", append([]string{"-c", `ulimit -f 8; exec "$@"`, "sh", program}, args...) // in blocks of 512 bytes
}

// A disk that fills up while a file is written: the old file stays, none of the new
// one, and the status is 2.
func TestDiskThatFillsUp(t *testing.T) {
	t.Parallel()
	folder := t.TempDir()
	name := func(file string) string { return filepath.Join(folder, file) }
	write(t, name("old.c"), "old\n")
	for _, args := range [][]string{
		{"write", "c", "--stepper", "--port", "PORTB", "--out", name("new.c")},
		{"write", "c", "--stepper", "--port", "PORTB", "--force", "--out", name("old.c")},
		{"write", "card", "--out", name("card.png")},
		{"rates", "--motor", "hybrid-4", "--plot", name("curves.svg")},
	} {
		shell, all := cramped(reckoner, args...)
		c := exec.Command(shell, all...)
		said, _ := c.CombinedOutput()
		file := args[len(args)-1]
		if want := "coilwalk: " + file + ": could not be written: file too large\n"; c.ProcessState.ExitCode() != 2 || string(said) != want {
			t.Errorf("%v: %v, said %q, want %q", args, c.ProcessState, said, want)
		}
	}
	isAll(t, folder, map[string]string{"old.c": "old\n"})
}

// isAll wants a folder to hold these files, and nothing else.
func isAll(t *testing.T, folder string, want map[string]string) {
	t.Helper()
	entries, err := os.ReadDir(folder)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		text, _ := os.ReadFile(filepath.Join(folder, e.Name()))
		if old, there := want[e.Name()]; !there || old != string(text) {
			t.Errorf("%s was left with %d bytes", e.Name(), len(text))
		}
	}
	if len(entries) < len(want) {
		t.Errorf("%d files are left of %d", len(entries), len(want))
	}
}

// Take Along on a disk that fills up: the screen says so and goes on.
func TestSavingOnADiskThatFillsUp(t *testing.T) {
	t.Parallel()
	folder := t.TempDir()
	shell, all := cramped(reckoner)
	x := open(t, shell, 120, 36, all...)
	x.shows("row  1 of 8")
	x.press("A")
	x.shows("[Take Along]", "vent-flap.c")
	const down = "\x1b[B"
	x.press(down + down + right + down + enter + "PORTB" + enter)
	x.shows("PORTB bit 3")
	x.press("s")
	x.shows("save it to which file?")
	x.press(folder + "/flap.c" + enter)
	x.shows("could not be written: file too large")
	x.press(escape)
	x.shows("q quit")
	x.press("W")
	x.shows("[Walk]")
	x.press("q")
	if status := x.ends(); status != 0 {
		t.Errorf("status %d", status)
	}
	x.isRestored()
	isAll(t, folder, nil)
}

// A sitting is recorded until the disk is full. The screen says so, the motor goes
// on, the end is status 2 with a sentence, and what was kept can be read.
func TestRecordOnADiskThatFillsUp(t *testing.T) {
	t.Parallel()
	sitting := filepath.Join(t.TempDir(), "sitting.vcd")
	shell, all := cramped(binary, "live", "--rehearse", "--record", sitting)
	x := open(t, shell, 120, 36, all...)
	x.shows("REHEARSAL off")
	x.press("a")
	x.shows("type on and press enter")
	time.Sleep(400 * time.Millisecond) // no hand is quicker
	x.press("on" + enter)
	x.shows("REHEARSAL armed")
	x.press("p200" + enter + enter)
	x.shows("the record of the sitting could not be written: file too large; the motor goes on without it", "REHEARSAL runs")
	x.press(" ")
	x.shows("REHEARSAL off")
	x.press("q")
	if status := x.ends(); status != 2 {
		t.Errorf("status %d", status)
	}
	x.isRestored()
	if want := "coilwalk: the record of the sitting could not be written: file too large\n"; x.errs.String() != want {
		t.Errorf("said %q, want %q", x.errs.String(), want)
	}
	if r := call(t, "", "read", sitting); r.status > 1 || !strings.Contains(r.out, "wave  forward") && !strings.Contains(r.out, "half  forward") {
		t.Errorf("status %d; what was kept can not be read: %s%s", r.status, r.out, r.errs)
	}
}

// A fault of ours when there is no room for the crash file: status 3 and a line that
// promises no file. And none is left that holds half.
func TestFaultOfOursOnAFullDisk(t *testing.T) {
	t.Parallel()
	folder := t.TempDir()
	for _, c := range []struct{ temporary, most, why string }{
		{filepath.Join(folder, "gone"), "unlimited", "no such file or directory"},
		{folder, "0", "file too large"},
	} {
		broken := exec.Command("/bin/sh", "-c", `ulimit -f `+c.most+`; exec "$@"`, "sh", os.Args[0])
		broken.Env = append(os.Environ(), faultyCall+"=yes", "TMPDIR="+c.temporary)
		var errs strings.Builder
		broken.Stderr = &errs
		if err := broken.Run(); broken.ProcessState.ExitCode() != exitOurs {
			t.Errorf("status %d, %v", broken.ProcessState.ExitCode(), err)
		}
		if said := errs.String(); strings.Count(said, "\n") != 1 || !strings.Contains(said, "a fault for the test; where it was could not be kept: ") || !strings.Contains(said, c.why) {
			t.Errorf("said %q, and not %q", said, c.why)
		}
	}
	isAll(t, folder, nil)
}

// nobody is a user whom permissions stop.
const nobody = 65534

// asNobody makes a call by a user who is not root, where the tests are root's.
func asNobody(t *testing.T, c *exec.Cmd) {
	t.Helper()
	if os.Getuid() != 0 {
		return
	}
	if err := os.Chmod(filepath.Dir(reckoner), 0o755); err != nil {
		t.Fatal(err)
	}
	if c.SysProcAttr == nil {
		c.SysProcAttr = new(syscall.SysProcAttr)
	}
	c.SysProcAttr.Credential = &syscall.Credential{Uid: nobody, Gid: nobody}
}

// A folder that may not be written in, and a file that may not be read: a sentence,
// status 2, and everything as it was.
func TestPermissions(t *testing.T) {
	folder, err := os.MkdirTemp("", "coilwalk-test-") // t.TempDir lies in a folder that only its owner may enter
	if err != nil {
		t.Fatal(err)
	}
	defer os.RemoveAll(folder)
	name := func(file string) string { return filepath.Join(folder, file) }
	write(t, name("old.c"), "old\n")
	write(t, name("secret.toml"), "secret\n")
	if err := os.Chmod(name("secret.toml"), 0); err != nil {
		t.Fatal(err)
	}
	if err := os.Chmod(folder, 0o555); err != nil {
		t.Fatal(err)
	}
	defer os.Chmod(folder, 0o755)
	for _, c := range []struct {
		in, says string
		args     []string
	}{
		{"", "new.c: could not be written: permission denied", []string{"write", "c", "--out", name("new.c")}},
		{"", "old.c: could not be written: permission denied", []string{"write", "c", "--force", "--out", name("old.c")}},
		{"", "curves.svg: could not be written: permission denied", []string{"rates", "--motor", "hybrid-4", "--plot", name("curves.svg")}},
		{strings.Join([]string{"", "", "", "5", "brown WHT GN GY", "VT", "32", "", "WH BN GN GY", "", "", "", ""}, "\n") + "\n", "mine.toml: could not be written: permission denied", []string{"motors", "new", name("mine.toml")}},
		{"", "secret.toml: could not be opened: permission denied", []string{"order", "--motor", name("secret.toml")}},
		{"", "secret.toml: could not be opened: permission denied", []string{"check", name("secret.toml")}},
		{"", "secret.toml: could not be opened: permission denied", []string{"read", name("secret.toml")}},
		{"", "secret.toml: could not be opened: permission denied", []string{"leads", name("secret.toml")}},
	} {
		cmd, errs := printer(c.args)
		cmd.Stdin = strings.NewReader(c.in)
		asNobody(t, cmd)
		if status := endsAs(t, cmd); status != 2 || !strings.Contains(errs.String(), c.says) || strings.Count(errs.String(), "\n") != 1 {
			t.Errorf("%v: status %d, said %q", c.args, status, errs)
		}
	}
	entries, err := os.ReadDir(folder)
	if err != nil || len(entries) != 2 {
		t.Errorf("%v: the folder holds %v", err, entries)
	}
	if text, err := os.ReadFile(name("old.c")); err != nil || string(text) != "old\n" {
		t.Errorf("%v: the old file holds %q", err, text)
	}
}

// A record of a sitting in a folder that may not be written in: nothing is opened.
func TestRecordWithoutPermission(t *testing.T) {
	folder, err := os.MkdirTemp("", "coilwalk-test-")
	if err != nil {
		t.Fatal(err)
	}
	defer os.RemoveAll(folder)
	if err := os.Chmod(folder, 0o555); err != nil {
		t.Fatal(err)
	}
	x := openAs(t, asNobody, reckoner, 80, 24, "live", "--rehearse", "--record", filepath.Join(folder, "sitting.vcd"))
	if status := x.ends(); status != 2 || !strings.Contains(x.errs.String(), "sitting.vcd: could not be written: permission denied") {
		t.Errorf("status %d, said %q", status, x.errs.String())
	}
}

// Killed at any moment, from the start of the program to its end: the file is the
// old one or the new one, whole. (model/files kills within the writing itself.)
func TestKilledWhileWriting(t *testing.T) {
	t.Parallel()
	folder := t.TempDir()
	file := filepath.Join(folder, "walk.vcd")
	args := func(motor string) []string {
		return []string{"write", "vcd", "--rows", "2000", "--motor", motor, "--force", "--out", file}
	}
	whole := map[string]string{}
	var took time.Duration
	for _, motor := range []string{"vent-flap", "hybrid-8"} {
		start := time.Now()
		if r := call(t, "", args(motor)...); r.status != 0 {
			t.Fatal(r.errs)
		}
		took = time.Since(start)
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		whole[string(text)] = motor
	}
	const moments = 80
	seen := map[string]int{}
	for k := range moments {
		motor := []string{"vent-flap", "hybrid-8"}[k%2]
		c := exec.Command(reckoner, args(motor)...)
		if err := c.Start(); err != nil {
			t.Fatal(err)
		}
		time.Sleep(took * time.Duration(2*k) / moments)
		_ = c.Process.Kill()
		_ = c.Wait()
		text, err := os.ReadFile(file)
		if err != nil || whole[string(text)] == "" {
			t.Fatalf("killed at moment %d: %v, the file holds %d bytes, neither the old nor the new ones", k, err, len(text))
		}
		seen[whole[string(text)]]++
	}
	if len(whole) < 2 || len(seen) < 2 {
		t.Errorf("the file was %v: it was never killed both too early and too late", seen)
	}
}

// A file that can not be read on in the middle, as from a disk that breaks.
func TestReadingThatFails(t *testing.T) {
	t.Parallel()
	for _, args := range readers {
		call(t, "", with("/proc/self/mem", args)...).complains(t, "/proc/self/mem: could not be read: input/output error")
	}
}
