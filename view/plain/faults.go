package plain

import (
	"slices"
	"strings"

	"coilwalk/model/wiring"
	"coilwalk/view/report"
)

// does takes what the person's own motor does in a trial; another of the same
// trial replaces it.
func (m *Mode) does(args []string) {
	s, err := wiring.ParseSymptom(strings.Join(args, " "))
	if err != nil {
		m.say("%s.", err)
		return
	}
	m.symptoms = slices.DeleteFunc(m.symptoms, func(old wiring.Symptom) bool {
		return old.Mode.Name == s.Mode.Name && old.Way == s.Way && old.Rate == s.Rate
	})
	m.symptoms = append(m.symptoms, s)
	m.judge()
}

func (m *Mode) judge() {
	if m.suspects == nil {
		m.suspects = wiring.NewSuspects(m.Bench.Motor())
	}
	answer := report.NewFaults(m.Bench.Motor(), m.symptoms, m.suspects.Judge(m.symptoms))
	m.say("%s", strings.TrimRight(answer.Text(), "\n"))
}
