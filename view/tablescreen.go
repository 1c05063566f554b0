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
	Question table.Question // that they answer
}

// notice says at once what the person came for.
func (c Checked) notice() notice {
	v := c.Verdicts[0]
	words := v.Table.Name + ": " + report.Judgement(v)
	if v.Sound {
		return advice(words)
	}
	return alarm(words + "; T shows rows and cures")
}

// tableScreen shows what is right and wrong with the table, and puts a cure in.
type tableScreen struct {
	Checked
	at     int // the table that is shown and walked
	from   int // first line shown
	wiring sequence.Permutation
}

func (t *tableScreen) name() string { return "Table" }

func (t *tableScreen) keys() []hint {
	hints := []hint{{"↑↓", "scroll", "scroll the findings"}}
	if len(t.Verdicts) > 1 {
		hints = append(hints, hint{"n", "next table", "go to the next table of the file, and walk that"})
	}
	for i, c := range t.Verdicts[t.at].Cures {
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
	case "n":
		t.nextTable(e)
	default:
		return t.cure(e, key)
	}
	return true
}

// cure swaps the two leads that a cure names, and goes to look at it turn.
func (t *tableScreen) cure(e *Explorer, key string) bool {
	for i, c := range t.Verdicts[t.at].Cures {
		if key != fmt.Sprint(i+1) || c.Swap == nil {
			continue
		}
		before := e.bench.Read()
		e.bench.SetWiring(t.Verdicts[t.at].Taken.Swapped(c.Swap[0]-1, c.Swap[1]-1))
		e.follow(before)
		e.show(0)
		e.notice = advice(fmt.Sprintf("leads on outputs %d and %d swapped: it should now turn %s. enter runs it", c.Swap[0], c.Swap[1], report.Turning(c.Direction == sequence.Forward)))
		return true
	}
	return false
}

func (t *tableScreen) draw(e *Explorer, g *picture.Grid) {
	t.judgeAgain(e)
	var lines []string
	var inks []picture.Ink
	text := report.VerdictText(t.File, t.Verdicts[t.at])
	if n := len(t.Verdicts); n > 1 {
		text = fmt.Sprintf("table %d of %d\n", t.at+1, n) + text
	}
	for _, line := range strings.Split(strings.TrimRight(text, "\n"), "\n") {
		for _, part := range hang(line, g.W-3) {
			lines, inks = append(lines, part), append(inks, lineInk(line))
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

// judgeAgain holds the table against the wiring as it is now, where a wiring was
// asked about: after a cure it is sound.
func (t *tableScreen) judgeAgain(e *Explorer) {
	now := e.bench.Read().Wiring
	if t.Question.Wiring == nil || now == t.wiring {
		return
	}
	t.wiring = now
	q := t.Question
	q.Wiring = &now
	for k := range q.Leads {
		if q.Leads[k] != "" {
			q.Leads[k] = string(e.bench.Motor().Output(now, k))
		}
	}
	for i := range t.Verdicts {
		t.Verdicts[i] = table.Judge(t.Verdicts[i].Table, q)
	}
}

// nextTable goes to the next table of the file.
func (t *tableScreen) nextTable(e *Explorer) {
	if len(t.Verdicts) < 2 {
		return
	}
	t.at, t.from = (t.at+1)%len(t.Verdicts), 0
	v := t.Verdicts[t.at]
	e.bench.Stop()
	e.bench.SetTable(v.Outputs)
	if t.Question.Wiring == nil {
		e.bench.SetWiring(v.Taken)
	}
	e.turn = turning{}
	e.notice = Checked{t.File, t.Verdicts[t.at:], t.Question}.notice()
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
