package view

import (
	"fmt"
	"strings"

	"coilwalk/view/opened"
	"coilwalk/view/picture"
)

// tableNotice says at once what the person came for.
func tableNotice(t *opened.Table) notice {
	words, sound := t.Judgement()
	if sound {
		return advice(words)
	}
	return alarm("{anywhere.table} tells more: " + words)
}

// tableScreen shows what is right and wrong with the table, and puts a cure in.
type tableScreen struct {
	*opened.Table
	from int // first line shown
}

// opened gives the table that was opened; nil without one.
func (e *Explorer) opened() *opened.Table {
	for _, s := range e.screens {
		if t, ok := s.(*tableScreen); ok {
			return t.Table
		}
	}
	return nil
}

func (t *tableScreen) name() string { return "Table" }

func (t *tableScreen) places() []*place {
	p := newPlace("table", "on Table",
		deed{"up", "up k", "scroll", "scroll the findings", func(*Explorer) { t.from-- }},
		deed{"down", "down j", "scroll", "scroll the findings", func(*Explorer) { t.from++ }},
		deed{"page-up", "pgup", "", "scroll by half a screen", func(e *Explorer) { t.from -= e.grid.H / 2 }},
		deed{"page-down", "pgdown", "", "scroll by half a screen", func(e *Explorer) { t.from += e.grid.H / 2 }},
		deed{"top", "home", "", "back to the first line", func(*Explorer) { t.from = 0 }},
		deed{"next-table", "n", "next table", "go to the next table of the file, and walk that", t.nextTable},
		deed{"bits", "b", "bits", "read the numbers of the table from their other end", t.turn})
	p.drops = func(word string) bool {
		return word == "next-table" && len(t.Verdicts) < 2 || word == "bits" && !t.Packed()
	}
	p.Typed, p.typed = "123456789", func(e *Explorer, key string) { t.cure(e, int(key[0]-'1')) }
	p.first = func() (hints []hint) {
		for i, c := range t.Verdict().Cures {
			says := ""
			switch {
			case c.Swap != nil && c.Rows != nil:
				says = fmt.Sprintf("swap %d %d, rows", c.Swap[0], c.Swap[1])
			case c.Swap != nil:
				says = fmt.Sprintf("swap %d %d", c.Swap[0], c.Swap[1])
			case c.Rows != nil:
				says = "put right"
			}
			hints = append(hints, hint{fmt.Sprint(i + 1), says, "cure: " + c.Text})
		}
		return hints
	}
	return []*place{p}
}

// cure puts a cure in by its number from 0, and goes to look at it turn.
func (t *tableScreen) cure(e *Explorer, number int) {
	before := e.bench.Read()
	c, ok := t.Cure(e.bench, number+1)
	if !ok {
		return
	}
	e.follow(before)
	e.show(e.screenAt("walk"))
	e.notice = advice(opened.Cured(c) + ". {walk.run} runs it")
}

func (t *tableScreen) draw(e *Explorer, g *picture.Grid) {
	t.JudgeAgain(e.bench)
	var lines []string
	var inks []picture.Ink
	text := t.Text(e.bench)
	if n := len(t.Verdicts); n > 1 {
		text = fmt.Sprintf("table %d of %d\n", t.At+1, n) + text
	}
	text = strings.ReplaceAll(text, "\t", "    ") // of the file's own lines
	for _, line := range strings.Split(strings.TrimRight(text, "\n"), "\n") {
		for _, part := range hang(line, g.W-3) {
			lines, inks = append(lines, part), append(inks, lineInk(line))
		}
	}
	room := g.H - 4
	t.from = max(0, min(t.from, len(lines)-room))
	for i := range min(room, len(lines)-t.from) {
		g.WriteWithin(1, 2+i, g.W-2, lines[t.from+i], picture.In(inks[t.from+i]))
	}
	more := ""
	if n := len(lines) - t.from - room; n > 0 {
		more = fmt.Sprintf("%d more below", n)
		g.WriteEnd(g.W-1, g.H-2, more, picture.In(picture.Faint))
	}
	g.WriteWithin(1, g.H-2, g.W-4-picture.Width(more), e.said(), picture.Loud(e.notice.ink))
}

// turn reads packed rows from their other end.
func (t *tableScreen) turn(e *Explorer) {
	words, err := t.Turn(e.bench)
	if err != nil {
		e.notice = alarm(err.Error())
		return
	}
	t.from = 0
	e.turn = turning{}
	e.notice = advice(words)
}

// nextTable goes to the next table of the file.
func (t *tableScreen) nextTable(e *Explorer) {
	if !t.Next(e.bench) {
		return
	}
	t.from = 0
	e.turn = turning{}
	e.notice = tableNotice(t.Table)
}

// hang breaks a long line, the rest set in as far as the line itself.
func hang(line string, w int) []string {
	if picture.Width(line) <= w {
		return []string{line}
	}
	indent := line[:len(line)-len(strings.TrimLeft(line, " "))]
	parts := wrap(line, w-len(indent)-2)
	for i := range parts {
		parts[i] = indent + parts[i]
		if i > 0 {
			parts[i] = "  " + parts[i]
		}
	}
	return parts
}

func lineInk(line string) picture.Ink {
	trimmed := strings.TrimSpace(line)
	switch {
	case strings.HasPrefix(trimmed, "fault:"), strings.Contains(line, "  < "), strings.Contains(line, ": not sound:"):
		return picture.Alert
	case strings.HasPrefix(trimmed, "cure "), strings.HasPrefix(trimmed, "so: "), strings.HasPrefix(trimmed, "with cure "), strings.Contains(line, ": sound"):
		return picture.Good
	case strings.HasPrefix(trimmed, "note:"):
		return picture.Faint
	}
	return picture.Text
}
