// Package picture draws what the explorer shows: the motor, the order, words in
// places. A picture is laid out once, in a grid of cells, and written out for
// a terminal; it holds no physics and computes no position of its own.
package picture

import (
	"strconv"
	"strings"

	"github.com/charmbracelet/x/ansi"
)

// Style is how a cell looks.
type Style struct {
	Fore, Back Ink
	Bold       bool
	Under      bool // underlined
}

// In gives the plain style of an ink.
func In(fore Ink) Style { return Style{Fore: fore} }

// Loud gives the bold style of an ink.
func Loud(fore Ink) Style { return Style{Fore: fore, Bold: true} }

type cell struct {
	mark  rune
	style Style
}

// Grid is a screen of cells. Writing outside it is harmless.
type Grid struct {
	W, H  int
	ASCII bool // only ASCII marks are drawn
	cells []cell
	out   []byte
}

// Resize makes the grid w × h cells and clears it.
func (g *Grid) Resize(w, h int) {
	g.W, g.H = w, h
	if cap(g.cells) < w*h {
		g.cells = make([]cell, w*h)
	}
	g.cells = g.cells[:w*h]
	clear(g.cells)
}

// Set puts a mark in a cell.
func (g *Grid) Set(x, y int, mark rune, s Style) {
	if x >= 0 && y >= 0 && x < g.W && y < g.H {
		g.cells[y*g.W+x] = cell{mark, s}
	}
}

// Write puts words from x on and gives the column after them. Marks that take
// no cell of their own, or two, are left out: names from files are such words.
func (g *Grid) Write(x, y int, words string, s Style) int {
	for _, r := range g.spelt(words) {
		if !Single(r) {
			continue
		}
		g.Set(x, y, r, s)
		x++
	}
	return x
}

// spelt writes degrees out where only ASCII is drawn.
func (g *Grid) spelt(words string) string {
	if !g.ASCII {
		return words
	}
	return strings.ReplaceAll(strings.ReplaceAll(words, " °", "°"), "°", " deg")
}

// Single says whether a mark takes one cell, and is none that steers the terminal.
// Our own marks are known to.
func Single(r rune) bool {
	const softHyphen = 0xad
	if r < ' ' || r >= 0x7f && r < 0xa0 || r == softHyphen {
		return false
	}
	if r < 0x300 || r >= 0x2190 && r <= 0x2319 || r >= 0x2500 && r <= 0x25ff || r == '−' {
		return true
	}
	return ansi.StringWidth(string(r)) == 1
}

// WriteEnd puts words so that they end before column x.
func (g *Grid) WriteEnd(x, y int, words string, s Style) {
	words = g.spelt(words)
	g.Write(x-Width(words), y, words, s)
}

// WriteWithin puts words cut to at most w cells, ending in … when cut.
func (g *Grid) WriteWithin(x, y, w int, words string, s Style) int {
	if w <= 0 {
		return x
	}
	tail := "…"
	if g.ASCII {
		tail = "~"
	}
	return g.Write(x, y, ansi.Truncate(g.spelt(words), w, tail), s)
}

// Width gives the cells that words take.
func Width(words string) int { return ansi.StringWidth(words) }

// Line fills a row of cells with a mark.
func (g *Grid) Line(x, y, w int, mark rune, s Style) {
	for i := range w {
		g.Set(x+i, y, mark, s)
	}
}

// Back paints the background of cells and keeps their marks.
func (g *Grid) Back(x, y, w, h int, back Ink) {
	for j := y; j < y+h; j++ {
		for i := x; i < x+w; i++ {
			if i >= 0 && j >= 0 && i < g.W && j < g.H {
				g.cells[j*g.W+i].style.Back = back
			}
		}
	}
}

// Text writes the grid out as H lines without a final newline, with colour
// changes only where the colour changes and nothing after the last mark of a
// line. The words are valid until the next call.
func (g *Grid) Text(theme *Theme, depth Depth) string {
	out := g.out[:0]
	for y := range g.H {
		if y > 0 {
			out = append(out, '\n')
		}
		line := g.cells[y*g.W : (y+1)*g.W]
		end := len(line)
		for end > 0 && blank(line[end-1]) {
			end--
		}
		var at Style
		for _, c := range line[:end] {
			mark := c.mark
			if mark == 0 {
				mark = ' '
			}
			want := c.style
			if depth == Colours16 {
				want = sixteen(want, mark)
			}
			if mark == ' ' { // a blank shows only its background
				want.Fore, want.Bold = at.Fore, at.Bold
			}
			if want != at {
				out = theme.change(out, at, want, depth)
				at = want
			}
			if g.ASCII && mark > 0x7e {
				mark = plainMark(mark)
			}
			out = appendRune(out, mark)
		}
		if at != (Style{}) {
			out = append(out, "\x1b[m"...)
		}
	}
	g.out = out
	return string(out)
}

// sixteen keeps text readable where nobody knows what the colours look like: it
// has the terminal's own, and a band is a line below. A letter on a pole stays: the
// two are black or white, and a colour.
func sixteen(s Style, mark rune) Style {
	if s.Back == Band {
		s.Back, s.Under = Default, true
	}
	if s.Back == Default && Read(mark) {
		s.Fore = Default
	}
	return s
}

// Read says whether a mark is read, as letters and signs are, and not only seen, as
// lines, blocks, shapes and dots.
func Read(mark rune) bool {
	return !(mark >= 0x2500 && mark <= 0x25ff || mark >= 0x2800 && mark <= 0x28ff)
}

func blank(c cell) bool {
	return (c.mark == 0 || c.mark == ' ') && c.style.Back == Default
}

// change appends the shortest escape sequence from one style to another.
func (t *Theme) change(out []byte, from, to Style, depth Depth) []byte {
	start := len(out)
	out = append(out, "\x1b["...)
	if from.Bold && !to.Bold || from.Under && !to.Under || from.Back != Default && to.Back == Default && depth == NoColour {
		out = append(out, '0', ';')
		from = Style{}
	}
	if to.Bold && !from.Bold {
		out = append(out, '1', ';')
	}
	if to.Under && !from.Under {
		out = append(out, '4', ';')
	}
	if depth != NoColour {
		if to.Fore != from.Fore {
			out = t.colour(out, to.Fore, 30, depth)
		}
		if to.Back != from.Back {
			out = t.colour(out, to.Back, 40, depth)
		}
	}
	if out[len(out)-1] == '[' {
		return out[:start] // nothing that this depth can show has changed
	}
	out[len(out)-1] = 'm'
	return out
}

func (t *Theme) colour(out []byte, ink Ink, base int64, depth Depth) []byte {
	switch s := t.palette[ink]; {
	case ink == Default:
		out = strconv.AppendInt(out, base+9, 10)
	case depth == TrueColour:
		out = strconv.AppendInt(out, base+8, 10)
		out = append(out, ";2"...)
		for _, part := range [...]uint32{s.rgb >> 16, s.rgb >> 8, s.rgb} {
			out = append(out, ';')
			out = strconv.AppendInt(out, int64(part&0xff), 10)
		}
	case depth == Colours256:
		out = strconv.AppendInt(out, base+8, 10)
		out = append(out, ";5;"...)
		out = strconv.AppendInt(out, int64(s.of256), 10)
	case s.of16 >= 8:
		out = strconv.AppendInt(out, base+60+int64(s.of16)-8, 10)
	default:
		out = strconv.AppendInt(out, base+int64(s.of16), 10)
	}
	return append(out, ';')
}

func appendRune(out []byte, r rune) []byte {
	if r < 0x80 {
		return append(out, byte(r))
	}
	return append(out, string(r)...)
}

// plainMark gives the ASCII stand-in of a mark.
func plainMark(r rune) rune {
	switch r {
	case '─', '━', '−', '–':
		return '-'
	case '│', '┃', '▏', '▕', '┆', '▌', '▐':
		return '|'
	case '█', '▇', '▆', '■', '▅':
		return '#'
	case '▄', '▃', '▀':
		return '='
	case '▁', '▂':
		return '_'
	case '●':
		return '@'
	case '○':
		return 'o'
	case '·', '•':
		return '.'
	case '→', '▶', '›':
		return '>'
	case '←', '◀', '‹':
		return '<'
	case '△':
		return '*'
	case '↑', '▲':
		return '^'
	case '↓', '▼':
		return 'v'
	case '×':
		return 'x'
	case 'µ', 'μ':
		return 'u'
	case '…':
		return '~'
	case '↻':
		return ')'
	case '↺':
		return '('
	case '◠':
		return 'm'
	case '┌', '┐', '┘', '┤', '┼', '┬', '├', '└':
		return '+'
	case '≈':
		return '~'
	case '±':
		return '+'
	}
	return '?'
}
