package recording_test

import (
	"fmt"
	"io"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"coilwalk/model/recording"
)

// Other channels are watched from some sample on: what is read then is what was
// recorded of them, sample by sample, though far more had been read ahead.
func TestOtherChannelsOnTheWay(t *testing.T) {
	const channels = 6
	rapid.Check(t, func(t *rapid.T) {
		moments := rapid.IntRange(2, 400).Draw(t, "moments")
		random := rapid.SliceOfN(rapid.Byte(), moments, moments).Draw(t, "levels")
		levels := make([][channels]byte, moments) // '0', '1' or 'x'
		inCSV := rapid.Bool().Draw(t, "as a CSV")
		var text strings.Builder
		if inCSV {
			text.WriteString("time [ps],a,b,c,d,e,f\n")
		} else {
			text.WriteString("$timescale 1us $end\n")
			for c := range channels {
				fmt.Fprintf(&text, "$var wire 1 %c %c $end\n", 'a'+c, 'a'+c)
			}
			text.WriteString("$enddefinitions $end\n")
		}
		for k := range levels {
			for c := range channels {
				switch b := random[k] >> c & 1; {
				case k > 0 && int(random[k])%channels != c && int(random[k]>>4)%channels != c:
					levels[k][c] = levels[k-1][c]
				case random[k] == 255:
					levels[k][c] = 'x'
				default:
					levels[k][c] = '0' + b
				}
			}
			if inCSV {
				fmt.Fprintf(&text, "%d,%s\n", k, strings.Join(strings.Split(string(levels[k][:]), ""), ","))
				continue
			}
			fmt.Fprintf(&text, "#%d\n", k)
			for c := range channels {
				fmt.Fprintf(&text, "%c%c\n", levels[k][c], 'a'+c)
			}
		}
		r, err := recording.Open("-", strings.NewReader(text.String()), recording.Options{})
		if err != nil {
			t.Fatal(err)
		}
		order := rapid.Permutation([]int{0, 1, 2, 3, 4, 5})
		before := order.Draw(t, "watched")
		after := order.Draw(t, "watched then")[:rapid.IntRange(1, channels).Draw(t, "so many")]
		if err := r.Watch(before); err != nil {
			t.Fatal(err)
		}
		early := make([]recording.Sample, rapid.IntRange(1, moments).Draw(t, "read before"))
		n, err := r.Next(early)
		if err != nil && err != io.EOF {
			t.Fatal(err)
		}
		if n == 0 {
			t.Skip("nothing was recorded")
		}
		if err := r.Watch(after); err != nil {
			t.Fatal(err)
		}
		rest := make([]recording.Sample, moments+1)
		m, err := r.Next(rest)
		if err != io.EOF {
			t.Fatalf("%d more, %v", m, err)
		}
		level := func(k int) (s recording.Sample) {
			s.At = int64(k)
			for bit, c := range after {
				switch levels[k][c] {
				case '1':
					s.High |= 1 << bit
				case 'x':
					s.Unknown |= 1 << bit
				}
			}
			return s
		}
		at := 0 // of the samples that came then
		now := level(int(early[n-1].At))
		for k := int(early[n-1].At) + 1; k < moments; k++ {
			for at < m && rest[at].At <= int64(k) {
				now = rest[at]
				at++
			}
			if want := level(k); now.High != want.High || now.Unknown != want.Unknown {
				t.Fatalf("at %d it is %+v, want %+v", k, now, want)
			}
		}
		if at != m {
			t.Fatalf("%d samples come after the end", m-at)
		}
	})
}
