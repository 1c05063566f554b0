package recording

import (
	"bytes"
	"compress/gzip"
	"io"
	"strings"
	"testing"
	"time"
)

// Zero bytes at the end of a dump, as a crash leaves them, are passed over in the
// time that reading them takes, however many: looked at anew for each of them, a
// quarter of a megabyte took half a minute. Packed, a small file holds that many.
func TestMegabytesOfZeros(t *testing.T) {
	const dump = "$timescale 1us $end\n$var wire 1 ! A $end\n$enddefinitions $end\n#0\n1!\n#5\n0!\n"
	var packed bytes.Buffer
	w := gzip.NewWriter(&packed)
	if _, err := io.Copy(w, io.MultiReader(strings.NewReader(dump), io.LimitReader(zeros{}, 3<<20))); err != nil || w.Close() != nil {
		t.Fatal(err)
	}
	began := time.Now()
	r, err := Open("-", &packed, Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	if err := r.Watch([]int{0}); err != nil {
		t.Fatal(err)
	}
	var all []Sample
	for into := make([]Sample, 16); err == nil; {
		var n int
		n, err = r.Next(into)
		all = append(all, into[:n]...)
	}
	if err != io.EOF || len(all) != 2 || all[1].At != 5 || !strings.Contains(strings.Join(r.Notes(), " "), "ends in zero bytes") {
		t.Errorf("%d samples, %v, %q", len(all), err, r.Notes())
	}
	if took := time.Since(began); took > 5*time.Second {
		t.Errorf("3 MB of zeros took %v", took)
	}
}

type zeros struct{}

func (zeros) Read(p []byte) (int, error) {
	clear(p)
	return len(p), nil
}
