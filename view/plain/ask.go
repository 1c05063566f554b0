package plain

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"coilwalk/model/motor"
	"coilwalk/model/wiring"
	"coilwalk/view/report"
)

func askWords() []word {
	return []word{
		{"ask", "[geared|ungeared]", "ask the shaft which lead goes where: says the test that tells most next, how it is done, and the words that answer it", (*Mode).ask},
		{"answer", "WORD", "answer the test that is asked; or a test of your own, as: answer kick BN WH cw", (*Mode).reply},
		{"answers", "", "say every answer that was given, by number", (*Mode).listAnswers},
		{"takeback", "[N]", "take answer N back, the last without a number", (*Mode).takeBack},
		{"outputs", "LEADS", "say which leads are on outputs 1 to 4, as: outputs BN WH GN GY", (*Mode).outputs},
		{"perform", "", "do the test that is asked on the real motor, part by part; you only watch and answer", (*Mode).perform},
	}
}

// ask begins to ask the shaft, or says again where that stands. What the leads
// are comes from the readings, else from the motor on the bench.
func (m *Mode) ask(args []string) {
	if len(args) > 1 || len(args) == 1 && args[0] != "geared" && args[0] != "ungeared" {
		m.say("ask takes nothing, geared or ungeared.")
		return
	}
	if err := m.sit(); err != nil {
		m.fail(err)
		return
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

// sit begins to ask, unless that was done.
func (m *Mode) sit() error {
	if m.sitting != nil {
		return nil
	}
	t := wiring.OfMotor(m.Bench.Motor())
	if len(m.Readings) > 0 {
		found, ok := wiring.OfAnswer(wiring.Identify(m.Readings, m.named...))
		if !ok {
			return fmt.Errorf("the readings do not settle yet what the leads are; the shaft is asked after that")
		}
		t = found
	} else {
		for k := range m.now {
			m.now[k] = m.Bench.Motor().Output(m.Bench.Motor().Wiring, k)
		}
	}
	m.sitting = wiring.Sit(t)
	return nil
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
		m.fail(err)
		return
	}
	m.sitting.Answer(append(slices.Clone(m.sitting.Replies()), r))
	m.say("answer %d: %s", len(m.sitting.Replies()), r)
	if m.real != nil {
		_, more := m.sitting.Next()
		m.test = nil
		m.real.hold.Answer(r, more)
	}
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
	m.say("Taken back: %s.", replies[n-1])
	m.sitting.Answer(slices.Delete(replies, n-1, n))
	m.sayAnswers()
}

func (m *Mode) listAnswers([]string) {
	if m.sitting == nil || len(m.sitting.Replies()) == 0 {
		m.say("There is no answer yet; say ask.")
		return
	}
	for i, r := range m.sitting.Replies() {
		m.say("answer %d: %s", i+1, r)
	}
}

// outputs says which leads are plugged in where.
func (m *Mode) outputs(args []string) {
	leads, err := wiring.ParseLeads(strings.Join(args, " "))
	if err == nil && len(leads) != 4 {
		err = fmt.Errorf("four leads are wanted, in the order of the outputs, as: outputs BN WH GN GY")
	}
	if err != nil {
		m.fail(err)
		return
	}
	m.now = [4]motor.Lead(leads)
	m.say("Outputs 1 to 4 have %s.", joined(leads))
}

// sayAnswers says what to try next, then what the shaft's answers come to.
func (m *Mode) sayAnswers() {
	all := thoughts(report.NewAnswers(m.sitting, m.now).Text())
	if next := slices.IndexFunc(all, func(line string) bool { return strings.HasPrefix(line, "Next: ") }); next > 0 {
		all = append(slices.Clone(all[next:]), all[:next]...)
	}
	slices.SortStableFunc(all, func(a, b string) int { return misfit(a) - misfit(b) })
	m.printAll(all)
	if len(m.Readings) > 0 && m.sitting.Settled() {
		m.closing(wiring.Identify(m.Readings, m.named...))
	}
}

// misfit puts answers that do not fit together before all else.
func misfit(line string) int {
	if strings.HasPrefix(line, "does not fit: ") {
		return 0
	}
	return 1
}

// answersFile is what save answers writes.
func (m *Mode) answersFile() ([]byte, error) {
	if m.sitting == nil || len(m.sitting.Replies()) == 0 {
		return nil, fmt.Errorf("there is no answer to save yet")
	}
	var lines strings.Builder
	for _, r := range m.sitting.Replies() {
		lines.WriteString(r.String() + "\n")
	}
	return []byte(lines.String()), nil
}
