package view

import (
	"fmt"
	"math"
	"math/big"

	"coilwalk/model/motor"
	"coilwalk/view/picture"
	"coilwalk/view/report"
)

// answer gives the sheet as the command "shaft" tells it.
func (s *shaftScreen) answer() *report.Shaft {
	if s.shown != nil {
		return s.shown
	}
	s.shown = s.sheet.Answer()
	return s.shown
}

func (s *shaftScreen) draw(e *Explorer, g *picture.Grid) {
	left := min(g.W/2+1, 64)
	y := s.form.draw(e, g, 2, left)
	if g.W >= 110 && g.H >= 34 { // room for the train below, as wide as the screen
		const numbers = 15
		trainH := (g.H - 5 - numbers) / 2
		plotY := 3 + numbers + trainH
		s.drawNumbers(g, left+1, 2, g.W-left-2, numbers)
		s.drawTrain(g, 1, 2+numbers, g.W-2, trainH)
		s.drawDrift(g, 1, plotY, g.W-2, g.H-2-plotY)
	} else {
		plotH := max(6, (g.H-4)/3)
		plotY := g.H - 2 - plotH
		s.drawNumbers(g, left+1, 2, g.W-left-2, plotY-3)
		s.drawTrain(g, 1, y, left-2, plotY-y-1)
		s.drawDrift(g, 1, plotY, g.W-2, plotH)
	}
	words, style := e.keyed("Walk goes by this train too; {shaft.save} keeps it in a motor file."), picture.In(picture.Faint)
	if e.notice.words != "" {
		words, style = e.said(), picture.Loud(e.notice.ink)
	}
	g.WriteWithin(1, g.H-2, g.W-2, words, style)
}

func (s *shaftScreen) drawTrain(g *picture.Grid, x, y, w, h int) {
	t := s.sheet.Motor.Train
	s.gears.Pairs = s.gears.Pairs[:0]
	for _, m := range t.Meshes {
		s.gears.Pairs = append(s.gears.Pairs, picture.GearPair{Driving: m.Driving, Driven: m.Driven})
	}
	if len(s.gears.Pairs) == 0 {
		words := "no train: the rotor is the shaft"
		if t.Geared() {
			words = "the ratio is as printed; count the teeth and the gears show here"
		}
		g.WriteWithin(x, y+h/2, w, words, picture.In(picture.Faint))
		return
	}
	s.gears.Draw(g, x, y, w, h)
}

// drawNumbers puts the answer into lines, name and value.
func (s *shaftScreen) drawNumbers(g *picture.Grid, x, y, w, h int) {
	list := facts{g, x, y, y + h, w, 7}
	say := list.say

	a, m := s.answer(), s.sheet.Motor
	say("rotor", fmt.Sprintf("%d rows to a turn", a.PerRotor), picture.Text)
	if m.Train.Geared() {
		exact := m.Train.Ratio()
		say("ratio", fmt.Sprintf("%s = %s:1", exact.RatString(), exact.FloatString(4)), picture.Strong)
		if against, ok := m.Train.Against(); !ok {
			say("", "as printed; its sense is not known", picture.Faint)
		} else if against {
			say("", "the rotor turns against the shaft", picture.Faint)
		}
	}
	per := m.StepsPerShaftTurn(s.sheet.Mode)
	say("shaft", per.RatString()+" rows to a turn", picture.Strong)
	if !per.IsInt() {
		say("", fmt.Sprintf("= %s; whole after %s turns", per.FloatString(4), a.CloseAt), picture.Text)
	}
	if d := a.Drift; d != nil {
		words := "none"
		if d.TurnsToStep != nil {
			words = fmt.Sprintf("%s° a turn; a row off after %s turns, 1° after %s", report.Signed(d.DegPerTurn, 3), report.Angle(*d.TurnsToStep, 2)[:len(report.Angle(*d.TurnsToStep, 2))-len("°")], report.Angle(*d.TurnsToDegree, 2)[:len(report.Angle(*d.TurnsToDegree, 2))-len("°")])
		}
		say("drift", words, picture.Current)
	}
	if p := a.Plan; p != nil {
		words := p.Rows + " rows each time, exact"
		if p.Extra != "0" {
			words = fmt.Sprintf("%s rows, one more in %s of %s moves: no drift", p.Rows, p.Extra, p.Cycle)
		}
		say("move", words, picture.Good)
	}
	if o := a.Observed; o != nil {
		for i, r := range o.Explanations {
			if i == 3 {
				break
			}
			say(shortPercent(r.Odds), r.Text, picture.Current)
		}
		if d := o.Decide; d != nil {
			say("decide", fmt.Sprintf("ask for %s: %s or %s", d.Ask, report.Angle(d.Ends[0], 1), report.Angle(d.Ends[1], 1)), picture.Good)
		}
	}
	say("a row", report.Angle(a.RowDeg, 5)+" of the shaft", picture.Text)
	if p := a.Backlash; p != nil {
		say("play", fmt.Sprintf("%s, lost at each reversal: %s rows", report.Angle(p.Deg, 2), report.Fixed(p.Rows, 1)), picture.Text)
	}
	if a.Counted != nil {
		ink := picture.Text
		if a.Counted.Steps == nil || *a.Counted.Steps != int64(4*m.PolePairs) {
			ink = picture.Alert
		}
		say("counted", a.Counted.Text, ink)
	}
}

// driftTurns is how many turns of the shaft the plot shows.
const driftTurns = 10

// drawDrift plots how far the shaft is off after so many turns: with what the
// firmware holds, and with whole rows sent by plan.
func (s *shaftScreen) drawDrift(g *picture.Grid, x, y, w, h int) {
	per := s.sheet.Motor.StepsPerShaftTurn(s.sheet.Mode)
	rowDeg := s.answer().RowDeg
	p := &s.plot
	p.Lines = p.Lines[:0]
	held := s.sheet.Belief.Declared
	name := "firmware, " + s.sheet.Holds
	if s.sheet.Holds == "" { // what most would write down
		held = new(big.Rat).SetInt(nearestWhole(per))
		name = "firmware, " + held.RatString() + " rows"
	}
	off, _ := motor.DriftOf(per, held).DegPerTurn.Float64()
	line := picture.Line{Ink: picture.Alert, Name: name, Mark: '*', X: []float64{0, driftTurns / 2, driftTurns}, Y: []float64{0, off * driftTurns / 2, off * driftTurns}}
	p.Lines = append(p.Lines, line)
	planned := picture.Line{Ink: picture.Good, Name: "plan", Mark: '.'}
	each, _, err := s.sheet.Each()
	if s.sheet.Move == "" || err != nil {
		each = per
	}
	plan := motor.PlanFor(each)
	perTurn, _ := new(big.Rat).Quo(per, each).Float64()
	moves := int64(math.Min(driftTurns*perTurn, 4000))
	for k := int64(0); k <= moves; k++ {
		exact := new(big.Rat).Mul(each, new(big.Rat).SetInt64(k))
		rows, _ := new(big.Rat).Sub(new(big.Rat).SetInt(plan.Sent(k)), exact).Float64()
		planned.X, planned.Y = append(planned.X, float64(k)/perTurn), append(planned.Y, rows*rowDeg)
	}
	p.Lines = append(p.Lines, planned)
	p.Zero = true
	p.Left = func(v float64) string { return report.Signed(v, 2) }
	p.Below = func(v float64) string { return report.Fixed(v, 0) }
	p.XName = "turns; degrees off"
	p.Draw(g, x, y, w, h)
}

// nearestWhole gives the whole number nearest to a fraction.
func nearestWhole(r *big.Rat) *big.Int {
	half := new(big.Rat).Add(r, big.NewRat(1, 2))
	return new(big.Int).Div(half.Num(), half.Denom())
}
