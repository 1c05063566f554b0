package terms

import (
	"coilwalk/model/motor"
	"coilwalk/view/picture"
)

// Windings are drawn with the leads of the built-in motors.
var (
	drawFourLeads  Maker = func() Drawing { return winding("hybrid-4", "two coils, four leads") }
	drawFiveLeads  Maker = func() Drawing { return winding("vent-flap", "four half-coils, one common, five leads") }
	drawSixLeads   Maker = func() Drawing { return winding("hybrid-6", "two coils with a centre tap each, six leads") }
	drawEightLeads Maker = func() Drawing { return winding("hybrid-8", "four half-coils, eight leads") }
)

// winding draws the coils of a motor, its leads at their ends.
func winding(name, title string) Drawing {
	c := coilsOf(builtIn(name))
	return Drawing{title, c.Height(), func(g *picture.Grid, x, y, _ int) { c.Draw(g, x, y) }}
}

func coilsOf(m motor.Motor) *picture.Coils {
	c := &picture.Coils{Common: string(m.Common)}
	for phase := range 2 {
		from, to := string(m.Ends[phase]), string(m.Ends[phase+2])
		switch {
		case m.Common != "":
			c.Star = append(c.Star, from, to)
		case m.Inner[0] != "":
			c.Coils = append(c.Coils, picture.OneCoil{From: from, To: string(m.Inner[phase])}, picture.OneCoil{From: string(m.Inner[phase+2]), To: to})
		default:
			c.Coils = append(c.Coils, picture.OneCoil{From: from, Tap: string(m.Taps[phase]), To: to})
		}
	}
	return c
}
