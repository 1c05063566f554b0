package recording_test

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"coilwalk/model/recording"
)

const verilog = "../../testdata/reference/verilog/sequencer"

// simulated gives the dump that Icarus Verilog makes of the sequencer. It was
// recorded, under a head with the command, the version and the SHA-256 of the
// source, so that go test needs only Go. With COILWALK_TOOLS=required the
// simulator runs anew and has to agree to the byte, but for the date;
// COILWALK_RECORD=1 writes what it says to the recording.
func simulated(t *testing.T) []byte {
	t.Helper()
	source, err := os.ReadFile(verilog + ".v")
	if err != nil {
		t.Fatal(err)
	}
	hash := fmt.Sprintf("# SHA-256 of the input: %x\n", sha256.Sum256(source))
	required, record := os.Getenv("COILWALK_TOOLS") == "required", os.Getenv("COILWALK_RECORD") != ""
	var live []byte
	if required || record {
		live = simulate(t, source)
	}
	if record {
		version, _ := exec.Command("iverilog", "-V").Output() // it ends badly where a part of it is not installed
		line, _, _ := strings.Cut(string(version), "\n")
		head := "# command: " + simulator + "\n# version: " + strings.TrimSpace(line) + "\n" + hash
		if err := os.WriteFile(verilog+".txt", append([]byte(head), live...), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	text, err := os.ReadFile(verilog + ".txt")
	if err != nil {
		t.Fatal(err)
	}
	_, dump, found := bytes.Cut(text, []byte(hash))
	if !found {
		t.Fatalf("%s.txt is out of date: the source of today has another hash; .ci/record renews it", verilog)
	}
	if !required {
		t.Logf("sequencer.v: recorded")
		return dump
	}
	date := regexp.MustCompile(`(?s)\$date.*?\$end`)
	if !bytes.Equal(date.ReplaceAll(live, nil), date.ReplaceAll(dump, nil)) {
		t.Errorf("a new run differs from the recording")
	}
	t.Logf("sequencer.v: live")
	return live
}

const simulator = "iverilog -g2005 -o sequencer.vvp sequencer.v && vvp sequencer.vvp"

func simulate(t *testing.T, source []byte) []byte {
	t.Helper()
	folder := t.TempDir()
	if err := os.WriteFile(filepath.Join(folder, "sequencer.v"), source, 0o600); err != nil {
		t.Fatal(err)
	}
	c := exec.Command("sh", "-c", simulator)
	c.Dir = folder
	if out, err := c.CombinedOutput(); err != nil {
		t.Fatalf("%s: %v\n%s", simulator, err, out)
	}
	dump, err := os.ReadFile(filepath.Join(folder, "sequencer.vcd"))
	if err != nil {
		t.Fatal(err)
	}
	return dump
}

// moment is when the coils of the sequencer change, and to what: IN1 is bit 0, −1
// where nobody knows.
type moment struct {
	at   int64
	pins int
}

// sequenced is what the source must give, in ticks of 100 ns: each clock takes
// half a period to rise and half to fall, and a row comes with the rise.
func sequenced() []moment {
	rows := []int{1, 3, 2, 6, 4, 12, 8, 9}
	all := []moment{{0, 0}}
	now, place := int64(100), 0
	tick := func(count int, half int64, way int, seen bool) {
		for range count {
			now += half
			place += way
			if way != 0 && seen {
				all = append(all, moment{now, rows[(place%8+8)%8]})
			}
			now += half
		}
	}
	tick(20, 2500, 1, true)
	tick(12, 2500, -1, true)
	tick(7, 10000, 0, true)
	tick(9, 4873, 1, true)
	all = append(all, moment{now, -1})
	now += 50000
	tick(2, 2500, 1, false)
	all = append(all, moment{now, rows[place%8]})
	tick(4, 2500, 1, true)
	return all
}

// A dump of a simulator that is not ours, with its scopes, its second names of
// lines, vectors, reals and unknown levels, is read whole, and says what the
// simulated source must give; by the reader and by its slow twin.
func TestReferenceVerilog(t *testing.T) {
	text := simulated(t)
	r, err := recording.Open("-", bytes.NewReader(text), recording.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	var watched []int
	for _, name := range []string{"IN1", "IN2", "IN3", "IN4"} {
		watched = append(watched, slices.IndexFunc(r.Channels, func(c recording.Channel) bool { return c.Name == name }))
	}
	if err := r.Watch(watched); err != nil {
		t.Fatal(err)
	}
	var got []moment
	into := make([]recording.Sample, 1000)
	n, err := r.Next(into)
	if err != nil && err != io.EOF {
		t.Fatal(err)
	}
	for _, s := range into[:n] {
		m := moment{s.At, int(s.High)}
		if s.Unknown != 0 {
			m.pins = -1
		}
		got = append(got, m)
	}
	want := sequenced()
	if r.Tick != 100e-9 || !slices.Equal(got, want) {
		t.Errorf("a tick of %g s, and\n%v, want\n%v", r.Tick, got, want)
	}
	if len(want) != 48 {
		t.Errorf("%d rows", len(want))
	}
	sameAsTwin(t, "sequencer.v", text)
}
