//go:build linux || darwin

package main

import (
	"fmt"
	"html"
	"strings"

	"github.com/hinshun/vt10x"
)

// A cell of a picture, in pixels, and the ground about the cells.
const (
	cellWide, cellHigh = 9, 18
	baseline           = 14
	margin             = 12
)

// svg draws a screen as a terminal would. What is made of dots and blocks is
// drawn by us, for the fonts of readers differ; words are told how wide they are.
func svg(s vt10x.Terminal, light bool) string {
	ground, text := "#101418", "#d0d0d0"
	if light {
		ground, text = "#ffffff", "#303030"
	}
	w, h := s.Size()
	var b strings.Builder
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %d %d" font-family="DejaVu Sans Mono, Menlo, Consolas, monospace" font-size="14.9" fill="%s">`+"\n",
		w*cellWide+2*margin, h*cellHigh+2*margin, text)
	fmt.Fprintf(&b, `<rect width="100%%" height="100%%" rx="6" fill="%s"/>`+"\n", ground)
	for y := range h {
		for x := 0; x < w; {
			first, from := s.Cell(x, y), x
			for x < w && s.Cell(x, y).BG == first.BG {
				x++
			}
			if first.BG != vt10x.DefaultBG {
				fmt.Fprintf(&b, `<rect x="%d" y="%d" width="%d" height="%d" fill="%s"/>`+"\n",
					margin+from*cellWide, margin+y*cellHigh, (x-from)*cellWide, cellHigh, hex(first.BG))
			}
		}
		for x := 0; x < w; {
			from, like := x, s.Cell(x, y)
			var word []rune
			for ; x < w; x++ {
				c := s.Cell(x, y)
				if c.Mode&bold != like.Mode&bold || c.FG != like.FG || drawn(c.Char) != drawn(like.Char) || blank(c.Char) {
					break
				}
				word = append(word, c.Char)
			}
			if len(word) == 0 {
				x++
				continue
			}
			writeWord(&b, like, word, margin+from*cellWide, margin+y*cellHigh)
		}
	}
	b.WriteString("</svg>\n")
	return b.String()
}

const bold = 4 // the emulator's own mark of it

func blank(c rune) bool { return c <= ' ' || c == '⠀' }

// drawn says whether a character is drawn here, and not by a font.
func drawn(c rune) bool {
	return c >= '⠀' && c <= '⣿' || strings.ContainsRune("█▀▄━─│", c)
}

func writeWord(b *strings.Builder, like vt10x.Glyph, word []rune, left, top int) {
	var look string
	if like.FG != vt10x.DefaultFG {
		look = fmt.Sprintf(` fill="%s"`, hex(like.FG))
	}
	if drawn(like.Char) {
		fmt.Fprintf(b, `<path%s d="`, look)
		for i, c := range word {
			strokes(b, c, left+i*cellWide, top)
		}
		b.WriteString("\"/>\n")
		return
	}
	if like.Mode&bold != 0 {
		look += ` font-weight="bold"`
	}
	fmt.Fprintf(b, `<text x="%d" y="%d" textLength="%d" lengthAdjust="spacingAndGlyphs"%s>%s</text>`+"\n",
		left, top+baseline, len(word)*cellWide, look, html.EscapeString(string(word)))
}

// strokes draws a character of blocks, lines or dots into its cell.
func strokes(b *strings.Builder, c rune, left, top int) {
	box := func(x, y, w, h float64) {
		fmt.Fprintf(b, "M%g %gh%gv%gh%gz", float64(left)+x, float64(top)+y, w, h, -w)
	}
	const w, h = cellWide, cellHigh
	switch c {
	case '█':
		box(0, 0, w, h)
	case '▀':
		box(0, 0, w, h/2)
	case '▄':
		box(0, h/2, w, h/2)
	case '━':
		box(0, h/2-1, w, 2)
	case '─':
		box(0, h/2-.5, w, 1)
	case '│':
		box(w/2., 0, 1, h)
	default: // Unicode numbers the dots of braille by column, the lowest row last
		for bit, at := range [8][2]float64{{0, 0}, {0, 1}, {0, 2}, {1, 0}, {1, 1}, {1, 2}, {0, 3}, {1, 3}} {
			if (c-'⠀')>>bit&1 == 1 {
				box(1.5+at[0]*w/2, 1.25+at[1]*h/4, 2, 2)
			}
		}
	}
}

// hex gives a colour of the 256 as terminals usually have them: 16 of their own,
// a cube of six levels, and greys.
func hex(c vt10x.Color) string {
	n := int(c)
	switch {
	case n < 16:
		return [...]string{"#000000", "#cd0000", "#00cd00", "#cdcd00", "#0000ee", "#cd00cd", "#00cdcd", "#e5e5e5",
			"#7f7f7f", "#ff0000", "#00ff00", "#ffff00", "#5c5cff", "#ff00ff", "#00ffff", "#ffffff"}[n]
	case n < 232:
		level := func(i int) int {
			if i == 0 {
				return 0
			}
			return 55 + 40*i
		}
		n -= 16
		return fmt.Sprintf("#%02x%02x%02x", level(n/36), level(n/6%6), level(n%6))
	case n < 256:
		grey := 8 + 10*(n-232)
		return fmt.Sprintf("#%02x%02x%02x", grey, grey, grey)
	}
	return fmt.Sprintf("#%06x", n&0xffffff) // given in full
}
