package course_test

import (
	"bytes"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"coilwalk/model/course"
	"coilwalk/model/recording"
)

// rowsOf gives the rows of a text of which the channels are named.
func (g *generated) rowsOf(t *testing.T, text []byte, o recording.Options) *course.Course {
	t.Helper()
	rows, _, err := g.read(t, text, o)
	if err != nil {
		t.Fatalf("%s: %v", g.name, err)
	}
	return rows
}

// A recording is the same in either format: the rows of a dump, of a CSV with a
// line a change, and of one with a line a sample, with levels or with voltages.
func TestFormatsAgree(t *testing.T) {
	compared, sampled := 0, 0
	for n := range max(40, size(40, 400)) {
		g := generate(3000, n)
		if g.asked.channels == nil || slices.Contains(g.trace.unknown, true) {
			continue
		}
		compared++
		r := rand.New(rand.NewPCG(3001, uint64(n)))
		want := g.rowsOf(t, g.trace.vcd(r, g.tick), recording.Options{})
		g.sameRows(t, "CSV", g.rowsOf(t, g.trace.csv(r, g.tick), recording.Options{}), want, 1e-9)

		const rate = 50e3
		if g.trace.until*rate/1e9 > 300e3 {
			continue
		}
		sampled++
		levels := g.trace.samples(rate, "0", "1")
		plain := g.rowsOf(t, levels, recording.Options{SampleRate: rate})
		volts := g.rowsOf(t, g.trace.samples(rate, "0.31", "4.8"), recording.Options{SampleRate: rate, Threshold: 2.5})
		g.sameRows(t, "voltages", volts, plain, 1e-9)
		if g.skewed() { // pins that are written one after another may fall on two samples
			continue
		}
		g.sameRows(t, "samples", plain, want, 1.01/rate)
	}
	if compared < 10 || sampled < 3 {
		t.Errorf("only %d recordings were compared, %d of them sampled", compared, sampled)
	}
}

func (g *generated) sameRows(t *testing.T, what string, got, want *course.Course, within float64) {
	t.Helper()
	same := got.Len() == want.Len()
	for i := 0; same && i < want.Len(); i++ {
		a, b := got.Row(i), want.Row(i)
		same = a.Levels == b.Levels && math.Abs(got.Seconds(a.At)-want.Seconds(b.At)) <= within
		if !same {
			t.Logf("row %d: %04b at %.9f s, and %04b at %.9f s", i, a.Levels, got.Seconds(a.At), b.Levels, want.Seconds(b.At))
		}
	}
	if !same {
		t.Errorf("%s, %s: %d rows, and %d in the dump", g.name, what, got.Len(), want.Len())
	}
}

// skewed says whether any two edges follow each other within the skew of pins.
func (g *generated) skewed() bool {
	for k := 1; k < len(g.trace.edges); k++ {
		if gap := g.trace.edges[k].at - g.trace.edges[k-1].at; gap > 0 && gap < 40e3 {
			return true
		}
	}
	return false
}

// samples writes a trace at a rate, a line a sample, and no times.
func (t *trace) samples(rate float64, low, high string) []byte {
	var b bytes.Buffer
	b.WriteString(strings.Join(t.names, ",") + "\n")
	level := slices.Clone(t.start)
	next := 0
	for n := 0; float64(n)*1e9/rate <= t.until; n++ {
		for next < len(t.edges) && t.edges[next].at <= float64(n)*1e9/rate {
			level[t.edges[next].channel] = t.edges[next].high
			next++
		}
		for k, h := range level {
			if k > 0 {
				b.WriteByte(',')
			}
			if h {
				b.WriteString(high)
			} else {
				b.WriteString(low)
			}
		}
		b.WriteByte('\n')
	}
	return b.Bytes()
}
