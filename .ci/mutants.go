//go:build ignore

// Mutants runs the tests of packages against small changes of their code, one at
// a time: a test suite that bites fails on each. The changes are those that
// gremlins lists; they are laid over the tree when it is built, so that no file
// of it is ever touched, and those in the conditions of cases, which gremlins can
// not run for want of their coverage, are run too.
//
//	go run .ci/mutants.go [-sample N] [-workers N] PACKAGE...
//
// What was found is kept by the text of the package and of the change, in the
// user's cache folder, so that a run may be broken off and gone on with.
package main

import (
	"bufio"
	"bytes"
	"crypto/sha256"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
)

const (
	gremlins    = "github.com/go-gremlins/gremlins/cmd/gremlins@v0.6.0"
	equivalents = ".ci/equivalent.txt"
)

// A mutant is one operator of a line, written otherwise.
type mutant struct {
	file       string // from the root of the tree
	line       int
	was, is    string // the line
	text       []byte // the whole file, changed
	equivalent bool
	outcome    string
}

func (m mutant) String() string {
	return fmt.Sprintf("%s:%d\n\t- %s\n\t+ %s", m.file, m.line, m.was, m.is)
}

// swaps are what gremlins makes of an operator, by its kind.
var swaps = map[string]map[string]string{
	"CONDITIONALS_BOUNDARY": {"<": "<=", "<=": "<", ">": ">=", ">=": ">"},
	"CONDITIONALS_NEGATION": {"==": "!=", "!=": "==", "<": ">=", ">=": "<", ">": "<=", "<=": ">"},
	"ARITHMETIC_BASE":       {"+": "-", "-": "+", "*": "/", "/": "*", "%": "*"},
	"INCREMENT_DECREMENT":   {"++": "--", "--": "++"},
	"INVERT_NEGATIVES":      {"-": "+"},
}

var found = regexp.MustCompile(`(?:RUNNABLE|NOT COVERED) ([A-Z_]+) at (\S+):(\d+):(\d+)`)

func main() {
	sample := flag.Int("sample", 0, "run so many of a package's mutants, drawn by a fixed seed; 0 for all")
	workers := flag.Int("workers", 2, "so many at a time")
	flag.Parse()
	same, err := readEquivalents()
	if err == nil {
		for _, pkg := range flag.Args() {
			if err = run(pkg, same, *sample, *workers); err != nil {
				break
			}
		}
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

// readEquivalents reads the changes that change nothing: file, line, changed line
// and why, a tab between.
func readEquivalents() (map[string]bool, error) {
	text, err := os.ReadFile(equivalents)
	if err != nil {
		return nil, err
	}
	same := map[string]bool{}
	for i, line := range strings.Split(string(text), "\n") {
		if line == "" || strings.HasPrefix(line, "#") {
			continue
		}
		parts := strings.Split(line, "\t")
		if len(parts) != 4 || parts[3] == "" {
			return nil, fmt.Errorf("%s:%d: a file, a line, the line changed, and why are wanted, with a tab between", equivalents, i+1)
		}
		same[strings.Join(parts[:3], "\t")] = true
	}
	return same, nil
}

func run(pkg string, same map[string]bool, sample, workers int) error {
	all, err := list(pkg, same)
	if err != nil {
		return err
	}
	total := len(all)
	if sample > 0 && sample < total {
		draw := rand.New(rand.NewPCG(1, 1))
		draw.Shuffle(total, func(i, k int) { all[i], all[k] = all[k], all[i] })
		all = all[:sample]
	}
	kept, err := open(pkg)
	if err != nil {
		return err
	}
	defer kept.file.Close()
	first, err := quick(pkg)
	if err != nil {
		return err
	}
	var jobs sync.WaitGroup
	next := make(chan *mutant)
	for range workers {
		jobs.Go(func() {
			for m := range next {
				m.outcome = kept.of(m, func() string { return try(pkg, first, m) })
				if m.outcome != "killed" && m.outcome != "loops" && m.outcome != "no program" {
					fmt.Println(m.outcome, m)
				}
			}
		})
	}
	for i := range all {
		if !all[i].equivalent {
			next <- &all[i]
		}
	}
	close(next)
	jobs.Wait()
	return tell(pkg, all, total)
}

// list asks gremlins for the mutants of a package.
func list(pkg string, same map[string]bool) ([]mutant, error) {
	cmd := exec.Command("go", "run", gremlins, "unleash", "--dry-run", "./"+pkg)
	cmd.Stderr = os.Stderr
	out, err := cmd.Output()
	if err != nil {
		return nil, err
	}
	var all []mutant
	seen := map[string]bool{}
	for _, m := range found.FindAllStringSubmatch(string(out), -1) {
		var line, column int
		fmt.Sscan(m[3]+" "+m[4], &line, &column)
		x, err := change(filepath.Join(pkg, m[2]), line, column, swaps[m[1]])
		if err != nil {
			return nil, fmt.Errorf("%s %w", m[0], err)
		}
		if key := fmt.Sprint(x.file, line, x.is); !seen[key] { // a sign is told twice
			seen[key] = true
			x.equivalent = same[x.file+"\t"+x.was+"\t"+x.is]
			all = append(all, x)
		}
	}
	slices.SortFunc(all, func(a, b mutant) int { return strings.Compare(a.String(), b.String()) })
	return all, nil
}

func change(file string, line, column int, swap map[string]string) (mutant, error) {
	text, err := os.ReadFile(file)
	if err != nil {
		return mutant{}, err
	}
	lines := strings.SplitAfter(string(text), "\n")
	was := lines[line-1]
	for _, long := range []int{2, 1} {
		if end := column - 1 + long; end <= len(was) {
			if by, ok := swap[was[column-1:end]]; ok {
				is := was[:column-1] + by + was[end:]
				changed := strings.Join(lines[:line-1], "") + is + strings.Join(lines[line:], "")
				return mutant{file: file, line: line, was: strings.TrimSpace(was), is: strings.TrimSpace(is), text: []byte(changed)}, nil
			}
		}
	}
	return mutant{}, fmt.Errorf("no such operator in %q", was)
}

// few draws kill most.
var few = []string{"COILWALK_RACE=1", "RAPID_CHECKS=20"}

var passed = regexp.MustCompile(`(?m)^--- PASS: (\w+) \(0\.0\ds\)`)

// quick gives a pattern of the tests that take no tenth of a second, which kill
// most in no time.
func quick(pkg string) (pattern string, err error) {
	cmd := exec.Command("go", "test", "-v", "-vet=off", "-count=1", "./"+pkg)
	cmd.Env = append(os.Environ(), few...)
	out, err := cmd.Output()
	if err != nil {
		return "", fmt.Errorf("the tests of %s fail without a change: %w", pkg, err)
	}
	var names []string
	for _, m := range passed.FindAllStringSubmatch(string(out), -1) {
		names = append(names, m[1])
	}
	return "^(" + strings.Join(names, "|") + ")$", nil
}

// try runs the tests on a mutant: the first with few draws, then all so, then in full.
func try(pkg, first string, m *mutant) string {
	folder, err := os.MkdirTemp("", "mutant-")
	if err != nil {
		return err.Error()
	}
	defer os.RemoveAll(folder)
	changed, overlay := filepath.Join(folder, "changed.go"), filepath.Join(folder, "overlay.json")
	root, _ := os.Getwd()
	table, _ := json.Marshal(map[string]map[string]string{"Replace": {filepath.Join(root, m.file): changed}})
	if err := errors.Join(os.WriteFile(changed, m.text, 0o600), os.WriteFile(overlay, table, 0o600)); err != nil {
		return err.Error()
	}
	for _, pass := range []struct {
		seconds int
		tests   string
		draws   []string
	}{{10, first, few}, {25, ".", few}, {25, ".", nil}} {
		// A limit of the processor's own time, several times what the tests need: only a
		// loop lasts longer, however busy the machine is. One that waits takes none, and
		// is given minutes.
		cmd := exec.Command("bash", "-c", fmt.Sprintf(`ulimit -t %d && exec "$@"`, pass.seconds), "go",
			"go", "test", "-vet=off", "-failfast", "-count=1", "-timeout=3m", "-ldflags=-s -w", "-overlay="+overlay, "-run="+pass.tests, "./"+pkg)
		cmd.Env = append(append(os.Environ(), "GOMEMLIMIT=1500MiB", "RAPID_NOFAILFILE=true"), pass.draws...)
		out, err := cmd.CombinedOutput()
		switch {
		case err == nil:
			continue
		case bytes.Contains(out, []byte("[build failed]")):
			return "no program"
		case bytes.Contains(out, []byte("signal: killed")), bytes.Contains(out, []byte("test timed out")): // it computes for ever, or waits
			return "loops"
		}
		return "killed"
	}
	return "lived"
}

// outcomes are what was found before, by package and change.
type outcomes struct {
	sync.Mutex
	by   map[string]string
	file *os.File
	pkg  []byte // a hash of the package's text
}

func open(pkg string) (*outcomes, error) {
	cache, err := os.UserCacheDir()
	if err != nil {
		return nil, err
	}
	folder := filepath.Join(cache, "coilwalk-mutants")
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return nil, err
	}
	o := &outcomes{by: map[string]string{}}
	if o.file, err = os.OpenFile(filepath.Join(folder, strings.ReplaceAll(pkg, "/", "-")), os.O_CREATE|os.O_APPEND|os.O_RDWR, 0o644); err != nil {
		return nil, err
	}
	for lines := bufio.NewScanner(o.file); lines.Scan(); {
		if key, outcome, ok := strings.Cut(lines.Text(), " "); ok {
			o.by[key] = outcome
		}
	}
	files, err := filepath.Glob(filepath.Join(pkg, "*.go"))
	if err != nil {
		return nil, err
	}
	h := sha256.New()
	for _, file := range files {
		if strings.HasSuffix(file, "_test.go") {
			continue // better tests kill more: what was killed stays killed
		}
		text, err := os.ReadFile(file)
		if err != nil {
			return nil, err
		}
		h.Write(text)
	}
	o.pkg = h.Sum(nil)
	return o, nil
}

// of gives what is known of a mutant, or finds it out. One that lived is always
// tried again.
func (o *outcomes) of(m *mutant, find func() string) string {
	key := fmt.Sprintf("%x", sha256.Sum256(append(o.pkg, m.text...)))
	o.Lock()
	known := o.by[key]
	o.Unlock()
	if known == "killed" || known == "loops" || known == "no program" {
		return known
	}
	outcome := find()
	o.Lock()
	defer o.Unlock()
	fmt.Fprintln(o.file, key, outcome)
	return outcome
}

func tell(pkg string, all []mutant, total int) error {
	count := map[string]int{}
	for _, m := range all {
		switch {
		case m.equivalent:
			count["equivalent"]++
		default:
			count[m.outcome]++
		}
	}
	dead := count["killed"] + count["loops"]
	fmt.Printf("| %s | %d of %d | %d | %d | %d | %d | %.1f %% |\n", pkg, len(all)-count["no program"], total, count["killed"], count["loops"], count["lived"],
		count["equivalent"], 100*float64(dead)/float64(max(1, dead+count["lived"])))
	if odd := len(all) - dead - count["lived"] - count["equivalent"] - count["no program"]; odd > 0 {
		return fmt.Errorf("%s: %d mutants could not be tried", pkg, odd)
	}
	return nil
}
