package plain

import (
	"strings"

	"coilwalk/view/report"
	"coilwalk/view/terms"
)

// explain says what a word of the trade means; without one, which there are. No
// drawing: what is read out is words.
func (m *Mode) explain(args []string) {
	if len(args) == 0 {
		for _, theme := range report.NewLexicon().Themes {
			m.say("%s: %s.", theme.Name, strings.Join(theme.Words, ", "))
		}
		return
	}
	entry, err := terms.Find(strings.Join(args, " "))
	if err != nil {
		m.fail(err)
		return
	}
	m.say("%s.", entry.Word)
	for _, sentence := range strings.SplitAfter(entry.Text, ". ") {
		m.say("%s", strings.TrimSpace(sentence))
	}
	commands, _, words := entry.Where()
	if len(words) > 0 {
		m.say("Near it: %s.", strings.Join(words, ", "))
	}
	if len(commands) > 0 {
		m.say("Command: %s.", strings.Join(commands, ", "))
	}
}
