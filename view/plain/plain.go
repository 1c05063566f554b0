// Package plain is the line mode: words in, one line of plain words out for
// each step. It is for screen readers and scripts, and needs no terminal.
package plain

import (
	"bufio"
	"fmt"
	"io"
	"strings"

	"coilwalk/model/bench"
	"coilwalk/model/motor"
	"coilwalk/model/table"
	"coilwalk/model/wiring"
	"coilwalk/view/action"
	"coilwalk/view/report"
)

// longestLine bounds a line of words.
const longestLine = 4096 // bytes

// mostLines bounds the rows that one word may walk with a line each; a longer
// way is walked as well, but only its end is told.
const mostLines = 256

// Mode is a line mode on a bench.
type Mode struct {
	Bench    *bench.Bench
	File     string          // the table that is walked, if one is
	Verdicts []table.Verdict // on it
	Readings []wiring.Reading
	symptoms []wiring.Symptom
	sitting  *wiring.Sitting // asking the shaft; nil before that
	now      [4]motor.Lead   // on outputs 1 to 4, where the asked motor is the bench's
	suspects *wiring.Suspects
	out      io.Writer
	err      error
}

// Run reads words until the input ends or says quit. An error is one of
// writing or reading; a word that is not understood is answered, and changes
// nothing.
func (m *Mode) Run(in io.Reader, out io.Writer) error {
	m.out = out
	r := m.Bench.Read()
	mo := m.Bench.Motor()
	m.say("%s: %s, %d steps a rotor turn. %s. Say help for the words.", mo.Title, report.Winding(mo), 4*mo.PolePairs, report.Heading(r))
	for _, v := range m.Verdicts {
		m.say("%s", strings.TrimRight(report.VerdictText(m.File, v), "\n"))
	}
	m.say("%s", report.Step(m.Bench))
	if len(m.Readings) > 0 {
		m.leads()
	}
	lines := bufio.NewScanner(in)
	lines.Buffer(make([]byte, 0, longestLine), longestLine)
	for m.err == nil && lines.Scan() {
		words := strings.Fields(lines.Text())
		if len(words) == 0 {
			continue
		}
		words[0] = strings.ToLower(words[0])
		if words[0] == "quit" {
			return m.err
		}
		m.answer(words[0], words[1:])
	}
	if err := lines.Err(); err != nil && m.err == nil {
		return fmt.Errorf("the words could not be read: %w", err)
	}
	return m.err
}

// extra are the words that only the line mode has.
var extra = []string{"where", "wiring", "check", "reading", "leads", "ask", "answer", "takeback", "does", "faults", "power", "help", "quit"}

func (m *Mode) answer(word string, args []string) {
	switch word {
	case "help":
		m.help()
		return
	case "where":
		m.say("%s", report.Step(m.Bench))
		return
	case "wiring":
		m.say("%s.", report.WiringLine(m.Bench.Motor(), m.Bench.Read().Wiring))
		return
	case "reading":
		m.reading(args)
		return
	case "leads":
		m.leads()
		return
	case "ask":
		m.ask(args)
		return
	case "answer":
		m.reply(args)
		return
	case "takeback":
		m.takeBack(args)
		return
	case "does":
		m.does(args)
		return
	case "faults":
		m.judge()
		return
	case "power":
		m.power(args)
		return
	case "check":
		if len(m.Verdicts) == 0 {
			m.say("No table was opened. Open one with: coilwalk --plain FILE")
		}
		for _, v := range m.Verdicts {
			m.say("%s", strings.TrimRight(report.VerdictText(m.File, v), "\n"))
		}
		return
	}
	a, err := action.Named(words(), word, extra...)
	if err != nil {
		m.say("%s", err)
		return
	}
	if word == "run" && len(args) > 0 {
		m.run(args)
		return
	}
	if word == "run" { // no clock runs here: a run is one whole cycle
		a, args = action.All()[0], []string{fmt.Sprint(m.Bench.Read().Order.Len())}
	}
	m.do(a, args)
}

// do carries an action out and says what came of it. Rows are told one by one.
func (m *Mode) do(a action.Action, args []string) {
	if n, ok := count(a, args); ok && n <= mostLines {
		for range n {
			if err := a.Do(m.Bench, nil); err != nil {
				m.say("%s.", err)
				return
			}
			m.say("%s", report.Step(m.Bench))
		}
		return
	}
	if err := a.Do(m.Bench, args); err != nil {
		m.say("%s.", err)
		return
	}
	switch a.Word {
	case "reverse":
		m.say("next now goes %s.", m.Bench.Read().Way)
	case "swap", "rewire":
		m.say("%s.", report.WiringLine(m.Bench.Motor(), m.Bench.Read().Wiring))
		m.say("%s", report.Step(m.Bench))
	case "fault":
		if line := report.FaultsLine(m.Bench.Motor(), m.Bench.Read().Faults); line != "" {
			m.say("Put in: %s.", line)
		} else {
			m.say("No fault is put in.")
		}
		m.say("%s", report.Step(m.Bench))
	case "mode":
		m.say("%s.", report.Heading(m.Bench.Read()))
		m.say("%s", report.Step(m.Bench))
	case "drive":
		m.say("%s drive; %s.", m.Bench.Read().Drive, m.Bench.Motor().Supply(m.Bench.Read().Drive))
		m.say("%s", report.Step(m.Bench))
	default:
		m.say("%s", report.Step(m.Bench))
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

// words are the actions that the line mode has.
func words() (all []action.Action) {
	for _, a := range action.All() {
		if !a.OnKey {
			all = append(all, a)
		}
	}
	return all
}

func (m *Mode) help() {
	for _, a := range words() {
		words := a.Word
		if a.Takes != "" {
			words += " " + a.Takes
		}
		says := a.Says
		if a.Word == "run" {
			words += " [RATE [ROWS]]"
			says = "walk one whole cycle, a line a row; with a rate in rows a second, run for a second, or for so many rows, as the rotor follows in time"
		}
		m.say("%s: %s", words, says)
	}
	m.say("where: say where everything stands")
	m.say("wiring: say which lead is on which output")
	m.say("check: say what is right and wrong with the table that was opened")
	m.say("reading A B OHM: take what an ohmmeter shows between two leads, as: reading BN VT 52, or open")
	m.say("leads: say what the readings tell of a motor")
	m.say("ask [geared|ungeared]: ask the shaft which lead goes where; says the test that tells most next")
	m.say("answer WORD: answer the test that is asked; or a test of your own, as: answer kick BN WH cw")
	m.say("takeback [N]: take answer N back, the last without a number")
	m.say("does MODE forward|reverse cw|ccw|skips|buzz|still|weak|reverses|unsure: tell what your motor does; again to change it")
	m.say("faults: say what explains what your motor does")
	m.say("power [STAGE] [SUPPLY]: say what it costs held at rest, as: power darlington usb")
	m.say("quit: leave; so does the end of the input")
}

func (m *Mode) say(format string, values ...any) {
	if m.err != nil {
		return
	}
	if _, err := fmt.Fprintf(m.out, format+"\n", values...); err != nil {
		m.err = err
	}
}
