package view

import (
	"fmt"
	"slices"
	"strings"

	"coilwalk/model/files"
	"coilwalk/model/motor"
	"coilwalk/model/wiring"
	"coilwalk/view/picture"
)

// leadsScreen is where ohmmeter readings are typed in and the coils become
// known.
type leadsScreen struct {
	names    []motor.Lead // in the order in which they were named; the case may be one
	named    []motor.Lead // by the person: so many leads there are
	readings []wiring.Reading
	row, col int // of the grid: the reading between names[row] and names[col], col < row
	kept     int // readings that were read from a file or saved
	answer   *wiring.Answer
	asks     *shaftAsks    // what the shaft answers; nil before it is asked
	asking   bool          // that half of the screen is shown
	made     motor.Winding // of which a motor file was made
}

func newLeadsScreen(m motor.Motor) *leadsScreen {
	return &leadsScreen{names: m.Leads(), row: 1}
}

// open takes readings from a file.
func (l *leadsScreen) open(readings []wiring.Reading) {
	l.names, l.named = nil, nil
	for _, r := range readings {
		for _, lead := range []motor.Lead{r.A, r.B} {
			if !slices.Contains(l.names, lead) {
				l.names = append(l.names, lead)
			}
		}
	}
	l.readings, l.kept = readings, len(readings)
	l.weigh()
	l.goNext()
}

func (l *leadsScreen) name() string { return "Leads" }

func (l *leadsScreen) places() []*place {
	p := newPlace("leads", "on Leads, at the ohmmeter readings",
		deed{"left", "left h", "choose", "choose two leads", func(*Explorer) { l.move(0, -1) }},
		deed{"up", "up k", "choose", "choose two leads", func(*Explorer) { l.move(-1, 0) }},
		deed{"down", "down j", "choose", "choose two leads", func(*Explorer) { l.move(1, 0) }},
		deed{"right", "right l", "choose", "choose two leads", func(*Explorer) { l.move(0, 1) }},
		deed{"reading", "enter", "reading", "type what the meter shows between them: 52, 1.2k, open; digits begin at once", func(e *Explorer) { l.ask(e, l.shown()) }},
		deed{"open", "o", "open", "the meter shows open (OL)", func(e *Explorer) { l.put(e, "open") }},
		deed{"clear", "backspace delete", "clear", "take the reading away", func(*Explorer) { l.take(l.pair()) }},
		deed{"names", "n", "name", "name the leads that your motor has, by colour or any name; case is its case", l.askNames},
		deed{"tells-most", "x", "next", "go to the reading that tells most", func(*Explorer) { l.goNext() }},
		deed{"ask-shaft", "a", "ask shaft", "ask the shaft which lead goes where, once the readings tell what the leads are", l.turn},
		deed{"save", "s", "save", "save the readings to a file", l.askFile},
		deed{"motor", "m", "motor", "make a motor file of what was found, and put that motor on the bench", l.askMotor})
	p.Typed, p.typed = "0123456789.", l.ask
	p.when = func() bool { return !l.asking }
	return []*place{p, l.askPlace()}
}

// turn goes to what the shaft answers, and back.
func (l *leadsScreen) turn(e *Explorer) {
	if l.asking {
		l.asking = false
		return
	}
	if l.asks == nil {
		asks, err := newShaftAsks(l.answer, e.bench.Motor())
		if err != nil {
			e.notice = alarm(err.Error())
			return
		}
		if _, own := e.ownTrain(); own && l.answer != nil && !asks.sitting.Topology().Geared {
			asks.turnGeared()
		}
		asks.live = e.live != nil
		l.asks = asks
		if l.answer == nil {
			e.notice = advice("no readings yet: this asks about the " + asks.of + "'s leads; {leads.names} on the readings names yours")
		}
	}
	l.asking = true
}

// move goes to another cell of the triangle below the diagonal.
func (l *leadsScreen) move(down, right int) {
	if len(l.names) < 2 {
		return
	}
	l.row = min(max(l.row+down, 1), len(l.names)-1)
	l.col = min(max(l.col+right, 0), l.row-1)
}

func (l *leadsScreen) pair() (a, b motor.Lead) { return l.names[l.col], l.names[l.row] }

// between gives the readings of two leads, in the order in which they came.
func (l *leadsScreen) between(a, b motor.Lead) (found []wiring.Reading) {
	for _, r := range l.readings {
		if r.A == a && r.B == b || r.A == b && r.B == a {
			found = append(found, r)
		}
	}
	return found
}

func (l *leadsScreen) shown() string {
	if len(l.names) < 2 {
		return ""
	}
	found := l.between(l.pair())
	if len(found) == 0 {
		return ""
	}
	return readingWords(found[len(found)-1])
}

func readingWords(r wiring.Reading) string {
	switch {
	case r.Open:
		return "open"
	case r.Ohm >= 1e6:
		return fmt.Sprintf("%.3gM", r.Ohm/1e6)
	case r.Ohm >= 1e4:
		return fmt.Sprintf("%.3gk", r.Ohm/1e3)
	case r.Ohm >= 1000:
		return fmt.Sprintf("%.0f", r.Ohm)
	}
	return fmt.Sprintf("%.4g", r.Ohm)
}

func (l *leadsScreen) ask(e *Explorer, text string) {
	if len(l.names) < 2 {
		l.askNames(e)
		return
	}
	a, b := l.pair()
	e.asks(fmt.Sprintf("%s to %s, ohm:", a, b), text, func(text string) error {
		if strings.TrimSpace(text) == "" {
			l.take(a, b)
			return nil
		}
		return l.enter(e, text)
	})
}

func (l *leadsScreen) put(e *Explorer, text string) {
	if len(l.names) < 2 {
		l.askNames(e)
		return
	}
	if err := l.enter(e, text); err != nil {
		e.notice = alarm(err.Error())
	}
}

// enter takes a reading and goes on to the one that tells most next.
func (l *leadsScreen) enter(e *Explorer, text string) error {
	ohm, open, err := wiring.ParseReading(text)
	if err != nil {
		return err
	}
	a, b := l.pair()
	l.remove(a, b)
	l.readings = append(l.readings, wiring.Reading{A: a, B: b, Ohm: ohm, Open: open})
	e.notice = notice{}
	l.weigh()
	l.goNext()
	return nil
}

func (l *leadsScreen) take(a, b motor.Lead) {
	l.remove(a, b)
	l.weigh()
}

func (l *leadsScreen) remove(a, b motor.Lead) {
	l.readings = slices.DeleteFunc(slices.Clone(l.readings), func(r wiring.Reading) bool {
		return r.A == a && r.B == b || r.A == b && r.B == a
	})
	l.kept = -1
}

// weigh asks the model what the readings say.
func (l *leadsScreen) weigh() {
	l.answer, l.asks = nil, nil
	if len(l.readings) > 0 {
		a := wiring.Identify(l.readings, l.named...)
		l.answer = &a
	}
}

// next gives the two leads to measure next: those that tell most, and where the
// leads were not named, before that each that was not touched.
func (l *leadsScreen) next() (a, b motor.Lead, ok bool) {
	tells := l.answer != nil && l.answer.Next != nil
	if tells && l.named != nil {
		return l.answer.Next.A, l.answer.Next.B, true
	}
	for _, lead := range l.names {
		touched := slices.ContainsFunc(l.readings, func(r wiring.Reading) bool { return r.A == lead || r.B == lead })
		if touched || lead == wiring.Case {
			continue
		}
		for _, other := range l.names {
			if other != lead && other != wiring.Case {
				return other, lead, true
			}
		}
	}
	if tells {
		return l.answer.Next.A, l.answer.Next.B, true
	}
	return "", "", false
}

func (l *leadsScreen) goNext() {
	a, b, ok := l.next()
	i, k := slices.Index(l.names, a), slices.Index(l.names, b)
	if ok && i >= 0 && k >= 0 {
		l.row, l.col = max(i, k), min(i, k)
	}
}

func (l *leadsScreen) askNames(e *Explorer) {
	e.asks("your leads, as BN WH GN GY VT (now "+strings.Join(words(l.names), " ")+"):", "", func(text string) error {
		leads, err := wiring.ParseLeads(text)
		if err != nil {
			return err
		}
		if len(leads) < 2 {
			return fmt.Errorf("two leads at least are wanted, as BN WH GN GY VT")
		}
		l.names, l.named = leads, leads
		l.readings = slices.DeleteFunc(slices.Clone(l.readings), func(r wiring.Reading) bool {
			return !slices.Contains(leads, r.A) || !slices.Contains(leads, r.B)
		})
		l.row, l.col, l.kept = 1, 0, -1
		l.weigh()
		l.goNext()
		return nil
	})
}

func words(leads []motor.Lead) []string {
	all := make([]string, len(leads))
	for i, lead := range leads {
		all[i] = string(lead)
	}
	return all
}

func (l *leadsScreen) askFile(e *Explorer) {
	if len(l.readings) == 0 {
		e.notice = alarm("there is no reading to save yet")
		return
	}
	e.offers("save the readings to which file?", "readings.csv", func(text string) error {
		if err := writeNew(text, wiring.WriteReadings(l.readings)); err != nil {
			return err
		}
		l.kept = len(l.readings)
		e.notice = advice("saved; coilwalk leads " + files.Shown(text) + " reads it")
		return nil
	})
}

// draw lays the screen out: the grid of readings, what they say, the coils.
func (l *leadsScreen) draw(e *Explorer, g *picture.Grid) {
	if l.asking {
		end := l.notice(e, g, "Supply off while you move a lead. A few seconds on are enough: coils get hot.")
		l.asks.draw(e, g, end, l.closing(e, "ask.motor"))
		return
	}
	wide := g.W >= 110
	cell := 6
	if wide {
		cell = 8
	}
	gridW := nameColumn + cell*max(len(l.names)-1, 4) + 2
	bottom := l.drawGrid(g, 1, 2, cell)
	sideX := max(gridW+1, g.W-27)
	if wide {
		sideX = max(gridW+3, g.W/2)
	}
	l.drawKinds(g, sideX, 2, g.W-sideX-1)
	y := max(bottom+1, 10)
	coils := l.coils()
	coils.Draw(g, 2, y)
	textX, textY := 42, y
	if wide {
		textX, textY = sideX, 9
	}
	end := l.notice(e, g, "Motor unplugged from everything, its shaft at rest, no finger on a probe.")
	l.drawFindings(e, g, textX, textY, g.W-textX-1, end-textY)
	y += coils.Height() + 1
	if l.answer != nil && l.answer.Ohm > 0 {
		for _, line := range wrap(l.ohmWords(), textX-4) {
			if y < end {
				g.Write(2, y, line, picture.In(picture.Text))
			}
			y++
		}
	}
	if wide {
		l.drawConnections(g, 2, y+1, g.W-4, end-1-(y+1))
	}
}

const nameColumn = 7
