package view

import (
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"coilwalk/view/picture"
)

func TestWrap(t *testing.T) {
	for _, c := range []struct {
		words string
		w     int
		want  []string
	}{
		{"", 10, []string{""}},
		{"rings at 94 Hz, settles in 20 ms", 30, []string{"rings at 94 Hz, settles in", "20 ms"}},
		{"row 2 of 8 is on", 8, []string{"row 2 of", "8 is on"}},
		{"at 120 ohm", 6, []string{"at 120", "ohm"}}, // the two do not go on a line
		{"20 ms", 5, []string{"20 ms"}},
		{"unbreakable", 4, []string{"unbreakable"}},
	} {
		if got := wrap(c.words, c.w); !slices.Equal(got, c.want) {
			t.Errorf("%q in %d cells: %q, want %q", c.words, c.w, got, c.want)
		}
	}
}

// No word is lost or moved, and no line is too long that could be broken.
func TestWrapKeepsWords(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.SliceOf(rapid.SampledFrom([]string{"a", "20", "ms", "°C", "rotor", "1.5", "µs,"})).Draw(t, "words")
		w := rapid.IntRange(1, 12).Draw(t, "w")
		lines := wrap(strings.Join(words, " "), w)
		if got := strings.Fields(strings.Join(lines, " ")); !slices.Equal(got, words) && len(words) > 0 {
			t.Fatalf("%q became %q", words, lines)
		}
		for _, line := range lines {
			if picture.Width(line) > w && strings.Contains(line, " ") {
				t.Fatalf("%q is longer than %d", line, w)
			}
		}
	})
}
