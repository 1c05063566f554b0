package course

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"coilwalk/model/recording"
	"coilwalk/sequence"
)

// written makes a course of rows, output 1 first, an interval apart; "0110*3"
// lasts three intervals, "0110/4" a quarter of one.
func writtenCourse(t *testing.T, interval int64, rows string) *Course {
	t.Helper()
	g := newGatherer(1e-6)
	at := int64(0)
	for _, word := range strings.Fields(rows) {
		levels, times, by := word, int64(1), int64(1)
		if a, b, ok := strings.Cut(word, "*"); ok {
			levels = a
			fmt.Sscan(b, &times)
		} else if a, b, ok := strings.Cut(word, "/"); ok {
			levels = a
			fmt.Sscan(b, &by)
		}
		s := recording.Sample{At: at}
		for k, c := range levels {
			s.High |= uint32(c-'0') << k
		}
		g.add([]recording.Sample{s})
		at += interval * times / by
	}
	return g.end(at)
}

const (
	halves = "1000 1100 0100 0110 0010 0011 0001 1001 "
	fulls  = "1100 0110 0011 1001 "
	waves  = "1000 0100 0010 0001 "
)

func back(rows string) string {
	words := strings.Fields(rows)
	for i, k := 0, len(words)-1; i < k; i, k = i+1, k-1 {
		words[i], words[k] = words[k], words[i]
	}
	return strings.Join(words, " ") + " "
}

// Each slip that a practitioner meets, written out by hand; which row is wrong
// is counted by hand as well. Rules of what is a fault: common practice, no
// source.
func TestWhatIsToldOfRows(t *testing.T) {
	straight := sequence.Straight
	off := "0000*40 "
	cases := []struct {
		name, rows string
		q          Question
		want       string // kind@row, in the order told
		runs       string // mode direction
	}{
		{"half step", off + strings.Repeat(halves, 4), Question{}, "", "half forward"},
		{"half step back", off + back(strings.Repeat(halves, 4)), Question{}, "", "half reverse"},
		{"full step", off + strings.Repeat(fulls, 6), Question{}, "", "full forward"},
		{"wave drive", off + strings.Repeat(waves, 6), Question{}, "", "wave forward"},
		{"two modes", off + strings.Repeat(halves, 3) + strings.Repeat(fulls, 4), Question{}, "", "half forward, full forward"},
		{"there and back", strings.Repeat(fulls, 4) + "1100 " + back(strings.Repeat(fulls, 4)), Question{}, "", "full forward, full reverse"},
		{"off between moves", strings.Repeat(halves, 3) + off + strings.Repeat(halves, 3), Question{}, "", "half forward, half forward"},
		{"a row skipped", strings.Repeat(halves, 3) + "1000 0100 0110 0010 0011 0001 1001 " + strings.Repeat(halves, 3), Question{}, "skipped-row@26", "half forward"},
		{"a row skipped in full step", strings.Repeat(fulls, 4) + "1100 0011 1001 " + strings.Repeat(fulls, 4), Question{}, "skipped-row@18", "full forward"},
		{"rows exchanged", strings.Repeat(halves, 3) + "1000 0100 1100 0110 0010 0011 0001 1001 " + strings.Repeat(halves, 2), Question{}, "rows-exchanged@26", "half forward"},
		{"both ends on", strings.Repeat(halves, 3) + "1000 1010 0100 0110 0010 0011 0001 1001 " + strings.Repeat(halves, 2), Question{}, "both-ends-on@26", "half forward"},
		{"a row of zeros", strings.Repeat(halves, 3) + "1000 0000 0100 0110 0010 0011 0001 1001 " + strings.Repeat(halves, 2), Question{}, "no-field@26", "half forward"},
		{"a wrong row", strings.Repeat(halves, 3) + "1000 0001 0100 0110 0010 0011 0001 1001 " + strings.Repeat(halves, 2), Question{}, "wrong-row@26", "half forward"},
		{"two rows back", strings.Repeat(halves, 3) + "1000 1100 1000 1001 " + strings.Repeat(halves, 3), Question{}, "reversal@27", "half forward"},
		{"a row twice", strings.Repeat(fulls, 4) + "1100*2 0110 0011 1001 " + strings.Repeat(fulls, 4), Question{}, "repeated-row@18", "full forward"},
		{"a gap", strings.Repeat(fulls, 4) + "1100*7 0110 0011 1001 " + strings.Repeat(fulls, 4), Question{}, "gap@18", "full forward"},
		{"a pause", strings.Repeat(fulls, 4) + "1100*70 0110 0011 1001 " + strings.Repeat(fulls, 4), Question{}, "", "full forward, full forward"},
		{"a glitch", strings.Repeat(halves, 3) + "1000 1100/2 1101/50 1100/2 0100 0110 0010 0011 0001 1001 " + strings.Repeat(halves, 2), Question{}, "glitch@26", "half forward"},
		{"a late pin", strings.Repeat(fulls, 4) + "1100 0100/4 0110 0011 1001 " + strings.Repeat(fulls, 4), Question{}, "late-pin@18", "full forward"},
		{"a table with seven of eight rows", strings.Repeat("1000 1100 0100 0110 0010 0011 0001 ", 6), Question{}, "open-wrap@8", "half forward"},
		{"a table with three of four rows", strings.Repeat("1100 0110 0011 ", 8), Question{}, "open-wrap@4", "full forward"},
		{"output 1 never on", off + strings.Repeat("0000 0100*2 0110 0010 0011 0001*2 ", 5), Question{}, "stuck-low@1", "half forward"},
		{"outputs 2 and 3 exchanged", strings.Repeat("1010 0110 0101 1001 ", 6), Question{Wiring: &straight}, "outputs-permuted@1", "full none"},
		{"the same, nothing stated", strings.Repeat("1010 0110 0101 1001 ", 6), Question{}, "", "full forward"},
		{"the other way than meant", strings.Repeat(fulls, 6), Question{Wiring: &straight, Direction: sequence.Reverse}, "direction-reversed@1", "full forward"},
		{"a low level on", "1111*40 " + strings.Repeat("0111 0011 1011 1001 1101 1100 1110 0110 ", 4), Question{}, "", "half forward"},
		{"off after each row", strings.ReplaceAll(strings.Repeat(fulls, 6), " ", "/2 0000/2 "), Question{}, "", "full forward"},
		{"whole milliseconds", strings.Repeat("1000*9 1100*8 0100*7 0110*6 0010*5 0011*4 0001*3 1001*2 ", 1) + strings.Repeat(halves, 3), Question{}, "quantised-timer@1", "half forward"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			v := Judge(writtenCourse(t, 1000, c.rows), [4]string{"IN1", "IN2", "IN3", "IN4"}, c.q)
			var faults, runs []string
			for _, f := range v.Faults {
				faults = append(faults, fmt.Sprintf("%s@%d", f.Kind, f.Row))
				if f.Text == "" || f.Cure == "" || f.Cause == "" {
					t.Errorf("%s has no words: %+v", f.Kind, f)
				}
			}
			for _, r := range v.Runs {
				runs = append(runs, r.Mode+" "+r.Direction.String())
			}
			if got := strings.Join(faults, " "); got != c.want {
				t.Errorf("faults %q, want %q", got, c.want)
			}
			if got := strings.Join(runs, ", "); got != c.runs {
				t.Errorf("runs %q, want %q", got, c.runs)
			}
			if v.Sound != (c.want == "") {
				t.Errorf("sound %v", v.Sound)
			}
		})
	}
}

// Pins written one after another are one row, however the rows go on; and the
// time of the row is that of its first pin.
func TestPinsWrittenOneAfterAnother(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		interval := int64(rapid.IntRange(1000, 50_000).Draw(rt, "interval"))
		skew := int64(rapid.IntRange(1, 40).Draw(rt, "skew"))
		g := newGatherer(1e-6)
		words, now, at := strings.Fields(strings.Repeat(fulls, 5)), uint32(0), int64(100_000)
		g.add([]recording.Sample{{At: 0}})
		for _, w := range words {
			moment := at
			for _, k := range rapid.Permutation([]int{0, 1, 2, 3}).Draw(rt, "order") {
				if bit := uint32(w[k]-'0') << k; bit != now&(1<<k) {
					now = now&^(1<<k) | bit
					g.add([]recording.Sample{{At: moment, High: now}})
					moment += skew
				}
			}
			at += interval
		}
		c := g.end(at)
		if c.Len() != len(words)+1 {
			rt.Fatalf("%d rows of %d", c.Len()-1, len(words))
		}
		for i := range words {
			r := c.Row(i + 1)
			if r.At != 100_000+int64(i)*interval || r.Skew != uint32(skew) || written(r.Levels) != words[i] {
				rt.Fatalf("row %d is %+v, want %s at %d, skew %d", i+1, r, words[i], 100_000+int64(i)*interval, skew)
			}
		}
	})
}

func TestNumbersThereAndBack(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		var none []int
		for i := range 60 {
			if rapid.Bool().Draw(rt, "none") {
				none = append(none, i)
			}
		}
		n := Numbers{none}
		count := int64(0)
		for row := range 60 {
			isNone := false
			for _, k := range none {
				isNone = isNone || k == row
			}
			if !isNone {
				count++
				if n.Row(count) != row {
					rt.Fatalf("number %d is row %d, want %d (none: %v)", count, n.Row(count), row, none)
				}
			}
			if n.Of(row) != count {
				rt.Fatalf("row %d has number %d, want %d", row, n.Of(row), count)
			}
		}
	})
}
