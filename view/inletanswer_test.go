package view

import (
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"
)

// heard gives what is left of pieces that come so long after one another.
func heard(after time.Duration, pieces ...string) string {
	var a answers
	var out strings.Builder
	now := time.Unix(0, 0)
	for _, piece := range pieces {
		p := make([]byte, len(piece)+1)
		n := copy(p, piece)
		out.Write(p[:a.pass(p, n, now)])
		now = now.Add(after)
	}
	return out.String()
}

func TestAnswersAreLeftOut(t *testing.T) {
	const colour, version = "\x1b]11;rgb:1e1e/1e1e/1e1e\x1b\\", "\x1bP>|of our own(1)\x1b\\"
	for _, c := range []struct {
		name   string
		after  time.Duration
		pieces []string
		want   string
	}{
		{"between keys", 0, []string{"ab" + colour + "c" + version + "\x1b[C"}, "abc\x1b[C"},
		{"ended by BEL", 0, []string{"\x1b]10;rgb:ffff/ffff/ffff\ax"}, "x"},
		{"in parts", 0, []string{colour[:5], colour[5:12], colour[12 : len(colour)-1], colour[len(colour)-1:] + "x"}, "x"},
		{"keys that begin so", 0, []string{"\x1b]", "\x1bP", "\x1b", "\x1b[C", "\x1bOP"}, "\x1b]\x1bP\x1b\x1b[C\x1bOP"},
		{"broken off by a key", 0, []string{"\x1b]11;rgb\x1b[C"}, "\x1b[C"},
		{"broken off by a key in parts", 0, []string{"\x1b]11;rgb\x1b", "[C"}, "\x1b[C"},
		{"by another", 0, []string{"\x1b]11;rgb\x1b]12;rgb\x1b\\x"}, "x"},
		{"never ended: a key later counts", time.Second, []string{"\x1b]11;" + strings.Repeat("x", 4000), " ", "q"}, " q"},
		{"never ended: what comes at once is part of it", time.Millisecond, []string{"\x1b]11;x", " ", "q\a", "k"}, "k"},
		{"a paste behind one", 0, []string{"\x1b]11;x" + pasteBegins + "words" + pasteEnds}, pasteBegins + "words" + pasteEnds},
	} {
		if got := heard(c.after, c.pieces...); got != c.want {
			t.Errorf("%s: %.60q, want %.60q", c.name, got, c.want)
		}
	}
}

// Whole answers among keys and pastes are left out, and nothing else is, however the
// whole is cut in two.
func TestOnlyAnswersAreLeftOut(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var all, want strings.Builder
		for range rapid.IntRange(1, 6).Draw(t, "parts") {
			part := rapid.SampledFrom([]string{"a", " ", "\x1b[C", "\x1b[1;5D", "\x1bOP", pasteBegins + "w" + pasteEnds, "q\r"}).Draw(t, "keys")
			all.WriteString(part)
			want.WriteString(part)
			if rapid.Bool().Draw(t, "answered") {
				all.WriteString("\x1b" + rapid.SampledFrom(strings.Split(answerBegins, "")).Draw(t, "begins") +
					rapid.StringMatching(`[ -Z^-~]{0,40}`).Draw(t, "says") + rapid.SampledFrom([]string{"\a", "\x1b\\"}).Draw(t, "ends"))
			}
		}
		text := all.String()
		cut := rapid.IntRange(0, len(text)).Draw(t, "cut")
		if n := len(text[:cut]); n > 0 && text[n-1] == '\x1b' || cut <= 2 || len(text)-cut <= 2 {
			return // in two just there it may be keys
		}
		if got := heard(time.Millisecond, text[:cut], text[cut:]); got != want.String() {
			t.Fatalf("%q became %q, want %q", text, got, want.String())
		}
	})
}
