package view

import (
	"strings"

	"coilwalk/view/picture"
	"coilwalk/view/terms"
)

// wordPage is a word of the trade, explained over the whole screen; without one,
// the list of all words.
type wordPage struct {
	entry   terms.Entry
	drawing *terms.Drawing // nil until it was made, or without one
}

// wordMsg is a drawing that was made beside the screen: some run the motor.
type wordMsg struct {
	page    *wordPage
	drawing terms.Drawing
}

func (msg wordMsg) arrive(*Explorer) { msg.page.drawing = &msg.drawing }

// askWord asks for a word to explain.
func (e *Explorer) askWord() {
	e.asks("explain which word? (empty lists all)", "", func(text string) error {
		page := &wordPage{}
		if strings.TrimSpace(text) != "" {
			entry, err := terms.Find(text)
			if err != nil {
				return err
			}
			page.entry = entry
		}
		e.help, e.page = false, page
		if page.entry.Draw != nil {
			e.later(func() late { return wordMsg{page, page.entry.Draw()} })
		}
		return nil
	})
}

// drawPage draws a word, what is to be said of it, where it is seen, and its
// drawing where that has room.
func (e *Explorer) drawPage(g *picture.Grid) {
	p := e.page
	if p.entry.Word == "" {
		e.drawWords(g)
		return
	}
	e.drawPageHead(g, p.entry.Word, p.entry.Also)
	y := 2
	say := func(words string, ink picture.Ink) {
		for _, line := range wrap(words, min(g.W-4, 96)) {
			g.Write(2, y, line, picture.In(ink))
			y++
		}
	}
	say(p.entry.Text, picture.Text)
	say(p.whereSeen(), picture.Good)
	if p.drawing == nil {
		return
	}
	if y+1+p.drawing.Lines >= g.H {
		say("Its drawing needs a taller window.", picture.Faint)
		return
	}
	p.drawing.Onto(g, 2, y+1, g.W-4)
}

// whereSeen says where the word is seen, in a line or two.
func (p *wordPage) whereSeen() string {
	commands, screens, words := p.entry.Where()
	var parts []string
	if len(screens) > 0 {
		parts = append(parts, "Screen: "+strings.Join(screens, ", ")+".")
	}
	if len(commands) > 0 {
		parts = append(parts, "Command: "+strings.Join(commands, ", ")+".")
	}
	if len(words) > 0 {
		parts = append(parts, "Near it: "+strings.Join(words, ", ")+".")
	}
	return strings.Join(parts, " ")
}

// drawWords lists all words, by theme; a word of two stays on its line.
func (e *Explorer) drawWords(g *picture.Grid) {
	e.drawPageHead(g, "the words of the trade", nil)
	const margin = 2
	for y, k := 2, 0; k < len(terms.Themes()); y, k = y+1, k+1 {
		t := terms.Themes()[k]
		x := g.Write(margin, y, t.Name+":", picture.Loud(picture.Strong)) + 1
		for i, entry := range t.Entries {
			word := entry.Word
			if i+1 < len(t.Entries) {
				word += ","
			}
			if x+picture.Width(word) > g.W-margin {
				x, y = margin, y+1
			}
			x = g.Write(x, y, word, picture.In(picture.Text)) + 1
		}
	}
}

func (e *Explorer) drawPageHead(g *picture.Grid, title string, also []string) {
	x := g.Write(2, 0, title, picture.Loud(picture.Strong))
	hint := e.keyed("{anywhere.explain} another word, any other key goes back")
	room := g.W - 1 - picture.Width(hint) - 2
	if len(also) > 0 {
		g.WriteWithin(x+2, 0, room-x-2, "also "+strings.Join(also, ", "), picture.In(picture.Faint))
	}
	g.WriteEnd(g.W-1, 0, hint, picture.In(picture.Faint))
	g.Line(0, 1, g.W, '─', picture.In(picture.Faint))
}
