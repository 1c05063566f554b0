package view

import (
	"fmt"
	"math"
	"slices"

	"coilwalk/model/quantity"
	"coilwalk/model/rotor"
	"coilwalk/sequence"
	"coilwalk/view/picture"
	"coilwalk/view/report"
)

// number is one reading: its name, its value, and how it is shown.
type number struct {
	name, value string
	ink         picture.Ink
}

// drawNumbers draws the readings, the most needed first; what does not fit is
// left out from the end.
func (w *walk) drawNumbers(e *Explorer, g *picture.Grid, p layout, v sight) {
	y := p.mainY
	if p.loose {
		y++
	}
	names := 7
	if p.numbersW >= 34 {
		names = 12
	}
	for _, n := range w.told.numbers {
		if y >= p.messageY {
			return
		}
		g.WriteEnd(p.numbersX+names, y, n.name, picture.In(picture.Faint))
		g.WriteWithin(p.numbersX+names+2, y, p.numbersW-names-2, n.value, picture.In(n.ink))
		y++
	}
}

func (w *walk) numbers(e *Explorer, v sight, p layout) []number {
	m := v.motor
	wide := p.numbersW >= 34
	list := []number{
		{"row", fmt.Sprintf("%d of %d", v.Row, v.Order.Len()), picture.Strong},
		{"step", signedCount(v.Step), picture.Text},
		{"field", fieldWords(v), picture.Current},
	}
	if e.live != nil {
		list = append(list, e.live.numbers()...)
	}
	place, known := v.Where.Known()
	if known {
		turns, within := place.Turns(m.PolePairs)
		if turns < 0 && within > 0 { // −0.4° rather than 359.6° and one turn back
			turns, within = turns+1, within-360
		}
		rotorWords := report.Fixed(within, 3) + "°"
		if turns != 0 {
			rotorWords += " " + signedCount(turns) + " turns"
		}
		list = append(list, number{"rotor", rotorWords, picture.Text})
		if m.Train.Geared() {
			list = append(list, number{"shaft", report.ShaftAngle(e.bench, place), picture.Text})
		}
	} else {
		list = append(list, number{"rotor", "not known", picture.Alert})
		if m.Train.Geared() {
			list = append(list, number{"shaft", "not known", picture.Alert})
		}
	}
	if v.Timed {
		list = append(list, timedNumbers(e, v)...)
	} else if !w.foreseeing() {
		list = append(list, number{"moved", movedWords(v), picture.Text})
		if words := e.slowed.words(); words != "" && !v.Running {
			list = append(list, number{"slow", words, picture.Current})
		}
	}
	if v.LagOK && !v.Timed {
		lag, ofRotor := 0.0, 0.0
		if math.Abs(v.Lag) >= 0.05 {
			lag, ofRotor = v.Lag, m.AtRotor(v.Lag)
		}
		digits := 1
		if math.Abs(lag) >= 10 || e.ASCII { // where degrees take more room
			digits = 0
		}
		list = append(list, number{"lag", report.Angle(lag, digits) + " electrical", picture.Text})
		if wide {
			list = append(list, number{"", report.Angle(ofRotor, 2) + " of the rotor", picture.Faint})
		}
	}
	held := number{"held", fmt.Sprintf("%s × one coil", report.Fixed(v.Field.Strength(), 2)), picture.Text}
	switch v.Balance { // the field may be as strong, but it holds nothing on a hill
	case rotor.Stuck:
		held.value, held.ink = "by friction", picture.Alert
	case rotor.Either:
		held.value, held.ink = "not: on a hill", picture.Alert
	}
	list = append(list, held)
	m.Drive = v.Drive
	if i, ok := m.DrivenCurrent(); ok {
		sum := 0.0
		for _, level := range v.Coils {
			sum += level
		}
		if v.Drive == sequence.Bipolar {
			sum = math.Abs(v.Field.A) + math.Abs(v.Field.B)
		}
		list = append(list, number{"current", quantity.Amperes(i.Base() * sum).Rounded(3), picture.Text})
		half, _ := m.PhaseCurrent()
		if r := m.Figures.Resistance; r.Given() { // two halves at 1/√2 give the heat of one
			list = append(list, number{"heat", quantity.Watts(half.Base() * half.Base() * r.Base() * v.PhaseHeat).Rounded(3), picture.Text})
		}
	}
	if wide && !w.foreseeing() {
		list = append(list, w.more(e, v)...)
	}
	return list
}

// more are the readings that bigger screens show.
func (w *walk) more(e *Explorer, v sight) []number {
	m := v.motor
	list := []number{{"", "", picture.Text},
		{"drive", v.Drive.String(), picture.Text},
		{"a row turns", perRow(e, v), picture.Text}}
	if mode, ok := v.Order.Mode(); ok {
		list = append(list, number{"rotor turn", fmt.Sprintf("%d rows", m.StepsPerRotorTurn(mode)), picture.Text})
		if m.Train.Geared() {
			exact := m.StepsPerShaftTurn(mode)
			list = append(list, number{"shaft turn", fmt.Sprintf("%s rows", exact.RatString()), picture.Text},
				number{"", "= " + exact.FloatString(4), picture.Faint})
		}
	}
	if turns := e.bench.Commanded(); turns != nil {
		list = append(list, number{"commanded", turns.RatString() + " turns", picture.Text})
	}
	if v.Stiffness != 0 {
		perDegree := quantity.NewtonMetres(v.Stiffness * math.Pi / 180)
		list = append(list, number{"stiffness", perDegree.Rounded(3) + "/°", picture.Text})
	}
	if v.Timed {
		driven := number{"driven", fmt.Sprintf("%s, %s", v.InTime.Stage, quantity.Volts(v.InTime.Supply).Rounded(3)), picture.Text}
		return slices.Insert(list, 2, driven)
	}
	return append(list, number{"at rest", report.Balance(v.Balance), picture.Text})
}

// timedNumbers are the readings of a rotor that moves in time.
func timedNumbers(e *Explorer, v sight) []number {
	t := v.InTime
	lost := number{"lost", "no row", picture.Text}
	if t.Lost != 0 {
		lost.value, lost.ink = fmt.Sprintf("%s of %s", report.Count(t.Lost), report.Count(t.Rows)), picture.Alert
	}
	if !v.Commands() {
		lost = number{"lost", "not known", picture.Text}
	}
	list := []number{{"lag", report.Angle(t.Lag, 0) + " electrical", picture.Text}, lost}
	if slow := e.slowed.by(); slow > 1 {
		list = append(list, number{"slow", fmt.Sprintf("×1/%.0f", slow), picture.Current})
	}
	if t.Kept < computedWhole {
		list = append(list, number{"slow", fmt.Sprintf("computing ×1/%.1f", 1/max(t.Kept, 0.001)), picture.Alert})
	}
	return list
}

// computedWhole is the part of the time from which a run counts as computed in
// time.
const computedWhole = 0.95

func perRow(e *Explorer, v sight) string {
	mode, ok := v.Order.Mode()
	if !ok {
		return "as the table says"
	}
	deg := 360 / float64(v.motor.StepsPerRotorTurn(mode))
	words := report.Angle(deg, 4)
	if v.motor.Train.Geared() {
		words += fmt.Sprintf(", shaft %s", report.Angle(deg/e.bench.Ratio(), 3))
	}
	return words
}

func fieldWords(v sight) string {
	if !v.HasField {
		return "none"
	}
	return fmt.Sprintf("%s ×%s", report.Angle(v.FieldDeg, 1), report.Fixed(v.Field.Strength(), 2))
}

func movedWords(v sight) string {
	if !v.TurnedOK {
		return "not known"
	}
	deg := v.motor.AtRotor(v.Turned)
	switch {
	case math.Abs(v.Turned) < 0.05:
		return "0°"
	case deg > 0:
		return report.Fixed(deg, 3) + "° cw"
	}
	return report.Fixed(-deg, 3) + "° ccw"
}

func signedCount(n int64) string {
	if n > 0 {
		return "+" + report.Count(n)
	}
	return report.Count(n)
}
