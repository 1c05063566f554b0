package picture

// Trace is the level of one coil end or output over the rows of an order.
type Trace struct {
	Label  string
	Ink    Ink
	Levels []float64 // 0 off … 1 on, one a row
}

// Traces is the order as a strip: time runs to the right, the present row
// stands under the cursor.
type Traces struct {
	Lines  []Trace
	Cursor int // index of the present row
}

// Rows gives the number of rows that w cells show, and the cells of each.
func (t *Traces) Rows(w int) (rows, each int) {
	each = 3
	if w >= 100 {
		each = 4
	}
	return max(1, w/each), each
}

// Draw draws a line for the cursor and one for each trace.
func (t *Traces) Draw(g *Grid, x, y, w int) {
	rows, each := t.Rows(w)
	for i, line := range t.Lines {
		for k := range min(rows, len(line.Levels)) {
			t.level(g, x+k*each, y+1+i, each, line.Levels[k], line.Ink, k == t.Cursor)
		}
	}
	if t.Cursor < rows {
		g.Back(x+t.Cursor*each, y+1, each-1, len(t.Lines), Band)
		g.Set(x+t.Cursor*each+(each-1)/2, y, '▼', Loud(Current))
	}
}

// level draws one row of one trace: a block as high as the current.
func (t *Traces) level(g *Grid, x, y, each int, level float64, ink Ink, now bool) {
	mark, s := '─', In(Faint)
	if level > 0 {
		eighth := min(max(int(level*8+0.5), 1), 8)
		mark, s = rune('▁'+eighth-1), In(ink)
		if now {
			s = Loud(Current)
		}
	}
	g.Line(x, y, each-1, mark, s)
	if s.Fore == Faint || level > 0 {
		g.Set(x+each-1, y, '─', In(Faint))
	}
}
