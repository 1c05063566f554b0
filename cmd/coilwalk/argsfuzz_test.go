package main

import (
	"bytes"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"coilwalk/testdata/bounds"
)

// What a call may cost: a motor that is run through its rates is by far the most of it.
const (
	callBase    = 2 << 30
	callPerByte = 1 << 20
	mostArgs    = 12
)

// values are words that options and commands take, sound ones and others. None
// has a stroke but files that are read, so that nothing is written elsewhere.
var values = []string{"", "-", "--", "0", "1", "-1", "4", "16", "257", "1e9", "1e-9", "1e400", "99999999999999999999", "NaN", "inf", "x", "half", "full", "wave", "micro", "unipolar", "bipolar", "forward", "reverse",
	"high", "low", "msb", "coil-ends", "two-line", "phase-enable", "step-direction", "A+,B+,A-,B-", "A+,A-,B+,B-", "A+,A+,B+", "9:32,11:22", "64:1", "1:1000,1:1000", "8deg", "90deg", "-15deg", "1e15deg", "200 steps = 45 deg",
	"12V", "5V", "0V", "usb", "usb3", "bench", "darlington", "chopper", "current", "ideal", "hybrid-4", "hybrid-6", "hybrid-8", "can-48", "geared-can", "vent-flap", "vent-flpa", "1A", "50%", "200%", "10ohm", "5mN.m", "5g.cm2", "900/s",
	"16MHz", "20min", "200ns", "25C", "15K/W", "2,3,4,5", "0,1,2,3", "2,2,3,4", "20000,15000,12000", "1,99999", "PORTB", "PORT B", "BN,WH,GN,GY", "VT", "BK/GN,TQ/BN", "YE,WH", "IN1,IN2,IN3,IN4", "c", "cpp", "rust", "python",
	"micropython", "csv", "json", "vcd", "markdown", "text", "firmware", "card", "list", "show", "check", "new", "made.c", "made.svg", "made.toml", "made.pdf", "\x1b[2J", "\x9b", "\u202e", "a\nb", "\xff", strings.Repeat("9", 5000),
	"table.c", "rows.txt", "readings.csv", "answers.txt", "symptoms.txt", "motor.toml", "stage.toml", "pins.vcd", "pins.csv", "nothing.c", "folder"}

// copied are the files that a call finds where it runs.
var copied = map[string]string{"table.c": "tables/good/blinds-half.c", "readings.csv": "readings/flap.csv", "motor.toml": "motors/good/five.toml", "stage.toml": "stages/board.toml", "pins.vcd": "recordings/flap.vcd"}

var typed = map[string]string{"rows.txt": "1000\n0100\n0010\n0001\n", "answers.txt": "kick BN WH cw\n", "symptoms.txt": "half forward cw\n", "pins.csv": "time,A,B,C,D\n0,1,0,0,0\n0.1,0,1,0,0\n0.2,0,0,1,0\n"}

// slowCalls run a motor in time again and again: seconds of work, that the tests of
// what they answer do.
var slowCalls = []string{"rates", "faults", "trouble"}

// grammar gives the commands, and of each its options.
func grammar() (commands []*cobra.Command, options [][]string) {
	var walk func(c *cobra.Command)
	walk = func(c *cobra.Command) {
		commands = append(commands, c)
		var of []string
		add := func(f *pflag.Flag) { of = append(of, "--"+f.Name) }
		c.LocalFlags().VisitAll(add)
		c.InheritedFlags().VisitAll(add)
		slices.Sort(of)
		options = append(options, append(of, "--help", "--versoin", "-x", "-h"))
		for _, sub := range c.Commands() {
			walk(sub)
		}
	}
	walk((&program{}).root())
	return commands, options
}

// argsOf makes a command line of bytes: the first names a command, then each pair an
// option of it and its value, and now and then a word alone or a piece of noise.
func argsOf(shape []byte, noise string, commands []*cobra.Command, options [][]string) (args []string) {
	if len(shape) == 0 {
		return []string{noise}
	}
	which := int(shape[0]) % (len(commands) + 1)
	if which == len(commands) {
		which, args = 0, []string{noise} // a command that there is not
	} else {
		args = strings.Fields(commands[which].CommandPath())[1:]
	}
	for k := 1; k+1 < len(shape) && len(args) < mostArgs; k += 2 {
		option, value := options[which][int(shape[k]>>1)%len(options[which])], values[int(shape[k+1])%len(values)]
		if shape[k+1] == 0xff {
			value = noise
		}
		switch shape[k] & 1 {
		case 0:
			args = append(args, option+"="+value)
		default:
			args = append(args, value)
		}
	}
	return args
}

// FuzzCommandLine calls the program with lines of its own options and any values: it
// ends with 0, 1 or 2, says one clear line where it refuses, tells a terminal
// nothing but text, and leaves no file but those that the line names.
func FuzzCommandLine(f *testing.F) {
	commands, options := grammar()
	texts := map[string][]byte{}
	for name, from := range copied {
		text, err := os.ReadFile(filepath.Join("..", "..", "testdata", filepath.FromSlash(from)))
		if err != nil {
			f.Fatal(err)
		}
		texts[name] = text
	}
	for name, text := range typed {
		texts[name] = []byte(text)
	}
	for k := range 160 {
		f.Add([]byte{byte(k), byte(7 * k), byte(13 * k), byte(5*k + 1), byte(11 * k)}, "no\x1b[2Jise", "1000\n0100\n0010\n0001\n")
	}
	f.Add([]byte{255}, "ordre", "")
	f.Fuzz(func(t *testing.T, shape []byte, noise, in string) {
		args := argsOf(shape[:min(len(shape), 2*mostArgs)], noise, commands, options)
		for _, a := range args {
			if slices.Contains(slowCalls, a) {
				return
			}
		}
		if strings.ContainsAny(noise, `/\`) || len(noise) > 1000 || len(in) > 1000 {
			return // only files of its own folder are named
		}
		home := t.TempDir()
		folder := filepath.Join(home, "here")
		if err := os.MkdirAll(filepath.Join(folder, "folder"), 0o755); err != nil {
			t.Fatal(err)
		}
		for name, text := range texts {
			if err := os.WriteFile(filepath.Join(folder, name), text, 0o644); err != nil {
				t.Fatal(err)
			}
		}
		for _, name := range []string{"HOME", "TMPDIR", "XDG_CONFIG_HOME", "XDG_CACHE_HOME", "COILWALK_CONFIG"} {
			t.Setenv(name, home)
		}
		t.Chdir(folder)
		var out, errs bytes.Buffer
		status := 0
		bounds.Hold(t, len(in)+len(noise), callBase, callPerByte, func() { status = run(args, strings.NewReader(in), &out, &errs) })
		switch status {
		case exitDone, exitFinding:
		case exitInput:
			message, whole := strings.CutSuffix(errs.String(), "\n")
			if why := unclear(message); why != "" || !whole || !utf8.ValidString(message) {
				t.Fatalf("%.2000q: %s: %q", args, why, errs.String())
			}
		default:
			t.Fatalf("%.2000q ends with %d: %q", args, status, errs.String())
		}
		if bad := strings.IndexFunc(out.String(), func(r rune) bool { return r != '\n' && r != '\t' && steers(r) }); bad >= 0 || !utf8.Valid(out.Bytes()) {
			t.Fatalf("%.2000q writes %.400q", args, out.String()[max(0, bad):])
		}
		for at, left := range map[string][]string{home: {"here"}, folder: append(slices.Collect(maps.Keys(texts)), "folder"), filepath.Join(folder, "folder"): nil} {
			entries, err := os.ReadDir(at)
			if err != nil {
				t.Fatal(err)
			}
			for _, e := range entries {
				named := func(a string) bool { return a == e.Name() || strings.HasSuffix(a, "="+e.Name()) }
				if !slices.Contains(left, e.Name()) && !(at == folder && slices.ContainsFunc(args, named)) {
					t.Fatalf("%.2000q leaves the file %q in %s", args, e.Name(), at)
				}
			}
		}
	})
}
