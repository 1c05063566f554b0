//go:build ignore

// Fuzz runs fuzz targets and measures them, each in one process at a time, so
// that the memory told is that of one reader.
//
//	go run .ci/fuzz.go [-each 10m] [TARGET...]
package main

import (
	"bytes"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"syscall"
	"time"
)

// A target is one function that is fuzzed.
type target struct {
	folder  string // of its package, from the root of the tree
	pack    string // the folder's last name
	fuzzing string
}

func (t target) String() string { return t.pack + "." + t.fuzzing }

func main() {
	each := flag.Duration("each", 10*time.Minute, "how long to fuzz each `target`")
	flag.Parse()
	all, err := targets()
	if err == nil {
		all, err = chosen(all, flag.Args())
	}
	if err == nil {
		err = run(all, *each)
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, "fuzz:", err)
		os.Exit(1)
	}
}

var declared = regexp.MustCompile(`(?m)^func (Fuzz\w+)\(f \*testing\.F\)`)

// targets finds every fuzz target of the tree.
func targets() (all []target, err error) {
	for _, root := range []string{"sequence", "model", "view", "cmd"} {
		err = filepath.WalkDir(root, func(path string, _ os.DirEntry, err error) error {
			if err != nil || !strings.HasSuffix(path, "_test.go") {
				return err
			}
			text, err := os.ReadFile(path)
			for _, m := range declared.FindAllSubmatch(text, -1) {
				folder := filepath.Dir(path)
				all = append(all, target{folder, filepath.Base(folder), string(m[1])})
			}
			return err
		})
		if err != nil {
			return nil, err
		}
	}
	return all, nil
}

// chosen gives those that are named; all when none is.
func chosen(all []target, names []string) (some []target, err error) {
	if len(names) == 0 {
		return all, nil
	}
	for _, name := range names {
		before := len(some)
		for _, t := range all {
			if name == t.fuzzing || name == t.String() {
				some = append(some, t)
			}
		}
		if len(some) == before {
			return nil, fmt.Errorf("there is no target %s; there are %v", name, all)
		}
	}
	return some, nil
}

func run(all []target, each time.Duration) error {
	programs, err := os.MkdirTemp("", "coilwalk-fuzz-")
	if err != nil {
		return err
	}
	defer os.RemoveAll(programs)
	cache, err := exec.Command("go", "env", "GOCACHE").Output()
	if err != nil {
		return err
	}
	var failed []string
	var built []string
	for _, t := range all {
		program := filepath.Join(programs, strings.ReplaceAll(t.folder, "/", "-"))
		if !slices.Contains(built, program) {
			// -fuzz has the compiler count which branches an input takes.
			out, err := exec.Command("go", "test", "-c", "-vet=off", "-fuzz", "Fuzz", "-o", program, "./"+t.folder).CombinedOutput()
			if err != nil {
				return fmt.Errorf("%s: %v\n%s", t.folder, err, out)
			}
			built = append(built, program)
		}
		kept := filepath.Join(strings.TrimSpace(string(cache)), "fuzz", "coilwalk", t.folder)
		c := exec.Command(program, "-test.run=^$", "-test.fuzz=^"+t.fuzzing+"$", "-test.fuzztime="+each.String(), "-test.fuzzminimizetime=5s",
			"-test.parallel=1", "-test.fuzzcachedir="+kept)
		c.Dir = t.folder
		began := time.Now()
		out, err := c.CombinedOutput()
		fmt.Println(line(t, out, time.Since(began), c.ProcessState))
		if err != nil && !timeUp.Match(out) {
			fmt.Printf("%s\n", out)
			failed = append(failed, t.String())
		}
	}
	if failed != nil {
		return fmt.Errorf("failed: %s", strings.Join(failed, ", "))
	}
	return nil
}

// timeUp is all that the fuzzer itself says when its time ends while a worker is at
// an input: no input has failed. (Go 1.26, as seen here.)
var timeUp = regexp.MustCompile(`--- FAIL: Fuzz\w+ \([0-9.]+s\)\n    context deadline exceeded\nFAIL\s*$`)

var progress = regexp.MustCompile(`execs: (\d+) .*new interesting: (\d+) \(total: (\d+)\)`)

// line tells of a run by the last that it said of itself.
func line(t target, out []byte, took time.Duration, ended *os.ProcessState) string {
	told := fmt.Sprintf("%-22s %6.0f s", t, took.Seconds())
	if used, ok := ended.SysUsage().(*syscall.Rusage); ok {
		told += fmt.Sprintf(" %5d MB", used.Maxrss>>10) // of itself and its workers; in kB on Linux
	}
	if m := progress.FindAllSubmatch(bytes.TrimSpace(out), -1); m != nil {
		last := m[len(m)-1]
		told += fmt.Sprintf(" %9s executions, %s new inputs of %s", last[1], last[2], last[3])
	}
	return told
}
