//go:build linux || darwin

package main

import (
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"coilwalk/sequence"
	"coilwalk/view/terms"
	"coilwalk/view/trouble"
)

// benchFolder is a folder with the files that commands in texts speak of, and the
// program in it by its name.
func benchFolder(t *testing.T) string {
	t.Helper()
	folder := t.TempDir()
	if err := os.Symlink(reckoner, filepath.Join(folder, "coilwalk")); err != nil {
		t.Fatal(err)
	}
	motor := call(t, "", "motors", "show", "hybrid-4", "--toml")
	for name, text := range map[string]string{
		trouble.Motor:   motor.out + "[train]\nmeshes = \"9:32\"\n",
		"my-firmware.c": "const unsigned char port[] = {0x1, 0x3, 0x2, 0x6, 0x4, 0xc, 0x8, 0x9};\n",
		"readings.csv":  "BK,GN,1.5\nRD,BU,1.5\nBK,RD,open\n",
		"answers.txt":   "run BK RD GN BU cw\n",
	} {
		if err := os.WriteFile(filepath.Join(folder, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	pins, err := os.ReadFile("../../testdata/recordings/flap.vcd")
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(folder, "pins.vcd"), pins, 0o644); err != nil {
		t.Fatal(err)
	}
	return folder
}

// typedLine runs a line as a person would type it.
func typedLine(t *testing.T, folder, line string) (out, errs string, status int) {
	t.Helper()
	c := exec.Command("sh", "-c", line)
	c.Dir = folder
	c.Env = append(os.Environ(), "PATH="+folder+string(os.PathListSeparator)+os.Getenv("PATH"))
	var o, e strings.Builder
	c.Stdout, c.Stderr = &o, &e
	if err := c.Run(); err != nil && c.ProcessState == nil {
		t.Fatal(err)
	}
	return o.String(), e.String(), c.ProcessState.ExitCode()
}

// What trouble says to type can be typed: the command is there, with its options,
// and gives an answer or a finding.
func TestCommandsOfTroublesRun(t *testing.T) {
	folder := benchFolder(t)
	ran := map[string]bool{}
	for _, one := range trouble.All() {
		for _, a := range one.Asks {
			line := a.Types(trouble.Motor, sequence.Bipolar)
			if ran[line] {
				continue
			}
			ran[line] = true
			if strings.Contains(line, "motors new") { // it asks at the bench
				line = "yes '' | head -2 | " + line + " || test $? = 2"
			}
			if out, errs, status := typedLine(t, folder, line); status > exitFinding || out == "" {
				t.Errorf("%s: %q: status %d, %s", one.Word, line, status, errs)
			}
		}
	}
	if len(ran) < 20 {
		t.Errorf("only %d commands", len(ran))
	}
}

// Commands that entries of words name are there.
func TestWordsNameCommands(t *testing.T) {
	p := &program{in: strings.NewReader(""), out: &output{Writer: io.Discard}, errs: io.Discard}
	root := p.root()
	for _, e := range terms.All() {
		commands, _, _ := e.Where()
		for _, command := range commands {
			if found, _, err := root.Find(strings.Fields(command)[1:]); err != nil || found == root {
				t.Errorf("%s: there is no %s", e.Word, command)
			}
		}
	}
}
