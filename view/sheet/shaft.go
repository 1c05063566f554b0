package sheet

import (
	"fmt"
	"math"
	"math/big"
	"slices"
	"strconv"
	"strings"

	"coilwalk/model/motor"
	"coilwalk/model/quantity"
	"coilwalk/sequence"
	"coilwalk/view/report"
)

// Shaft is what is asked of the shaft.
type Shaft struct {
	Motor  motor.Motor
	Mode   sequence.Mode
	Holds  string // what the firmware holds a turn to be
	Move   string
	Seen   []motor.Observed
	Belief motor.Belief
	Unfit  error // the backlash does not fit the train, and is left out
}

// File gives the motor with the train and the counts of the sheet, as it is written to
// a motor file of that name, by the same rules as one that is written by hand.
func (s *Shaft) File(name string) (motor.Motor, error) {
	m := s.Motor
	if s.Unfit != nil {
		return m, s.Unfit
	}
	_, builtIn := motor.BuiltIn(m.Name)
	m = m.CalledAfter(name)
	if !builtIn { // else it is that one no more
		m.Title = s.Motor.Title
	}
	const typed = "; train as typed on Shaft"
	if origin := strings.TrimSuffix(m.Origin, typed) + typed; motor.IsOrigin(origin) {
		m.Origin = origin
	}
	return motor.Parse(name, m.Text())
}

// ShaftLines are the lines of it, filled in with what the motor is.
func ShaftLines(m motor.Motor) []Line[Shaft] {
	train := m.Train.String()
	if m.Train.Nominal != nil {
		train = "ratio " + train
	}
	return []Line[Shaft]{
		{"train", "teeth, driving:driven from the rotor on, or ratio 64:1:", train, (*Shaft).setTrain},
		{"backlash", "at the shaft, as 8deg, or of each mesh, as 1deg,2deg:", m.Train.Backlash.String(), (*Shaft).setBacklash},
		{"step mode", asksMode, "", (*Shaft).setMode},
		{"firmware", "what it holds a turn of the shaft to be, as 64:1 or 2048:", "", (*Shaft).setHolds},
		{"move", "again and again: 90deg, or 45 stops to a turn:", "", (*Shaft).setMove},
		{"seen", "asked = seen, as 10 turns = 3562 deg; more after a ;", "", (*Shaft).setSeen},
		{"counted", "rings x teeth as 4x8, 50 teeth of a rotor, step angle 7.5deg:", m.Counted.String(), (*Shaft).setCounted},
	}
}

// Answer gives the sheet as the command "shaft" tells it.
func (s *Shaft) Answer() *report.Shaft {
	sh := report.NewShaft(s.Motor, s.Mode)
	s.Belief.Motor, s.Belief.Mode = s.Motor, s.Mode
	if s.Holds != "" {
		sh.Believe(s.Belief)
	}
	if rows, words, err := s.Each(); s.Move != "" && err == nil {
		sh.Stops(rows, words)
	}
	if counts, err := s.Motor.Counted.Counts(); err == nil {
		sh.Count(counts)
	}
	sh.Observe(s.Belief, s.Seen)
	return sh
}

func (s *Shaft) setTrain(text string) (err error) {
	ratio, printed := strings.CutPrefix(text, "ratio")
	switch {
	case text == "":
		s.Motor.Train = motor.Train{}
	case printed:
		s.Motor.Train, err = motor.ParseRatio(ratio)
	default:
		s.Motor.Train, err = motor.ParseTrain(text)
	}
	return err
}

func (s *Shaft) setBacklash(text string) error {
	if text == "" {
		return nil
	}
	b, err := motor.ParseBacklash(text)
	if err != nil {
		return err
	}
	s.Motor.Train, s.Unfit = s.Motor.Train.WithBacklash(b)
	return nil
}

func (s *Shaft) setMode(text string) (err error) {
	if text == "" {
		return nil
	}
	s.Mode, err = sequence.ParseMode(text)
	return err
}

func (s *Shaft) setHolds(text string) error {
	s.Holds = text
	s.Belief = motor.Belief{Motor: s.Motor, Mode: s.Mode}
	if text == "" {
		return nil
	}
	return s.Belief.Hold(text)
}

func (s *Shaft) setMove(text string) error {
	s.Move = text
	if text == "" {
		return nil
	}
	_, _, err := s.Each()
	return err
}

func (s *Shaft) setSeen(text string) (err error) {
	parts := strings.Split(text, ";")
	s.Seen, err = motor.ParseSeen(slices.DeleteFunc(parts, func(part string) bool { return strings.TrimSpace(part) == "" }))
	return err
}

func (s *Shaft) setCounted(text string) (err error) {
	if s.Motor.Counted, err = motor.ParseCounted(text); err != nil {
		return err
	}
	_, err = s.Motor.Counted.Counts()
	return err
}

// Each gives the rows to one move, and the move in words.
func (s *Shaft) Each() (rows *big.Rat, words string, err error) {
	perShaft := s.Motor.StepsPerShaftTurn(s.Mode)
	if number, ok := strings.CutSuffix(strings.TrimSuffix(s.Move, "s"), "stop"); ok {
		n, err := strconv.ParseInt(strings.TrimSpace(number), 10, 64)
		if err != nil || n < 1 || n > 1_000_000 {
			return nil, "", fmt.Errorf("1 to 1000000 stops to a turn are wanted, as 45 stops")
		}
		return new(big.Rat).Quo(perShaft, new(big.Rat).SetInt64(n)), fmt.Sprintf("%d stops to a turn", n), nil
	}
	var a quantity.Angle
	if err := a.Set(s.Move); err != nil {
		return nil, "", err
	}
	deg := motor.Exactly(math.Abs(a.Base()))
	if deg.Sign() == 0 {
		return nil, "", fmt.Errorf("0deg is no move")
	}
	rows = new(big.Rat).Mul(deg, perShaft)
	return rows.Quo(rows, big.NewRat(360, 1)), a.String() + " again and again", nil
}
