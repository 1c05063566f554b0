//go:build linux || darwin

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

// Where no file can be made is told before the first question, and before anything is
// reckoned for it; and a folder that is missing comes with what to do.
func TestWhereNoFileCanBe(t *testing.T) {
	t.Parallel()
	folder := t.TempDir()
	name := func(file string) string { return filepath.Join(folder, file) }
	if err := syscall.Mkfifo(name("pipe.svg"), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Mkdir(name("folder.svg"), 0o700); err != nil {
		t.Fatal(err)
	}
	write(t, name("plain"), "kept")
	writers := [][]string{{"motors", "new", "FILE"}, {"motors", "new", "FILE", "--force"}, {"write", "c", "--out", "FILE"}, {"write", "c", "--force", "--out", "FILE"},
		{"rates", "--plot", "FILE"}, {"rates", "--force", "--plot", "FILE"}}
	for file, says := range map[string]string{
		"/dev/full":           "/dev/full: this is a device, not a plain file; it can not be replaced whole; name a file",
		name("pipe.svg"):      "pipe.svg: this is a pipe, not a plain file;",
		name("folder.svg"):    "folder.svg: this is a folder, not a plain file;",
		name("gone/x.svg"):    "gone/x.svg: could not be written: there is no folder " + name("gone") + "; make it first, or choose another",
		name("plain/x.svg"):   "plain/x.svg: could not be written: not a directory",
		"/proc/coilwalk.svg":  "/proc/coilwalk.svg: could not be written: ",
		"/proc/self/coil.svg": "/proc/self/coil.svg: could not be written: ",
	} {
		if _, err := os.Stat(filepath.Dir(filepath.Dir(file))); err != nil { // a system without it
			continue
		}
		for _, args := range writers {
			if file == "/dev/full" {
				if _, err := os.Stat(file); err != nil || args[0] == "rates" { // it has no ending
					continue
				}
			}
			if file == name("gone/x.svg") || !strings.HasPrefix(file, "/proc") || args[0] == "motors" {
				call(t, "", with(file, args)...).complains(t, says)
			}
		}
	}
	if left, err := os.ReadDir(folder); err != nil || len(left) != 3 {
		t.Errorf("%v: the folder holds %v", err, left)
	}
	words := call(t, "newmotor "+name("gone/mine.toml")+"\nnext\n", "--plain")
	if words.status != 0 || !strings.Contains(strings.Join(strings.Fields(words.out), " "), "there is no folder "+name("gone")+"; make it first, or choose another. step 1") {
		t.Errorf("status %d after\n%s%s", words.status, words.out, words.errs)
	}
	x := open(t, reckoner, 80, 24, "live", "--rehearse", "--record", name("gone/sitting.vcd"))
	if status := x.ends(); status != 2 || !strings.Contains(x.errs.String(), "there is no folder "+name("gone")+"; make it first, or choose another") {
		t.Errorf("status %d, said %q", status, x.errs.String())
	}
}

// Standard input, output and error that are closed: the system that Go programs bring
// with them has the null device there, so that no file that is opened later is taken
// for them, and what is read and written is what it is without.
func TestClosedStandards(t *testing.T) {
	t.Parallel()
	folder := t.TempDir()
	name := func(file string) string { return filepath.Join(folder, file) }
	run := func(shuts string, args ...string) result {
		var out, errs strings.Builder
		c := exec.Command("/bin/sh", append([]string{"-c", `exec "$0" "$@" ` + shuts, reckoner}, args...)...)
		c.Stdin, c.Stdout, c.Stderr = strings.NewReader("next\n"), &out, &errs
		status := endsAs(t, c)
		return result{out.String(), errs.String(), status}
	}
	shuts := []string{"", ">&-", "2>&-", "<&-", "<&- >&- 2>&-"}
	for k, how := range shuts {
		file := name(strings.Repeat("x", 1+k) + ".c")
		if r := run(how, "write", "c", "--out", file); r.status != 0 || r.errs != "" {
			t.Errorf("%s: status %d, said %q", how, r.status, r.errs)
		}
		text, err := os.ReadFile(file)
		if err != nil || strings.Count(string(text), "*/") < 1 || strings.Contains(string(text), "ritten") {
			t.Errorf("%s: %v, the file holds\n%s", how, err, text)
		}
		if first, _ := os.ReadFile(name("x.c")); strings.ReplaceAll(string(text), filepath.Base(file), "x.c") != string(first) {
			t.Errorf("%s: the file holds\n%s\nand not\n%s", how, text, first)
		}
	}
	recording := "../../testdata/recordings/flap.vcd"
	want := run("", "read", recording)
	if got := run("<&-", "read", recording); got != want || want.out == "" {
		t.Errorf("without standard input: %+v\nwith it: %+v", got, want)
	}
	if got := run("2>&-", "read", recording); got != want {
		t.Errorf("without standard error: %+v\nwith it: %+v", got, want)
	}
	if before, after := string(readFile(t, recording)), run(">&- 2>&-", "read", recording); after.status != want.status || string(readFile(t, recording)) != before {
		t.Errorf("status %d, or the recording was written into", after.status)
	}
}

func readFile(t *testing.T, name string) []byte {
	t.Helper()
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return text
}

// What is read never comes, as from a pipe that nobody writes into or from a log of
// the system: ctrl+c ends it at once, whatever reads.
func TestReadingIsInterrupted(t *testing.T) {
	t.Parallel()
	pipe := filepath.Join(t.TempDir(), "pipe.toml")
	if err := syscall.Mkfifo(pipe, 0o600); err != nil {
		t.Fatal(err)
	}
	held, err := os.OpenFile(pipe, os.O_RDWR, 0) // so that who opens it gets on to reading
	if err != nil {
		t.Fatal(err)
	}
	defer held.Close()
	quiet := []string{pipe}
	if log, err := os.Open("/proc/kmsg"); err == nil { // what looks like a plain file, and is none
		log.Close()
		quiet = append(quiet, "/proc/kmsg")
	}
	calls := append([][]string{{"order", "--motor", "FILE", "--json"}, {"ramp", "--turn", "90deg", "--rate", "500/s", "--motor", "FILE"}, {"rates", "--stage", "FILE"}}, readers...)
	for _, file := range quiet {
		for _, args := range calls {
			c, errs := printer(with(file, args))
			if err := c.Start(); err != nil {
				t.Fatal(err)
			}
			time.Sleep(slow(300) * time.Millisecond)
			_ = c.Process.Signal(syscall.SIGINT)
			ended := make(chan error, 1)
			go func() { ended <- c.Wait() }()
			select {
			case <-ended:
			case <-time.After(patience):
				_ = c.Process.Kill()
				<-ended
				t.Errorf("%v: ctrl+c did not end it", with(file, args))
			}
			ws, _ := c.ProcessState.Sys().(syscall.WaitStatus)
			byIt := ws.Signaled() && ws.Signal() == syscall.SIGINT || ws.ExitStatus() == 128+int(syscall.SIGINT)
			if refused := strings.Contains(errs.String(), "a plain file is wanted here"); file == pipe && !byIt && !refused || strings.Contains(errs.String(), "goroutine") {
				t.Errorf("%v: %v, said %q", with(file, args), c.ProcessState, errs)
			}
		}
	}
}
