package plain

import (
	"fmt"
	"strings"

	"coilwalk/model/files"
	"coilwalk/model/handoff"
	"coilwalk/model/motor"
	"coilwalk/view/report"
	"coilwalk/view/sheet"
)

func takeWords() []word {
	return []word{
		{"take", "[LINE TEXT]", "say which file would be written; as: take kind micropython, take pins 2,3,4,5, take port PORTB", (*Mode).take},
		{"kinds", "", "list the kinds of files that can be taken along", (*Mode).kinds},
		{"preview", "", "read the file that would be written, some lines at a time", (*Mode).preview},
		{"more", "[all]", "go on with a long answer", (*Mode).more},
		{"save", "take|motor|readings|answers FILE [replace]", "write the file (motor: the bench's, with the train that shaft has); one that is there is not replaced unless you say so", (*Mode).save},
	}
}

func (m *Mode) kinds([]string) {
	for _, k := range report.Kinds {
		m.say("%s: %s.", k.Name, k.Title)
	}
}

// asked is what stands under take, and the walk that it makes of the bench.
func (m *Mode) asked() (s sheet.Take, w *handoff.Walk, err error) {
	if s, err = sheet.Read(m.sheets.take, sheet.NewTake(sheet.Walked(m.Bench), m.Table)); err != nil {
		return s, nil, err
	}
	mo := m.driven()
	mo.Wiring = m.Bench.Read().Wiring
	if w, err = s.Walk(mo); err != nil {
		return s, nil, err
	}
	if driven, err := m.sheets.shared.Drives(mo); err == nil { // else it is told where it is set
		w.Driven = &driven
	}
	return s, w, nil
}

// made makes the file, as it would be named.
func (m *Mode) made(name string) (s sheet.Take, w *handoff.Walk, text []byte, err error) {
	if s, w, err = m.asked(); err == nil {
		err = s.Misses()
	}
	if err == nil {
		text, err = report.Made(s.Kind, w, name)
	}
	return s, w, text, err
}

// take says what would be written.
func (m *Mode) take(args []string) {
	use := func() error { _, _, err := m.asked(); return err }
	if !edit(m, "take", m.sheets.take, args, use) {
		return
	}
	s, w, text, err := m.made("")
	if err != nil {
		m.fail(err)
		return
	}
	if m.Bench.Read().Table {
		m.say("Step mode, unless it is named: %s.", sheet.WalkedHere(m.Bench))
		m.say("Bits of outputs 1 to 4, unless they are named: %s.", sheet.BitsWords(m.Table))
	}
	m.say("%s: %s, %s lines.", s.Kind.Name, s.Kind.Title, report.Count(int64(strings.Count(string(text), "\n"))))
	switch {
	case report.Drawn(s.Kind):
		m.say("It is drawn; nothing reads a drawing back.")
	case s.Kind.Name == handoff.Bench:
		m.say("It was read back: it is for this board.")
	default:
		m.say("It was read back: it is the %s order of %s.", w.Mode.Name, w.Motor.Name)
	}
	m.say("%s.", report.WiringLine(w.Motor, w.Motor.Wiring))
	for _, caution := range s.Kind.Cautions(w) {
		m.say("Caution: %s", caution)
	}
	m.say("Say preview to read it, save take and a name to write it.")
}

func (m *Mode) preview([]string) {
	s, _, text, err := m.made("")
	switch {
	case err != nil:
		m.fail(err)
	case report.Drawn(s.Kind):
		m.say("A card is drawn, and can not be read out. take kind text has the same rows in words.")
	default:
		m.page(strings.Split(strings.TrimRight(string(text), "\n"), "\n"))
	}
}

// save writes a file; what is there is never lost unasked.
func (m *Mode) save(args []string) {
	over := len(args) == 3 && args[2] == "replace"
	if len(args) != 2 && !over {
		m.say("What to save and a name are wanted, as: save take flap.c. The word replace after it replaces a file that is there.")
		return
	}
	what, name := args[0], args[1]
	var text []byte
	var done string
	var err error
	switch what {
	case "take":
		s, w, made, wrong := m.made(name)
		if text, err = made, wrong; err == nil {
			done = report.NewWritten(s.Kind, w, name, false, text).Text()
		}
	case "readings":
		text, err = m.readingsFile()
		done = "Saved; coilwalk leads " + called(name) + " reads it."
	case "motor":
		var kept motor.Motor
		if kept, err = m.shaftMotor(name); err == nil {
			text = kept.Text()
		}
		done = fmt.Sprintf("Saved; motor %s puts it on the bench.", called(name))
	case "answers":
		text, err = m.answersFile()
		done = "Saved; with the readings: coilwalk motors new mine.toml --readings READINGS --answers " + called(name)
	default:
		kinds := []string{"take", "motor", "readings", "answers"}
		err = fmt.Errorf("%s can not be saved; %s can", files.Quoted(called(what)), strings.Join(kinds, ", "))
	}
	if err == nil {
		err = write(name, text, over)
	}
	if err != nil {
		m.fail(err)
		return
	}
	m.say("%s", done)
}
