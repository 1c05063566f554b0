package plain

import (
	"strings"

	"coilwalk/model/driver"
	"coilwalk/model/power"
	"coilwalk/sequence"
	"coilwalk/view/report"
)

// power says what the motor costs in the step mode that is walked, held at rest:
// on the stage and the supply that are named.
func (m *Mode) power(args []string) {
	mo := m.Bench.Motor()
	mo.Drive = m.Bench.Read().Drive
	stage := driver.Usual(mo.Drive, true)
	if len(args) > 0 {
		if named, err := driver.Open(args[0], strings.NewReader("")); err == nil {
			stage, args = named, args[1:]
		} else if _, isSupply := driver.ParseSupply(args[0]); isSupply != nil {
			m.say("%s.", err)
			return
		}
	}
	var supply driver.Supply
	if len(args) > 0 {
		var err error
		if supply, err = driver.ParseSupply(strings.Join(args, " ")); err != nil {
			m.say("%s.", err)
			return
		}
	}
	q, err := power.Ask(mo, stage, supply)
	if err != nil {
		m.say("%s.", err)
		return
	}
	q.Mode = sequence.Half
	if walked, ok := m.Bench.Read().Order.Mode(); ok {
		q.Mode = walked
	}
	a, err := power.Judge(q)
	if err != nil {
		m.say("%s.", err)
		return
	}
	answer := report.NewPower(a)
	answer.Others(power.Cures(a), power.OnEach(q), power.InEach(q))
	m.say("%s", strings.TrimRight(answer.Text(), "\n"))
}
