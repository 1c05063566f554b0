package handoff

import (
	"bytes"
	"fmt"
	"strconv"
	"strings"

	"coilwalk/sequence"
)

// writeMarkdown writes the head as a list and each direction as a table.
func writeMarkdown(w *Walk) []byte {
	var b bytes.Buffer
	fmt.Fprintf(&b, "# %s of %s\n\n", w.what(), cell(w.Motor.Name))
	for _, line := range w.Head() {
		fmt.Fprintf(&b, "- %s\n", cell(line))
	}
	for _, name := range w.named() {
		fmt.Fprintf(&b, "\n## %s, %s\n\n| row |", capital(w.Mode.Title), name)
		for k := range 4 {
			fmt.Fprintf(&b, " %d %s |", k+1, cell(string(w.Motor.Output(w.Motor.Wiring, k))))
		}
		b.WriteString(" port | on | field |\n|--:|--:|--:|--:|--:|--:|:--|--:|\n")
		for k, row := range w.tables()[name] {
			fmt.Fprintf(&b, "| %d |", w.number(name, k))
			for _, v := range w.shown(row) {
				fmt.Fprintf(&b, " %s |", share(v))
			}
			fmt.Fprintf(&b, " %s | %s | %s° |\n", w.port(row), cell(w.ends(row)), w.field(row))
		}
	}
	w.writeIntervals(&b, "\n## Ticks from row to row\n\n")
	return b.Bytes()
}

// writeText writes the same for a terminal or a printer.
func writeText(w *Walk) []byte {
	var b bytes.Buffer
	b.WriteString(comment("", w.Head()))
	wide := 6
	if !w.whole() {
		wide = 8
	}
	for _, name := range w.named() {
		fmt.Fprintf(&b, "\n%s, %s\n  row", w.Mode.Title, name)
		for k := range 4 {
			fmt.Fprintf(&b, "%*s", wide, fmt.Sprintf("out %d", k+1))
		}
		b.WriteString("   port      field  on\n")
		for k, row := range w.tables()[name] {
			fmt.Fprintf(&b, "%5d", w.number(name, k))
			for _, v := range w.shown(row) {
				fmt.Fprintf(&b, "%*s", wide, share(v))
			}
			fmt.Fprintf(&b, "   %-6s %7s°  %s\n", w.port(row), w.field(row), w.ends(row))
		}
	}
	w.writeIntervals(&b, "\nTicks from row to row\n")
	return b.Bytes()
}

// port writes the word of a row, a dash where currents between make none.
func (w *Walk) port(row sequence.Row) string {
	if !w.whole() {
		return "-"
	}
	return w.hex(w.Board.Word(row))
}

func (w *Walk) writeIntervals(b *bytes.Buffer, title string) {
	if w.whole() {
		b.WriteString(title + w.ramp())
	}
}

// cell makes words safe in a table and a list of Markdown.
func cell(words string) string {
	return strings.NewReplacer("|", "/", "<", "(", ">", ")", "`", "'", "*", "", "_", "-", "[", "(", "]", ")").Replace(Safe(words))
}

func capital(words string) string { return strings.ToUpper(words[:1]) + words[1:] }

func readMarkdown(w *Walk, text []byte) (contents, error) {
	return w.readPage(text, func(line string) []string {
		if !strings.HasPrefix(line, "| ") {
			return nil
		}
		return strings.Split(line, "|")[1:]
	})
}

func readText(w *Walk, text []byte) (contents, error) {
	return w.readPage(text, func(line string) []string {
		if !strings.HasPrefix(line, "  ") {
			return nil
		}
		return strings.Fields(line)
	})
}

// readPage reads the tables of a page: split parts a line that may be of one
// into its cells.
func (w *Walk) readPage(text []byte, split func(line string) []string) (contents, error) {
	c := contents{tables: map[string][]sequence.Row{}}
	name, ticks := "", false
	for line := range strings.Lines(string(text)) {
		line = strings.TrimRight(line, "\n")
		if _, after, ok := strings.Cut(line, w.Mode.Title[1:]+", "); ok && (after == forwardName || after == reverseName) {
			name = after
		}
		ticks = ticks || strings.HasSuffix(line, "Ticks from row to row")
		if ticks {
			intervals, err := ParseIntervals(line)
			if err == nil {
				c.intervals = append(c.intervals, intervals...)
			}
			continue
		}
		cells := split(line)
		if name == "" || len(cells) < 6 {
			continue
		}
		if _, err := strconv.Atoi(strings.TrimSpace(cells[0])); err != nil {
			continue // the names of the columns
		}
		row, err := rowOf(cells[1:5])
		if err != nil {
			return c, err
		}
		if row = w.meant(row); strings.TrimSpace(cells[5]) != w.port(row) {
			return c, fmt.Errorf("the port %s is not that of its levels", cells[5])
		}
		c.tables[name] = append(c.tables[name], row)
	}
	return c, nil
}
