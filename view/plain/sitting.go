package plain

import (
	"fmt"
	"os"
	"strings"

	"coilwalk/model/files"
	"coilwalk/model/motor"
	"coilwalk/view/report"
)

func sittingWords() []word {
	return []word{
		{"explain", "[WORD]", "say what a word of the trade means", (*Mode).explain},
		{"open", "FILE", "open another file: a recording, a step table, readings, or a motor", (*Mode).open},
		{"motors", "", "list the built-in motors", (*Mode).motors},
		{"motor", "[NAME]", "say all of the motor on the bench; with the name of another or its file, put that on", (*Mode).motor},
		{"newmotor", "FILE", "ask for what a motor file holds, and write it", (*Mode).newMotor},
		{"help", "[WORD|THEME|all]", "say what can be said", (*Mode).help},
		{"quit", "", "leave; so does the end of the input", func(*Mode, []string) {}},
	}
}

// open opens another file. What a person told of his own motor stays, unless the
// motor is another.
func (m *Mode) open(args []string) {
	switch {
	case len(args) == 0:
		m.say("The name of a file is wanted, as: open pins.vcd.")
		return
	case m.real != nil:
		m.say("With a real motor the motor and the table stay what they are; leave first.")
		return
	}
	was := m.Bench.Motor().Name
	next, err := m.Open(strings.Join(args, " "))
	if err != nil {
		m.fail(err)
		return
	}
	if next.Readings == nil && next.Bench.Motor().Name == was {
		next.Readings = m.Readings
	}
	if next.Bench.Motor().Name != was {
		m.symptoms, m.suspects, m.sitting = nil, nil, nil
	}
	if mode, ok := m.Bench.Read().Order.Mode(); ok && next.Table == nil {
		next.Bench.SetMode(mode)
		next.Bench.Restart()
	}
	m.Sitting, m.place = next, nil
	m.newSheets()
	m.begin()
}

func (m *Mode) motors([]string) {
	for _, name := range motor.Names() {
		if mo, ok := motor.BuiltIn(name); ok {
			m.say("%s: %s, %d full steps to a rotor turn. %s.", name, report.Winding(mo), 4*mo.PolePairs, report.Sentence(mo.Origin))
		}
	}
}

// motor says all of the motor, or puts another on the bench.
func (m *Mode) motor(args []string) {
	if len(args) > 0 {
		m.open(args)
		return
	}
	m.tell(report.NewMotor(m.Bench.Motor()))
	for _, caution := range report.Cautions(m.Bench.Motor()) {
		m.say("Caution: %s.", strings.TrimSuffix(caution, "."))
	}
}

// newMotor asks for a motor, offers what readings and the shaft have told, and
// writes it.
func (m *Mode) newMotor(args []string) {
	if len(args) != 1 {
		m.say("A name for the new file is wanted, as: newmotor mine.toml.")
		return
	}
	err := free(args[0])
	if err == nil { // told before the first question
		err = files.CanWrite(args[0])
	}
	if err != nil {
		m.fail(err)
		return
	}
	mo, err := AskMotor(m, m.out, args[0], Offered(m.Readings, m.sitting))
	if err == nil {
		err = files.WriteNew(args[0], mo.Text())
	}
	if err != nil {
		m.fail(err)
		return
	}
	m.say("Written: %[1]s, with %[2]s. Say motor %[1]s to put it on the bench.", called(args[0]), report.Given(mo))
}

// free says whether a file may be written: what is there is never lost.
func free(name string) error {
	if _, err := os.Lstat(name); err == nil {
		return fmt.Errorf("%s is there already; choose another name", called(name))
	}
	return nil
}

// write writes a file, over one that is there only if that is meant.
func write(name string, text []byte, over bool) error {
	if over {
		return files.Write(name, text)
	}
	if err := free(name); err != nil {
		return fmt.Errorf("%w, or say replace after it", err)
	}
	return files.WriteNew(name, text)
}
