package picture

import (
	"fmt"
	"image/color"
)

// order draws one cycle as traces of the outputs, a column a row, with what is on
// and where the field points where there is room for it.
func (c *Card) order(s *sheet, y float64) float64 {
	const label, laneTall, high = 24.0, 11.0, 7.0
	const mostNamed = 16 // columns, beyond which words would not fit
	s.write(margin, y, headSize, true, "Order")
	s.write(margin+18, y, textSize, false, "Forward, clockwise, reads to the right; reverse to the left. After the last row comes row 1 again.")
	n := len(c.Rows)
	each := (cardWide - 2*margin - label) / float64(n)
	left, top := margin+label, y+9
	foot := top + 4*laneTall
	named := n <= mostNamed
	for k, row := range c.Rows {
		x := left + each*float64(k)
		if named || k%(n/8) == 0 {
			s.line(0.15, color.Gray{0xa0}, [2]float64{x, top - 1}, [2]float64{x, foot})
			s.centre(x+each/2, top-2, textSize, true, fmt.Sprint(row.Number))
		}
		if named {
			s.centre(x+each/2, foot+4.5, smallSize, false, within(smallSize, each, false, row.On))
			s.centre(x+each/2, foot+8.5, smallSize, false, row.Field)
		}
	}
	s.line(0.15, color.Gray{0xa0}, [2]float64{left + each*float64(n), top - 1}, [2]float64{left + each*float64(n), foot})
	for lane, out := range c.Outputs {
		base := top + laneTall*float64(lane) + laneTall - 2
		s.write(margin, base-2, textSize, true, fmt.Sprint(lane+1))
		s.write(margin+4, base-2, textSize, false, within(textSize, label-6, false, out.Lead+" "+out.End))
		var points, block [][2]float64 // what is on from row to row is one block: two would leave a seam
		for k, row := range c.Rows {
			x, level := left+each*float64(k), base-high*row.Levels[lane]
			step := [][2]float64{{x, level}, {x + each, level}}
			points = append(points, step...)
			if row.Levels[lane] > 0 {
				if block == nil {
					block = [][2]float64{{x, base}}
				}
				block = append(block, step...)
			}
			if block != nil && (k == n-1 || c.Rows[k+1].Levels[lane] <= 0) {
				s.area(color.Gray{0xd8}, append(block, [2]float64{x + each, base})...)
				block = nil
			}
		}
		s.line(0.5, color.Black, points...)
	}
	if !named {
		s.write(left, foot+4.5, smallSize, false, fmt.Sprintf("%d rows to a cycle; the height is the share of a coil's current.", n))
		return foot + 4.5
	}
	s.write(margin, foot+4.5, smallSize, false, "on")
	s.write(margin, foot+8.5, smallSize, false, "field, electrical")
	return foot + 8.5
}

// facts writes the figures in two columns.
func (c *Card) facts(s *sheet, y float64) float64 {
	const step = textSize * pointTall * 1.45
	const second, value = 94.0, 41.0 // mm, to the second column, and in one to the values
	s.write(margin, y, headSize, true, "Shaft and supply")
	y += 2
	rows := (len(c.Facts) + 1) / 2
	for k, fact := range c.Facts {
		x, foot := margin+second*float64(k/rows), y+step*float64(k%rows+1)
		s.write(x, foot, textSize, false, fact.Name)
		s.write(x+value, foot, textSize, true, within(textSize, (second-value-2)/slack, true, fact.Value))
	}
	return y + step*float64(rows)
}

// cautions writes each with a mark before it.
func (c *Card) cautions(s *sheet, y float64) float64 {
	const step = textSize * pointTall * 1.4
	s.write(margin, y, headSize, true, "Take care")
	y += 1
	for _, caution := range c.Cautions {
		for k, line := range wrap(textSize, cardWide-2*margin-6, caution) {
			y += step
			if k == 0 {
				s.write(margin, y, textSize, true, "!")
			}
			s.write(margin+4, y, textSize, false, line)
		}
	}
	return y
}

// notes leaves lines for a pencil, as far as the page goes.
func (c *Card) notes(s *sheet, y float64) {
	const step = 9.0
	if y+2*step > cardTall-margin {
		return
	}
	s.write(margin, y, headSize, true, "Notes")
	for y += step; y < cardTall-margin-2; y += step {
		s.line(0.2, color.Gray{0x80}, [2]float64{margin, y}, [2]float64{cardWide - margin, y})
	}
}
