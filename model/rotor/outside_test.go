package rotor

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"text/template"
	"time"
)

// outside is a run of a program that is not ours on a machine that ours runs
// too. Its output was recorded, so that go test needs only Go: beside a head
// with the command, the version of the tool and the SHA-256 of the input. With
// COILWALK_TOOLS=required the tool runs anew, and has to be there;
// COILWALK_RECORD=1 writes what it says to the recording.
type outside struct {
	input   string    // under testdata/reference, where it has .in at its end and places for figures
	figures any       // which fill them
	columns []string  // of the output, the first the time
	measure []float64 // of each column but the time, what its deviations are parts of
	agree   float64   // how far a new run may be from the recording, in these measures

	given  []byte // last, and
	folder string // where, with what was compiled of it
}

const references = "../../testdata/reference"

// samples gives the recorded output, once it is known to belong to what the tool
// would be given today.
func (o *outside) samples(tb testing.TB) [][]float64 {
	tb.Helper()
	input := o.filled(tb)
	hash := fmt.Sprintf("%x", sha256.Sum256(input))
	recording := filepath.Join(references, strings.TrimSuffix(o.input, filepath.Ext(o.input))+".txt")
	required, record := os.Getenv("COILWALK_TOOLS") == "required", os.Getenv("COILWALK_RECORD") != ""
	var live [][]float64
	if required || record {
		live = o.run(tb, input).samples
	}
	if record {
		if err := os.WriteFile(recording, o.head(tb, hash, live), 0o644); err != nil {
			tb.Fatal(err)
		}
	}
	text, err := os.ReadFile(recording)
	if err != nil {
		tb.Fatal(err)
	}
	if want := "# SHA-256 of the input: " + hash + "\n"; !bytes.Contains(text, []byte(want)) {
		tb.Fatalf("%s is out of date: the input of today has the hash %s; .ci/record renews it", recording, hash)
	}
	samples := o.read(tb, text)
	if !required {
		tb.Logf("%s: recorded", o.input)
		return samples
	}
	if apart := o.apart(tb, live, samples); apart > o.agree {
		tb.Errorf("%s: a new run deviates from the recording by %.2g, where %.2g is allowed", o.input, apart, o.agree)
	}
	tb.Logf("%s: live", o.input)
	return samples
}

// filled gives the input with its figures.
func (o *outside) filled(tb testing.TB) []byte {
	tb.Helper()
	t, err := template.ParseFiles(filepath.Join(references, o.input+".in"))
	if err != nil {
		tb.Fatal(err)
	}
	var filled bytes.Buffer
	if err := t.Option("missingkey=error").Execute(&filled, o.figures); err != nil {
		tb.Fatal(err)
	}
	return filled.Bytes()
}

// command is what runs an input by its name, and what tells the version.
func (o *outside) command() (run, version []string) {
	switch name := filepath.Base(o.input); filepath.Ext(name) {
	case ".py": // Debian's own Python, which sees its packages
		return []string{"/usr/bin/python3", name}, []string{"/usr/bin/python3", "-c", "import sys, scipy; print('Python', sys.version.split()[0] + ', SciPy', scipy.__version__)"}
	case ".c":
		return []string{"sh", "-c", "test -x program || gcc -O2 -o program " + name + " " + sundials + " && ./program"}, []string{"gcc", "--version"}
	default:
		return []string{"ngspice", "-b", name}, []string{"ngspice", "--version"}
	}
}

const sundials = "-lsundials_cvode -lsundials_nvecserial -lsundials_sunmatrixdense -lsundials_sunlinsoldense -lsundials_sunnonlinsolfixedpoint -lm"

// answer is what a run gave.
type answer struct {
	samples     [][]float64
	seconds     float64 // as the program says; of ngspice the whole process
	evaluations int     // of the equations; of ngspice not known
}

// run gives an input to its tool.
func (o *outside) run(tb testing.TB, input []byte) answer {
	tb.Helper()
	if o.folder == "" || !bytes.Equal(input, o.given) {
		o.given, o.folder = input, tb.TempDir()
		if err := os.WriteFile(filepath.Join(o.folder, filepath.Base(o.input)), input, 0o600); err != nil {
			tb.Fatal(err)
		}
	}
	words, _ := o.command()
	_ = os.Remove(filepath.Join(o.folder, "out.txt")) // of a run before
	c := exec.Command(words[0], words[1:]...)
	c.Dir = o.folder
	var out, aside bytes.Buffer
	c.Stdout, c.Stderr = &out, &aside
	began := time.Now()
	if err := c.Run(); err != nil {
		tb.Fatalf("%s: %v\n%s", strings.Join(words, " "), err, aside.String())
	}
	a := answer{seconds: time.Since(began).Seconds()}
	if words[0] != "ngspice" {
		if _, err := fmt.Sscanf(aside.String(), "%f seconds, %d evaluations", &a.seconds, &a.evaluations); err != nil {
			tb.Fatalf("%v in %q", err, aside.String())
		}
		a.samples = o.read(tb, out.Bytes())
		return a
	}
	// A run that was broken off ends as a good one does, with zeros for what is missing.
	said := out.String() + aside.String()
	for _, bad := range []string{"abort", "too small", "singular"} {
		if strings.Contains(strings.ToLower(said), bad) {
			tb.Fatalf("%s was broken off:\n%s", o.input, said)
		}
	}
	text, err := os.ReadFile(filepath.Join(o.folder, "out.txt"))
	if err != nil {
		tb.Fatalf("%v\n%s", err, said)
	}
	_, rows, _ := bytes.Cut(text, []byte("\n")) // the first line names the columns
	a.samples = o.read(tb, rows)
	return a
}

// head gives a recording: a head of comments, then the samples.
func (o *outside) head(tb testing.TB, hash string, samples [][]float64) []byte {
	tb.Helper()
	run, version := o.command()
	out, err := exec.Command(version[0], version[1:]...).Output()
	if err != nil {
		tb.Fatal(err)
	}
	var text bytes.Buffer
	fmt.Fprintf(&text, "# command: %s\n# version: %s\n# SHA-256 of the input: %s\n# %s\n", strings.Join(run, " "), versionLine(string(out)), hash, strings.Join(o.columns, ", "))
	for _, s := range samples {
		for j, v := range s {
			if j > 0 {
				text.WriteByte(' ')
			}
			text.WriteString(strconv.FormatFloat(v, 'g', 11, 64))
		}
		text.WriteByte('\n')
	}
	return text.Bytes()
}

// versionLine gives the first line that names anything, without what frames it.
func versionLine(said string) string {
	for line := range strings.Lines(said) {
		if line = strings.Trim(line, "* \n"); line != "" {
			return line
		}
	}
	return said
}

// read gives the numbers of a text, which has a whole row for each line.
func (o *outside) read(tb testing.TB, text []byte) [][]float64 {
	tb.Helper()
	var samples [][]float64
	for line := range strings.Lines(string(text)) {
		if strings.HasPrefix(line, "#") {
			continue
		}
		var s []float64
		for _, word := range strings.Fields(line) {
			v, err := strconv.ParseFloat(word, 64)
			if err != nil {
				tb.Fatal(err)
			}
			s = append(s, v)
		}
		if len(s) != len(o.columns) {
			tb.Fatalf("%s: %d columns in %q, want %d", o.input, len(s), line, len(o.columns))
		}
		samples = append(samples, s)
	}
	return samples
}

// apart gives the largest deviation between two runs, in the measures of their
// columns.
func (o *outside) apart(tb testing.TB, a, b [][]float64) float64 {
	tb.Helper()
	if len(a) != len(b) || len(a) < 2 {
		tb.Fatalf("%s: %d samples against %d", o.input, len(a), len(b))
	}
	worst := 0.0
	for n := range a {
		if math.Abs(a[n][0]-b[n][0]) > 1e-9 {
			tb.Fatalf("%s: sample %d at %g s against %g s", o.input, n, a[n][0], b[n][0])
		}
		for j, m := range o.measure {
			if d := math.Abs(a[n][j+1]-b[n][j+1]) / m; !(d <= worst) {
				worst = d
			}
		}
	}
	return worst
}
