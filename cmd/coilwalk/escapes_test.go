package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"
)

// evil is what a name may hold to steer a terminal or to hide what is said: sequences
// that clear, move and set the title, their one-byte kinds, raw and as UTF-8, marks
// that turn the writing round, marks of no width, line ends.
const evil = "\x1b[77;77H\x1b]0;evil\x07\u009b77m\x9b77m\u202e\u2066\u200b\u2028\u0085\r"

// evilFiles are files whose names and contents hold it wherever a name may stand. A
// name of a file can not hold a stroke, and here no line end either.
func evilFiles(t *testing.T, folder string) map[string]string {
	t.Helper()
	files := map[string]string{}
	for name, text := range map[string]string{
		"table.c":  "/* " + evil + " */\nint t" + evil + "x[] = {8, 4, 2, 1};\nint " + evil + "[] = {9, 8, 7};\n",
		"table.py": "# " + evil + "\nt\u200b\u202e = [8, 4, 2, 1] # " + evil + "\nü\u009b = [2, 3, 4, 5]\n",
		"rows.txt": "# " + evil + "\n1000\n0100\n0010\n0001\n",
		"bad.txt":  "1000\n01" + evil + "00\n",
		"pins.vcd": "$comment " + evil + " $end\n$timescale 1us $end\n$scope module m" + evil + " $end\n$var wire 1 ! A" + evil + " $end\n$var wire 1 # B\u202e $end\n$var wire 1 $ C\u009b $end\n$var wire 1 % D\x9b $end\n" +
			"$enddefinitions $end\n#0\n1!\n0#\n0$\n0%\n#1000\n0!\n1#\n#2000\n0#\n1$\n#3000\n0$\n1%\n#4000\n0%\n1!\n#5000\n0!\n1#\n#6000\n0#\n1$\n#7000\n0$\n1%\n#8000\n0%\n1!\n#9000\n",
		"pins.csv":      "time,A" + "\u009b77m\u202e\u2066\u200b" + ",B\u202e,C\u009b,D\n0,1,0,0,0\n0.01,0,1,0,0\n0.02,0,0,1,0\n0.03,0,0,0,1\n0.04,1,0,0,0\n0.05,0,1,0,0\n0.06,0,0,1,0\n0.07,0,0,0,1\n0.08,1,0,0,0\n",
		"readings.csv":  "BN, VT, 52\nB" + evil + ", WH, 104\n",
		"comment.csv":   "# " + strings.ReplaceAll(evil, "\x9b", "") + "\nBN, VT, 52\nWH, VT, 51\n",
		"answers.txt":   "kick BN " + evil + " cw\n",
		"symptoms.txt":  "half forward " + evil + "\n",
		"motor.toml":    "name = \"x\"\ntitle = \"a\\u001b[77;77H\\u202e\"\n[\"" + "\\u001b]0;evil\\u0007" + "\"]\na = 1\n",
		"stage.toml":    "name = \"b\"\nsource = \"a\\u009b77m\"\nkind = \"\\u001b[77;77H\\u202e\"\n",
		"intervals.txt": "20000\n" + evil + "\n",
		"steps.csv":     strings.ReplaceAll(stepLines, "STEP", "STEP\u202e\u009b"),
	} {
		path := filepath.Join(folder, strings.TrimSuffix(evil, "\r")+name)
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		files[name] = path
	}
	return files
}

// raw gives the first place in a text at which something of evil stands unescaped; ""
// when nothing does.
func raw(text string) string {
	at := strings.IndexFunc(text, func(r rune) bool { return r != '\n' && r != '\t' && steers(r) })
	if at < 0 && !utf8.ValidString(text) {
		for at = 0; ; {
			r, size := utf8.DecodeRuneInString(text[at:])
			if r == utf8.RuneError && size == 1 {
				break
			}
			at += size
		}
	}
	if at < 0 {
		return ""
	}
	return text[max(0, at-30):min(len(text), at+30)]
}

// Whatever stands in files and in their names, no command passes it on to the
// terminal as it is: neither in its answer, nor in what it refuses.
func TestNothingSteersTheTerminal(t *testing.T) {
	files := evilFiles(t, t.TempDir())
	calls := 0
	for _, c := range []struct {
		in   string
		args []string // a name of a file stands for its path
	}{
		{"", []string{"check", "table.c"}}, {"", []string{"check", "table.py"}}, {"", []string{"check", "rows.txt"}}, {"", []string{"check", "bad.txt"}}, {"", []string{"check", "rows.txt", "--table", evil}},
		{"", []string{"check", "table.c", "--wiring", evil}}, {"", []string{"check", "table.c", "--motor", evil}}, {"", []string{"check", evil}},
		{"", []string{"read", "pins.vcd"}}, {"", []string{"read", "pins.csv"}}, {"", []string{"read", "pins.vcd", "--rows"}}, {"", []string{"read", "pins.csv", "--rows"}}, {"", []string{"read", "pins.vcd", "--channels", evil}},
		{"", []string{"read", "pins.vcd", "--channels", "A,B"}}, {"", []string{"read", "steps.csv", "--pins", "step-direction"}}, {"", []string{"read", "bad.txt"}},
		{"", []string{"leads", "readings.csv"}}, {"", []string{"leads", "comment.csv"}}, {"", []string{"leads", "comment.csv", "--answers", "answers.txt"}}, {"", []string{"leads", "--answers", "answers.txt", "--ends", "BN,WH,GN,GY", "--common", "VT"}},
		{"", []string{"leads", "--answers", "answers.txt", "--ends", evil}}, {"", []string{"leads", "--answers", "answers.txt", "--coils", "A/" + evil + ",B/C"}},
		{"", []string{"faults", "symptoms.txt"}}, {"", []string{"motors", "show", "motor.toml"}}, {"", []string{"motors", "check", "motor.toml"}}, {"", []string{"motors", evil}}, {evil + "\n", []string{"motors", "new", "answers.txt"}},
		{"", []string{"power", "--stage", "stage.toml"}}, {"", []string{"power", "--supply", evil}}, {"", []string{"power", "--connection", evil}}, {"", []string{"power", "--duty", evil}},
		{"", []string{"write", "c", "--ramp", "intervals.txt"}}, {"", []string{"write", "c", "--port", evil}}, {"", []string{"write", evil}}, {"", []string{"write", "c", "--bits", "0,1,2," + evil}},
		{"", []string{"shaft", "--train", evil}}, {"", []string{"shaft", "--observed", evil}}, {"", []string{"shaft", "--believe", evil}}, {"", []string{"shaft", "--turn", evil}}, {"", []string{"rates", "--plot", evil}},
		{"", []string{"order", "--mode", evil}}, {"", []string{"order", "--drive", evil}}, {"", []string{"order", evil}}, {"", []string{"order", "--" + evil}}, {"", []string{evil}}, {"", []string{"ramp", "--shape", evil}},
		{evil + "\nfault " + evil + "\nswap " + evil + " 2\nreading BN " + evil + " 5\nanswer " + evil + "\nask " + evil + "\ndoes half forward " + evil + "\npower " + evil + "\nmode " + evil + "\ngo " + evil + "\nrun " + evil + "\ntakeback " + evil + "\n", []string{"--plain"}},
		{"check\nwhere\nnext\n", []string{"--plain", "table.c"}}, {"check\nwhere\nnext\n", []string{"--plain", "table.py"}}, {"leads\n", []string{"--plain", "comment.csv"}}, {"", []string{"--plain", "pins.vcd"}}, {"", []string{"--plain", "motor.toml"}},
	} {
		args := make([]string, len(c.args))
		for k, a := range c.args {
			if args[k] = a; files[a] != "" {
				args[k] = files[a]
			}
		}
		for _, more := range [][]string{nil, {"--json"}} {
			r := call(t, c.in, append(args, more...)...)
			calls++
			if r.status > 2 || r.status < 0 {
				t.Errorf("%q %v: status %d, %q", c.args, more, r.status, r.errs)
			}
			if found := raw(r.out); found != "" {
				t.Errorf("%q %v: standard output holds %q", c.args, more, found)
			}
			if found := raw(r.errs); found != "" || strings.Count(r.errs, "\n") > 1 {
				t.Errorf("%q %v: standard error holds %q: %q", c.args, more, found, r.errs)
			}
		}
	}
	if calls < 90 {
		t.Errorf("%d calls", calls)
	}
}

func TestRaw(t *testing.T) {
	for text, want := range map[string]string{"plain\n\tü Ω → ▁ �": "", "a\x1b[1m": "a\x1b[1m", "a\x9b": "a\x9b", "a\u009b": "a\u009b", "\u202e": "\u202e", "\r": "\r", "\u2028": "\u2028", "\u200b": "\u200b"} {
		if got := raw(text); got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}
