package plain

import (
	"slices"
	"strings"

	"coilwalk/model/wiring"
	"coilwalk/view/report"
)

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
	m.leads()
}

func (m *Mode) leads() {
	if len(m.Readings) == 0 {
		m.say("There is no reading yet. Say what the meter shows between two leads, as: reading BN VT 52.")
		return
	}
	m.say("%s", strings.TrimRight(report.NewLeads(m.Readings, wiring.Identify(m.Readings)).Text(), "\n"))
}
