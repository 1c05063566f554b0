package picture

import (
	"fmt"
	"strings"
)

// Cells draws the card small, on a grid of its own that is wide cells wide and
// as tall as it takes: the same parts in the same order as on paper.
func (c *Card) Cells(wide int, ascii bool) *Grid {
	g := &Grid{ASCII: ascii}
	tall := 30 + len(c.Facts) // what is always there, and edge below
	for _, words := range append([]string{c.Title, c.Under, c.Supply, c.Source}, c.Cautions...) {
		tall += len(folded(words, wide-6))
	}
	g.Resize(wide, tall)
	d := cardCells{g: g, y: 1}
	d.words(Loud(Strong), c.Title)
	d.words(In(Text), c.Under)
	d.head("Wiring")
	for k, out := range c.Outputs {
		g.Write(2, d.y, fmt.Sprint(k+1), Loud(Strong))
		g.Line(4, d.y, 4, '█', In(LeadInk(out.Base)))
		if out.Stripe != "" {
			g.Line(5, d.y, 2, '█', In(LeadInk(out.Stripe)))
		}
		g.WriteWithin(9, d.y, 8, out.Lead, Loud(Text))
		g.WriteWithin(18, d.y, 17, out.Words, In(Text))
		g.Write(36, d.y, out.End, Loud(Text))
		g.WriteWithin(40, d.y, wide-42, out.Seat, In(Faint))
		d.y++
	}
	if c.Supply != "" {
		d.words(In(Text), c.Supply)
	}
	d.head("Order, forward")
	d.order(c)
	d.head("Shaft and supply")
	for _, fact := range c.Facts {
		g.WriteWithin(2, d.y, 22, fact.Name, In(Faint))
		g.WriteWithin(25, d.y, wide-27, fact.Value, In(Text))
		d.y++
	}
	d.head("Take care")
	for _, caution := range c.Cautions {
		g.Write(2, d.y, "!", Loud(Alert))
		for _, line := range folded(caution, wide-6) {
			g.Write(4, d.y, line, In(Text))
			d.y++
		}
	}
	d.y++
	d.words(In(Faint), c.Source)
	d.edge()
	return g
}

// cardCells goes down a grid.
type cardCells struct {
	g *Grid
	y int
}

func (d *cardCells) words(s Style, words string) {
	for _, line := range folded(words, d.g.W-4) {
		d.g.WriteWithin(2, d.y, d.g.W-4, line, s)
		d.y++
	}
}

func (d *cardCells) head(words string) {
	d.y++
	d.g.Write(2, d.y, words, Style{Fore: Strong, Bold: true, Under: true})
	d.y++
}

// order draws the outputs as blocks as high as their current, a row of the order
// to some cells; where there are more rows than cells, some are left out.
func (d *cardCells) order(c *Card) {
	const label = 12
	g, n := d.g, len(c.Rows)
	if n == 0 {
		return
	}
	room := max(1, g.W-label-4)
	each := min(max(1, room/n), 5)
	shown := min(n, room/each)
	if each >= 3 { // room for their numbers
		for k, row := range c.Rows {
			g.Write(2+label+k*each, d.y, fmt.Sprint(row.Number), In(Faint))
		}
		d.y++
	}
	for lane, out := range c.Outputs {
		g.Write(2, d.y, fmt.Sprint(lane+1), Loud(Strong))
		g.WriteWithin(4, d.y, label-3, out.Lead+" "+out.End, In(Text))
		for k := range shown {
			level := c.Rows[k*n/shown].Levels[lane]
			mark, s := '▁', In(Faint)
			if level > 0 {
				mark, s = rune('▁'+min(max(int(level*8+0.5), 1), 8)-1), In(Current)
			}
			g.Line(2+label+k*each, d.y, each, mark, s)
		}
		d.y++
	}
	if n > shown || each < 3 {
		g.WriteWithin(2+label, d.y, room, fmt.Sprintf("%d rows to a cycle; height: share of a coil's current", n), In(Faint))
		d.y++
	}
}

// edge draws the edge of the paper, and cuts the grid below it.
func (d *cardCells) edge() {
	g, s := d.g, In(Faint)
	g.Line(0, 0, g.W, '─', s)
	g.Line(0, d.y, g.W, '─', s)
	for y := range d.y + 1 {
		g.Set(0, y, '│', s)
		g.Set(g.W-1, y, '│', s)
	}
	for x, marks := range map[int][2]rune{0: {'┌', '└'}, g.W - 1: {'┐', '┘'}} {
		g.Set(x, 0, marks[0], s)
		g.Set(x, d.y, marks[1], s)
	}
	g.cells, g.H = g.cells[:g.W*(d.y+1)], d.y+1
}

// folded parts words into lines of at most w cells.
func folded(words string, w int) (lines []string) {
	line := ""
	for _, word := range strings.Fields(words) {
		longer := strings.TrimSpace(line + " " + word)
		if line != "" && Width(longer) > w {
			lines, line = append(lines, line), word
			continue
		}
		line = longer
	}
	return append(lines, line)
}

// Paste copies h lines of another grid, from one of them on, and as many of their
// cells as there is room for.
func (g *Grid) Paste(from *Grid, x, y, first, w, h int) {
	for j := range min(h, from.H-first) {
		for i := range min(w, from.W) {
			c := from.cells[(first+j)*from.W+i]
			g.Set(x+i, y+j, c.mark, c.style)
		}
	}
}
