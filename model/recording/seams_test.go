package recording

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"testing"
)

// changing gives a dump of one line that changes at each time: 40,000 are several
// windows and pieces.
func changing(rows int) string {
	var b strings.Builder
	b.WriteString(edgesHead)
	for k := range rows {
		fmt.Fprintf(&b, "#%d\n%d!\n", k, k%2)
	}
	return b.String()
}

// readBy reads a dump, watching some channels, and gives the reader of its body,
// which still has the pieces of the last window.
func readBy(t *testing.T, text string, channels ...int) (v *vcd, got []Sample, err error) {
	t.Helper()
	r, err := Open("-", strings.NewReader(text), Options{})
	if err != nil {
		t.Fatal(err)
	}
	if err := r.Watch(channels); err != nil {
		t.Fatal(err)
	}
	into := make([]Sample, 1<<12)
	for err == nil {
		var n int
		n, err = r.Next(into)
		got = append(got, into[:n]...)
	}
	return r.body.(*vcd), got, err
}

// Time that goes back where one piece ends and the next, as plain as it, begins is
// found as within a piece; one that stays is read.
func TestTimeWhereAPieceBegins(t *testing.T) {
	text := changing(40_000)
	v, want, _ := readBy(t, text, 0)
	if len(v.pieces) != 2 {
		t.Fatalf("%d pieces", len(v.pieces))
	}
	at := len(text) // where the second piece of the last window begins
	for _, p := range v.pieces[1:] {
		at -= p.size
	}
	before := text[:at]
	last := before[strings.LastIndexByte(before, '#'):]
	last = last[:strings.IndexByte(last, '\n')+1] // the time before it, as #1234
	v, _, err := readBy(t, before+"#5\n"+text[at:], 0)
	if want := fmt.Sprintf("standard input:%d:1: time goes back", 1+strings.Count(before, "\n")); !strings.HasPrefix(err.Error(), want) {
		t.Errorf("%v, want %s", err, want)
	}
	if !v.pieces[1].plain || !strings.HasPrefix(string(v.pieces[1].text), "#5\n") {
		t.Error("no plain piece begins where time goes back")
	}
	if _, got, err := readBy(t, before+last+text[at:], 0); err != io.EOF || !slices.Equal(got, want) {
		t.Errorf("%d samples, %v; want %d", len(got), err, len(want))
	}
}

// Plain lines are read by the fast way, but for the first piece of a window, which
// may begin anywhere: that is what keeps the budget.
func TestPlainLinesAreReadFast(t *testing.T) {
	v, got, err := readBy(t, changing(40_000), 0)
	if len(got) != 40_000 || err != io.EOF || len(v.pieces) < 2 {
		t.Fatalf("%d samples, %v, %d pieces", len(got), err, len(v.pieces))
	}
	for k, p := range v.pieces[1:] {
		if !p.plain {
			t.Errorf("piece %d is not", k+1)
		}
	}
}

// Where times are told again and again, one after the other as plain as can be, each
// is one moment, and what was last told of it counts.
func TestTimesThatAreRepeated(t *testing.T) {
	begin := edgesHead + strings.Repeat("#3\n", 2*firstWindow/3+1) // beyond the first window
	for text, want := range map[string][]Sample{
		"#4\n#4\n1!\n0\"\n#5\n0!\n":    {{3, 0, 3}, {4, 1, 0}, {5, 0, 0}},
		"1!\n#4\n0!\n#4\n1!\n#5\n":     {{3, 1, 2}},
		"#4\n1!\n#4\n0!\n#9\n1!\n":     {{3, 0, 3}, {4, 0, 2}, {9, 1, 2}},
		"#4\n1!\n#5\n0!\n#5\n1!\n#9\n": {{3, 0, 3}, {4, 1, 2}},
	} {
		v, got, err := readBy(t, begin+text, 0, 1)
		if !slices.Equal(got, want) || err != io.EOF {
			t.Errorf("%q: %v, %v; want %v", text, got, err, want)
		}
		if len(v.pieces) != 1 || !v.pieces[0].plain {
			t.Errorf("%q was not read by the fast way", text)
		}
	}
}

// Times that count up to the most digits that are read.
func TestTimesOfMostDigits(t *testing.T) {
	const most = "#999999999999999999\n"
	for text, want := range map[string]string{
		"#999999999999999998\n0!\n" + most + "1!\n": "EOF",
		most + "0!\n#999999999999999998\n1!\n":      "standard input:8:1: time goes back, from #999999999999999999 to #999999999999999998",
		most + "0!\n#1000000000000000000\n1!\n":     "standard input:8:1: the time #1000000000000000000 is too great",
		most + "0!\n#99999999999999999\n":           "standard input:8:1: time goes back",
		most + "0!\n#99999999999999999":             "EOF", // the last line is cut off
	} {
		r, err := Open("-", strings.NewReader(edgesHead+text), Options{})
		if err != nil {
			t.Fatal(err)
		}
		if _, err = r.Next(make([]Sample, 9)); !strings.HasPrefix(err.Error(), want) || r.Until() != 999999999999999999 {
			t.Errorf("%q: %v until %d, want %s", text, err, r.Until(), want)
		}
	}
}
