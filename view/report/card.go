package report

import (
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"coilwalk/model/files"
	"coilwalk/model/handoff"
	"coilwalk/model/quantity"
	"coilwalk/sequence"
	"coilwalk/view/picture"
)

// card is the kind that is drawn, not written.
var card = handoff.Kind{Name: "card", Title: "a page to pin over the bench: svg, html or png, by the file's name", Ending: ".svg", Micro: true}

// Kinds lists all that can be taken along.
var Kinds = append(slices.Clone(handoff.Kinds), card)

// KindNamed finds one of Kinds by its word.
func KindNamed(name string) (handoff.Kind, bool) {
	if name == card.Name {
		return card, true
	}
	return handoff.KindNamed(name)
}

// Drawn says whether a kind is drawn: no reader can prove it.
func Drawn(kind handoff.Kind) bool { return kind.Name == card.Name }

// Made gives the text of a file of that name, or the drawing that the name asks
// for; "" is a file that is printed. Its errors are those of handoff.Kind.Make,
// and a *files.Complaint for a name that no drawing has.
func Made(kind handoff.Kind, w *handoff.Walk, name string) ([]byte, error) {
	if !Drawn(kind) {
		return kind.Make(w)
	}
	if err := kind.Allows(w); err != nil {
		return nil, err
	}
	if name == "" {
		name = "card" + card.Ending
	}
	text, err := NewCard(w).Write(name)
	if err != nil {
		return nil, &files.Complaint{File: name, What: fmt.Sprintf("a card can not be written as %s", files.Quoted(filepath.Ext(name))), Right: "a name that ends in " + strings.Join(picture.CardEndings, ", ") + " is wanted"}
	}
	return text, nil
}

// NewCard gathers what a bench card tells of a walk.
func NewCard(w *handoff.Walk) *picture.Card {
	m := w.Motor
	c := &picture.Card{Title: m.Title, Under: fmt.Sprintf("%s: %s, %s, %s", m.Name, w.Mode.Title, m.Drive, Winding(m)),
		Facts: cardFacts(w), Source: fmt.Sprintf("Made by coilwalk. Figures: %s.", strings.TrimSuffix(m.Origin, "."))}
	for k, e := range m.Wiring {
		lead := m.Output(m.Wiring, k)
		base, stripe := lead.Colours()
		words := lead.Words()
		if base.Code == "" {
			words = "" // a name of one's own has no other words
		}
		c.Outputs[k] = picture.CardLead{Lead: string(lead), Words: words, Base: base.Code, Stripe: stripe.Code, End: e.String(), Seat: cardSeat(w, k)}
		c.Ends[k] = string(m.Ends[k])
	}
	if c.Supply = Sentence(m.Supply(m.Drive)) + "."; m.Common == "" && m.Taps[0] == "" && m.Inner[0] == "" {
		c.Supply = "" // four leads: all are on outputs
	}
	switch {
	case m.Common != "":
		c.Middle, c.Joined = [2]string{string(m.Common), string(m.Common)}, true
	case m.Taps[0] != "":
		c.Middle = [2]string{string(m.Taps[0]), string(m.Taps[1])}
	case m.Inner[0] != "":
		for phase := range c.Middle {
			c.Middle[phase] = string(m.Inner[phase]) + " + " + string(m.Inner[phase+2])
		}
	}
	for k := range w.Mode.Rows() {
		row := w.Row(int64(k))
		coils := row.Through(m.Wiring)
		var on []string
		for _, e := range coils.On() {
			on = append(on, e.String())
		}
		deg, _ := coils.Field().Degrees()
		c.Rows = append(c.Rows, picture.CardRow{Number: k + 1, Levels: row, On: strings.Join(on, " "), Field: Angle(deg, 1)})
	}
	for _, caution := range w.Cautions() {
		c.Cautions = append(c.Cautions, Sentence(caution))
	}
	if m.Train.Geared() {
		c.Cautions = append(c.Cautions, "A geared shaft pinches.")
	}
	return c
}

func cardSeat(w *handoff.Walk, k int) string {
	var parts []string
	if w.Board.Port != "" {
		parts = append(parts, fmt.Sprintf("%s bit %d", w.Board.Port, w.Board.Bits[k]))
	}
	if w.Board.Numbered {
		parts = append(parts, fmt.Sprintf("pin %d", w.Board.Pins[k]))
	}
	if w.Board.ActiveLow {
		parts = append(parts, "low is on")
	}
	return strings.Join(parts, ", ")
}

// cardFacts are the figures of shaft and supply, those that are known.
func cardFacts(w *handoff.Walk) (facts []picture.CardFact) {
	m := w.Motor
	add := func(name, format string, values ...any) {
		facts = append(facts, picture.CardFact{Name: name, Value: fmt.Sprintf(format, values...)})
	}
	add("Rows to a rotor turn", "%d", m.StepsPerRotorTurn(w.Mode))
	perShaft := m.StepsPerShaftTurn(w.Mode)
	if m.Train.Geared() {
		add("Ratio", "%s", Ratio(m.Train))
		if m.Train.Nominal == nil {
			add("Train", "%s", m.Train)
		}
		exact := perShaft.RatString()
		if !perShaft.IsInt() {
			exact += " = " + perShaft.FloatString(3)
		}
		add("Rows to a shaft turn", "%s", exact)
	}
	rows, _ := perShaft.Float64()
	add("A row turns the shaft", "%s", Angle(360/rows, 4))
	if _, sum, ok := m.Train.Play(); ok {
		add("Play at a reversal", "%s", Angle(sum, 2))
	}
	if against := Against(m.Train); against != "" {
		add("Rotor", "%s", map[bool]string{true: "turns against the shaft", false: "with or against the shaft"}[strings.Contains(against, "odd")])
	}
	coil := w.Motor.Connected()
	if coil.Voltage.Given() {
		add("Across a coil", "%s", coil.Voltage.Rounded(3))
	}
	if coil.Resistance.Given() {
		add("Each coil", "%s", coil.Resistance.Rounded(3))
	}
	if coil.Current.Given() {
		add("Current of a coil", "%s", coil.Current.Rounded(3))
		if most := mostOn(w); most > 1 {
			add("Most at once", "%s", quantity.Amperes(coil.Current.Base()*float64(most)).Rounded(3))
		}
	}
	if coil.Torque == 1 { // the sheet's torque is of one half
		if t := m.Figures.HoldingTorque; t.Given() {
			add("Holds, two phases on", "%s", t)
		} else if t := m.Figures.OnePhase; t.Given() {
			add("Holds, one phase on", "%s", t)
		}
	}
	return facts
}

// mostOn gives the most coils that carry current in one row of a whole cycle.
func mostOn(w *handoff.Walk) (most int) {
	if w.Mode.Shares {
		return 0
	}
	for k := range w.Mode.Rows() {
		most = max(most, len(w.Mode.Order().Row(int64(k)).On()))
	}
	if w.Motor.Drive == sequence.Bipolar {
		return min(most, 2)
	}
	return most
}
