package recording_test

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"coilwalk/model/files"
	"coilwalk/model/recording"
)

// optionsOf are what a person has to say of some recordings of the corpus.
var optionsOf = map[string]recording.Options{
	"samples.csv": {SampleRate: 1000},
	"voltage.csv": {Threshold: 1.5, Hysteresis: 0.4}, // what is between 1.3 and 1.7 V stays
}

// The corpus: each file beside what it must give, sample by sample (a digit a
// channel, x where nobody knows), or the complaint it must get, with line and column.
//
// good/published.vcd is the published VCD example with awkward identifiers, of
// the format's common description; its values were decoded by hand. The others
// were written for this test, feature by feature of IEEE 1364-2005, clause 18.
func TestGoldenCorpus(t *testing.T) {
	names, err := filepath.Glob("../../testdata/recordings/*/*")
	if err != nil {
		t.Fatal(err)
	}
	count := 0
	for _, name := range names {
		if filepath.Ext(name) == ".want" {
			continue
		}
		count++
		t.Run(strings.TrimPrefix(name, "../../testdata/recordings/"), func(t *testing.T) {
			in, err := os.Open(name)
			if err != nil {
				t.Fatal(err)
			}
			defer in.Close()
			got, complaint := readAll(t, in, optionsOf[filepath.Base(name)])
			if broken := strings.Contains(name, "/broken/"); broken != (complaint != nil) {
				t.Fatalf("%v: complaint %v", got.samples, complaint)
			}
			said := written(got)
			if complaint != nil {
				said = place(complaint)
			}
			if os.Getenv("COILWALK_RECORD") != "" {
				if err := os.WriteFile(name+".want", []byte(said), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			want, err := os.ReadFile(name + ".want")
			if err != nil {
				t.Fatal(err)
			}
			if said != string(want) {
				t.Errorf("got\n%swant\n%s", said, want)
			}
		})
	}
	if count < 60 {
		t.Errorf("%d recordings", count)
	}
}

// written gives all that was read of a recording.
func written(w whole) string {
	var b strings.Builder
	fmt.Fprintf(&b, "a tick is %g s\n", w.tick)
	for k, c := range w.channels {
		fmt.Fprintf(&b, "channel %d is %s\n", k+1, c.Name)
	}
	for _, s := range w.samples {
		fmt.Fprintf(&b, "%d ", s.At)
		for k := range w.channels {
			switch {
			case s.Unknown>>k&1 == 1:
				b.WriteByte('x')
			default:
				fmt.Fprint(&b, s.High>>k&1)
			}
		}
		b.WriteByte('\n')
	}
	fmt.Fprintf(&b, "until %d\n", w.until)
	for _, note := range w.notes {
		fmt.Fprintf(&b, "note: %s\n", note)
	}
	return b.String()
}

// place gives a complaint without the name of its file.
func place(c *files.Complaint) string {
	text := strings.TrimPrefix(c.Error(), c.File+":")
	return strings.TrimPrefix(text, " ") + "\n"
}

// The published example once more, by the variables' values: the last bit of
// data is channel 8.
func TestPublishedExample(t *testing.T) {
	in, err := os.Open("../../testdata/recordings/good/published.vcd")
	if err != nil {
		t.Fatal(err)
	}
	defer in.Close()
	got, complaint := readAll(t, in, recording.Options{})
	if complaint != nil {
		t.Fatal(complaint)
	}
	type moment struct {
		ps                                         int64
		data                                       uint32
		dataValid, en, rxEn, txEn, empty, underrun uint32
	}
	var moments []moment
	for _, s := range got.samples {
		if s.Unknown != 0 {
			t.Errorf("at %d: channels %b are unknown", s.At, s.Unknown)
		}
		m := moment{ps: s.At}
		for bit := range 8 {
			m.data |= s.High >> bit & 1 << (7 - bit)
		}
		for k, field := range []*uint32{&m.dataValid, &m.en, &m.rxEn, &m.txEn, &m.empty, &m.underrun} {
			*field = s.High >> (8 + k) & 1
		}
		moments = append(moments, m)
	}
	want := []moment{
		{0, 0x81, 0, 1, 0, 1, 0, 0},
		{2211, 0x81, 0, 1, 0, 0, 0, 0},
		{2296, 0x00, 1, 1, 0, 0, 0, 0}, // b0 stands for eight bits
		{2302, 0x00, 0, 1, 0, 0, 0, 0},
	}
	if fmt.Sprint(moments) != fmt.Sprint(want) || got.until != 2303 || got.tick != 1e-12 {
		t.Errorf("%v, until %d, tick %g", moments, got.until, got.tick)
	}
}
