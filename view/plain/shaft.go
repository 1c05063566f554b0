package plain

import (
	"coilwalk/model/motor"
	"coilwalk/view/sheet"
)

// shaft says what a row is at the shaft. The bench goes by its train too.
func (m *Mode) shaft(args []string) {
	var s sheet.Shaft
	use := func() (err error) {
		s, err = sheet.Read(m.sheets.shaft, sheet.Shaft{Motor: m.Bench.Motor(), Mode: sheet.Walked(m.Bench)})
		if at, _ := lineOf(m.sheets.shaft, args); err == nil && at >= 0 && m.sheets.shaft[at].Name == "backlash" {
			err = s.Unfit
		}
		return err
	}
	if !edit(m, "shaft", m.sheets.shaft, args, use) {
		return
	}
	if err := use(); err != nil {
		m.fail(err)
		return
	}
	if s.Unfit != nil {
		m.say("left out: %s.", s.Unfit)
	}
	m.Bench.SetTrain(s.Motor.Train)
	m.leading(s.Answer().Text(), m.news(args)...)
}

// shaftMotor gives the bench's motor with the train of the sheet, for a motor file.
func (m *Mode) shaftMotor(file string) (motor.Motor, error) {
	s, err := sheet.Read(m.sheets.shaft, sheet.Shaft{Motor: m.Bench.Motor(), Mode: sheet.Walked(m.Bench)})
	if err != nil {
		return s.Motor, err
	}
	return s.File(file)
}

// news are the beginnings of the lines that a person asked for by editing one.
func (m *Mode) news(args []string) []string {
	at, _ := lineOf(m.sheets.shaft, args)
	if at < 0 {
		return []string{"shaft: "}
	}
	switch m.sheets.shaft[at].Name {
	case "firmware":
		return []string{"The believed", "The firmware"}
	case "move":
		return []string{m.sheets.shaft[at].Text}
	case "counted":
		return []string{"Counted"}
	case "train":
		return []string{"ratio: "}
	case "backlash":
		return []string{"play: "}
	}
	return []string{"shaft: "}
}
