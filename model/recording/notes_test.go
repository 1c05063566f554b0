package recording_test

import (
	"slices"
	"strings"
	"testing"

	"coilwalk/model/recording"
)

// All that was taken for granted is told, each once, however often it was met.
func TestNotesAreToldOnce(t *testing.T) {
	const (
		seconds = `The times of the column "time" were taken for seconds; a unit in its name, as time [us], says otherwise.`
		volts   = "The columns hold voltages from 0 to 5 V: what is above 2.5 V was taken for high. --threshold says otherwise."
		cutOff  = "The file ends in the middle of a line: the recording was cut off there. What stands before it was read."
		scale   = "The file states no timescale: its unit was taken for 1 ns, so rates and times hang on that."
		zeros   = "The file ends in zero bytes: the recorder did not end it well. What stands before them was read."
	)
	const dump = "$var wire 1 ! A $end\n$enddefinitions $end\n#3\n0!\n#5\n1!\n"
	for _, c := range []struct {
		text  string
		until int64
		want  []string
	}{
		{"time,A\n0,0\n1,5\n2", 1e12, []string{seconds, volts, cutOff}},
		{dump + "#7\n\x00\x00\x00\x00", 7, []string{scale, zeros}},
		{dump + "#7\x00", 7, []string{scale, zeros}},
		{dump + "\x00\n\x00", 5, nil}, // a line's end stands behind a zero byte
	} {
		w, complaint := soon(t, []byte(c.text), recording.Options{})
		if c.want == nil {
			if complaint == nil || !strings.HasPrefix(place(complaint), "7:1: zero bytes stand here") {
				t.Errorf("%q: %v", c.text, complaint)
			}
			continue
		}
		if complaint != nil || !slices.Equal(w.notes, c.want) || w.until != c.until || len(w.samples) != 2 || w.samples[1].High != 1 {
			t.Errorf("%q: %+v, %v; want %q", c.text, w, complaint, c.want)
		}
	}
}
