package recording

import (
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// faulted wants a function to meet a fault of ours in the caller's own goroutine,
// where the terminal can be put back for it.
func faulted(t *testing.T, what string, run func()) {
	t.Helper()
	defer func() {
		if r := recover(); r == nil {
			t.Errorf("%s: the fault was not the caller's to see", what)
		}
	}()
	run()
}

// broken is a reader with a fault.
type broken struct{}

func (broken) Read([]byte) (int, error) { panic("a fault for the test") }

// A fault of ours in what runs beside the reader is the reader's own.
func TestFaultsBesideTheReader(t *testing.T) {
	v := &vcd{pieces: []piece{{}, {plain: true, text: []byte("#1"), size: 2}, {}}} // without the slack that it counts on
	faulted(t, "a piece", v.together)
	w := newWindow(&source{name: "x", Reader: io.MultiReader(strings.NewReader(strings.Repeat("#1\n", firstWindow)), broken{})})
	faulted(t, "reading ahead", func() {
		for w.fill() == nil {
			w.at = w.end
			w.readAhead()
		}
	})
}

// A file that grows while it is read is never read to more than its end.
func TestProgressOfAFileThatGrows(t *testing.T) {
	name := filepath.Join(t.TempDir(), "grows.vcd")
	head := "$timescale 1 us $end\n$var wire 1 ! a $end\n$enddefinitions $end\n#0\n0!\n"
	if err := os.WriteFile(name, []byte(head+strings.Repeat("#1\n1!\n", 1<<16)), 0o600); err != nil {
		t.Fatal(err)
	}
	r, err := Open(name, nil, Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	_, size := r.Progress()
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_APPEND, 0)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if _, err := f.WriteString(strings.Repeat("#2\n0!\n", 1<<17)); err != nil {
		t.Fatal(err)
	}
	into := make([]Sample, 16)
	for err == nil {
		_, err = r.Next(into)
	}
	if read, total := r.Progress(); total != size || read != total {
		t.Errorf("%v: %d of %d bytes are read, it had %d", err, read, total, size)
	}
}
