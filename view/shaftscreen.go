package view

import (
	"fmt"
	"strings"

	"coilwalk/model/files"
	"coilwalk/model/motor"
	"coilwalk/sequence"
	"coilwalk/view/picture"
	"coilwalk/view/report"
	"coilwalk/view/sheet"
)

// shaftScreen is the sheet on which train, firmware and moves are tried out.
type shaftScreen struct {
	form[sheet.Shaft]
	sheet sheet.Shaft // of what stands in the fields
	shown *report.Shaft
	plot  picture.Plot
	gears picture.Gears
}

func newShaftScreen(m motor.Motor) *shaftScreen {
	s := &shaftScreen{}
	s.changed, s.fields = s.follow, sheet.ShaftLines(m)
	s.sheet = sheet.Shaft{Motor: m, Mode: sequence.Half}
	return s
}

func (s *shaftScreen) name() string { return "Shaft" }

func (s *shaftScreen) places() []*place {
	own := newPlace("shaft", "on Shaft",
		deed{"save", "s", "save", "write a motor file of the bench's motor with this train; one that is there is not replaced", s.askFile})
	own.With = []string{"lines"}
	return []*place{own, s.form.place()}
}

// askFile asks for the name of a motor file that keeps the train, so that it need not
// be typed again.
func (s *shaftScreen) askFile(e *Explorer) {
	e.offers("write the motor with this train to which file?", freeName("mine", ".toml"), func(text string) error {
		name := strings.TrimSpace(text)
		if name == "" {
			return fmt.Errorf("the name of a file is wanted")
		}
		name = motorFile(name)
		m, err := s.sheet.File(name)
		if err != nil {
			return err
		}
		if err := writeNew(name, m.Text()); err != nil {
			return err
		}
		e.notice = advice(fmt.Sprintf("written; coilwalk --motor %s opens it", files.Shown(name)))
		return nil
	})
}

// enter takes the step mode from Walk.
func (s *shaftScreen) enter(e *Explorer) {
	if err := s.follow(e); err != nil {
		e.notice = alarm(err.Error())
	}
}

// follow reads the fields anew, and gives the bench the train.
func (s *shaftScreen) follow(e *Explorer) error {
	s.unset("step mode", sheet.WalkedHere(e.bench))
	next, err := sheet.Read(s.fields, sheet.Shaft{Motor: e.bench.Motor(), Mode: e.walked()})
	if err == nil && s.fields[s.at].Name == "backlash" {
		err = next.Unfit
	}
	if err != nil {
		return err
	}
	s.sheet, s.shown = next, nil
	if next.Unfit != nil {
		e.notice = advice("left out: " + next.Unfit.Error())
	}
	e.bench.SetTrain(next.Motor.Train)
	e.describe()
	return nil
}
