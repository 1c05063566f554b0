package view

import (
	"fmt"
	"strings"

	"coilwalk/model/table"
	"coilwalk/sequence"
	"coilwalk/view/picture"
	"coilwalk/view/report"
)

// Checked is a table that was opened with the explorer, and what was found.
type Checked struct {
	File     string
	Verdicts []table.Verdict
}

// notice says at once what the person came for.
func (c Checked) notice() notice {
	v := c.Verdicts[0]
	words := v.Table.Name + ": " + report.Judgement(v)
	if v.Sound {
		return advice(words)
	}
	return alarm(words + "; tab shows rows and cures")
}

// tableScreen shows what is right and wrong with the table, and puts a cure in.
type tableScreen struct {
	Checked
	from int // first line shown
}

func (t *tableScreen) name() string { return "table" }

func (t *tableScreen) keys() []hint {
	hints := []hint{{"↑↓", "scroll", "scroll the findings"}}
	for i, c := range t.Verdicts[0].Cures {
		says := ""
		if c.Swap != nil {
			says = fmt.Sprintf("swap %d %d", c.Swap[0], c.Swap[1])
		}
		hints = append(hints, hint{fmt.Sprint(i + 1), says, "cure: " + c.Text})
	}
	return append(hints, hint{"space", "stop", "stop; always, and only that"})
}

func (t *tableScreen) key(e *Explorer, key string) bool {
	switch key {
	case "up", "k":
		t.from--
	case "down", "j":
		t.from++
	case "pgup":
		t.from -= e.grid.H / 2
	case "pgdown":
		t.from += e.grid.H / 2
	case "home":
		t.from = 0
	default:
		return t.cure(e, key)
	}
	return true
}

// cure swaps the two leads that a cure names, and goes to look at it turn.
func (t *tableScreen) cure(e *Explorer, key string) bool {
	for i, c := range t.Verdicts[0].Cures {
		if key != fmt.Sprint(i+1) || c.Swap == nil {
			continue
		}
		before := e.bench.Read().Where
		e.bench.SetWiring(t.Verdicts[0].Taken.Swapped(c.Swap[0]-1, c.Swap[1]-1))
		e.follow(before)
		e.at = 0
		e.notice = advice(fmt.Sprintf("leads on outputs %d and %d swapped: it should now turn %s. enter runs it", c.Swap[0], c.Swap[1], report.Turning(c.Direction == sequence.Forward)))
		return true
	}
	return false
}

func (t *tableScreen) draw(e *Explorer, g *picture.Grid) {
	var lines []string
	var inks []picture.Ink
	for i, v := range t.Verdicts {
		if i > 0 {
			lines, inks = append(lines, ""), append(inks, picture.Text)
		}
		for _, line := range strings.Split(strings.TrimRight(report.VerdictText(t.File, v), "\n"), "\n") {
			for _, part := range hang(line, g.W-3) {
				lines, inks = append(lines, part), append(inks, lineInk(line))
			}
		}
	}
	room := g.H - 4
	t.from = max(0, min(t.from, len(lines)-room))
	for i := range min(room, len(lines)-t.from) {
		g.WriteWithin(1, 3+i, g.W-2, lines[t.from+i], picture.In(inks[t.from+i]))
	}
	if more := len(lines) - t.from - room; more > 0 {
		g.WriteEnd(g.W-1, g.H-2, fmt.Sprintf(" %d more lines ", more), picture.Loud(picture.Faint))
	}
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
	case strings.HasPrefix(trimmed, "cure "), strings.Contains(line, ": sound"):
		return picture.Good
	case strings.HasPrefix(trimmed, "note:"):
		return picture.Faint
	}
	return picture.Text
}
