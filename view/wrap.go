package view

import (
	"strings"

	"coilwalk/view/picture"
)

// wrap breaks words into lines of at most w cells. A figure keeps its unit, where
// both go on a line.
func wrap(words string, w int) (lines []string) {
	line := ""
	for _, word := range together(strings.Fields(words), w) {
		if line != "" && picture.Width(line)+1+picture.Width(word) > w {
			lines = append(lines, line)
			line = ""
		}
		if line != "" {
			line += " "
		}
		line += word
	}
	return append(lines, line)
}

// brief gives words as they are where they fit, else without what only says more of
// them: in brackets, behind a colon or semicolon.
func brief(words string, w int) string {
	for _, more := range []string{" (", ": ", "; "} {
		if picture.Width(words) <= w {
			break
		}
		words, _, _ = strings.Cut(words, more)
	}
	return words
}

// likeliest gives of a list of shares, the likeliest first, as many as fit, and says
// so where there is room that some are left out.
func likeliest(list string, w int) string {
	if picture.Width(list) <= w {
		return list
	}
	shares := strings.SplitAfter(list, "%")
	for n := len(shares) - 1; n > 0; n-- {
		fits := strings.Join(shares[:n], "")
		for _, words := range []string{fits + " …", fits} {
			if picture.Width(words) <= w {
				return words
			}
		}
	}
	return list
}

// together joins each figure to the unit behind it.
func together(words []string, w int) []string {
	joined := words[:0:0]
	for _, word := range words {
		if last := len(joined) - 1; last >= 0 && isUnit(word) && isFigure(joined[last]) && picture.Width(joined[last]+word) < w {
			joined[last] += " " + word
			continue
		}
		joined = append(joined, word)
	}
	return joined
}

func isFigure(word string) bool {
	last := word[len(word)-1]
	return last >= '0' && last <= '9'
}

func isUnit(word string) bool {
	switch strings.TrimRight(word, ".,;:)") {
	case "V", "A", "mA", "W", "mW", "%", "°C", "ohm", "mH", "s", "ms", "µs", "min", "h", "Hz", "rpm", "rows/s", "mN.m":
		return true
	}
	return false
}
