package plain

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"coilwalk/model/rotor"
	"coilwalk/view/action"
	"coilwalk/view/report"
	"coilwalk/view/sheet"
)

// mostRows bounds the rows that one word may walk with an answer each; a longer
// way is walked as well, but only its end is told.
const mostRows = 256

// walkWords are the actions of the bench, and what is asked of it.
func walkWords() (all []word) {
	for _, a := range action.All() {
		w := word{a.Word, a.Takes, a.Says, func(m *Mode, args []string) { m.act(a, args) }}
		switch a.Word {
		case "fault":
			continue // stands with the faults
		case "run":
			w.takes = "[RATE [ROWS]]"
			w.says = "walk one whole cycle, row by row; with a rate in rows a second, run for a second or for so many rows, as the rotor follows in time"
		case "rate":
			w.says = "set the rate of a run, in rows a second"
		case "stop":
			w.says = "stop a run of a real motor, its last row held; off switches off"
		}
		all = append(all, w)
	}
	return append(all,
		word{"where", "", "say where everything stands", func(m *Mode, _ []string) { m.where() }},
		word{"slowly", "[N]", "take the next rows as the rotor really takes them, and say how it overshoots and rings", (*Mode).slowly},
		word{"order", "", "say the whole energising order of this step mode, row by row", (*Mode).order},
		word{"wiring", "", "say which lead is on which output", func(m *Mode, _ []string) {
			m.say("%s.", report.WiringLine(m.Bench.Motor(), m.Bench.Read().Wiring))
		}})
}

// where says where everything stands; a test of the shaft is no row of the bench.
func (m *Mode) where() {
	if m.real != nil && m.real.hold.Testing() {
		m.say("A test of the shaft holds %s; off switches off.", report.OutputsOn(m.real.hold.State.Row.Sequence()))
		return
	}
	m.say("%s", report.Step(m.Bench))
}

// act carries an action out.
func (m *Mode) act(a action.Action, args []string) {
	switch {
	case m.real != nil:
		m.realAct(a, args)
	case m.asksAgain(a.Word, args):
	case a.Word == "run" && len(args) > 0:
		m.run(args)
	case a.Word == "run": // no clock runs here: a run is one whole cycle
		m.do(action.All()[0], []string{strconv.Itoa(m.Bench.Read().Order.Len())})
	default:
		m.do(a, args)
	}
}

// do carries an action out on the bench and says what came of it. Rows are told
// one by one.
func (m *Mode) do(a action.Action, args []string) {
	if n, ok := count(a, args); ok && n <= mostRows {
		for range n {
			if err := a.Do(m.Bench, nil); err != nil {
				m.fail(err)
				return
			}
			m.where()
		}
		return
	}
	if err := a.Do(m.Bench, args); err != nil {
		m.fail(err)
		return
	}
	m.tellAction(a)
}

// tellAction says what an action has changed, and where everything stands then.
func (m *Mode) tellAction(a action.Action) {
	m.tellChange(a)
	switch a.Word {
	case "reverse", "faster", "slower", "rate":
	default:
		m.where()
	}
}

// tellChange says what an action has changed besides the row.
func (m *Mode) tellChange(a action.Action) {
	r := m.Bench.Read()
	switch a.Word {
	case "reverse":
		m.say("next now goes %s.", r.Way)
	case "faster", "slower", "rate":
		m.say("The rate is %g rows a second.", m.Bench.Rate())
	case "swap", "rewire":
		m.say("%s.", report.WiringLine(m.Bench.Motor(), r.Wiring))
	case "fault":
		in := []string{report.Exchanged(m.Bench.Motor(), r.Wiring), report.FaultsLine(m.Bench.Motor(), r.Faults)}
		if in = slices.DeleteFunc(in, func(words string) bool { return words == "" }); len(in) > 0 {
			m.say("Put in: %s.", strings.Join(in, "; "))
		} else {
			m.say("No fault is put in.")
		}
	case "mode":
		if words := report.Changed(m.Bench); words != "" {
			m.say("%s.", report.Sentence(words))
		} else {
			m.say("%s.", report.Sentence(report.Heading(r)))
		}
	case "drive":
		m.say("%s drive; %s.", r.Drive, m.Bench.Motor().Supply(r.Drive))
	}
}

// count gives the rows that an action walks one by one.
func count(a action.Action, args []string) (n int64, ok bool) {
	if a.Word != "next" && a.Word != "back" && a.Word != "rewind" || len(args) > 1 {
		return 0, false
	}
	if len(args) == 0 {
		return 1, true
	}
	_, err := fmt.Sscanf(args[0]+" ", "%d ", &n)
	return n, err == nil && n > 0 && fmt.Sprint(n) == args[0]
}

// order says the energising order, a row a line.
func (m *Mode) order([]string) {
	r := m.Bench.Read()
	mode, mo := sheet.Walked(m.Bench), m.Bench.Motor()
	if r.Table {
		m.say("A table is walked, and check tells its rows; this is %s.", mode.Title)
	}
	mo.Wiring = r.Wiring
	o := report.NewOrder(mo, mode, r.Drive, 1, r.Way < 0)
	m.say("%s, %s, %s: %d rows.", mode.Title, r.Drive, o.Direction, len(o.Rows))
	for _, line := range o.Lines() {
		m.say("%s", line)
	}
	m.say("Forward turns the shaft clockwise, seen facing its end.")
}

// slowly takes rows as run takes them in time, one at a time from rest.
func (m *Mode) slowly(args []string) {
	n, ok := count(action.Action{Word: "next"}, args)
	if !ok || n > mostRows {
		m.say("slowly takes how many rows, from 1 to %d.", mostRows)
		return
	}
	if m.real != nil {
		m.say("That is worked out of the model; it goes without a real motor.")
		return
	}
	plant, err := m.Bench.Plant()
	if err != nil {
		m.fail(err)
		return
	}
	for range n {
		before := m.Bench.Read().Coils
		if err := m.Bench.Rows(1); err != nil {
			m.fail(err)
			return
		}
		response, err := rotor.Respond(plant, before, m.Bench.Read().Coils, rotor.ResponseSeconds(plant))
		if err != nil {
			m.fail(err)
			return
		}
		m.say("%s.", report.ResponseLine(m.Bench.Motor(), response))
		m.where()
	}
}
