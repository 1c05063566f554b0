package report

import (
	"fmt"
	"strings"

	"coilwalk/view/terms"
)

// Explain is the answer of "explain WORD".
type Explain struct {
	Coilwalk int      `json:"coilwalk"`
	Word     string   `json:"word"`
	Also     []string `json:"also"`
	Says     string   `json:"text"`
	See      []string `json:"see"`     // commands
	Screens  []string `json:"screens"` // of the explorer
	Near     []string `json:"near"`    // words beside it
	Drawing  *string  `json:"drawing"` // lines; null without one

	ascii bool
}

// Lexicon is the answer of "explain" without a word: all of them, by theme.
type Lexicon struct {
	Coilwalk int            `json:"coilwalk"`
	Themes   []LexiconTheme `json:"themes"`
}

// LexiconTheme is one group of words.
type LexiconTheme struct {
	Name  string   `json:"name"`
	Words []string `json:"words"`
}

// NewExplain puts an entry into its object; its drawing is made here, which may
// take half a second.
func NewExplain(e terms.Entry, ascii bool) Explain {
	out := Explain{Coilwalk: Version, Word: e.Word, Also: listed(e.Also), Says: e.Text, ascii: ascii}
	commands, screens, words := e.Where()
	out.See, out.Screens, out.Near = listed(commands), listed(screens), listed(words)
	if e.Draw != nil {
		text := e.Draw().Text(ascii)
		out.Drawing = &text
	}
	return out
}

// NewLexicon lists the words.
func NewLexicon() Lexicon {
	out := Lexicon{Coilwalk: Version, Themes: []LexiconTheme{}}
	for _, t := range terms.Themes() {
		theme := LexiconTheme{Name: t.Name, Words: []string{}}
		for _, e := range t.Entries {
			theme.Words = append(theme.Words, e.Word)
		}
		out.Themes = append(out.Themes, theme)
	}
	return out
}

// listed gives a list that is [] in JSON when it is empty.
func listed(list []string) []string {
	if list == nil {
		return []string{}
	}
	return list
}

// column is the width of what is read as prose.
const column = 78

// Text writes the entry: the word, what it is, a drawing, and where to look.
func (x Explain) Text() string {
	var b strings.Builder
	b.WriteString(x.Word)
	if len(x.Also) > 0 {
		b.WriteString(" (also " + strings.Join(x.Also, ", ") + ")")
	}
	head := b.String()
	b.Reset()
	writeWrapped(&b, head, "")
	b.WriteString("\n")
	writeWrapped(&b, x.Says, "")
	if x.Drawing != nil {
		b.WriteString("\n" + *x.Drawing)
	}
	b.WriteString("\n")
	x.writeWhere(&b)
	return b.String()
}

// writeWhere says where the word is seen.
func (x Explain) writeWhere(b *strings.Builder) {
	if len(x.See) > 0 {
		writeWrapped(b, "Command: "+strings.Join(x.See, ", ")+".", "  ")
	}
	if len(x.Screens) > 0 {
		writeWrapped(b, "Screen: "+strings.Join(x.Screens, ", ")+".", "  ")
	}
	if len(x.Near) > 0 {
		writeWrapped(b, "Near it: "+strings.Join(x.Near, ", ")+".", "  ")
	}
}

// Text lists the words by theme.
func (l Lexicon) Text() string {
	var b strings.Builder
	for _, t := range l.Themes {
		b.WriteString(t.Name + "\n")
		writeWrapped(&b, "  "+strings.Join(t.Words, ", "), "  ")
	}
	b.WriteString("\ncoilwalk explain WORD says what one is, and where it is seen.\n")
	return b.String()
}

// writeWrapped writes prose in lines that fit a terminal of 80 columns; lines
// after the first begin with indent.
func writeWrapped(b *strings.Builder, words, indent string) {
	fmt.Fprintln(b, strings.Join(wrapped(words, indent), "\n"))
}

func wrapped(words, indent string) (lines []string) {
	line := words[:len(words)-len(strings.TrimLeft(words, " "))]
	begun := false
	for _, word := range strings.Fields(words) {
		if begun && len([]rune(line))+1+len([]rune(word)) > column {
			lines, line, begun = append(lines, line), indent, false
		}
		if begun {
			line += " "
		}
		line, begun = line+word, true
	}
	return append(lines, line)
}
