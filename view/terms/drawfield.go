package terms

import (
	"coilwalk/model/rotor"
	"coilwalk/sequence"
	"coilwalk/view/picture"
)

// restUnder gives where a built-in motor comes to rest under a row, in electrical
// degrees.
func restUnder(name string, row sequence.Row) float64 {
	places, _ := rotor.Of(builtIn(name)).Rest(row.Field(), rotor.Position{Deg: 30})
	return places[0].Deg
}

// drawGap unrolls two pole pairs under the first row of wave drive.
func drawGap() Drawing {
	const name = "hybrid-4"
	row := sequence.Wave.Order().Row(0)
	return Drawing{"the air gap, unrolled, with A+ on: teeth above, the rotor's poles below", picture.GapHeight,
		func(g *picture.Grid, x, y, w int) {
			gap := picture.Gap{PolePairs: builtIn(name).PolePairs, Ends: picture.EndNames(g.ASCII), Poles: picture.PolesOf(row.Field().A, row.Field().B),
				Rotor: restUnder(name, row), Known: true, Marked: true}
			gap.Draw(g, x, y, min(w, 3*picture.PairWide))
		}}
}

// dialHigh is the height of the dial in the drawing of a field.
const dialHigh = 9

// drawField shows the field of A+ and B+ together, and the rotor in it.
func drawField() Drawing {
	row := sequence.Half.Order().Row(1)
	return Drawing{"the dial with A+ and B+ on: the field points midway, the rotor follows", dialHigh + 2,
		func(g *picture.Grid, x, y, _ int) {
			deg, _ := row.Field().Degrees()
			d := picture.Dial{Rotors: []float64{restUnder("hybrid-4", row)}, Sure: true, FieldDeg: deg, Strength: row.Field().Strength(),
				Ends: picture.EndNames(g.ASCII), Poles: picture.PolesOf(row.Field().A, row.Field().B)}
			d.Draw(g, x+6, y+1, dialHigh)
		}}
}

// Orders are drawn as strips: a line a coil end, time to the right.
var (
	drawWave Maker = func() Drawing { return strips("wave drive, two cycles: one coil end on", sequence.Wave) }
	drawFull Maker = func() Drawing { return strips("full step, two cycles: two coil ends on", sequence.Full) }
	drawHalf Maker = func() Drawing {
		return strips("half step, two cycles: one and two coil ends on in turn", sequence.Half)
	}
)

// drawMicro shows a coarse microstep, as far as it can be seen in a strip.
func drawMicro() Drawing {
	mode, err := sequence.Micro(4, 0)
	if err != nil {
		panic(err) // a divisor of ours
	}
	return strips("microstep with a divisor of 4: as high as the current", mode)
}

// drawModes shows three modes, each over two turns of the field.
func drawModes() Drawing {
	wave, full, half := strips("wave drive", sequence.Wave), strips("full step", sequence.Full), strips("half step", sequence.Half)
	return Drawing{"what reaches the coil ends, a cycle twice; time runs to the right", wave.Lines + half.Lines + 2, func(g *picture.Grid, x, y, w int) {
		wave.Onto(g, x, y, w/2)
		full.Onto(g, x+w/2, y, w/2)
		half.Onto(g, x, y+wave.Lines+1, w)
	}}
}

// stripLabel is the room for the name of a coil end.
const stripLabel = 5

// strips draws two cycles of a mode.
func strips(title string, mode sequence.Mode) Drawing {
	return Drawing{title, 4, func(g *picture.Grid, x, y, w int) {
		order, names := mode.Order(), picture.EndNames(g.ASCII)
		t := picture.Traces{Cursor: order.Len() * w} // none
		rows, _ := t.Rows(w - stripLabel)
		for end := range names {
			g.Write(x, y+end, names[end], picture.In(picture.Faint))
			line := picture.Trace{Ink: picture.Current}
			for k := range min(rows, 2*order.Len()) {
				line.Levels = append(line.Levels, order.Row(int64(k))[end])
			}
			t.Lines = append(t.Lines, line)
		}
		t.Draw(g, x+stripLabel, y-1, w-stripLabel) // its first line is the cursor's, and empty
	}}
}
