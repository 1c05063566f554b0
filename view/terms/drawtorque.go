package terms

import (
	"fmt"

	"coilwalk/model/rotor"
	"coilwalk/sequence"
	"coilwalk/view/picture"
)

// plotHigh is the height of a plot beside an entry.
const plotHigh = 11

// drawDetent shows the torque on an unpowered rotor over a pole pair.
func drawDetent() Drawing {
	machine := rotor.Of(builtIn("hybrid-4"))
	return Drawing{"no coil on: torque on the rotor over a pole pair", plotHigh - 2,
		func(g *picture.Grid, x, y, w int) {
			c := picture.Curve{Ends: picture.EndNames(g.ASCII)}
			for i := range 2 * w {
				c.Values = append(c.Values, machine.Torque(sequence.Field{}, 360*float64(i)/float64(2*w)))
			}
			c.Draw(g, x, y, w, plotHigh-3)
		}}
}

// drawnLoad is the load of the drawing, as a part of what one phase holds.
const drawnLoad = 0.5

// drawLoadAngle shows the pull on the rotor about its place under one phase, and
// where a load of half of that turns it to.
func drawLoadAngle() Drawing {
	machine := rotor.Machine{} // one phase, neither detent nor friction nor load
	field := sequence.Wave.Order().Row(0).Field()
	pull := picture.Line{Name: "pull on the rotor", Ink: picture.Current, Mark: '*'}
	for deg := -180.0; deg <= 180; deg += 3 {
		pull.X, pull.Y = append(pull.X, deg), append(pull.Y, machine.Torque(field, deg))
	}
	loaded := rotor.Machine{Load: drawnLoad}
	places, _ := loaded.Rest(field, rotor.Position{})
	angle := sequence.Between(0, places[0].Deg)
	load := picture.Line{Name: "load", Ink: picture.Alert, Mark: '=', X: []float64{-180, 180}, Y: []float64{drawnLoad, drawnLoad}}
	rest := picture.Line{Name: "rest", Ink: picture.Good, Mark: '|', X: []float64{angle, angle}, Y: []float64{-0.15, drawnLoad}}
	return Drawing{fmt.Sprintf("one phase on: a load of half its hold costs %.0f electrical degrees", -angle), plotHigh,
		func(g *picture.Grid, x, y, w int) {
			p := picture.Plot{Lines: []picture.Line{pull, load, rest}, XName: "degrees", Zero: true,
				Left: func(v float64) string { return fmt.Sprintf("%.1f", v) }, Below: func(v float64) string { return fmt.Sprintf("%.0f", v) }}
			p.Draw(g, x, y, w, plotHigh)
		}}
}
