package recording_test

import (
	"bytes"
	"testing"

	"coilwalk/model/recording"
)

// FuzzCSV: whatever the text, the reader ends, says so where it is bad, and
// gives rising times and levels that are either known or not. What is put as a
// dump by its first mark is the other target's.
func FuzzCSV(f *testing.F) {
	for _, text := range corpus(f, ".csv") {
		if len(text) < 4000 {
			f.Add(text, 0.0, 0.0, 0.0)
		}
	}
	f.Add([]byte("seconds,A,B,C,D\n0,1,0,0,0\n0.5,0,1,0,0\n"), 0.0, 0.0, 0.0)
	f.Add([]byte("A;B\n0,1;3,3\n2,9;0,2\n"), 1e6, 1.5, 0.3)
	f.Fuzz(func(t *testing.T, text []byte, rate, threshold, hysteresis float64) {
		if isDump(text) {
			return
		}
		got, complaint := soon(t, text, recording.Options{SampleRate: rate, Threshold: threshold, Hysteresis: hysteresis})
		if complaint != nil {
			if lines := bytes.Count(text, []byte("\n")) + 1; complaint.Line > lines {
				t.Fatalf("a complaint about line %d of %d: %v", complaint.Line, lines, complaint)
			}
			return
		}
		sound(t, got)
	})
}

// sound holds what is true of every recording that was read.
func sound(tb testing.TB, w whole) {
	tb.Helper()
	if !(w.tick > 0) || len(w.channels) == 0 {
		tb.Fatalf("%d channels, tick %g", len(w.channels), w.tick)
	}
	names := map[string]bool{}
	for _, c := range w.channels {
		if c.Name == "" || names[c.Name] {
			tb.Fatalf("the name %q, of %v", c.Name, w.channels)
		}
		names[c.Name] = true
	}
	for k, s := range w.samples {
		if s.High&s.Unknown != 0 || s.At > w.until || k > 0 && (s.At <= w.samples[k-1].At || s == w.samples[k-1]) {
			tb.Fatalf("sample %d of %v, until %d", k, w.samples[max(0, k-1):k+1], w.until)
		}
	}
}
