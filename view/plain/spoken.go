package plain

import (
	"fmt"
	"regexp"
	"strings"
	"unicode/utf8"

	"coilwalk/model/files"
)

// longestSaid is how long a line of an answer may be, in characters.
const longestSaid = 80

// spelled puts marks that are drawn, or that a screen reader stumbles over, into
// words.
var spelled = strings.NewReplacer("→", "to", "…", "...", "–", "-", "−", "-", "·", "-", "√2", "1.41", "×", "times", "± ", "plus or minus ", "±", "plus or minus ",
	"\u202f", "", "\u2009", "",
	"● ", "", "○ ", "", "◐ ", "", "▶ ", "", "› ", "")

// coilEnd is the end of a coil by its sign, as a word of its own. A sign may be passed
// over when it is read aloud, a minus most of all.
var coilEnd = regexp.MustCompile(`(^|[ (])([AB])([+-])([.,;:)]*)( |$)`)

// pronounced writes the signs of coil ends out, but for lists that are typed so, as
// A+,B+,A-,B-.
func pronounced(line string) string {
	for range 2 { // one that follows another shares its blank
		line = coilEnd.ReplaceAllStringFunc(line, func(found string) string {
			return strings.NewReplacer("+", " plus", "-", " minus").Replace(found)
		})
	}
	return line
}

// say says something: one thought a line, none of them long.
func (m *Mode) say(format string, values ...any) {
	m.told++
	m.printAll(thoughts(fmt.Sprintf(format, values...)))
}

func (m *Mode) printAll(thoughts []string) {
	for _, thought := range thoughts {
		for _, line := range wrapped(thought) {
			m.print(line)
		}
	}
}

func (m *Mode) print(line string) {
	if m.err == nil {
		_, m.err = fmt.Fprintln(m.out, files.Plain(line))
	}
}

// tell says an answer that has a text.
func (m *Mode) tell(answer interface{ Text() string }) { m.say("%s", answer.Text()) }

// fail says why something can not be done.
func (m *Mode) fail(err error) {
	words := strings.TrimRight(worded(err.Error()), ".")
	m.say("%s.", words)
}

// columns part the cells of a line that is set out in columns.
var columns = regexp.MustCompile(` {2,}|\t+`)

// bars are drawn to be compared by eye.
var bars = regexp.MustCompile(`^#+$`)

// thoughts puts a text that may be set out in columns into sentences that are
// understood one by one: a name before each value.
func thoughts(text string) (lines []string) {
	var heads []string // of the columns, while a table goes on
	all := strings.Split(strings.TrimRight(text, "\n"), "\n")
	for i, line := range all {
		line = pronounced(spelled.Replace(strings.TrimRight(line, " ")))
		cells := cellsOf(line)
		if len(cells) == 0 {
			heads = nil
			continue
		}
		if heads == nil && len(cells) >= 3 && i+1 < len(all) && !strings.ContainsAny(line, "0123456789") && len(cellsOf(all[i+1])) >= 3 {
			heads = cells
			continue
		}
		switch {
		case heads != nil && len(cells) >= 3:
			lines = append(lines, named(heads, cells))
		case len(cells) > 1:
			heads = nil
			lines = append(lines, cells[0]+": "+strings.Join(cells[1:], ", "))
		default:
			heads = nil
			lines = append(lines, cells[0])
		}
	}
	return lines
}

// cellsOf parts a line into its cells.
func cellsOf(line string) (cells []string) {
	for _, cell := range columns.Split(strings.TrimSpace(line), -1) {
		if cell != "" && !bars.MatchString(cell) {
			cells = append(cells, cell)
		}
	}
	return cells
}

// named puts the head of its column before each cell of a line. A cell that points
// at the line stands for no column.
func named(heads, cells []string) string {
	parts := make([]string, len(cells))
	for k, cell := range cells {
		mark, points := strings.CutPrefix(cell, "< ")
		switch {
		case points:
			parts[k] = "fault: " + mark
		case k < len(heads):
			parts[k] = heads[k] + " " + cell
		default:
			parts[k] = cell
		}
	}
	return strings.Join(parts, ", ")
}

// wrapped breaks a line that is too long, best where a thought ends.
func wrapped(line string) (lines []string) {
	for utf8.RuneCountInString(line) > longestSaid {
		runes := []rune(strings.ReplaceAll(line, " %", "\u00a0%")) // a figure and its sign are said together
		cut := 0
		for _, end := range []string{". ", ": ", "; ", ", ", " or ", " and ", " "} {
			head := string(runes[:longestSaid+1])
			if at := strings.LastIndex(head, end); at >= 0 && (at > longestSaid/3 || end == " ") {
				cut = len([]rune(head[:at]))
				if punctuation := strings.TrimRight(end, " "); !strings.HasPrefix(end, " ") {
					cut += len(punctuation)
				}
				break
			}
		}
		if cut == 0 {
			cut = longestSaid
		}
		whole := func(part []rune) string { return strings.ReplaceAll(string(part), "\u00a0", " ") }
		lines = append(lines, whole(runes[:cut]))
		line = strings.TrimLeft(whole(runes[cut:]), " ")
	}
	return append(lines, line)
}

// pageLines are said of a long answer at a time.
const pageLines = 20

// page says the first lines of a long text as it stands, and keeps the rest.
func (m *Mode) page(lines []string) {
	m.rest = lines
	m.more(nil)
}

// more goes on with a long answer.
func (m *Mode) more(args []string) {
	if len(m.rest) == 0 {
		m.say("There is no more.")
		return
	}
	n := pageLines
	if len(args) == 1 && args[0] == "all" {
		n = len(m.rest)
	}
	n = min(n, len(m.rest))
	m.told++
	for _, line := range m.rest[:n] {
		m.print(line)
	}
	if m.rest = m.rest[n:]; len(m.rest) > 0 {
		m.say("%d lines more: say more, or more all.", len(m.rest))
	}
}
