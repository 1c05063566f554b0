package main

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"coilwalk/view"
	"coilwalk/view/plain"
)

// Whatever a key of the explorer or a command does, a word of the line mode does
// too: what is new has none until somebody gives it one.
func TestTheLineModeReachesEverything(t *testing.T) {
	words := plain.Words()
	reach := plain.Reach()
	checked := 0
	for _, g := range view.Keys() {
		for _, b := range g.Bindings {
			key := g.Name + "." + b.Word
			word, known := reach[key]
			if checked++; !known {
				t.Errorf("no word does what the key %s does: %s", key, b.Says)
			} else if word != "" && !slices.Contains(words, word) {
				t.Errorf("%s is said to be done by %q, which is no word", key, word)
			}
			delete(reach, key)
		}
	}
	if checked < 80 {
		t.Errorf("only %d keys were looked at", checked)
	}
	for key := range reach {
		t.Errorf("there is no key %s any more", key)
	}
	commands := plain.ReachCommand()
	for _, c := range (&program{}).root().Commands() {
		word, known := commands[c.Name()]
		switch {
		case c.Hidden || c.Name() == "help" || c.Name() == "completion":
		case !known:
			t.Errorf("no word does what coilwalk %s does", c.Name())
		case word != "" && !slices.Contains(words, word):
			t.Errorf("coilwalk %s is said to be done by %q, which is no word", c.Name(), word)
		}
		delete(commands, c.Name())
	}
	for name := range commands {
		t.Errorf("there is no command %s any more", name)
	}
	for i, word := range words {
		if slices.Contains(words[i+1:], word) {
			t.Errorf("%q stands twice among the words", word)
		}
	}
}

// sittings go through every theme of words.
var sittings = []struct{ name, args, in string }{
	{"plain-help.txt", "--plain", "help\nhelp all\nhelp walking\nhelp swap\nhelp rids\nhlep\nxyzzy\n"},
	{"plain-recording.txt", "--plain FLAPS --motor vent-flap", "recording\nfindings\nfinding\nfinding next\nfinding before\nfinding 3\nfinding 9\nruns\nlater\nlater 3\nearlier\nlater 0\nmark a\nlater 9\nmark b\ntime 0.5s\ntime 9s\nrow 30\nrow last\nlater\nedge -1\nrow first\nrow x\nopen FLAP\nfindings\nhere\nopen nothing.vcd\nhere\n"},
	{"plain-table.txt", "--plain CROSSED --wiring A+,B+,A-,B-", "check\ncure 9\ncure 1\ncheck\nrun\nanother\nbits\nopen can-48\ncheck\norder\nopen PACKED\nbits\nbits\n"},
	{"plain-sheets.txt", "--plain", "shaft\nshaft train 9:32,11:22\nshaft backlash 8deg\nshaft firmware 64:1\nshaft firmware none\nshaft move 45 stops\nshaft seen 10 turns = 3562 deg\nshaft trian\nshaft train x\nshaft move\nlines shaft\nrates load x\nrates rate 600\nramp\nramp start 400\nramp accel 2000\nramp rate 900\nramp stage none\nramp stop 9999\nramp stop 50\nlines ramp\nreckons 2048 12 ms\nreckons 12\npower on for 30%\npower connected bipolar\nlines power\ntrouble it hums\nexplain detent\n"},
	{"plain-take.txt", "--plain", "kinds\ntake\npreview\nmore\nmore all\nmore\ntake kind micropython\ntake pins 2,3,4,5\npreview\nwhere\nmore\ntake kind card\npreview\ntake kind novel\nsave take\nsave picture x\nsave answers x\n"},
	{"plain-trials.txt", "--plain --motor hybrid-4", "list\nfault 1\nfault 99\ntrials\nmine\nforget half forward\nforget half sideways\nfaults\nslowly 2\nmotor\nmotors\narm\noff\nboard\nperform\n"},
	{"plain-asking.txt", "--plain", "ask\nanswer buzz\nanswers\noutputs BN WH GN\noutputs BN WH GN GY\ntakeback\nanswers\nreadings\nreading BN VT 52\nreadings\nnames BN WH GN GY VT\nleads\n"},
}

func (s *sitting) said(t *testing.T) result {
	t.Helper()
	files := strings.NewReplacer("FLAPS", "../../testdata/recordings/flap-faults.vcd", "FLAP", "../../testdata/recordings/flap.vcd", "CROSSED", s.crossed, "PACKED", "../../testdata/tables/good/blinds-hex.c")
	return call(t, files.Replace(s.in), strings.Fields(files.Replace(s.args))...)
}

type sitting struct {
	name, args, in string
	crossed        string
}

// Every answer is fit for a voice: short lines, no columns, nothing drawn; and an
// end of the input is no error.
func TestTheLineModeIsSayable(t *testing.T) {
	crossed := filepath.Join(t.TempDir(), "crossed.txt")
	if err := os.WriteFile(crossed, []byte("1000\n1010\n0010\n0110\n0100\n0101\n0001\n1001\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	for _, s := range sittings {
		t.Run(s.name, func(t *testing.T) {
			one := sitting{s.name, s.args, s.in, crossed}
			r := one.said(t)
			if r.status != 0 || r.errs != "" {
				t.Errorf("status %d; said %q", r.status, r.errs)
			}
			sayable(t, r.out, s.name == "plain-take.txt")
			golden(t, s.name, strings.ReplaceAll(r.out, crossed, "crossed.txt"))
		})
	}
}

// The lines of a file with a cure put in are said as they stand there, to be copied; a
// recording is cured by swapping leads, and judged so.
func TestCuresAreSaid(t *testing.T) {
	file := filepath.Join(t.TempDir(), "flap.c")
	if err := os.WriteFile(file, []byte("int flap[] = {\n\t0x8, // up\n\t0xC,\n\t0x4,\n\t0x2,\n\t0x3,\n\t0x1,\n\t0x9\n};\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		args, in string
		want     []string
	}{
		{"--plain " + file, "check\nmended 1\n", []string{"cure 1: put in a row with outputs 2 and 3 on after row 3;", "row 1: output 1 on, written 0x8,",
			"In place of lines 2 to 8 of the file:\n\t0x8, // up\n\t0xC,\n\t0x4,\n\t0x6,\n\t0x2,"}},
		{"--plain " + file, "mended 2\n", []string{"The number of a cure that changes rows is wanted"}},
		{"--plain", "mended 1\n", []string{"No table was opened."}},
		{"--plain ../../testdata/recordings/flap-faults.vcd --motor vent-flap", "cure 9\ncure 2\ncure 1\n", []string{"1: the leads on outputs 2 and 3\n2: the leads on outputs 1 and 4\n",
			"Leads on outputs 1 and 4 swapped: the rows recorded now turn counter-clockwise.", "flap-faults.vcd: a fault in half step.", "There is no cure to put in"}},
	} {
		r := call(t, c.in, strings.Fields(c.args)...)
		for _, want := range c.want {
			if said := strings.Join(strings.Fields(r.out), " "); !strings.Contains(r.out, want) && !strings.Contains(said, want) {
				t.Errorf("%s: %q: wanted %q in\n%s", c.args, c.in, want, r.out)
			}
		}
	}
}

// sayable looks for what a voice can not say. A file that is read out stands as it is.
func sayable(t *testing.T, out string, files bool) {
	t.Helper()
	for _, line := range strings.Split(out, "\n") {
		for _, r := range line {
			if unsayable(r) {
				t.Errorf("%q is drawn, in %q", r, line)
			}
		}
		if files {
			continue
		}
		if n := utf8.RuneCountInString(line); n > 80 {
			t.Errorf("%d characters: %q", n, line)
		}
		if strings.Contains(strings.TrimSpace(line), "  ") || strings.HasPrefix(line, " ") {
			t.Errorf("set out in columns: %q", line)
		}
		if strings.Contains(line, "{") {
			t.Errorf("a key and no word: %q", line)
		}
	}
}

// unsayable says whether a character is an arrow, a box, a block, a shape or a dot
// pattern.
func unsayable(r rune) bool {
	return r >= 0x2190 && r <= 0x21ff || r >= 0x2300 && r <= 0x23ff || r >= 0x2500 && r <= 0x28ff || r >= 0x2b00 && r <= 0x2bff || r == '·' || r == '›' || r == '…' || r < ' '
}

// A file that is there is replaced only by who says so; and what was saved is read
// by the commands.
func TestTheLineModeSaves(t *testing.T) {
	folder := t.TempDir()
	table, readings, answers, mine := filepath.Join(folder, "flap.c"), filepath.Join(folder, "readings.csv"), filepath.Join(folder, "answers.txt"), filepath.Join(folder, "mine.toml")
	if err := os.WriteFile(table, []byte("mine"), 0o644); err != nil {
		t.Fatal(err)
	}
	in := "save take " + table + "\nreading BN VT 52\nsave readings " + readings + "\nopen vent-flap\nreading BN VT\nask\nanswer buzz\nsave answers " + answers + "\n"
	r := call(t, in, "--plain")
	if !strings.Contains(r.out, "is there already") {
		t.Errorf("it was not refused:\n%s", r.out)
	}
	if text, _ := os.ReadFile(table); string(text) != "mine" {
		t.Error("a file that was there is lost")
	}
	call(t, "save take "+table+" replace\n", "--plain")
	if checked := call(t, "", "check", table); checked.status != 0 || !strings.Contains(checked.out, "sound") {
		t.Errorf("what was saved is read as: %s%s", checked.out, checked.errs)
	}
	if text, err := os.ReadFile(readings); err != nil || string(text) == "" {
		t.Error(err)
	}
	if text, err := os.ReadFile(answers); err != nil || !strings.Contains(string(text), "buzz") {
		t.Errorf("%q, %v", text, err)
	}
	words := "newmotor " + mine + "\n\n\n\n4\nBK RD GN BU\n200\n\n\n\n\n1.5 A\n2 ohm\n\nopen " + mine + "\nwhere\nnewmotor " + mine + "\n"
	r = call(t, words, "--plain")
	if !strings.Contains(r.out, "Written: "+mine) || !strings.Contains(r.out, "mine: 4 leads") || !strings.Contains(r.out, "is there already") {
		t.Errorf("a motor was asked for:\n%s", r.out)
	}
}

// The sitting in the README is what is said.
func TestTheSittingInTheReadme(t *testing.T) {
	text, err := os.ReadFile(filepath.Join("..", "..", "README.md"))
	if err != nil {
		t.Fatal(err)
	}
	_, rest, found := strings.Cut(string(text), "```text\n$ coilwalk --plain")
	shown, _, ended := strings.Cut(rest, "```")
	if !found || !ended {
		t.Fatal("the README has no sitting")
	}
	args, shown, _ := strings.Cut(shown, "\n")
	var words, answers []string
	for _, line := range strings.Split(strings.TrimSpace(shown), "\n") {
		if word, ok := strings.CutPrefix(line, "> "); ok {
			words = append(words, word)
		} else {
			answers = append(answers, line)
		}
	}
	r := call(t, strings.Join(words, "\n")+"\n", append([]string{"--plain"}, strings.Fields(args)...)...)
	if got := strings.TrimSpace(r.out); len(words) < 5 || got != strings.Join(answers, "\n") {
		t.Errorf("the README's sitting is said so:\n%s", got)
	}
}
