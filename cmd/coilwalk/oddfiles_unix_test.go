//go:build linux || darwin

package main

import (
	"os"
	"path/filepath"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"
)

// readers are the ways in which a file is read; FILE stands for it.
var readers = [][]string{
	{"read", "FILE"}, {"check", "FILE"}, {"leads", "FILE"}, {"faults", "FILE"}, {"order", "--motor", "FILE"}, {"power", "--stage", "FILE"},
	{"leads", "--coils", "BK/GN,TQ/BN", "--answers", "FILE"}, {"motors", "check", "FILE"}, {"write", "c", "--stepper", "--ramp", "FILE"}, {"--plain", "FILE"},
}

func with(file string, args []string) []string {
	given := append([]string(nil), args...)
	for k := range given {
		given[k] = strings.ReplaceAll(given[k], "FILE", file)
	}
	return given
}

// What is no file: one sentence and status 2, whatever would read it.
func TestWhatIsNoFile(t *testing.T) {
	t.Parallel()
	folder := t.TempDir()
	name := func(file string) string { return filepath.Join(folder, file) }
	for link, to := range map[string]string{"dangling": "gone", "ring": "ring", "into": "plain/x"} {
		if err := os.Symlink(name(to), name(link)); err != nil {
			t.Fatal(err)
		}
	}
	write(t, name("plain"), "")
	for file, says := range map[string]string{
		folder: "this is a folder", name("missing"): "there is no such file", name("dangling"): "there is no such file",
		name("ring"): "too many levels of symbolic links", name("into"): "not a directory",
	} {
		for _, args := range readers {
			call(t, "", with(file, args)...).complains(t, says)
		}
	}
	for _, args := range readers {
		if args[0] != "faults" && !strings.Contains(strings.Join(args, " "), "--answers") { // none noted yet is a beginning
			call(t, "", with("/dev/null", args)...).complains(t, "/dev/null")
		}
	}
}

// A pipe is read as a file is, by the commands; the screen, which looks first what a
// file holds, refuses it before it takes anything of it, or waits.
func TestNamedPipe(t *testing.T) {
	t.Parallel()
	motorFile := call(t, "", "motors", "show", "hybrid-4", "--toml").out
	for _, c := range []struct {
		text string
		args []string
	}{
		{string(longRecording(100_000)), []string{"read", "FILE"}},
		{"1010\n0110\n0101\n1001\n", []string{"check", "FILE"}},
		{"BN,VT,52\nWH,VT,51\n", []string{"leads", "FILE"}},
		{motorFile, []string{"order", "--motor", "FILE"}},
	} {
		pipe := filepath.Join(t.TempDir(), "it") // answers name the file
		if err := syscall.Mkfifo(pipe, 0o600); err != nil {
			t.Fatal(err)
		}
		fed := make(chan error, 1)
		go func() { fed <- os.WriteFile(pipe, []byte(c.text), 0) }()
		piped := call(t, "", with(pipe, c.args)...)
		if err := <-fed; err != nil {
			t.Error(err)
		}
		if err := os.Remove(pipe); err != nil {
			t.Fatal(err)
		}
		write(t, pipe, c.text)
		if plain := call(t, "", with(pipe, c.args)...); piped != plain || plain.status > 1 {
			t.Errorf("%v: by a pipe status %d, %s%s\nby a file status %d, %s%s", c.args, piped.status, piped.out, piped.errs, plain.status, plain.out, plain.errs)
		}
	}
	pipe := filepath.Join(t.TempDir(), "pipe")
	if err := syscall.Mkfifo(pipe, 0o600); err != nil {
		t.Fatal(err)
	}
	x := open(t, reckoner, 80, 24, pipe)
	if status := x.ends(); status != 2 || !strings.Contains(x.errs.String(), "is read only once; a plain file is wanted here") {
		t.Errorf("status %d, said %q", status, x.errs.String())
	}
}

// A recording that is still being written: what there is gets read, to an end, also
// where it ends in the middle of a line.
func TestRecordingThatGrows(t *testing.T) {
	t.Parallel()
	file := filepath.Join(t.TempDir(), "grows.vcd")
	text := longRecording(6_000_000)
	write(t, file, string(text[:3_000_000]))
	f, err := os.OpenFile(file, os.O_WRONLY|os.O_APPEND, 0)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	done := make(chan struct{})
	var wait sync.WaitGroup
	wait.Add(1)
	go func() {
		defer wait.Done()
		for rest := text[3_000_000:]; len(rest) > 5000; rest = rest[4999:] {
			select {
			case <-done:
				return
			case <-time.After(time.Millisecond):
				_, _ = f.Write(rest[:4999])
			}
		}
	}()
	for range 5 {
		if r := call(t, "", "read", file); r.status != 0 || !strings.Contains(r.out, "wave  forward") {
			t.Errorf("status %d: %s%s", r.status, r.out, r.errs)
		}
	}
	close(done)
	wait.Wait()
}

// In the explorer a recording is read beside the screen. It may be cut short,
// removed or replaced meanwhile: what was opened is read on, as far as it goes, and
// the screen lives.
func TestRecordingThatChangesBesideTheScreen(t *testing.T) {
	t.Parallel()
	text := string(longRecording(40_000_000))
	for name, happens := range map[string]func(file string) error{
		"cut":      func(file string) error { return os.Truncate(file, 1000) },
		"emptied":  func(file string) error { return os.Truncate(file, 0) },
		"removed":  os.Remove,
		"replaced": func(file string) error { return os.Rename(file+".other", file) },
		"grown": func(file string) error {
			f, err := os.OpenFile(file, os.O_WRONLY|os.O_APPEND, 0)
			if err == nil {
				_, err = f.WriteString("#999999999999\n")
				f.Close()
			}
			return err
		},
	} {
		if os.Getenv("COILWALK_RACE") != "" && name != "cut" && name != "grown" { // the others go the same ways
			continue
		}
		t.Run(name, func(t *testing.T) {
			file := filepath.Join(t.TempDir(), "pins.vcd")
			write(t, file, text)
			write(t, file+".other", "nothing of the kind\n")
			x := open(t, binary, 80, 24, file)
			x.shows("[ReCording]")
			if err := happens(file); err != nil {
				t.Fatal(err)
			}
			text := x.shows("sound: wave drive")
			if strings.Contains(text, "101 %") {
				t.Error(text)
			}
			x.press(right)
			x.press("W" + right)
			x.shows("[Walk]", "row  2 of")
			x.press("q")
			if status := x.ends(); status != 0 {
				t.Errorf("status %d: %s", status, x.errs.String())
			}
			x.isRestored()
		})
	}
}
