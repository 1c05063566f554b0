package view

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"coilwalk/view/picture"
)

// preview shows a file before it is written: its text with its parts told apart,
// or a card. Long lines go on below themselves, so that nothing is hidden.
type preview struct {
	text    string
	classes []class // of each byte
	lines   []int   // where each begins
	card    *picture.Card
	cells   *picture.Grid // of the card, as wide as it was drawn last
	top     int           // the first line shown
	shown   int           // lines
	w, h    int           // as drawn last
}

// show takes another text; the place in it stays where it can.
func (p *preview) show(text, kind string) {
	p.card, p.cells = nil, nil
	p.text, p.classes, p.lines = text, languages[kind].classes(text), p.lines[:0]
	for at := 0; at < len(text); at = min(lineEnd(text, at)+1, len(text)) {
		p.lines = append(p.lines, at)
	}
}

// showCard takes a card.
func (p *preview) showCard(c *picture.Card) {
	p.show("", "")
	p.card = c
}

// count gives the lines that there are.
func (p *preview) count() int {
	if p.cells != nil {
		return p.cells.H
	}
	return len(p.lines)
}

// page goes on by a screenful, or back.
func (p *preview) page(way int) {
	if way > 0 {
		p.top += max(1, p.shown-1)
	} else {
		p.top -= max(1, p.h-1)
	}
	p.bound()
}

// bottom goes to the end.
func (p *preview) bottom() {
	p.top = p.count()
	p.bound()
}

// bound keeps the last line at the foot.
func (p *preview) bound() {
	last, room := p.count(), p.h
	if p.card != nil {
		last = max(0, last-room)
	}
	for p.card == nil && last > 0 && room >= p.tall(last-1) {
		last--
		room -= p.tall(last)
	}
	p.top = max(0, min(p.top, last))
}

// gutter is the room for line numbers.
func (p *preview) gutter() int { return len(fmt.Sprint(len(p.lines))) + 1 }

// tall gives the rows that a line takes.
func (p *preview) tall(line int) int {
	return 1 + len(folds(p.line(line), p.w-p.gutter()))
}

// folds gives where a line of source goes on in the next row, in bytes: after a
// blank where there is one in the row's last third.
func folds(line string, w int) (at []int) {
	start := 0
	for w > 0 && utf8.RuneCountInString(line[start:]) > w {
		end := start
		for range w {
			_, size := utf8.DecodeRuneInString(line[end:])
			end += size
		}
		if blank := strings.LastIndexByte(line[start:end], ' '); blank > 2*w/3 {
			end = start + blank + 1
		}
		at, start = append(at, end), end
	}
	return at
}

func (p *preview) line(n int) string {
	return p.text[p.lines[n]:lineEnd(p.text, p.lines[n])]
}

// draw draws what there is room for.
func (p *preview) draw(e *Explorer, g *picture.Grid, x, y, w, h int) {
	p.w, p.h = w, h
	if p.card != nil {
		if wide := min(w, cardWide); p.cells == nil || p.cells.W != wide {
			p.cells = p.card.Cells(wide, e.ASCII)
		}
		p.bound()
		p.shown = min(h, p.cells.H-p.top)
		g.Paste(p.cells, x, y, p.top, w, h)
		return
	}
	p.bound()
	p.shown = 0
	end := y + h
	for n := p.top; n < len(p.lines) && y < end; n++ {
		g.WriteEnd(x+p.gutter()-1, y, fmt.Sprint(n+1), picture.In(picture.Faint))
		p.drawLine(e, g, n, x+p.gutter(), y, w-p.gutter(), end-y)
		if y += p.tall(n); y <= end || p.shown == 0 {
			p.shown++
		}
	}
}

// cardWide is as wide as a card is drawn: wider lines read badly.
const cardWide = 96

// drawLine draws one line over as many rows as it takes, and no more than h.
func (p *preview) drawLine(e *Explorer, g *picture.Grid, n, x, y, w, h int) {
	at, column, row := p.lines[n], 0, 0
	line := p.line(n)
	next := folds(line, w)
	for k, r := range line {
		if row < len(next) && k == next[row] {
			column, row = 0, row+1
		}
		if row == h {
			break
		}
		switch {
		case r < ' ':
			r = ' '
		case r == '°' && e.ASCII: // in one cell, as the columns of a table are
			r = 'd'
		}
		g.Write(x+column, y+row, string(r), classStyle(p.classes[at+k], e.Depth))
		column++
	}
}

// classStyle is how a class looks. Without colours keywords are told by their
// weight and strings by a line below; comments and numbers by their own marks.
func classStyle(c class, depth picture.Depth) picture.Style {
	switch c {
	case commented:
		return picture.In(picture.Faint)
	case keyword:
		return picture.Loud(picture.Strong)
	case numeral:
		return picture.In(picture.Current)
	case quoted:
		return picture.Style{Fore: picture.Good, Under: depth == picture.NoColour}
	}
	return picture.In(picture.Text)
}

// where says which lines are shown, where that is not all.
func (p *preview) where() string {
	if p.top == 0 && p.shown >= p.count() {
		return ""
	}
	return fmt.Sprintf("%d to %d of %d", p.top+1, p.top+p.shown, p.count())
}

// fileName makes a name of a file from one that may be none.
func fileName(name, ending string) string {
	return strings.Map(func(r rune) rune {
		if strings.ContainsRune(`/\:*?"<>|`, r) {
			return '-'
		}
		return r
	}, name) + ending
}
