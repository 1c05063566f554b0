// Package files reads what people hand to the program and writes what it hands
// back: bounded, with complaints that name the place, and never half a file.
package files

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Complaint is an input that can not be used: where, what is wrong, and what
// would be right. It is the one error that ends a command with exit status 2.
type Complaint struct {
	File   string // as the person named it; "" for the command line
	Line   int    // from 1; 0 when the whole file is meant
	Column int    // from 1, in characters; 0 when the whole line is meant
	What   string // what was found to be wrong, as a clause
	Right  string // what would be right, as a clause; "" when that is plain
}

// Error gives the complaint on one line: "file:line:column: what; right".
// Control characters are shown, not sent: the text may come from a file.
func (c *Complaint) Error() string {
	var b strings.Builder
	if c.File != "" {
		const longest = 250 // characters of a name; what is wrong comes behind it
		b.WriteString(ShownUpTo(longest, c.File))
		if c.Line > 0 {
			fmt.Fprintf(&b, ":%d", c.Line)
			if c.Column > 0 {
				fmt.Fprintf(&b, ":%d", c.Column)
			}
		}
		b.WriteString(": ")
	}
	b.WriteString(Shown(c.What))
	if c.Right != "" {
		b.WriteString("; ")
		b.WriteString(Shown(c.Right))
	}
	return b.String()
}

// Shown makes text from outside safe to print: control characters, which could
// steer a terminal, become their Go escapes, and a very long text is cut.
func Shown(text string) string {
	const longest = 400 // characters; a message is one sentence, not a file
	return ShownUpTo(longest, text)
}

// ShownUpTo is Shown with at most so many characters, as they are shown.
func ShownUpTo(longest int, text string) string {
	var b strings.Builder
	n := 0
	for _, r := range text {
		one := character(r)
		if n += utf8.RuneCountInString(one); n > longest {
			b.WriteString("…")
			break
		}
		b.WriteString(one)
	}
	return b.String()
}

// character shows one character, safe to print.
func character(r rune) string {
	switch {
	case Steers(r):
		return fmt.Sprintf("\\u%04x", r)
	case r == utf8.RuneError:
		return "?"
	}
	return string(r)
}

// Steers says whether a character could steer a terminal, or hide what a text says:
// control and format characters, marks of direction, line ends.
func Steers(r rune) bool {
	const softHyphen = 0xad
	return r != softHyphen && unicode.In(r, unicode.Cc, unicode.Cf, unicode.Zl, unicode.Zp)
}

// Plain makes an answer safe to print, whatever names from outside it holds: as
// Shown, but its lines stay lines, and nothing is cut.
func Plain(text string) string {
	ours := func(r rune) bool { return r == '\n' || r == '\t' || r != utf8.RuneError && !Steers(r) }
	if strings.IndexFunc(text, func(r rune) bool { return !ours(r) }) < 0 {
		return text
	}
	var b strings.Builder
	for _, r := range text {
		if ours(r) {
			b.WriteRune(r)
		} else {
			b.WriteString(character(r))
		}
	}
	return b.String()
}

// Quoted puts a piece of text from outside in quotes for a message: what can not be
// seen as its Go escape, and not more than fits a sentence.
func Quoted(text string) string {
	const longest = 60 // characters
	more := ""
	if runes := []rune(text); len(runes) > longest {
		text, more = string(runes[:longest]), "…"
	}
	return strconv.Quote(text) + more
}

// Either lists words to choose from: "a, b or c".
func Either(words []string) string {
	last := len(words) - 1
	if last < 1 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:last], ", ") + " or " + words[last]
}

// Nearest gives the word of known that is most like word, or "" when none is
// near: at most a third of the letters differ, counted as the number of letters
// put in, left out, changed, or exchanged with a neighbour.
func Nearest(word string, known []string) string {
	best, bestCost := "", len([]rune(word))/3+1
	for _, k := range known {
		if cost := apart(strings.ToLower(word), strings.ToLower(k)); cost < bestCost {
			best, bestCost = k, cost
		}
	}
	return best
}

// apart is the optimal string alignment distance of two words.
func apart(a, b string) int {
	x, y := []rune(a), []rune(b)
	rows := make([][]int, len(x)+1)
	for i := range rows {
		rows[i] = make([]int, len(y)+1)
		rows[i][0] = i
	}
	for j := range rows[0] {
		rows[0][j] = j
	}
	for i := 1; i <= len(x); i++ {
		for j := 1; j <= len(y); j++ {
			cost := 1
			if x[i-1] == y[j-1] {
				cost = 0
			}
			d := min(rows[i-1][j]+1, rows[i][j-1]+1, rows[i-1][j-1]+cost)
			if i > 1 && j > 1 && x[i-1] == y[j-2] && x[i-2] == y[j-1] {
				d = min(d, rows[i-2][j-2]+1)
			}
			rows[i][j] = d
		}
	}
	return rows[len(x)][len(y)]
}
