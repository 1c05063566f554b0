package recording_test

import (
	"io"
	"slices"
	"strings"
	"testing"

	"coilwalk/model/recording"
)

// However many samples are asked for at a time, they are the same; and what comes
// after them, the end or a fault, is told with the first slice that is not full.
func TestSamplesInSlices(t *testing.T) {
	const dump = "$timescale 1us $end\n$var wire 1 ! A $end\n$enddefinitions $end\n#0\n0!\n#3\n1!\n#4\nx!\n#9\n"
	const table = "time [ps],A\n0,0\n3,1\n4,x\n"
	want := []recording.Sample{{At: 0}, {At: 3, High: 1}, {At: 4, Unknown: 1}}
	for _, c := range []struct{ text, fault string }{
		{dump, ""}, {dump + "?\n", ":11:1: "}, {table, ""}, {table + "10,?\n", ":5:4: "}, {table + "9,x\n8,0\n", ":6:1: "},
	} {
		for size := 1; size <= 4; size++ {
			r, err := recording.Open("-", strings.NewReader(c.text), recording.Options{})
			if err != nil {
				t.Fatal(err)
			}
			if err := r.Watch([]int{0}); err != nil {
				t.Fatal(err)
			}
			var got []recording.Sample
			for into := make([]recording.Sample, size); err == nil; {
				var n int
				n, err = r.Next(into)
				got = append(got, into[:n]...)
				if (n < size) != (err != nil) {
					t.Fatalf("%q, %d at a time: %d samples and %v", c.text, size, n, err)
				}
			}
			if !slices.Equal(got, want) || (c.fault == "") != (err == io.EOF) || !strings.Contains(err.Error(), c.fault) {
				t.Errorf("%q, %d at a time: %v, %v; want %v, %s", c.text, size, got, err, want, c.fault)
			}
			if again, same := r.Next(make([]recording.Sample, 1)); again != 0 || same != err {
				t.Errorf("%q: after %v come %d samples and %v", c.text, err, again, same)
			}
		}
	}
}
