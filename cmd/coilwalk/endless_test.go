package main

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// endless are words far longer than a message: of digits, of what a terminal would
// obey (four characters for each when it is shown), of parts that are read one by one.
var endless = []string{strings.Repeat("9", 5000), strings.Repeat("\x01\x98", 2500), strings.Repeat("x,", 2500), strings.Repeat("A+,B+ ", 1000), "1" + strings.Repeat("0", 5000) + "V"}

// Every command is given endless words, alone and to each of its options: what is
// refused is told in one short line that comes to its end, which is where the advice
// stands.
func TestEndlessWords(t *testing.T) {
	root, err := filepath.Abs(filepath.Join("..", "..", "testdata"))
	if err != nil {
		t.Fatal(err)
	}
	t.Chdir(t.TempDir())
	for name, from := range copied {
		text, err := os.ReadFile(filepath.Join(root, filepath.FromSlash(from)))
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(name, text, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	refused := map[string]bool{}
	hold := func(args ...string) {
		var errs bytes.Buffer
		if run(args, strings.NewReader(""), io.Discard, &errs) != exitInput {
			return
		}
		message := strings.TrimSuffix(errs.String(), "\n")
		if why := unclear(message); why != "" {
			t.Errorf("%.60q: %s: %s", args, why, message)
		}
		if strings.HasSuffix(message, "…") && !strings.HasSuffix(message, `"…`) {
			t.Errorf("%.60q: the end is cut: %s", args, message)
		}
		option, _, _ := strings.Cut(args[len(args)-1], "=")
		refused[fmt.Sprintf("%q %.20s", args[:len(args)-1], option)] = true
	}
	// What a command needs beside the word, so that the word is what it stumbles over.
	beside := map[string][]string{"check": {"table.c"}, "read": {"pins.vcd"}, "leads": {"readings.csv"}, "write": {"c"}, "motors check": {"motor.toml"}, "motors show": {"vent-flap"}}
	commands, options := grammar()
	words, least := endless, 300
	if underRace { // nothing is done at once here
		words, least = endless[1:2], 60
	}
	for k, c := range commands {
		path := strings.Fields(c.CommandPath())[1:]
		name := strings.Join(path, " ")
		for _, word := range words {
			hold(append(slices.Clone(path), word)...)
			for _, option := range options[k] {
				hold(append(append(slices.Clone(path), beside[name]...), option+"="+word)...)
			}
		}
	}
	if len(refused) < least {
		t.Errorf("only %d places refuse an endless word", len(refused))
	}
}
