package view

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"coilwalk/model/files"
	"coilwalk/model/motor"
	"coilwalk/model/wiring"
	"coilwalk/view/picture"
)

// found gives the motor that the readings make, and the shaft's answers where they
// settle the order of its leads.
func (l *leadsScreen) found() (m motor.Motor, ordered, ok bool) {
	if l.answer == nil {
		return m, false, false
	}
	var shaft *wiring.Sitting
	if l.asks != nil {
		shaft = l.asks.sitting
	}
	return l.answer.Motor(shaft)
}

// closing says, once a motor is found and as long as the bench has another, that it
// has, and which key (a word of keys) changes that; "" else.
func (l *leadsScreen) closing(e *Explorer, key string) string {
	m, _, ok := l.found()
	switch {
	case !ok || e.live != nil, m.Winding == l.made && !m.OrderGuessed:
		return ""
	case m.Winding == l.made:
		return "The bench has this motor, and " + e.keyed(motor.GuessedOrder+". {leads.ask-shaft} asks it.")
	}
	return e.keyed(fmt.Sprintf("Walk and Take Along still show another motor, %s: {%s} puts this one on the bench.", e.bench.Motor().Title, key))
}

// askMotor makes a motor file of what was found, and puts that motor on the bench. Of
// what a motor has to have only its steps are not told by leads.
func (l *leadsScreen) askMotor(e *Explorer) {
	m, ordered, ok := l.found()
	switch {
	case e.live != nil:
		e.notice = alarm("a real motor is bound, and the bench keeps what it was bound with; leave, and make the motor without it")
		return
	case l.answer == nil:
		e.notice = alarm("no readings yet; a motor is made of those of its leads")
		return
	case !ok:
		e.notice = alarm("the readings do not settle yet what the leads are; a motor is made of them after that")
		return
	}
	e.asks("full steps to a turn of its rotor, as 200; or 4x8 (rings), 50 teeth, 7.5deg:", "", func(text string) (err error) {
		if strings.TrimSpace(text) == "" {
			return fmt.Errorf("this is needed: most hybrids have 200 steps, can motors 24 to 48")
		}
		if m.PolePairs, m.Counted, _, err = motor.ParseSteps(strings.TrimSpace(text)); err != nil {
			return err
		}
		e.offers(fmt.Sprintf("%d full steps to a turn; write the motor to which file?", 4*m.PolePairs), freeName("mine", ".toml"), func(text string) error {
			return l.make(e, m, ordered, strings.TrimSpace(text))
		})
		return nil
	})
}

// freeName gives the first of mine.toml, mine-2.toml … that is not there.
func freeName(base, ending string) string {
	name := base + ending
	for n := 2; n < 1000; n++ {
		if _, err := os.Lstat(name); err != nil {
			break
		}
		name = fmt.Sprintf("%s-%d%s", base, n, ending)
	}
	return name
}

// motorFile gives a name the ending by which a motor file is known when it is opened.
func motorFile(name string) string {
	if filepath.Ext(name) == "" {
		name += ".toml"
	}
	return name
}

// ownTrain gives the train of the bench's motor where it is the person's own: typed on
// Shaft, or of a motor file; not that of a built-in motor as it is.
func (e *Explorer) ownTrain() (motor.Train, bool) {
	m := e.bench.Motor()
	built, is := motor.BuiltIn(m.Name)
	return m.Train, m.Train.Geared() && (!is || m.Train.String() != built.Train.String())
}

// make writes the motor and puts it on the bench.
func (l *leadsScreen) make(e *Explorer, m motor.Motor, ordered bool, name string) error {
	if name == "" {
		return fmt.Errorf("the name of a file is wanted")
	}
	name = motorFile(name)
	m.Origin = "readings of an ohmmeter"
	if ordered {
		m.Origin += ", and what the shaft answered"
	}
	missing := "gears, voltage, torque"
	if own, ok := e.ownTrain(); ok {
		m.Train, missing = own, "voltage, torque"
	}
	m = m.CalledAfter(name)
	m, err := motor.Parse(name, m.Text()) // the same rules as for a file written by hand
	if err != nil {
		return err
	}
	if err := writeNew(name, m.Text()); err != nil {
		return err
	}
	l.made = m.Winding
	words := "written: " + files.Shown(name)
	if kept := e.keepsMotor(); kept != "" {
		words += fmt.Sprintf(". The bench keeps its motor, %s, for %s; leave, and coilwalk --motor %s has the new one.", e.bench.Motor().Title, kept, files.Shown(name))
	} else {
		e.putOn(m)
		words += ", and on the bench. Not in it: " + missing + "; add them there."
	}
	switch {
	case !ordered && l.asking:
		words += " The shaft has yet to tell which lead goes where: answer on, and make it anew."
	case !ordered:
		words += " The shaft has yet to tell which lead goes where: {leads.ask-shaft} asks it."
	}
	e.notice = advice(words)
	return nil
}

// notice lays out the last lines of the screen: what there is to say, over as many
// lines as it takes, else what always holds. It gives the line above them.
func (l *leadsScreen) notice(e *Explorer, g *picture.Grid, always string) (end int) {
	words, style := always, picture.In(picture.Faint)
	if e.notice.words != "" {
		words, style = e.said(), picture.Loud(e.notice.ink)
	}
	lines := wrap(split(words, g.W-2), g.W-2)
	if e.ask != nil { // that has this line
		lines = lines[:1]
	}
	end = g.H - 1 - len(lines)
	for k, line := range lines {
		g.WriteWithin(1, end+k, g.W-2, line, style)
	}
	return end
}

// split parts words that are wider than a line, as the name of a file may be.
func split(words string, w int) string {
	var parts []string
	for _, word := range strings.Fields(words) {
		at := 0
		for i := range word {
			if picture.Width(word[at:i]) >= w-1 {
				parts, at = append(parts, word[at:i]), i
			}
		}
		parts = append(parts, word[at:])
	}
	return strings.Join(parts, " ")
}
