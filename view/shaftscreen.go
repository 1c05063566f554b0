package view

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"coilwalk/model/motor"
	"coilwalk/sequence"
	"coilwalk/view/picture"
	"coilwalk/view/report"
)

// shaftScreen is the sheet on which train, firmware and moves are tried out.
type shaftScreen struct {
	form[sheet]
	sheet sheet // of what stands in the fields
	shown *report.Shaft
	plot  picture.Plot
	gears picture.Gears
}

// sheet is what the fields say.
type sheet struct {
	motor  motor.Motor
	mode   sequence.Mode
	holds  string // what the firmware holds a turn to be
	move   string
	seen   []motor.Observed
	belief motor.Belief
	unfit  error // the backlash does not fit the train, and is left out
}

func newShaftScreen(m motor.Motor) *shaftScreen {
	s := &shaftScreen{}
	train := m.Train.String()
	if m.Train.Nominal != nil {
		train = "ratio " + train
	}
	s.changed = s.follow
	s.fields = []field[sheet]{
		{"train", "teeth, driving:driven from the rotor on, or ratio 64:1:", train, (*sheet).setTrain},
		{"backlash", "at the shaft, as 8deg, or of each mesh, as 1deg,2deg:", m.Train.Backlash.String(), (*sheet).setBacklash},
		{"step mode", "wave, full, half, or micro and a divisor:", "", (*sheet).setMode},
		{"firmware", "what it holds a turn of the shaft to be, as 64:1 or 2048:", "", (*sheet).setHolds},
		{"move", "again and again: 90deg, or 45 stops to a turn:", "", (*sheet).setMove},
		{"seen", "asked = seen, as 10 turns = 3562 deg; more after a ;", "", (*sheet).setSeen},
		{"counted", "rings x teeth as 4x8, 50 teeth of a rotor, step angle 7.5deg:", m.Counted.String(), (*sheet).setCounted},
	}
	s.sheet = sheet{motor: m, mode: sequence.Half}
	return s
}

func (s *shaftScreen) name() string { return "Shaft" }

func (s *shaftScreen) keys() []hint {
	return append(slices.Clone(formKeys), hint{"space", "", "stop; always, and only that"})
}

// enter takes the step mode from Walk.
func (s *shaftScreen) enter(e *Explorer) {
	if err := s.follow(e); err != nil {
		e.notice = alarm(err.Error())
	}
}

// follow reads the fields anew, and gives the bench the train.
func (s *shaftScreen) follow(e *Explorer) error {
	s.unset("step mode", e.walked().Name+", as on Walk")
	next, err := s.read(sheet{motor: e.bench.Motor(), mode: e.walked()})
	if err == nil && s.fields[s.at].name == "backlash" {
		err = next.unfit
	}
	if err != nil {
		return err
	}
	s.sheet, s.shown = next, nil
	if next.unfit != nil {
		e.notice = advice("left out: " + next.unfit.Error())
	}
	e.bench.SetTrain(next.motor.Train)
	e.describe()
	return nil
}

func (s *sheet) setTrain(text string) (err error) {
	ratio, printed := strings.CutPrefix(text, "ratio")
	switch {
	case text == "":
		s.motor.Train = motor.Train{}
	case printed:
		s.motor.Train, err = motor.ParseRatio(ratio)
	default:
		s.motor.Train, err = motor.ParseTrain(text)
	}
	return err
}

func (s *sheet) setBacklash(text string) error {
	if text == "" {
		return nil
	}
	b, err := motor.ParseBacklash(text)
	if err != nil {
		return err
	}
	s.motor.Train, s.unfit = s.motor.Train.WithBacklash(b)
	return nil
}

func (s *sheet) setMode(text string) (err error) {
	if text == "" {
		return nil
	}
	s.mode, err = modeOf(text)
	return err
}

// modeOf reads a step mode: wave, full, half, or micro and a divisor.
func modeOf(text string) (mode sequence.Mode, err error) {
	words := strings.Fields(text)
	divide := 8
	switch {
	case len(words) == 2 && words[0] == "micro":
		if divide, err = strconv.Atoi(words[1]); err != nil {
			return mode, fmt.Errorf("micro takes a whole divisor, as micro 8")
		}
	case len(words) != 1:
		return mode, errors.New("wave, full, half, or micro and a divisor is wanted")
	}
	return sequence.ModeNamed(words[0], divide, 0)
}

func (s *sheet) setHolds(text string) error {
	s.holds = text
	s.belief = motor.Belief{Motor: s.motor, Mode: s.mode}
	if text == "" {
		return nil
	}
	return s.belief.Hold(text)
}

func (s *sheet) setMove(text string) error {
	s.move = text
	if text == "" {
		return nil
	}
	_, _, err := s.each()
	return err
}

func (s *sheet) setSeen(text string) error {
	for _, part := range strings.Split(text, ";") {
		if strings.TrimSpace(part) == "" {
			continue
		}
		o, err := motor.ParseObserved(part)
		if err != nil {
			return err
		}
		s.seen = append(s.seen, o)
	}
	return nil
}

func (s *sheet) setCounted(text string) (err error) {
	if s.motor.Counted, err = motor.ParseCounted(text); err != nil {
		return err
	}
	_, err = s.motor.Counted.Counts()
	return err
}
