package plain

import (
	"fmt"
	"strings"

	"coilwalk/view/report"
	"coilwalk/view/trouble"
)

// trouble starts from what goes wrong, in free words: what to look at first, and
// the questions with what the model says to them. Symptoms of its first question
// are taken for what the person's motor does, so that "faults" goes on from there.
func (m *Mode) trouble(args []string) {
	if len(args) == 0 {
		for _, t := range trouble.All() {
			m.say("%s: %s", t.Word, t.Says)
		}
		m.say("Say trouble and one of these, or your own words, as: trouble it hums.")
		return
	}
	found, err := trouble.Match(strings.Join(args, " "))
	if err != nil {
		m.say("Nothing here is like that; say trouble for the list.")
		return
	}
	first := found[0]
	mo := m.driven()
	m.say("%s: %s", first.Word, first.Says)
	m.say("%s", first.First)
	m.say("Care: %s", first.Care)
	told := map[trouble.Engine]bool{}
	for i, a := range first.Asks {
		m.say("%d. %s %s", i+1, a.Text, m.howTo(a))
		if told[a.Engine] {
			continue
		}
		told[a.Engine] = true
		answer, err := a.Ask(mo)
		if err != nil {
			m.say("The model can not say: %s.", err)
			continue
		}
		if answer.Judged != nil {
			m.symptoms = answer.Symptoms
			m.say("Taken for what yours does: %s. Say does to correct it, and faults for all that explains it.", strings.Join(a.Told, "; "))
		}
		for _, line := range report.FoundLines(mo, answer) {
			m.say("The model of %s: %s", mo.Name, line)
		}
	}
	for _, t := range found[1:] {
		m.say("Or did you mean %s: %s", t.Word, t.Says)
	}
}

// howTo says how a question is answered from here: by a word where one does, else
// by the command.
func (m *Mode) howTo(a trouble.Ask) string {
	switch {
	case a.Screen == "Faults":
		return "Say faults."
	case a.Screen == "Leads" && a.Shaft:
		return "Say ask."
	case a.Screen == "Leads":
		return "Say reading, as: reading BN VT 52."
	case a.Screen == "Table" && m.Table != nil:
		return "Say check."
	case a.Screen == "Table":
		return "Say open and the file of it, then check."
	case a.Screen == "Recording":
		return "Say open and the file of it, then findings."
	case a.Clear:
		return "Say " + strings.ToLower(a.Screen) + "."
	case (a.Screen == "Power" || a.Screen == "Rates" || a.Screen == "Shaft") && a.Line != "":
		return fmt.Sprintf("Say %s %s and what it is.", strings.ToLower(a.Screen), a.Line)
	}
	return "Command: " + a.Types(trouble.Motor, m.Bench.Read().Drive)
}
