package plain

import (
	"strconv"

	"coilwalk/view/opened"
	"coilwalk/view/report"
)

func tableWords() []word {
	return []word{
		{"check", "", "say what is right and wrong with the table that was opened, and its rows", (*Mode).check},
		{"cure", "N", "put a cure of the table or the recording in by its number: swap two leads, or put rows right", (*Mode).cure},
		{"mended", "N", "say the lines of your file with a cure put in, to be copied, by its number", (*Mode).mended},
		{"bits", "", "read the numbers of the table from their other end", (*Mode).bits},
		{"another", "", "go to the next table of the file, and walk that", (*Mode).another},
	}
}

const noTable = "No table was opened. Say open and its file, as: open flap.c."

func (m *Mode) check([]string) {
	if m.Table == nil {
		m.say(noTable)
		return
	}
	t := m.Table
	t.JudgeAgain(m.Bench)
	if n := len(t.Verdicts); n > 1 {
		m.say("table %d of %d", t.At+1, n)
	}
	m.say("%s", t.Spoken(m.Bench))
}

func (m *Mode) cure(args []string) {
	n, _ := strconv.Atoi(firstOf(args))
	switch {
	case m.Table == nil && m.place != nil:
		m.cureRecording(n)
		return
	case m.Table == nil:
		m.say(noTable)
		return
	}
	m.Table.JudgeAgain(m.Bench)
	c, ok := m.Table.Cure(m.Bench, n)
	switch cures := len(m.Table.Verdict().Cures); {
	case !ok && cures == 0:
		m.say("There is no cure to put in.")
	case !ok:
		m.say("The number of a cure that can be put in here is wanted; check lists 1 to %d.", cures)
	default:
		m.say("%s. Say run.", report.Sentence(opened.Cured(c)))
		m.where()
	}
}

// mended says the file's own lines as they stand: they are to be copied.
func (m *Mode) mended(args []string) {
	if m.Table == nil {
		m.say(noTable)
		return
	}
	m.Table.JudgeAgain(m.Bench)
	n, _ := strconv.Atoi(firstOf(args))
	head, lines := m.Table.Lines(n)
	if lines == nil {
		m.say("The number of a cure that changes rows is wanted, of a table that can be written back; check lists the cures.")
		return
	}
	m.say("%s:", head)
	m.page(lines)
}

func (m *Mode) bits([]string) {
	if m.Table == nil {
		m.say(noTable)
		return
	}
	words, err := m.Table.Turn(m.Bench)
	if err != nil {
		m.fail(err)
		return
	}
	m.say("%s.", report.Sentence(words))
	m.where()
}

func (m *Mode) another([]string) {
	switch {
	case m.Table == nil:
		m.say(noTable)
	case !m.Table.Next(m.Bench):
		m.say("The file has no other table.")
	default:
		words, _ := m.Table.Judgement()
		m.say("%s.", words)
		m.where()
	}
}

// firstOf gives the first of some words, "" without one.
func firstOf(args []string) string {
	if len(args) == 0 {
		return ""
	}
	return args[0]
}
