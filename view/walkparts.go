package view

import (
	"fmt"
	"math"
	"strings"
	"time"

	"coilwalk/model/bench"
	"coilwalk/model/motor"
	"coilwalk/sequence"
	"coilwalk/view/picture"
	"coilwalk/view/report"
)

// sight is what the screen shows of the bench in one picture.
type sight struct {
	bench.Reading
	motor motor.Motor
	poles [4]picture.Pole // what each end turns to the rotor
	late  float64         // electrical degrees that the picture of the rotor lags its rest
}

func (w *walk) see(e *Explorer) sight {
	v := sight{Reading: e.bench.Read(), motor: e.bench.Motor(), late: e.turn.left(e.Now())}
	v.poles = picture.PolesOf(v.Field.A, v.Field.B)
	return v
}

// told is what was put into words when the bench last changed: a picture on the
// way from rest to rest says the same again. In a run in time that would be in
// every picture, and figures that change so fast can not be read.
type told struct {
	changes  uint64
	at       time.Time
	timed    bool
	step     int64
	width    int // of the numbers
	slow     int // how slowly a row is played
	numbers  []number
	happened string
	faults   string
	alarm    bool
}

func (w *walk) tell(e *Explorer, p layout, v sight) {
	now := e.Now()
	row := v.Step == w.told.step || e.shownRate() > readRate
	same := e.live == nil && w.told.changes == e.bench.Changes() || v.Timed && w.told.timed && row && now.Sub(w.told.at) < readTime
	if w.told.numbers != nil && same && w.told.width == p.numbersW && w.told.slow == e.slowed.at {
		return
	}
	w.told = told{changes: e.bench.Changes(), at: now, timed: v.Timed, step: v.Step, width: p.numbersW, slow: e.slowed.at, numbers: w.numbers(e, v, p)}
	if w.told.happened, w.told.alarm = report.Happened(e.bench); v.Timed {
		w.told.happened, w.told.alarm = report.Running(v.Reading, v.motor)
	}
	w.told.faults = report.FaultsLine(v.motor, v.Faults)
	if !e.ASCII {
		w.told.happened = strings.NewReplacer("A-", "A−", "B-", "B−").Replace(w.told.happened)
	}
}

// drawCoils lists the coil ends: lead, output, and what the driver does there.
func (w *walk) drawCoils(e *Explorer, g *picture.Grid, p layout, v sight) {
	y, wide := p.mainY, p.coilsW >= 34
	if p.loose {
		y++
	}
	head := "coil   lead   output"
	if wide {
		head += "     driver"
	}
	g.Write(1, y, head, picture.In(picture.Faint))
	outputs := v.Wiring.Inverse()
	names := picture.EndNames(e.ASCII)
	for k, end := range sequence.Ends {
		y++
		if p.loose {
			y++
		}
		lead := v.motor.Ends[end]
		base, stripe := lead.Colours()
		on := v.Coils[end] > 0
		mark, style := '○', picture.In(picture.Faint)
		if on {
			mark, style = '●', picture.Loud(picture.Strong)
		}
		g.Write(1, y, names[k], style)
		ink := picture.LeadInk(base.Code)
		g.Set(4, y, mark, picture.Loud(ink))
		x := g.WriteWithin(6, y, 7, string(lead), picture.Style{Fore: ink, Bold: on})
		if stripe.Code != "" {
			g.Write(x-len(stripe.Code), y, stripe.Code, picture.Style{Fore: picture.LeadInk(stripe.Code), Bold: on})
		}
		g.Write(14, y, fmt.Sprint(outputs[end]+1), style)
		g.Write(16, y, w.driven(v, end), w.drivenStyle(v, end))
		if wide {
			w.drawBar(g, 22, y, p.coilsW-24, v, end)
		}
	}
	y += 2
	for _, line := range wrap(v.motor.Supply(v.Drive), p.coilsW-3) {
		g.Write(1, y, line, picture.In(picture.Faint))
		y++
	}
	guessed := ""
	if v.motor.OrderGuessed {
		guessed = e.keyed("The order is a guess: {anywhere.leads}, then {leads.ask-shaft} asks the shaft.")
	}
	for _, words := range []string{guessed, report.Exchanged(v.motor, v.Wiring), w.told.faults} {
		for _, line := range wrap(words, p.coilsW-3) {
			if words != "" && y < p.messageY {
				g.Write(1, y, line, picture.Loud(picture.Alert))
				y++
			}
		}
	}
	if wide && !w.foreseeing() {
		w.drawCycle(e, g, p, y+1, v)
	}
}

// driven says in a word what the driver does at an end: polarity is a word here,
// a letter at the tooth, and only then a colour.
func (w *walk) driven(v sight, end sequence.End) string {
	on, other := v.Coils[end] > 0, v.Coils[end.Opposite()] > 0
	if v.Drive == sequence.Unipolar {
		if on {
			return "sinks"
		}
		return "off"
	}
	switch {
	case on && other:
		return "brake"
	case on:
		return "+"
	case other:
		return "-"
	}
	return "off"
}

func (w *walk) drivenStyle(v sight, end sequence.End) picture.Style {
	if v.Coils[end] > 0 || v.Drive == sequence.Bipolar && v.Coils[end.Opposite()] > 0 {
		return picture.Loud(picture.Current)
	}
	return picture.In(picture.Faint)
}

// drawBar draws the current of an end as a line, with its figure.
func (w *walk) drawBar(g *picture.Grid, x, y, room int, v sight, end sequence.End) {
	level := v.Coils[end]
	if level <= 0 || v.Drive == sequence.Bipolar && v.Coils[end.Opposite()] > 0 {
		return
	}
	words := fmt.Sprintf("%.0f %%", 100*level)
	if i, ok := v.Current(v.motor, end); ok {
		words = i.Rounded(3)
	}
	bar := max(0, room-picture.Width(words)-1)
	g.Line(x, y, int(math.Round(level*float64(bar))), '━', picture.Loud(picture.Current))
	g.Write(x+bar+1, y, words, picture.In(picture.Text))
}

// drawCycle lists one cycle of the order where there is room, the present row
// marked.
func (w *walk) drawCycle(e *Explorer, g *picture.Grid, p layout, y int, v sight) {
	rows := min(v.Order.Len(), p.messageY-y-2)
	if rows < 4 {
		return
	}
	x := g.Write(1, y, "row  ", picture.In(picture.Faint))
	for k, name := range picture.EndNames(e.ASCII) {
		g.Write(x+4*k, y, name, picture.In(picture.Faint))
	}
	g.Write(x+17, y, "field", picture.In(picture.Faint))
	first := min(max(0, v.Row-1-rows/2), v.Order.Len()-rows)
	for i := range rows {
		row := first + i
		coils, _ := e.bench.RowAt(int64(row - (v.Row - 1)))
		style := picture.In(picture.Faint)
		if row == v.Row-1 {
			style = picture.Loud(picture.Current)
			g.Set(1, y+1+i, '▶', style)
		}
		g.WriteEnd(5, y+1+i, fmt.Sprint(row+1), style)
		for k := range coils {
			cell := "·"
			if coils[k] > 0 {
				cell = "1"
				if coils[k] < 1 {
					cell = fmt.Sprintf("%.0f", 100*coils[k])
				}
			}
			g.Write(x+4*k, y+1+i, cell, style)
		}
		words := "none"
		if deg, ok := coils.Field().Degrees(); ok {
			words = report.Angle(deg, 1)
		}
		g.Write(x+17, y+1+i, words, style)
	}
}

func (w *walk) drawDial(e *Explorer, g *picture.Grid, p layout, v sight) {
	d := &w.dial
	d.Rotors = d.Rotors[:0]
	if deg, ok := v.Where.Angle(); ok {
		d.Rotors = append(d.Rotors, deg-v.late)
	} else {
		for _, place := range v.Where.Places {
			d.Rotors = append(d.Rotors, place.Deg)
		}
	}
	_, d.Sure = v.Where.Known()
	d.FieldDeg, d.Strength = v.FieldDeg, v.Field.Strength()
	d.Ends, d.Poles = picture.EndNames(e.ASCII), v.poles
	d.Draw(g, p.dialX, p.dialY, p.dialH)
	if p.loose {
		words := fmt.Sprintf("electrical: once round is %s of the rotor", report.Angle(v.motor.AtRotor(360), 2))
		g.Write(p.dialX+p.dialH-picture.Width(words)/2, p.mainY+1, words, picture.In(picture.Faint))
	}
}

// drawCurve draws the torque on the rotor against its angle, where there is
// room: the rest is where the curve falls through nothing.
func (w *walk) drawCurve(e *Explorer, g *picture.Grid, p layout, v sight) {
	if p.curveH == 0 {
		return
	}
	g.Write(p.curveX, p.curveY-1, "torque on the rotor over one round: above the line it turns the rotor on, below back", picture.In(picture.Faint))
	c := &w.curve
	c.Values = c.Values[:0]
	for i := range 2 * p.curveW {
		c.Values = append(c.Values, e.bench.Torque(360*float64(i)/float64(2*p.curveW)))
	}
	c.Marks = c.Marks[:0]
	for _, place := range v.Where.Places {
		c.Marks = append(c.Marks, math.Mod(place.Deg-v.late+720, 360)/360)
	}
	c.Ends = picture.EndNames(e.ASCII)
	c.Draw(g, p.curveX, p.curveY, p.curveW, p.curveH)
}

func (w *walk) drawGap(e *Explorer, g *picture.Grid, p layout, v sight) {
	place, known := v.Where.Known()
	deg, angle := v.Where.Angle()
	w.gap = picture.Gap{PolePairs: v.motor.PolePairs, Ends: picture.EndNames(e.ASCII), Poles: v.poles, FieldDeg: v.FieldDeg, HasField: v.HasField, Known: angle, Marked: known, Rotor: deg - v.late}
	if known {
		w.gap.Rotor = place.InTurn(v.motor.PolePairs) - v.late
	}
	room := g.W - 2*gapMargin
	pairs := w.gap.Pairs(room)
	x := gapMargin + (room-pairs*picture.PairWide)/2
	if p.loose {
		words := fmt.Sprintf("air gap, unrolled: %d pole pairs", v.motor.PolePairs)
		if pairs < v.motor.PolePairs {
			words += fmt.Sprintf(", %d of them shown", pairs)
		}
		g.Write(1, p.gapY-1, words, picture.In(picture.Faint))
	}
	g.Write(1, p.gapY+1, "stator", picture.In(picture.Faint))
	g.Write(1, p.gapY+2, "rotor", picture.In(picture.Faint))
	if v.HasField {
		g.Write(1, p.gapY+3, "field", picture.In(picture.Current))
	}
	w.gap.Draw(g, x, p.gapY, room)
}

// gapMargin leaves room for the names of the two rows.
const gapMargin = 8

func (w *walk) drawOrder(e *Explorer, g *picture.Grid, p layout, v sight) {
	if p.loose {
		g.Write(1, p.tracesY-1, "order: what reaches the coil ends, row by row", picture.In(picture.Faint))
	}
	const labels = 10
	t := &w.traces
	rows, _ := t.Rows(g.W - labels - 1)
	t.Cursor = rows / 3 // more of what comes than of what was
	names := picture.EndNames(e.ASCII)
	if len(t.Lines) != 4 {
		t.Lines = make([]picture.Trace, 4)
	}
	for k := range t.Lines {
		base, _ := v.motor.Ends[k].Colours()
		t.Lines[k].Ink = picture.LeadInk(base.Code)
		t.Lines[k].Levels = t.Lines[k].Levels[:0]
		g.Write(1, p.tracesY+1+k, names[k], picture.In(picture.Text))
		g.WriteWithin(4, p.tracesY+1+k, labels-4, string(v.motor.Ends[k]), picture.In(t.Lines[k].Ink))
	}
	for i := range rows {
		coils, _ := e.bench.RowAt(int64(i-t.Cursor) * int64(v.Way))
		for k := range t.Lines {
			t.Lines[k].Levels = append(t.Lines[k].Levels, coils[k])
		}
	}
	t.Draw(g, labels, p.tracesY, g.W-labels-1)
}

// drawMessage says what happened, or what went wrong.
func (w *walk) drawMessage(e *Explorer, g *picture.Grid, p layout, v sight) {
	y := p.messageY
	if e.notice.words != "" && e.ask == nil { // a question says what was wrong with its answer
		g.WriteWithin(1, y, g.W-2, e.said(), picture.Loud(e.notice.ink))
		return
	}
	if w.foreseeing() {
		g.WriteWithin(1, y, g.W-2, "So it stands now. Foresee what comes, then press its number.", picture.In(picture.Faint))
		return
	}
	style := picture.In(picture.Text)
	if w.told.alarm {
		style = picture.Loud(picture.Alert)
	}
	g.WriteWithin(1, y, g.W-2, w.told.happened, style)
}
