// Package terms explains the trade's words that the program shows: what each is,
// why it matters at the bench, and where it is seen here. The entries are data,
// one file a theme; drawings come from the engine wherever they show physics.
package terms

import (
	"fmt"
	"slices"
	"strings"

	"coilwalk/model/files"
)

// Entry is one word, explained.
type Entry struct {
	Word string
	Also []string // other words for it, which lead here
	Text string   // two to five plain sentences, in ASCII
	See  []string // a command ("coilwalk rates"), a screen ("Rates"), or the word of another entry
	Draw Maker    // nil without a drawing
}

// Theme is a group of words.
type Theme struct {
	Name    string
	Entries []Entry
}

// Themes lists all entries, the most needed first.
func Themes() []Theme {
	return []Theme{motorTheme, windingTheme, orderTheme, holdTheme, motionTheme, trainTheme, driverTheme, pinsTheme, troubleTheme}
}

// All lists the entries of every theme.
func All() (all []Entry) {
	for _, t := range Themes() {
		all = append(all, t.Entries...)
	}
	return all
}

// Find gives the entry of a word, or of another word for it; the error names the
// nearest.
func Find(word string) (Entry, error) {
	wanted := plain(word)
	var known []string
	for _, e := range All() {
		for _, w := range append([]string{e.Word}, e.Also...) {
			if plain(w) == wanted {
				return e, nil
			}
			known = append(known, plain(w))
		}
	}
	what := fmt.Sprintf("%s is not explained here", files.Quoted(word))
	if near := files.Nearest(wanted, known); near != "" {
		return Entry{}, fmt.Errorf("%s; did you mean %q?", what, near)
	}
	return Entry{}, fmt.Errorf(`%s; "explain" without a word lists them all`, what)
}

// plain spells a word in one way: lower case, hyphens and dashes as blanks, and
// without a plural s where what is left is a word of its own.
func plain(word string) string {
	word = strings.NewReplacer("-", " ", "–", " ", "_", " ", "−", " ").Replace(strings.ToLower(word))
	words := strings.Fields(word)
	if len(words) > 0 {
		last := &words[len(words)-1]
		if s := *last; len(s) > 3 && strings.HasSuffix(s, "s") && !strings.HasSuffix(s, "ss") {
			*last = strings.TrimSuffix(s, "s")
		}
	}
	return strings.Join(words, " ")
}

// Where parts what an entry says to see: commands, screens, and other words.
func (e Entry) Where() (commands, screens, words []string) {
	for _, s := range e.See {
		switch {
		case strings.HasPrefix(s, "coilwalk"):
			commands = append(commands, s)
		case s[0] >= 'A' && s[0] <= 'Z' && !slices.ContainsFunc(All(), func(o Entry) bool { return o.Word == s }):
			screens = append(screens, s)
		default:
			words = append(words, s)
		}
	}
	return commands, screens, words
}
