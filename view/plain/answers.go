package plain

import (
	"slices"
	"strconv"
	"strings"

	"coilwalk/model/wiring"
	"coilwalk/view/report"
)

// ask begins to ask the shaft, or says again where that stands. What the leads
// are comes from the readings, else from the motor on the bench.
func (m *Mode) ask(args []string) {
	if len(args) > 1 || len(args) == 1 && args[0] != "geared" && args[0] != "ungeared" {
		m.say("ask takes nothing, geared or ungeared.")
		return
	}
	if m.sitting == nil {
		t := wiring.OfMotor(m.Bench.Motor())
		if len(m.Readings) > 0 {
			found, ok := wiring.OfAnswer(wiring.Identify(m.Readings))
			if !ok {
				m.say("The readings do not settle yet what the leads are; the shaft is asked after that.")
				return
			}
			t = found
		} else {
			for k := range m.now {
				m.now[k] = m.Bench.Motor().Output(m.Bench.Motor().Wiring, k)
			}
		}
		m.sitting = wiring.Sit(t)
	}
	if len(args) == 1 {
		t := *m.sitting.Topology()
		t.Geared = args[0] == "geared"
		replies := m.sitting.Replies()
		m.sitting = wiring.Sit(&t)
		m.sitting.Answer(replies)
	}
	m.sayAnswers()
}

// reply takes an answer to the test that is asked, or to one of the person's own.
func (m *Mode) reply(args []string) {
	if m.sitting == nil {
		m.say("Nothing is asked yet; say ask.")
		return
	}
	text := strings.Join(args, " ")
	if next, ok := m.sitting.Next(); ok && len(args) == 1 {
		text = next.Question.String() + " " + text
	}
	r, err := m.sitting.Topology().ParseReply(text)
	if err != nil {
		m.say("%s.", err)
		return
	}
	m.sitting.Answer(append(slices.Clone(m.sitting.Replies()), r))
	m.sayAnswers()
}

// takeBack takes an answer back, the last without a number.
func (m *Mode) takeBack(args []string) {
	if m.sitting == nil || len(m.sitting.Replies()) == 0 {
		m.say("There is no answer to take back.")
		return
	}
	replies := slices.Clone(m.sitting.Replies())
	n := len(replies)
	if len(args) > 0 {
		var err error
		if n, err = strconv.Atoi(args[0]); err != nil || n < 1 || n > len(replies) {
			m.say("takeback takes the number of an answer, from 1 to %d.", len(replies))
			return
		}
	}
	m.sitting.Answer(slices.Delete(replies, n-1, n))
	m.sayAnswers()
}

func (m *Mode) sayAnswers() {
	for i, r := range m.sitting.Replies() {
		m.say("answer %d: %s", i+1, r)
	}
	m.say("%s", strings.TrimRight(report.NewAnswers(m.sitting, m.now).Text(), "\n"))
}
