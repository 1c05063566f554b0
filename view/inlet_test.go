package view

import (
	"bytes"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"
)

// passed gives what is passed on, or held yet, of pieces that come so long after one
// another.
func passed(after time.Duration, pieces ...string) string {
	var s paste
	var out bytes.Buffer
	now := time.Unix(0, 0)
	p := make([]byte, 256)
	for _, piece := range pieces {
		for len(piece) > 0 {
			held := copy(p, pasteBegins[:s.held])
			n := copy(p[held:], piece)
			piece = piece[n:]
			out.Write(p[:s.pass(p, held, n, now)])
		}
		now = now.Add(after)
	}
	return out.String() + pasteBegins[:s.held]
}

// Whatever comes in whole pastes of common length is passed on as it is, however
// it is cut.
func TestPastesThatEndAreLeftAlone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var all strings.Builder
		for range rapid.IntRange(1, 5).Draw(t, "parts") {
			words := rapid.StringMatching(`[a-z \x1b\[20~]{0,300}`).Draw(t, "words")
			if strings.Contains(words, pasteBegins) || strings.Contains(words, pasteEnds) {
				return
			}
			if rapid.Bool().Draw(t, "pasted") {
				words = pasteBegins + words + pasteEnds
			}
			all.WriteString(words)
		}
		text := all.String()
		cut := rapid.IntRange(0, len(text)).Draw(t, "cut")
		if got := passed(time.Millisecond, text[:cut], text[cut:]); got != text {
			t.Fatalf("%q became %q", text, got)
		}
	})
}

// A key that a slow line brings in pieces is neither lost nor doubled, wherever it is
// cut: its ESC, come by itself, was passed on.
func TestMarksInPieces(t *testing.T) {
	for _, text := range []string{pasteBegins + "1000" + pasteEnds, "\x1b[A", "\x1b[20x"} {
		for first := 1; first < len(text); first++ {
			for second := first; second < len(text); second++ {
				if got := passed(time.Millisecond, text[:first], text[first:second], text[second:]); got != text {
					t.Errorf("%q, %q, %q became %q", text[:first], text[first:second], text[second:], got)
				}
			}
		}
	}
}

func TestPastesThatDoNotEnd(t *testing.T) {
	long := strings.Repeat("1010\n", longPaste)
	for _, c := range []struct {
		name   string
		after  time.Duration
		pieces []string
		want   string
	}{
		{"a key soon after is part of it", time.Second, []string{pasteBegins + "x", "y"}, pasteBegins + "xy"},
		{"but space ends it, however often it is hit", time.Second / 4, []string{pasteBegins + "x", "y", " ", " "}, pasteBegins + "xy" + pasteEnds + "  "},
		{"and ctrl+c", time.Second / 4, []string{pasteBegins + "x", "\x03"}, pasteBegins + "x" + pasteEnds + "\x03"},
		{"a space in the midst of it does not", time.Second / 20, []string{pasteBegins + "x", " ", "y" + pasteEnds}, pasteBegins + "x y" + pasteEnds},
		{"a key later ends it", 3 * time.Second, []string{pasteBegins + "x", " ", "q"}, pasteBegins + "x" + pasteEnds + " q"},
		{"more of it after a pause does not", 3 * time.Second, []string{pasteBegins + "x", strings.Repeat("y", 20)}, pasteBegins + "x" + strings.Repeat("y", 20)},
		{"a long one is cut, and ends", time.Millisecond, []string{pasteBegins + long + pasteEnds + "q"}, pasteBegins + long[:longPaste] + pasteEnds + "q"},
		{"its marks stay, in parts too", time.Millisecond, []string{pasteBegins + long + pasteEnds[:2], pasteEnds[2:4], pasteEnds[4:] + "q"}, pasteBegins + long[:longPaste] + pasteEnds + "q"},
		{"a mark in parts is never passed on in parts", time.Millisecond, []string{"keys, and " + pasteBegins[:1], pasteBegins[1:3], pasteBegins[3:] + "x" + pasteEnds}, "keys, and " + pasteBegins + "x" + pasteEnds},
		{"an ESC is a key", time.Second, []string{"\x1b"}, "\x1b"},
		{"so are the keys that begin with it", time.Second, []string{"\x1b[C", "\x1b[2~"}, "\x1b[C\x1b[2~"},
		{"a mark that comes twice", time.Millisecond, []string{pasteBegins + pasteBegins + pasteEnds + "q"}, pasteBegins + pasteBegins + pasteEnds + "q"},
	} {
		if got := passed(c.after, c.pieces...); got != c.want {
			t.Errorf("%s: %.60q, want %.60q", c.name, got, c.want)
		}
	}
}
