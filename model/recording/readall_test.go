package recording_test

import (
	"bytes"
	"errors"
	"io"
	"testing"

	"coilwalk/model/files"
	"coilwalk/model/recording"
	"coilwalk/testdata/bounds"
)

// whole is all that a reader gives of a recording.
type whole struct {
	channels []recording.Channel
	tick     float64
	samples  []recording.Sample
	until    int64
	notes    []string
}

// readAll reads a recording, watching the first channels. Its errors are
// complaints that name a file, and where they name a place, one in it.
func readAll(tb testing.TB, in io.Reader, o recording.Options) (w whole, complaint *files.Complaint) {
	tb.Helper()
	said := func(err error) *files.Complaint {
		var c *files.Complaint
		if !errors.As(err, &c) {
			tb.Fatalf("an error that is no complaint: %v", err)
		}
		if c.File == "" || c.What == "" || c.Line < 0 || c.Column < 0 {
			tb.Fatalf("a complaint without a place or reason: %+v", c)
		}
		return c
	}
	r, err := recording.Open("-", in, o)
	if err != nil {
		return w, said(err)
	}
	defer r.Close()
	w.channels, w.tick = r.Channels, r.Tick
	var watched []int
	for k := range min(len(r.Channels), recording.MostChannels) {
		watched = append(watched, k)
	}
	if err := r.Watch(watched); err != nil {
		return w, said(err)
	}
	into := make([]recording.Sample, 100)
	for {
		n, err := r.Next(into)
		w.samples = append(w.samples, into[:n]...)
		if err == io.EOF {
			w.until, w.notes = r.Until(), r.Notes()
			return w, nil
		}
		if err != nil {
			return w, said(err)
		}
	}
}

// What reading a text may ask for: windows of a size of their own, tables of
// identifiers, and of each byte a sample at most, in a slice that grows.
const (
	readBase    = 64 << 20
	readPerByte = 2000
)

// soon fails when reading a text hangs, or takes too much memory.
func soon(tb testing.TB, text []byte, o recording.Options) (w whole, complaint *files.Complaint) {
	tb.Helper()
	bounds.Hold(tb, len(text), readBase, readPerByte, func() { w, complaint = readAll(tb, bytes.NewReader(text), o) })
	return w, complaint
}
