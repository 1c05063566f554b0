package plain

import (
	"fmt"
	"slices"
	"strings"

	"coilwalk/model/files"
	"coilwalk/view/sheet"
)

// sheets are the lines that a person has filled in.
type sheets struct {
	shaft []sheet.Line[sheet.Shaft]
	rates []sheet.Line[sheet.Rates]
	ramp  []sheet.Line[sheet.Ramp]
	power []sheet.Line[sheet.Power]
	take  []sheet.Line[sheet.Take]

	shared sheet.Shared // of rates, ramp and power
}

// newSheets are those of the motor on the bench.
func (m *Mode) newSheets() {
	mo := m.Bench.Motor()
	m.sheets = sheets{sheet.ShaftLines(mo), sheet.RatesLines(mo), sheet.RampLines(mo), sheet.PowerLines(mo), sheet.TakeLines(), sheet.Shared{}}
}

func sheetWords() []word {
	return []word{
		{"shaft", "[LINE TEXT]", "say what a row is at the output shaft; as: shaft train 9:32,11:22, shaft firmware 64:1, shaft move 45 stops, shaft seen 10 turns = 3562 deg", (*Mode).shaft},
		{"rates", "[LINE TEXT]", "run the motor in time, and say how fast it starts and follows; as: rates rate 600, rates load 5mN.m, rates stage chopper; stage, supply, connected and set to count for power too", (*Mode).rates},
		{"curve", "", "say how fast it starts and follows over the load, with what stands under rates", (*Mode).curve},
		{"ramp", "[LINE TEXT]", "plan a move with acceleration, and run the motor through it; as: ramp move 90deg, ramp rate 1100", (*Mode).ramp},
		{"reckons", "STEPS RPM [ms|us] [twice] [decimals]", "say what firmware really does that holds a turn to be so many steps, and reckons its delay in whole numbers", (*Mode).reckons},
		{"power", "[LINE TEXT]", "say what it costs in current and heat; as: power darlington usb, power turning 400, power on for 30%; stage, supply, connected and set to count for rates too", (*Mode).power},
		{"lines", "SHEET", "say what stands in the lines of shaft, rates, ramp, power or take, and what each asks for", (*Mode).lines},
	}
}

// edit puts a text into a line of a sheet; "none" empties it. It is true where the
// sheet is to be answered.
func edit[S any](m *Mode, name string, lines []sheet.Line[S], args []string, use func() error) bool {
	if len(args) == 0 {
		return true
	}
	at, rest := lineOf(lines, args)
	if at < 0 {
		names := namesOf(lines)
		near := files.Nearest(args[0], names)
		if near != "" {
			m.say("%s has no line %q; did you mean %q?", name, files.Shown(args[0]), near)
		} else {
			m.say("%s has no line %q; it has %s.", name, files.Shown(args[0]), strings.Join(names, ", "))
		}
		return false
	}
	if len(rest) == 0 {
		m.say("%s", lineWords(lines[at]))
		return false
	}
	text := strings.Join(rest, " ")
	if text == "none" && !(name == "ramp" && lines[at].Name == "stage") {
		text = ""
	}
	if err := sheet.Use(lines, at, text, use); err != nil {
		m.fail(err)
		return false
	}
	return true
}

// lineOf finds the line that words begin with, the longest name first.
func lineOf[S any](lines []sheet.Line[S], args []string) (at int, rest []string) {
	for n := min(len(args), 2); n > 0; n-- {
		if at := sheet.At(lines, strings.ToLower(strings.Join(args[:n], " "))); at >= 0 {
			return at, args[n:]
		}
	}
	return -1, nil
}

func namesOf[S any](lines []sheet.Line[S]) (names []string) {
	for _, l := range lines {
		names = append(names, l.Name)
	}
	return names
}

func lineWords[S any](l sheet.Line[S]) string {
	text := l.Text
	if text == "" {
		text = "nothing"
	}
	return fmt.Sprintf("%s: %s. It asks: %s.", l.Name, text, strings.TrimSuffix(l.Asks, ":"))
}

// lines says what stands in a sheet.
func (m *Mode) lines(args []string) {
	s := &m.sheets
	sheet.Into(&s.shared, s.rates)
	sheet.Into(&s.shared, s.power)
	switch firstOf(args) {
	case "shaft":
		sayLines(m, s.shaft)
	case "rates":
		sayLines(m, s.rates)
	case "ramp":
		sayLines(m, s.ramp)
	case "power":
		sayLines(m, s.power)
	case "take":
		sayLines(m, s.take)
	default:
		m.say("lines of what? shaft, rates, ramp, power or take.")
	}
}

func sayLines[S any](m *Mode, lines []sheet.Line[S]) {
	for _, l := range lines {
		m.say("%s", lineWords(l))
	}
}

// leading says a text, the thoughts that begin with some words before all others.
func (m *Mode) leading(text string, first ...string) {
	all := thoughts(text)
	m.told++
	for _, begin := range first {
		if at := slices.IndexFunc(all, func(line string) bool { return strings.HasPrefix(line, begin) }); at >= 0 {
			m.printAll(all[at : at+1])
			all = slices.Delete(all, at, at+1)
		}
	}
	m.printAll(all)
}
