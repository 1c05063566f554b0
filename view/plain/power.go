package plain

import (
	"slices"
	"strings"

	"coilwalk/model/driver"
	"coilwalk/model/power"
	"coilwalk/view/report"
	"coilwalk/view/sheet"
)

// power says what the motor costs. Without the name of a line, a stage and a
// supply may follow.
func (m *Mode) power(args []string) {
	if !m.powered(args) {
		return
	}
	s, err := m.powerSheet()
	if err != nil {
		m.fail(err)
		return
	}
	q, err := s.Question()
	if err != nil {
		m.fail(err)
		return
	}
	a, err := power.Judge(q)
	if err != nil {
		m.fail(err)
		return
	}
	if len(args) > 0 { // a line was changed: some fifty lines after each would be too many
		if words := drivenWords(s); words != "" {
			m.say("%s", words)
		}
		m.say("%s", report.PowerVerdict(a))
		m.say("Say power for all that stands behind it, and for cures.")
		return
	}
	answer := report.NewPower(a)
	if d, err := s.Drives(); err == nil {
		answer.Drives(d, "rates")
	}
	answer.Others(power.Cures(a), power.OnEach(q), power.InEach(q))
	m.leading(answer.Text(), thoughts(report.PowerVerdict(a))[0])
}

// drivenWords says which other connection a stage took, if it did.
func drivenWords(s sheet.Power) string {
	d, err := s.Drives()
	if words := report.OtherDrive(d); err == nil && words != "" {
		return "Connected as " + words + "."
	}
	return ""
}

func (m *Mode) powerSheet() (sheet.Power, error) {
	return sheet.Read(m.sheets.power, sheet.NewPower(m.driven(), sheet.Walked(m.Bench)))
}

// powered edits the lines of power; true where it is to be answered.
func (m *Mode) powered(args []string) bool {
	lines := m.sheets.power
	sheet.Into(&m.sheets.shared, lines)
	use := func() error {
		s, err := m.powerSheet()
		if err == nil {
			_, err = s.Question()
		}
		if err == nil {
			sheet.Keep(&m.sheets.shared, lines)
		}
		return err
	}
	if at, _ := lineOf(lines, args); len(args) == 0 || at >= 0 {
		return edit(m, "power", lines, args, use)
	}
	before := slices.Clone(lines)
	stage, supply := sheet.At(lines, "stage"), sheet.At(lines, "supply")
	_, err := driver.Open(args[0], strings.NewReader(""))
	_, unknown := driver.ParseSupply(args[0])
	switch {
	case err == nil:
		lines[stage].Text, args = args[0], args[1:]
	case unknown != nil:
		m.fail(err)
		return false
	}
	if len(args) > 0 {
		lines[supply].Text = strings.Join(args, " ")
	}
	if err := use(); err != nil {
		copy(lines, before)
		m.fail(err)
		return false
	}
	return true
}
