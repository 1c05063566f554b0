package files

import (
	"strings"
	"testing"
)

func TestNearest(t *testing.T) {
	known := []string{"voltage", "current", "resistance", "load", "detent_at", "detent_torque"}
	for word, want := range map[string]string{
		"voltage":       "voltage",
		"Voltage":       "voltage",
		"VOLTAGE":       "voltage",
		"votlage":       "voltage", // exchanged
		"voltag":        "voltage", // left out
		"voltagee":      "voltage", // put in
		"voltege":       "voltage", // changed
		"resistence":    "resistance",
		"curent":        "current",
		"olad":          "load",
		"laod":          "load",
		"detent_tourqe": "detent_torque",
		// Not within a third of the letters.
		"":             "",
		"x":            "",
		"lo":           "",
		"teeth":        "",
		"power":        "",
		"vlt":          "",
		"torque":       "", // a part of a word, seven letters off
		"lxxd":         "", // two of four
		"vxltxge":      "voltage",
		"vxxtxge":      "", // three of seven
		"resxstxncx":   "resistance",
		"rexxstxncx":   "", // four of ten
		"zzzzzzzzzzzz": "",
	} {
		if got := Nearest(word, known); got != want {
			t.Errorf("Nearest(%q) = %q, want %q", word, got, want)
		}
	}
}

// The nearest of several, wherever it stands in the list; of equals the first.
func TestNearestOfSeveral(t *testing.T) {
	for _, known := range [][]string{{"hybrid-4", "hybrid-6", "hybrid-8"}, {"hybrid-8", "hybrid-6", "hybrid-4"}} {
		for _, want := range known {
			if got := Nearest("hybird-"+want[7:], known); got != want {
				t.Errorf("of %v: %q, want %q", known, got, want)
			}
		}
		if got := Nearest("hybrid-5", known); got != known[0] {
			t.Errorf("of equals in %v: %q, want the first", known, got)
		}
	}
	if got := Nearest("grün", []string{"grun"}); got != "grun" {
		t.Errorf("letters are counted by the byte: %q", got) // 1 of 4 letters, 2 of 5 bytes
	}
	if got := Nearest("éx", []string{"éy"}); got != "" {
		t.Errorf("one of two letters is more than a third: %q", got)
	}
	if got := Nearest("word", nil); got != "" {
		t.Errorf("of none: %q", got)
	}
	if got := Nearest(strings.Repeat("x", 60_000), []string{"voltage"}); got != "" {
		t.Errorf("of a very long word: %q", got)
	}
}

// The distance done anew, the slow way round: the least of every way to take a
// step off the ends of both words.
func TestApart(t *testing.T) {
	var slow func(a, b []rune) int
	slow = func(a, b []rune) int {
		if len(a) == 0 || len(b) == 0 {
			return len(a) + len(b)
		}
		i, j := len(a)-1, len(b)-1
		change := 1
		if a[i] == b[j] {
			change = 0
		}
		d := min(slow(a[:i], b)+1, slow(a, b[:j])+1, slow(a[:i], b[:j])+change)
		if i > 0 && j > 0 && a[i] == b[j-1] && a[i-1] == b[j] {
			d = min(d, slow(a[:i-1], b[:j-1])+1)
		}
		return d
	}
	words := []string{"", "a", "b", "ab", "ba", "abc", "acb", "bca", "cab", "aab", "abab", "baba", "abcd", "badc", "dcba", "éa", "aé"}
	for _, a := range words {
		for _, b := range words {
			if got, want := apart(a, b), slow([]rune(a), []rune(b)); got != want || got != apart(b, a) {
				t.Errorf("apart(%q, %q) = %d, want %d", a, b, got, want)
			}
		}
	}
	// Optimal string alignment, unlike the full distance, takes no part twice:
	// CA to ABC is 3 (common example of the two, from memory).
	if got := apart("ca", "abc"); got != 3 {
		t.Errorf("apart(ca, abc) = %d, want 3", got)
	}
}
