package main

import (
	"bytes"
	"coilwalk/model/handoff"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

// The manual and the completions of shells come of the commands themselves.
// COILWALK_MANUAL=folder keeps them there, dated by SOURCE_DATE_EPOCH.
func TestManual(t *testing.T) {
	folder := os.Getenv("COILWALK_MANUAL")
	if folder == "" {
		folder = t.TempDir()
	}
	date := ""
	if stamp := os.Getenv("SOURCE_DATE_EPOCH"); stamp != "" {
		seconds, err := strconv.ParseInt(stamp, 10, 64)
		if err != nil {
			t.Fatal(err)
		}
		date = time.Unix(seconds, 0).UTC().Format(time.DateOnly)
	}
	p := &program{in: strings.NewReader(""), out: &output{Writer: io.Discard}, errs: io.Discard}
	root := p.root()
	root.InitDefaultVersionFlag()
	manual := filepath.Join(folder, "man1")
	if err := os.MkdirAll(manual, 0o755); err != nil {
		t.Fatal(err)
	}
	each(root, func(c *cobra.Command) {
		if !c.IsAvailableCommand() && c != root {
			return
		}
		c.InitDefaultHelpFlag()
		page := manPage(c, date)
		if err := os.WriteFile(filepath.Join(manual, strings.ReplaceAll(c.CommandPath(), " ", "-")+".1"), []byte(page), 0o644); err != nil {
			t.Fatal(err)
		}
		judgePage(t, c, page)
		if len(sentence.FindAllString(c.Long+"\n", -1)) < 2 {
			t.Errorf("%s: its help does not say in two sentences what it is for", c.CommandPath())
		}
		if !c.HasAvailableSubCommands() && !strings.Contains(c.Example, c.CommandPath()) {
			t.Errorf("%s: no example of it in its help", c.CommandPath())
		}
	})
	for name, make := range map[string]func(io.Writer) error{
		"coilwalk.bash": func(w io.Writer) error { return root.GenBashCompletionV2(w, true) },
		"_coilwalk":     root.GenZshCompletion,
		"coilwalk.fish": func(w io.Writer) error { return root.GenFishCompletion(w, true) },
		"coilwalk.ps1":  root.GenPowerShellCompletionWithDesc,
	} {
		var text bytes.Buffer
		if err := make(&text); err != nil {
			t.Fatal(err)
		}
		shells := filepath.Join(folder, "completions")
		if err := os.MkdirAll(shells, 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(shells, name), text.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

// What help shows of an answer, indented below a command, that command says, but
// for how many blanks stand between.
func TestExamplesSayWhatIsShown(t *testing.T) {
	p := &program{in: strings.NewReader(""), out: &output{Writer: io.Discard}, errs: io.Discard}
	command := regexp.MustCompile(`^  (?:printf '(.*)' \| )?coilwalk (.*)$`)
	shown := 0
	each(p.root(), func(c *cobra.Command) {
		var answer string
		lines := strings.Split(c.Example, "\n")
		for k, line := range lines {
			if m := command.FindStringSubmatch(line); m != nil {
				if k+1 < len(lines) && strings.HasPrefix(lines[k+1], "      ") {
					answer = call(t, strings.ReplaceAll(m[1], `\n`, "\n"), split(m[2])...).out
				}
			} else if strings.HasPrefix(line, "      ") {
				shown++
				if !saysInWords(answer, strings.Join(strings.Fields(line), " ")) {
					t.Errorf("%s: help shows %q, and the answer is\n%s", c.CommandPath(), line, answer)
				}
			}
		}
	})
	if shown < 12 {
		t.Errorf("only %d lines of answers are shown", shown)
	}
}

// sentence is the end of one.
var sentence = regexp.MustCompile(`[.]\s`)

// judgePage looks whether a page says all that there is to say, in roff that can
// not be taken for anything else.
func judgePage(t *testing.T, c *cobra.Command, page string) {
	t.Helper()
	for _, want := range []string{".SH NAME", ".SH SYNOPSIS", ".SH DESCRIPTION", ".SH OPTIONS", ".SH EXIT STATUS", "NO_COLOR", "unplugged"} {
		if !strings.Contains(page, want) {
			t.Errorf("%s: its page has no %s", c.CommandPath(), want)
		}
	}
	for k, line := range strings.Split(page, "\n") {
		request, _, _ := strings.Cut(line, " ")
		if strings.HasPrefix(line, ".") && !strings.Contains(" .TH .SH .B .BR .TP .PP .nf .fi ", " "+request+" ") || strings.HasPrefix(line, "'") {
			t.Errorf("%s, line %d: text would be taken for a request: %s", c.CommandPath(), k+1, line)
		}
		if strings.ContainsFunc(line, func(r rune) bool { return r > '~' }) {
			t.Errorf("%s, line %d: not ASCII: %s", c.CommandPath(), k+1, line)
		}
	}
	options := func(f *pflag.Flag) {
		if !f.Hidden && !strings.Contains(page, "\\fB"+roff("--"+f.Name)+"\\fR") {
			t.Errorf("%s: its page has no --%s", c.CommandPath(), f.Name)
		}
	}
	c.NonInheritedFlags().VisitAll(options)
	c.InheritedFlags().VisitAll(options)
}

// Text that looks like roff stays text.
func TestRoff(t *testing.T) {
	if got, want := roff(".a-b\n'c\\d\nΩ it's"), "\\&.a\\-b\n\\&'c\\ed\n\\[u03A9] it\\(aqs"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

// A shell that asks what can follow is told the words, and files only where a
// file may stand.
func TestComplete(t *testing.T) {
	for _, c := range []struct {
		line string
		want []string
		file bool
	}{
		{"write ", []string{"c", "firmware", "card"}, false},
		{"order --mode ", []string{"wave", "full", "half", "micro"}, false},
		{"power --stage ", []string{"darlington", "chopper"}, true},
		{"--motor ", []string{"vent-flap", "hybrid-4"}, true},
		{"--theme ", []string{"auto", "dark", "light"}, false},
		{"read --pins ", []string{"step-direction"}, false},
		{"rat", []string{"rates"}, false},
		{"motors show ", []string{"geared-can"}, true},
		{"explain ", []string{"backlash"}, false},
		{"trouble ", []string{"buzzes"}, false},
		{"check ", nil, true},
	} {
		r := call(t, "", append([]string{"__complete"}, strings.Split(c.line, " ")...)...)
		if r.status != exitDone {
			t.Errorf("%q: status %d: %s", c.line, r.status, r.errs)
		}
		lines := strings.Split(strings.TrimSpace(r.out), "\n")
		said := map[string]bool{}
		for _, line := range lines {
			word, _, _ := strings.Cut(line, "\t")
			said[word] = true
		}
		for _, w := range c.want {
			if !said[w] {
				t.Errorf("%q: %q does not follow: %q", c.line, w, lines)
			}
		}
		if file := lines[len(lines)-1] == ":0"; file != c.file {
			t.Errorf("%q: files follow: %v, want %v", c.line, file, c.file)
		}
	}
}

// The README says of every kind of file that it can be written.
func TestTheREADMENamesEveryKind(t *testing.T) {
	text, err := os.ReadFile(filepath.Join("..", "..", "README.md"))
	if err != nil {
		t.Fatal(err)
	}
	for _, k := range append(slices.Clone(handoff.Kinds), handoff.Kind{Name: "card"}) {
		if !regexp.MustCompile("`" + k.Name + "`|coilwalk write " + k.Name + `\b`).Match(text) {
			t.Errorf("README.md says nothing of the kind of file %q: name it under Take it along", k.Name)
		}
	}
}
