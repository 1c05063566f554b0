package picture

import "strings"

// Coils draws a winding as far as it is known: coils as a wire with turns, taps
// and a common as joints, and leads of which nothing is known yet as open ends.
type Coils struct {
	Common string    // the joint that all Star leads go to
	Star   []string  // ends of coils to the common
	Coils  []OneCoil // phases or coils of their own
	Loose  []string
	Broken map[string]bool // leads that a fault was found at
}

// OneCoil is a coil between two ends, perhaps with a tap; an end that is not
// known yet is "".
type OneCoil struct{ From, Tap, To string }

// Height gives the lines that the drawing takes.
func (c *Coils) Height() int {
	lines := max(len(c.Star), boolToInt(c.Common != ""))
	for _, one := range c.Coils {
		lines += 1 + boolToInt(one.Tap != "")
	}
	return lines + boolToInt(len(c.Loose) > 0)
}

func boolToInt(b bool) int {
	if b {
		return 1
	}
	return 0
}

const (
	turns    = "─◠◠◠◠─" // a coil's turns on its wire
	nameWide = 7
)

// Draw draws the coils from x, y on.
func (c *Coils) Draw(g *Grid, x, y int) {
	for i, lead := range c.Star {
		at := c.wire(g, x, y, lead)
		joint := '┤'
		switch {
		case len(c.Star) == 1:
			joint = '─'
		case i == 0:
			joint = '┐'
		case i == len(c.Star)-1:
			joint = '┘'
		}
		g.Set(at, y, joint, In(Text))
		if i == len(c.Star)/2 || len(c.Star) == 1 {
			if joint == '┤' {
				g.Set(at, y, '┼', In(Text))
			}
			name := c.Common
			if name == "" {
				name = "?"
			}
			g.lead(at+1, y, "── "+name, name)
			g.Write(at+5+Width(name), y, "common", In(Faint))
		}
		y++
	}
	if len(c.Star) == 0 && c.Common != "" {
		g.lead(x, y, c.Common+" ──", c.Common)
		g.Write(x+nameWide, y, "common", In(Faint))
		y++
	}
	for _, one := range c.Coils {
		y = c.coil(g, x, y, one)
	}
	if len(c.Loose) > 0 {
		at := x
		for _, lead := range c.Loose {
			at = g.lead(at, y, lead+"── ", lead)
			at++
		}
	}
}

// wire draws a lead and its turns and gives the column after them.
func (c *Coils) wire(g *Grid, x, y int, lead string) int {
	shown := lead
	if shown == "" {
		shown = "?"
	}
	at := g.lead(x, y, shown, lead) + 1
	for ; at < x+nameWide; at++ {
		g.Set(at, y, '─', In(LeadInk(colourOf(lead))))
	}
	for _, mark := range turns {
		style := In(Text)
		if mark == '◠' {
			style = Loud(Current)
		}
		g.Set(at, y, mark, style)
		at++
	}
	if c.Broken[lead] {
		g.Set(x+nameWide, y, '×', Loud(Alert))
	}
	return at
}

// coil draws one coil of its own and gives the line after it.
func (c *Coils) coil(g *Grid, x, y int, one OneCoil) int {
	at := c.wire(g, x, y, one.From)
	to := one.To
	if to == "" {
		to = "?"
	}
	if one.Tap == "" {
		if c.Broken[one.To] {
			g.Set(at-1, y, '×', Loud(Alert))
		}
		g.lead(at+1, y, to, one.To)
		return y + 1
	}
	g.Set(at, y, '┬', In(Text))
	g.lead(at, y+1, one.Tap, one.Tap)
	g.Write(at+1+Width(one.Tap), y+1, "tap", In(Faint))
	for i, mark := range []rune(turns) {
		style := In(Text)
		if mark == '◠' {
			style = Loud(Current)
		}
		g.Set(at+1+i, y, mark, style)
	}
	if c.Broken[one.To] {
		g.Set(at+len([]rune(turns)), y, '×', Loud(Alert))
	}
	g.lead(at+2+len([]rune(turns)), y, to, one.To)
	return y + 2
}

// lead writes words in the colour of a lead, a striped one's second code in its
// own.
func (g *Grid) lead(x, y int, words, lead string) int {
	base := colourOf(lead)
	stripe := strings.TrimPrefix(lead[len(base):], "/")
	end := g.Write(x, y, words, Loud(LeadInk(base)))
	if stripe != "" {
		for i := 0; i+len(lead) <= len(words); i++ {
			if words[i:i+len(lead)] == lead {
				g.Write(x+Width(words[:i])+len(base)+1, y, stripe, Loud(LeadInk(stripe)))
			}
		}
	}
	return end
}

// colourOf gives the code of a lead's base colour.
func colourOf(lead string) string {
	base, _, _ := strings.Cut(lead, "/")
	return base
}
