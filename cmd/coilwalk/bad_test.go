package main

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode"
)

// badFolders are the corpora of bad files below testdata, with the call that reads
// one: its name comes last.
var badFolders = []struct {
	folder string
	args   []string
	sound  []string // files that can be read, and are told otherwise
}{
	{"tables/bad", []string{"check"}, nil},
	{"recordings/broken", []string{"read", "--pins", "two-line"}, nil},
	{"motors/bad", []string{"motors", "check"}, nil},
	{"bad/stages", []string{"power", "--supply", "5V", "--stage"}, nil},
	{"bad/readings", []string{"leads"}, nil},
	{"bad/answers", []string{"leads", "--ends", "BN,WH,GN,GY", "--common", "VT", "--answers"}, nil},
	{"bad/symptoms", []string{"faults"}, nil},
	{"bad/intervals", []string{"write", "c", "--stepper", "--port", "PORTB", "--ramp"}, nil},
}

// badCalls gives every call with bad input that the corpus holds.
func badCalls(tb testing.TB) (calls [][]string) {
	tb.Helper()
	for _, f := range badFolders {
		names, err := filepath.Glob(filepath.Join(f.folder, "*"))
		if err != nil || len(names) < 10 {
			tb.Fatalf("%s: %d files, %v", f.folder, len(names), err)
		}
		for _, name := range names {
			if filepath.Ext(name) != ".want" && !slices.Contains(f.sound, filepath.Base(name)) {
				calls = append(calls, append(slices.Clone(f.args), filepath.ToSlash(name)))
			}
		}
	}
	return append(calls, commandLines(tb, "bad/commands.txt")...)
}

// commandLines reads command lines, a line each, words with blanks in quotes.
func commandLines(tb testing.TB, name string) (lines [][]string) {
	tb.Helper()
	text, err := os.ReadFile(name)
	if err != nil {
		tb.Fatal(err)
	}
	r := csv.NewReader(bytes.NewReader(text))
	r.Comma, r.Comment, r.FieldsPerRecord = ' ', '#', -1
	if lines, err = r.ReadAll(); err != nil {
		tb.Fatal(err)
	}
	return lines
}

// Every bad input of the corpus, with what the real program says to it: one golden,
// to be read as a whole. COILWALK_RECORD=1 writes it anew: then read it.
func TestMessages(t *testing.T) {
	t.Chdir(filepath.Join("..", "..", "testdata"))
	var all strings.Builder
	for _, args := range badCalls(t) {
		r := call(t, "", args...)
		shown := strings.Join(args, " ")
		if r.status != exitInput || r.out != "" && args[0] != "motors" || !strings.HasSuffix(r.errs, "\n") {
			t.Errorf("%s: status %d, want 2; %.200q on standard output, %q on standard error", shown, r.status, r.out, r.errs)
		}
		message := strings.TrimSuffix(r.errs, "\n")
		if why := unclear(message); why != "" {
			t.Errorf("%s: %s: %s", shown, why, message)
		}
		fmt.Fprintf(&all, "%s\n    %s\n", shown, message)
	}
	const golden = "bad/messages.txt"
	if os.Getenv("COILWALK_RECORD") != "" {
		if err := os.WriteFile(golden, []byte(all.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if string(want) != all.String() {
		t.Errorf("the messages are not as recorded in testdata/%s:\n%s", golden, firstDifference(string(want), all.String()))
	}
}

// innards are words of a library's or of the language's own, that help nobody at a
// bench.
var innards = []string{"strconv", "unmarshal", "EOF", "nil", "interface", "regexp", "invalid syntax", "goroutine", "runtime", "panic", "toml:", "csv:", "bufio", "%!", "parse error", "0x0", "<no value>",
	"int64", "float64", "errno", "syscall"}

var quoted = regexp.MustCompile(`"(?:[^"\\]|\\.)*"`)

// unclear says what is wrong with the form of a message: it is one line of plain
// characters, of our own words, and not endless; "" when nothing is.
func unclear(message string) string {
	said, ours := strings.CutPrefix(message, "coilwalk: ")
	switch {
	case !ours || strings.TrimSpace(said) == "":
		return "says nothing"
	case strings.ContainsFunc(message, steers):
		return "could steer a terminal, or is more than one line"
	case len([]rune(message)) > 700:
		return "is too long to be read"
	case strings.Contains(said, "coilwalk: "):
		return "begins twice"
	}
	own := quoted.ReplaceAllString(said, "") // what a person wrote may be anything
	for _, word := range innards {
		if contains(own, word) {
			return "holds " + word
		}
	}
	return ""
}

// contains says whether a text holds a word that no letter goes on, and that is not
// the end of a file's name.
func contains(text, word string) bool {
	for from := 0; ; {
		at := strings.Index(text[from:], word)
		if at < 0 {
			return false
		}
		at += from
		before, after := []rune(text[:at]), []rune(text[at+len(word):])
		if (len(before) == 0 || !unicode.IsLetter(before[len(before)-1]) && before[len(before)-1] != '.') && (len(after) == 0 || !unicode.IsLetter(after[0])) {
			return true
		}
		from = at + len(word)
	}
}

// steers says whether a character could steer a terminal, or hide what a text
// says: control characters, marks of direction and of no width, line ends.
func steers(r rune) bool {
	return unicode.In(r, unicode.Cc, unicode.Cf, unicode.Zl, unicode.Zp) && r != 0xad
}

// firstDifference gives the first line in which two texts differ, in both.
func firstDifference(want, got string) string {
	w, g := strings.Split(want, "\n"), strings.Split(got, "\n")
	for k := range max(len(w), len(g)) {
		a, b := "(nothing)", "(nothing)"
		if k < len(w) {
			a = w[k]
		}
		if k < len(g) {
			b = g[k]
		}
		if a != b {
			return fmt.Sprintf("line %d was\n%s\nand is\n%s", k+1, a, b)
		}
	}
	return ""
}

// A message that is unclear is told from one that is not.
func TestUnclear(t *testing.T) {
	for message, clear := range map[string]bool{
		"coilwalk: a.csv:3: \"x\" is no lead; BN is": true,
		"a.csv:3: no":                                    false,
		"coilwalk: ":                                     false,
		"coilwalk: a\nb":                                 false,
		"coilwalk: a\x1b[2Jb":                            false,
		"coilwalk: a\u202eb":                             false,
		"coilwalk: a\u200bb":                             false,
		"coilwalk: a\u009bb":                             false,
		"coilwalk: unexpected EOF":                       false,
		"coilwalk: strconv.Atoi: x":                      false,
		"coilwalk: the nilometer":                        true,
		"coilwalk: " + strings.Repeat("long ", 200):      false,
		"coilwalk: coilwalk: twice":                      false,
		"coilwalk: there is no file; its name is wanted": true,
	} {
		if why := unclear(message); (why == "") != clear {
			t.Errorf("%q: %q", message, why)
		}
	}
}
