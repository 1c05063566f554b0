package recording_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"coilwalk/model/recording"
)

// A line that begins with a mark of comments among the others is none of them; but
// a semicolon is one only where it does not part the columns: there the first cell
// is empty, and its level stays.
func TestRemarksAmongTheLines(t *testing.T) {
	for _, c := range []struct {
		text string
		want []uint32 // the levels at 0, 1, ...
	}{
		{"A,B\n0,1\n; by hand\n# by hand\n% by hand\n// by hand\n  ; 1,0\n1,1\n", []uint32{2, 3}},
		{"A;B\n0;1\n# by hand\n% 1;0\n// 1;0\n;0\n1;1\n;0\n", []uint32{2, 0, 3, 1}},
	} {
		w, complaint := soon(t, []byte(c.text), recording.Options{SampleRate: 1})
		var got []uint32
		for _, s := range w.samples {
			got = append(got, s.High)
		}
		if complaint != nil || !slices.Equal(got, c.want) || w.until != int64(len(c.want)-1) {
			t.Errorf("%q: %v until %d, %v; want %v", c.text, got, w.until, complaint, c.want)
		}
	}
}

// Whether the cells are voltages is settled by the first lines: a number that is
// no level is refused when it comes far below them, with its place.
func TestNumbersFarBelowTheHead(t *testing.T) {
	for _, number := range []string{"7", "12", "0.5"} {
		var text strings.Builder
		text.WriteString("time [ps],A\n")
		const lines = 10_000
		for k := range lines {
			fmt.Fprintf(&text, "%d,%d\n", k, k%2)
		}
		fmt.Fprintf(&text, "%d,%s\n", lines, number)
		_, complaint := soon(t, []byte(text.String()), recording.Options{})
		if want := fmt.Sprintf("%d:7: %q is no level", lines+2, number); complaint == nil || !strings.HasPrefix(place(complaint), want) {
			t.Errorf("%v, want %s", complaint, want)
		}
	}
}
