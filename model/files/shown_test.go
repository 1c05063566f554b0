package files

import (
	"fmt"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"pgregory.net/rapid"
)

func TestShown(t *testing.T) {
	for text, want := range map[string]string{
		"":                       "",
		"plain text, 5 Ω, № 9 ü": "plain text, 5 Ω, № 9 ü",
		"漢字 😀":                   "漢字 😀",
		`back\slash "quote"`:     `back\slash "quote"`,
		"\x1b[31mred\x1b[0m":     `\u001b[31mred\u001b[0m`,
		"\u009b31m":              `\u009b31m`, // CSI in one character
		"\x9b31m":                "?31m",      // the same as a lone byte
		"\x1b]0;title\a":         `\u001b]0;title\u0007`,
		"a\nb\rc\td\x00e\x7f":    `a\u000ab\u000dc\u0009d\u0000e\u007f`,
		"a\u0085b":               `a\u0085b`, // next line
		"a\u2028b\u2029c":        `a\u2028b\u2029c`,
		"up\u202edown\u2066":     `up\u202edown\u2066`,
		"\xff\xfe":               "??",
		"\ufffd":                 "?",
		"\xe2\x80":               "??",
	} {
		if got := Shown(text); got != want {
			t.Errorf("Shown(%q) = %q, want %q", text, got, want)
		}
	}
}

// Every control character, and every mark that turns the direction of text:
// those with the property Bidi_Control (Unicode Standard Annex 9,
// "Unicode Bidirectional Algorithm", table of explicit and implicit marks).
func TestShownHidesNoControl(t *testing.T) {
	for r := rune(0); r <= unicode.MaxRune; r++ {
		steers := unicode.IsControl(r) || r == 0x2028 || r == 0x2029 || unicode.Is(unicode.Bidi_Control, r)
		if !steers {
			continue
		}
		t.Run(fmt.Sprintf("U+%04X", r), func(t *testing.T) {
			if got, want := Shown("a"+string(r)+"b"), fmt.Sprintf(`a\u%04xb`, r); got != want {
				t.Errorf("%q, want %q", got, want)
			}
		})
	}
}

// And nothing else is touched: a letter that became an escape could not be read.
func TestShownLeavesTheRest(t *testing.T) {
	for r := rune(0); r <= unicode.MaxRune; r++ {
		if (unicode.IsLetter(r) || unicode.IsNumber(r) || unicode.IsPunct(r) || unicode.IsSymbol(r)) && r != unicode.ReplacementChar {
			if got := Shown(string(r)); got != string(r) {
				t.Errorf("%U is shown as %q", r, got)
			}
		}
	}
}

func TestShownIsCut(t *testing.T) {
	for _, letter := range []string{"x", "é", "😀"} {
		at, over := strings.Repeat(letter, 400), strings.Repeat(letter, 401)
		if got := Shown(at); got != at {
			t.Errorf("400 × %s is cut", letter)
		}
		if got := Shown(over); got != at+"…" {
			t.Errorf("401 × %s comes as %d characters", letter, len([]rune(got)))
		}
	}
}

func TestShownOfAnything(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := string(rapid.SliceOf(rapid.Byte()).Draw(t, "bytes")) + rapid.String().Draw(t, "text")
		got := Shown(text)
		if !utf8.ValidString(got) || strings.ContainsFunc(got, unicode.IsControl) {
			t.Fatalf("Shown(%q) = %q", text, got)
		}
		if again := Shown(got); again != got && len([]rune(got)) <= 400 {
			t.Fatalf("shown twice, %q becomes %q", got, again)
		}
	})
}
