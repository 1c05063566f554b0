package terms

import (
	"coilwalk/sequence"
	"coilwalk/view/picture"
)

// Circuits are sketches: nothing of them is reckoned.
var (
	drawUnipolar = sketch("a low-side array: the tap at the supply, one switch to each end", `
  supply + ----------+---- tap
                     |
        A+ --mmmm----+----mmmm-- A-
        |                        |
       / switch 1               / switch 3
        |                        |
      ground                   ground
`)
	drawBridge = sketch("an H-bridge: switches 1 and 4 send it one way, 2 and 3 the other", `
  supply + ----+----------------+
               |                |
              / 1              / 2
               |                |
               +--- coil mmmm --+
               |                |
              / 3              / 4
               |                |
  ground ------+----------------+
`)
	drawClamp = sketch("a clamp diode: the current's way on when the switch has opened", `
  supply + ----+---------+
               |         |
          coil m         ^  clamp diode
               m         |
               |         |
               +---------+
               |
              /  switch, just opened
               |
             ground
`)
	drawChopper = sketch("a coil's current behind a chopper: up to the set value, then switched", `
   set  |      /\/\/\/\/\/\/\/\/\
        |     /                  \
        |    /                    \
        |   /                      \
      0 +--/------------------------\--- time
           row begins        row ends
`)
)

// lanesWide is the columns of a drawn recording.
const lanesWide = 56

// drawRecording shows four channels as half steps come, as a recording has them.
func drawRecording() Drawing { return lanes("four channels of a recording, half step", -1) }

// drawGlitch shows the same with a level that comes and goes.
func drawGlitch() Drawing {
	return lanes("the same recording with a glitch on the third channel", glitchAt)
}

const (
	rowWide  = 5 // columns of a row
	glitchAt = 12
)

// lanes draws half steps as recorded lines, with a glitch at a column; −1 for none.
func lanes(title string, glitch int) Drawing {
	return Drawing{title, 4, func(g *picture.Grid, x, y, w int) {
		const label = 5
		order := sequence.Half.Order()
		all := picture.Lanes{Cursor: -1}
		for k := range sequence.Ends {
			lane := picture.Lane{Label: []string{"IN1", "IN2", "IN3", "IN4"}[k], Ink: picture.Current}
			for c := range min(lanesWide, w-label) {
				now, was := order.Row(int64(c / rowWide))[k], 0.0
				if c > 0 {
					was = order.Row(int64((c - 1) / rowWide))[k]
				}
				s := picture.Low
				switch {
				case c > 0 && was < now:
					s = picture.Rise
				case c > 0 && was > now:
					s = picture.Fall
				case now > 0:
					s = picture.High
				}
				if k == 2 && c == glitch {
					s = picture.Pulse
				}
				lane.Cells = append(lane.Cells, s)
			}
			all.Lines = append(all.Lines, lane)
		}
		all.Draw(g, x+label, y)
	}}
}
