package picture

import "math"

// Curve is a value over one round, drawn about a line at nothing.
type Curve struct {
	Values []float64 // two a cell
	Marks  []float64 // places to mark, as shares of the round from 0 to 1
	Ends   [4]string // what stands at each quarter, written below

	patch dots
}

// Draw draws the curve in w × h cells, as high as its greatest value, and the
// names of the quarters on the line below.
func (c *Curve) Draw(g *Grid, x, y, w, h int) {
	c.patch.resize(w, h)
	most := 0.0
	for _, v := range c.Values {
		most = math.Max(most, math.Abs(v))
	}
	g.Line(x, y+h/2, w, '─', In(Faint))
	if most == 0 {
		return
	}
	middle := float64(4*(h/2)) + 1.5
	reach := math.Min(middle, float64(4*h)-1-middle)
	last := 0
	for i, v := range c.Values {
		at := int(math.Round(middle - v/most*reach))
		if i == 0 {
			last = at
		}
		for dot := min(last, at); dot <= max(last, at); dot++ {
			c.patch.set(i, dot, In(Current), '*')
		}
		last = at
	}
	c.patch.onto(g, x, y)
	for k, end := range c.Ends {
		g.Write(x+k*w/4, y+h, end, In(Faint))
	}
	for _, m := range c.Marks {
		g.Set(x+int(m*float64(w)), y+h/2, '●', Loud(Strong))
	}
}
