package picture

import "math"

// Line is one curve of a plot: points in order of X, joined.
type Line struct {
	X, Y []float64
	Ink  Ink
	Name string
	Mark rune // in ASCII
}

// Plot draws curves over a common scale, with figures at the ends of both axes.
type Plot struct {
	Lines      []Line
	Left       func(v float64) string // words for a value of Y
	Below      func(v float64) string // words for a value of X
	XName      string
	Zero       bool // keep nothing in the picture, on the axis of Y
	FromZero   bool // and on that of X
	YMin, YMax float64
	Fixed      bool // YMin and YMax are given

	patch dots
}

// labelSpace is the room left of the plot for the values of Y.
const labelSpace = 9

// Draw draws the plot in w × h cells: the first line names axis and curves, the
// last holds the values of X.
func (p *Plot) Draw(g *Grid, x, y, w, h int) {
	if w < labelSpace+10 || h < 4 {
		return
	}
	p.legend(g, x, y, w)
	y, h = y+1, h-1
	x0, x1, y0, y1 := p.bounds()
	if !(x1 > x0) {
		return
	}
	w, h = w-labelSpace, h-1
	p.patch.resize(w, h)
	column := func(v float64) int { return int(math.Round((v - x0) / (x1 - x0) * float64(2*w-1))) }
	row := func(v float64) int { return int(math.Round((y1 - v) / (y1 - y0) * float64(4*h-1))) }
	for _, l := range p.Lines {
		for i := 1; i < len(l.X); i++ {
			p.stroke(column(l.X[i-1]), row(l.Y[i-1]), column(l.X[i]), row(l.Y[i]), In(l.Ink), l.Mark)
		}
	}
	for j := range h {
		g.Set(x+labelSpace-1, y+j, '│', In(Faint))
	}
	if y0 < 0 && y1 > 0 {
		at := y + min(max(row(0)/4, 0), h-1)
		g.Line(x+labelSpace, at, w, '─', In(Faint))
		if at > y && at < y+h-1 {
			g.WriteEnd(x+labelSpace-1, at, p.Left(0), In(Faint))
		}
	}
	g.WriteEnd(x+labelSpace-1, y, p.Left(y1), In(Faint))
	g.WriteEnd(x+labelSpace-1, y+h-1, p.Left(y0), In(Faint))
	p.patch.onto(g, x+labelSpace, y)
	for i, l := range p.Lines { // told apart without colour: a letter on each
		if len(p.Lines) < 2 || l.Name == "" || len(l.X) < 2 {
			continue
		}
		k := min(len(l.X)*(i+2)/(len(p.Lines)+3), len(l.X)-1)
		initial := []rune(l.Name)[0]
		g.Set(x+labelSpace+min(column(l.X[k])/2, w-1), y+min(max(row(l.Y[k])/4, 0), h-1), initial, Loud(l.Ink))
	}
	g.Write(x+labelSpace, y+h, p.Below(x0), In(Faint))
	g.WriteEnd(x+labelSpace+w, y+h, p.Below(x1), In(Faint))
}

// legend names the axes and the lines, in the colours of the lines: above the plot,
// and from further left where there are many.
func (p *Plot) legend(g *Grid, x, y, w int) {
	long := Width(g.spelt(p.XName))
	for _, l := range p.Lines {
		long += 3 + Width(g.spelt(l.Name))
	}
	gap := 2
	if long > w {
		gap = 1
	}
	indent := max(0, min(labelSpace, w-long))
	x, w = x+indent, w-indent
	at := g.WriteWithin(x, y, w, p.XName, In(Faint))
	for _, l := range p.Lines {
		mark := "━"
		if g.ASCII {
			mark = string(l.Mark)
		}
		at = g.WriteWithin(at+gap, y, x+w-at-gap, mark+l.Name, In(l.Ink))
	}
}

// bounds gives the ends of both axes.
func (p *Plot) bounds() (x0, x1, y0, y1 float64) {
	x0, x1, y0, y1 = math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
	for _, l := range p.Lines {
		for i := range l.X {
			x0, x1 = math.Min(x0, l.X[i]), math.Max(x1, l.X[i])
			y0, y1 = math.Min(y0, l.Y[i]), math.Max(y1, l.Y[i])
		}
	}
	if p.Zero {
		y0, y1 = math.Min(y0, 0), math.Max(y1, 0)
	}
	if p.FromZero {
		x0, x1 = math.Min(x0, 0), math.Max(x1, 0)
	}
	if p.Fixed {
		y0, y1 = p.YMin, p.YMax
	}
	if y1-y0 < 1e-12 {
		y0, y1 = y0-1, y1+1
	}
	return x0, x1, y0, y1
}

// stroke joins two dots.
func (p *Plot) stroke(ax, ay, bx, by int, s Style, plain rune) {
	n := max(abs(bx-ax), abs(by-ay), 1)
	for i := 0; i <= n; i++ {
		p.patch.set(ax+(bx-ax)*i/n, ay+(by-ay)*i/n, s, plain)
	}
}

func abs(v int) int { return max(v, -v) }
