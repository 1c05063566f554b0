package recording_test

import (
	"bytes"
	"compress/gzip"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"coilwalk/model/recording"
)

// corpus gives the recordings under testdata whose names end in one of these.
func corpus(tb testing.TB, ends ...string) map[string][]byte {
	tb.Helper()
	all := map[string][]byte{}
	for _, folder := range []string{".", "good", "broken"} {
		for _, end := range ends {
			names, err := filepath.Glob(filepath.Join("../../testdata/recordings", folder, "*"+end))
			if err != nil {
				tb.Fatal(err)
			}
			for _, name := range names {
				text, err := os.ReadFile(name)
				if err != nil {
					tb.Fatal(err)
				}
				all[name] = text
			}
		}
	}
	return all
}

// sameAsTwin holds the reader's answer to a dump against that of the slow one.
func sameAsTwin(tb testing.TB, name string, text []byte) {
	tb.Helper()
	twin := &dump{text: string(text)}
	refused := twin.read()
	got, complaint := soon(tb, text, recording.Options{})
	if (complaint != nil) != (refused != nil) {
		tb.Fatalf("%s: %v; the twin: %v\n%q", name, complaint, refused, excerpt(text))
	}
	if complaint != nil {
		if lines := bytes.Count(text, []byte("\n")) + 1; complaint.Line > lines {
			tb.Fatalf("%s: a complaint about line %d of %d: %v", name, complaint.Line, lines, complaint)
		}
		return
	}
	sound(tb, got)
	if len(got.channels) != twin.lines || math.Abs(got.tick-twin.tick) > 1e-9*twin.tick || got.until != twin.until {
		tb.Fatalf("%s: %d channels, tick %g, until %d; the twin %d, %g, %d\n%q", name, len(got.channels), got.tick, got.until, twin.lines, twin.tick, twin.until, excerpt(text))
	}
	if !slices.Equal(got.samples, twin.samples) {
		tb.Fatalf("%s: %v; the twin %v\n%q", name, got.samples[:min(20, len(got.samples))], twin.samples[:min(20, len(twin.samples))], excerpt(text))
	}
}

func excerpt(text []byte) []byte { return text[:min(len(text), 2000)] }

// isDump says whether a text is one for the reader of dumps: it begins with a
// command, and holds no byte that makes it another kind of file.
func isDump(text []byte) bool {
	return strings.HasPrefix(strings.TrimLeft(string(text), " \t\r\n\v\f"), "$") && !bytes.ContainsAny(text, "\x00\xfe\xff")
}

// FuzzVCD holds the reader of dumps against its slow twin.
func FuzzVCD(f *testing.F) {
	for _, text := range corpus(f, ".vcd") {
		if len(text) < 4000 {
			f.Add(text)
		}
	}
	f.Add([]byte("$timescale 1us $end\n$var wire 1 ! A $end\n$var reg 4 # v [3:0] $end\n$enddefinitions $end\n#0\n$dumpvars\n0!\nb1x #\n$end\n#5\n1!\n#7\nbz #\n0!\n"))
	f.Fuzz(func(t *testing.T, text []byte) {
		if !isDump(text) {
			soon(t, text, recording.Options{})
			return
		}
		sameAsTwin(t, "fuzzed", text)
	})
}

func TestTwinOfCorpus(t *testing.T) {
	for name, text := range corpus(t, ".vcd") {
		if isDump(text) {
			sameAsTwin(t, name, text)
		}
	}
}

// long makes a dump far longer than what is read at once, so that lines, words
// and vectors lie across the seams, in the shapes that analysers and simulators write.
func long(seed uint64, size int) []byte {
	r := rand.New(rand.NewPCG(seed, 7))
	var b bytes.Buffer
	end := []string{"\n", "\n", "\r\n", " "}[r.IntN(4)]
	count := 1 + r.IntN(12)
	width := make([]int, count)
	ids := make([]string, count)
	b.WriteString("$timescale 10 ns $end" + end)
	for k := range ids {
		width[k] = 1
		if r.IntN(4) == 0 {
			width[k] = 1 + r.IntN(9)
		}
		ids[k] = strings.Repeat(string(rune('!'+r.IntN(94))), r.IntN(2)) + string(rune('!'+k))
		if slices.Contains(ids[:k], ids[k]) {
			ids[k] = string(rune('!'+k)) + "~~"
		}
		fmt.Fprintf(&b, "$var wire %d %s line%d $end%s", width[k], ids[k], k, end)
	}
	b.WriteString("$enddefinitions $end" + end)
	at := r.Int64N(1000)
	fmt.Fprintf(&b, "#%d%s$dumpvars%s", at, end, end)
	change := func() {
		k := r.IntN(count)
		digits := "01"
		if r.IntN(50) == 0 {
			digits = "01xz"
		}
		if width[k] == 1 && r.IntN(20) > 0 {
			fmt.Fprintf(&b, "%c%s%s", digits[r.IntN(len(digits))], ids[k], end)
			return
		}
		b.WriteByte('b')
		for range 1 + r.IntN(width[k]) {
			b.WriteByte(digits[r.IntN(len(digits))])
		}
		b.WriteString(" " + ids[k] + end)
	}
	for b.Len() < size {
		switch r.IntN(400) {
		case 0:
			b.WriteString("$comment #1 b0 ! 1! $end" + end)
		case 1:
			b.WriteString("$dumpoff" + end + "$end" + end)
		}
		for range r.IntN(4) {
			change()
		}
		at += 1 + r.Int64N([]int64{2, 100, 1e9}[r.IntN(3)])
		fmt.Fprintf(&b, "#%d%s", at, end)
	}
	b.WriteString("\n")
	return b.Bytes()
}

func TestTwinOfLongFiles(t *testing.T) {
	count := 12
	if os.Getenv("COILWALK_LONG") != "" {
		count = 120
	}
	for n := range count {
		text := long(uint64(n), []int{1 << 12, 1 << 16, 1 << 20, 3 << 20}[n%4]+n)
		sameAsTwin(t, fmt.Sprintf("seed %d", n), text)
		if n%4 == 1 { // packed, and cut off anywhere
			var packed bytes.Buffer
			z := gzip.NewWriter(&packed)
			z.Write(text)
			z.Close()
			plain, _ := soon(t, text, recording.Options{})
			got, complaint := soon(t, packed.Bytes(), recording.Options{})
			if complaint != nil || !slices.Equal(got.samples, plain.samples) || got.until != plain.until {
				t.Errorf("seed %d, packed: %v", n, complaint)
			}
			for k := range 20 {
				at := len(text) - 1 - (k*37)%300
				sameAsTwin(t, fmt.Sprintf("seed %d, cut off at %d of %d", n, at, len(text)), text[:at])
			}
		}
	}
}
