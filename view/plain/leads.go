package plain

import (
	"fmt"
	"slices"
	"strings"

	"coilwalk/model/files"
	"coilwalk/model/motor"
	"coilwalk/model/wiring"
	"coilwalk/view/report"
)

func leadWords() []word {
	return []word{
		{"reading", "A B OHM", "take what an ohmmeter shows between two leads, as: reading BN VT 52, or open; without a figure, take it away", (*Mode).reading},
		{"readings", "", "say every reading that was taken", (*Mode).listReadings},
		{"names", "LEADS", "name the leads that your motor has, as: names BN WH GN GY VT; readings of others are dropped", (*Mode).names},
		{"leads", "", "say what the readings tell of a motor, and which two leads to measure next", (*Mode).leads},
	}
}

// reading takes a reading between two leads; another of the same two replaces
// it. Without a resistance, the reading is taken away.
func (m *Mode) reading(args []string) {
	taking := len(args) == 2
	if taking {
		args = append(slices.Clone(args), "open")
	}
	read, err := wiring.ReadReadings("reading", []byte(strings.Join(args, " ")))
	if err != nil || len(read) != 1 {
		m.say("Two leads and what the meter shows are wanted, as: reading BN VT 52. Without a figure, a reading is taken away.")
		return
	}
	r := read[0]
	m.Readings = slices.DeleteFunc(m.Readings, func(old wiring.Reading) bool {
		return old.A == r.A && old.B == r.B || old.A == r.B && old.B == r.A
	})
	if !taking {
		m.Readings = append(m.Readings, r)
	}
	m.sitting = nil // it asked about other leads
	m.leads(nil)
}

func (m *Mode) listReadings([]string) {
	if len(m.Readings) == 0 {
		m.say("There is no reading yet.")
	}
	for _, line := range strings.Split(strings.TrimSpace(string(wiring.WriteReadings(m.Readings))), "\n") {
		if line != "" {
			m.say("%s", line)
		}
	}
}

// names says which leads there are: one that no reading touches is told.
func (m *Mode) names(args []string) {
	leads, err := wiring.ParseLeads(strings.Join(args, " "))
	if err == nil && len(leads) < 2 {
		err = fmt.Errorf("two leads at least are wanted, as: names BN WH GN GY VT")
	}
	if err != nil {
		m.fail(err)
		return
	}
	m.named = leads
	m.Readings = slices.DeleteFunc(m.Readings, func(r wiring.Reading) bool {
		return !slices.Contains(leads, r.A) || !slices.Contains(leads, r.B)
	})
	m.sitting = nil
	m.say("%d leads: %s.", len(leads), joined(leads))
	m.untouched()
}

func joined(leads []motor.Lead) string {
	words := make([]string, len(leads))
	for i, l := range leads {
		words[i] = string(l)
	}
	return strings.Join(words, ", ")
}

// untouched asks for a reading of a lead that was named and not measured yet.
func (m *Mode) untouched() {
	for _, lead := range m.named {
		touched := slices.ContainsFunc(m.Readings, func(r wiring.Reading) bool { return r.A == lead || r.B == lead })
		if touched || lead == wiring.Case {
			continue
		}
		for _, other := range m.named {
			if other != lead && other != wiring.Case {
				m.say("Measure next: %s to %s; %s was not touched yet.", other, lead, lead)
				return
			}
		}
	}
}

func (m *Mode) leads([]string) {
	if len(m.Readings) == 0 {
		m.say("There is no reading yet. Say what the meter shows between two leads, as: reading BN VT 52.")
		return
	}
	answer := wiring.Identify(m.Readings, m.named...)
	m.tell(report.NewLeads(m.Readings, answer))
	if answer.Next == nil {
		m.untouched()
	}
	m.closing(answer)
}

// closing says, once a motor is found, that the bench has another one, and what
// changes that.
func (m *Mode) closing(answer wiring.Answer) {
	found, ordered, ok := answer.Motor(m.sitting)
	on := m.Bench.Motor().Winding
	if !ordered { // a guess is no other than what the file says to know
		found.OrderGuessed = on.OrderGuessed
	}
	if ok && m.real == nil && found.Winding != on {
		m.say("The bench still has another motor, %s: newmotor FILE makes a motor file of this one.", m.Bench.Motor().Title)
	}
}

// readingsFile is what save readings writes.
func (m *Mode) readingsFile() ([]byte, error) {
	if len(m.Readings) == 0 {
		return nil, fmt.Errorf("there is no reading to save yet")
	}
	return wiring.WriteReadings(m.Readings), nil
}

// called is the name of a file as it may be said.
func called(name string) string { return files.Shown(name) }
