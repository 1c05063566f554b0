package motor

import (
	"bytes"
	"os"
	"path/filepath"
	"reflect"
	"testing"

	"coilwalk/sequence"
)

const corpus = "../../testdata/motors/"

// sameMotor compares motors; fractions by their value, not by how they lie in
// memory.
func sameMotor(a, b Motor) bool {
	if (a.Train.Nominal == nil) != (b.Train.Nominal == nil) || a.Train.Ratio().Cmp(b.Train.Ratio()) != 0 {
		return false
	}
	a.Train.Nominal, b.Train.Nominal = nil, nil
	return reflect.DeepEqual(a, b)
}

// good says what is in each good file of the corpus, written down anew.
var good = map[string]struct {
	name, title, origin string
	leads               []Lead
	drive               sequence.Drive
	wiring              string
	train               string
	polePairs           int
	figures             map[string]string
	detentAt45          bool
}{
	"four.toml": {name: "shuttle", title: "shuttle", leads: []Lead{"BK", "RD", "GN", "BU"},
		drive: sequence.Bipolar, wiring: "A+ B+ A- B-", polePairs: 50},
	"five.toml": {name: "bell-ringer", title: "bell ringer, 12 V", origin: "invented for the tests",
		leads: []Lead{"WH/RD", "WH/BU", "GN/YE", "PK", "VT"},
		drive: sequence.Unipolar, wiring: "B- A+ A- B+", polePairs: 8, train: "9:32,11:22,9:26,10:31",
		figures: map[string]string{"voltage": "12 V", "current": "80 mA", "resistance": "0.15 kohm", "inductance": "60.5 mH",
			"one-phase": "350 gf.cm", "detent": "0 mN.m", "friction": "1.5 N.cm", "inertia": "2.5 g.cm2", "load": "-3 mN.m"},
		detentAt45: true},
	"six.toml": {name: "shutter", title: "shutter", leads: []Lead{"a", "b", "a-", "b_2", "a0", "b0"},
		drive: sequence.Bipolar, wiring: "A+ B+ A- B-", polePairs: 12, train: "64:1",
		figures: map[string]string{"holding": "70 mN.m"}},
	"counted.toml": {name: "blind", title: "roller blind", leads: []Lead{"BK", "BN", "OG", "YE", "RD", "WH"},
		drive: sequence.Unipolar, wiring: "A+ B+ A- B-", polePairs: 12, train: "10:40,12:30"},
	"eight.toml": {name: "plate/9", title: "turntable “θ” № 9", origin: `a \ backslash and a " quote`,
		leads: []Lead{"1", "2", "3", "4", "1!", "2*", "3@", "4°"},
		drive: sequence.Unipolar, wiring: "A+ B+ A- B-", polePairs: 500, train: "25792/405:1",
		figures: map[string]string{"current": "3 A"}},
}

// figuresOf gives the figures that are given, each as it was written.
func figuresOf(f Figures) map[string]string {
	given := map[string]string{}
	for name, text := range map[string]string{"voltage": f.Voltage.String(), "current": f.Current.String(), "resistance": f.Resistance.String(),
		"inductance": f.Inductance.String(), "holding": f.HoldingTorque.String(), "one-phase": f.OnePhase.String(),
		"detent": f.Detent.String(), "friction": f.Friction.String(), "inertia": f.Inertia.String(), "load": f.Load.String()} {
		if text != "" {
			given[name] = text
		}
	}
	return given
}

func TestGoodFiles(t *testing.T) {
	for file, want := range good {
		m, err := Open(corpus+"good/"+file, nil)
		if err != nil {
			t.Error(err)
			continue
		}
		wiring := ""
		for _, end := range m.Wiring {
			wiring += " " + end.String()
		}
		if m.Name != want.name || m.Title != want.title || m.Origin != want.origin {
			t.Errorf("%s: %q, %q, %q", file, m.Name, m.Title, m.Origin)
		}
		if !reflect.DeepEqual(m.Leads(), want.leads) || m.Drive != want.drive || wiring[1:] != want.wiring {
			t.Errorf("%s: %v, %s,%s; want %v, %s, %s", file, m.Leads(), m.Drive, wiring, want.leads, want.drive, want.wiring)
		}
		if m.PolePairs != want.polePairs || m.Train.String() != want.train {
			t.Errorf("%s: %d pole pairs, train %s; want %d, %s", file, m.PolePairs, m.Train, want.polePairs, want.train)
		}
		if got := figuresOf(m.Figures); len(got)+len(want.figures) > 0 && !reflect.DeepEqual(got, want.figures) {
			t.Errorf("%s: figures %v, want %v", file, got, want.figures)
		}
		if m.Figures.DetentAt45 != want.detentAt45 {
			t.Errorf("%s: detents at the two-phase positions: %v", file, m.Figures.DetentAt45)
		}
	}
	each(t, "good", func(file string, _ []byte) {
		if _, known := good[file]; !known {
			t.Errorf("good/%s has no line in the table", file)
		}
	})
}

// each gives every file of a part of the corpus.
func each(t testing.TB, part string, do func(file string, text []byte)) {
	t.Helper()
	files, err := filepath.Glob(corpus + part + "/*.toml")
	if err != nil || len(files) == 0 {
		t.Fatal("no corpus in ", corpus+part, err)
	}
	for _, path := range files {
		text, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		do(filepath.Base(path), text)
	}
}

func TestGoodFilesComeBack(t *testing.T) {
	each(t, "good", func(file string, text []byte) {
		m, err := Parse(file, text)
		if err != nil {
			t.Error(err)
			return
		}
		if again, err := Parse(file, m.Text()); err != nil || !sameMotor(m, again) {
			t.Errorf("%s comes back as\n%+v, %v\nwas\n%+v\nwritten\n%s", file, again, err, m, m.Text())
		}
	})
}

// Editors of one system end lines in CR LF, and some put a byte order mark
// before the first.
func TestLineEndsOfOtherSystems(t *testing.T) {
	each(t, "good", func(file string, text []byte) {
		plain, err := Parse(file, text)
		if err != nil {
			t.Error(err)
			return
		}
		crlf := bytes.ReplaceAll(bytes.ReplaceAll(text, []byte("\r\n"), []byte("\n")), []byte("\n"), []byte("\r\n"))
		if m, err := Parse(file, crlf); err != nil || !sameMotor(m, plain) {
			t.Errorf("with CR LF: %+v, %v", m, err)
		}
	})
}

func TestByteOrderMark(t *testing.T) {
	text := []byte("\ufeffname = \"x\"\n[winding]\nends = [\"a\", \"b\", \"c\", \"d\"]\n[rotor]\npole_pairs = 8\n")
	if m, err := Parse("x", text); err != nil || m.Name != "x" {
		t.Errorf("a file that begins with a byte order mark: %q, %v", m.Name, err)
	}
}
