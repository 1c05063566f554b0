package view

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"coilwalk/model/files"
	"coilwalk/model/handoff"
	"coilwalk/model/motor"
	"coilwalk/model/quantity"
	"coilwalk/sequence"
	"coilwalk/view/report"
)

// takeSheet is what the lines of Take along say.
type takeSheet struct {
	kind     handoff.Kind
	mode     sequence.Mode
	stepper  bool
	board    handoff.Board
	idleOff  bool
	rate     float64 // rows a second
	rated    bool    // it was said
	start    float64
	accel    float64 // rows a second in each second; 0 without such a ramp
	ticks    []int64 // of a ramp that is given so
	clockHz  int64
	prescale int64
	rows     int64 // 0 when not said
}

// mostRows of a recording are made at each letter that is typed; more take time,
// and the command for them.
const mostRows = 20_000

// walk puts a sheet and a motor together.
func (s *takeSheet) walk(m motor.Motor) (*handoff.Walk, error) {
	pace, err := s.pace()
	if err != nil {
		return nil, err
	}
	w := &handoff.Walk{Motor: m, Mode: s.mode, Board: s.board, Pace: pace, Rows: s.rows, IdleOff: s.idleOff, Stepper: s.stepper}
	if w.Rows == 0 {
		w.Rows = w.Usual()
	}
	if cycle := int64(s.mode.Rows()); w.Rows < cycle {
		return nil, fmt.Errorf("rows: %d are less than a cycle, which has %d", w.Rows, cycle)
	}
	return w, nil
}

// pace says how the rows follow one another.
func (s *takeSheet) pace() (handoff.Pace, error) {
	switch {
	case s.ticks != nil && s.rated:
		return handoff.Pace{}, errors.New("a ramp of ticks ends at its own rate; empty the line rate first")
	case s.ticks != nil:
		return handoff.Pace{ClockHz: s.clockHz, Prescale: s.prescale}.With(s.ticks)
	case s.accel > 0 && s.start > s.rate:
		return handoff.Pace{}, fmt.Errorf("the ramp starts at %g rows a second, above the rate of %g", s.start, s.rate)
	case s.accel > 0:
		return handoff.Speeding(s.clockHz, s.prescale, s.start, s.rate, s.accel)
	}
	return handoff.Even(s.clockHz, s.prescale, s.rate)
}

// misses says what the kind needs and was not said.
func (s *takeSheet) misses() error {
	if s.kind.Name == "micropython" && !s.board.Numbered {
		return errors.New("micropython sets pins by their numbers; give those of outputs 1 to 4 under pins, as 2,3,4,5")
	}
	return nil
}

func (s *takeSheet) setKind(text string) error {
	if text == "" {
		text = "c"
	}
	kind, ok := report.KindNamed(text)
	if !ok {
		if near := files.Nearest(text, kindNames()); near != "" {
			return fmt.Errorf("%q is no kind of file; did you mean %s?", text, near)
		}
		return fmt.Errorf("%q is no kind of file; %s are", text, strings.Join(kindNames(), ", "))
	}
	s.kind = kind
	return nil
}

func (s *takeSheet) setMode(text string) (err error) {
	if text != "" {
		s.mode, err = modeOf(text)
	}
	return err
}

func (s *takeSheet) setHolds(text string) (err error) {
	s.stepper, err = second(text, "tables", "stepper")
	return err
}

func (s *takeSheet) setActive(text string) (err error) {
	s.board.ActiveLow, err = second(text, "high", "low")
	return err
}

func (s *takeSheet) setRest(text string) (err error) {
	s.idleOff, err = second(text, "held", "off")
	return err
}

// second says whether a text is the second of two words; the first counts for
// none.
func second(text, one, other string) (bool, error) {
	switch text {
	case "", one:
		return false, nil
	case other:
		return true, nil
	}
	return false, fmt.Errorf("%s or %s is wanted, not %q", one, other, text)
}

func (s *takeSheet) setPort(text string) error {
	if text == "" {
		return nil
	}
	return s.board.SetPort(text)
}

func (s *takeSheet) setBits(text string) error {
	if text == "" {
		return nil
	}
	return s.board.SetBits(text)
}

func (s *takeSheet) setPins(text string) error {
	if text == "" {
		return nil
	}
	return s.board.SetPins(text)
}

func (s *takeSheet) setRate(text string) (err error) {
	if text != "" {
		s.rate, err = perSecond(text)
		s.rated = true
	}
	return err
}

// setRamp takes ticks where there is a comma, else a start rate and how fast the
// rate grows.
func (s *takeSheet) setRamp(text string) (err error) {
	if text == "" {
		return nil
	}
	if strings.Contains(text, ",") {
		s.ticks, err = handoff.ParseIntervals(text)
		return err
	}
	words := strings.Fields(text)
	if len(words) != 2 {
		return fmt.Errorf("%q: a start rate and its growth are wanted, as 300 2000, or ticks, as 9000,7000", text)
	}
	if s.start, err = perSecond(words[0]); err != nil && words[0] != "0" {
		return err
	}
	s.accel, err = strconv.ParseFloat(words[1], 64)
	if err != nil || !(s.accel > 0) || math.IsInf(s.accel, 0) {
		return fmt.Errorf("%q is no acceleration; rows/s more in each second are wanted, above 0, as 2000", words[1])
	}
	return nil
}

// perSecond reads rows a second, as 250 or 250/s.
func perSecond(text string) (float64, error) {
	var r quantity.Rate
	if v, err := strconv.ParseFloat(text, 64); err == nil {
		r = quantity.PerSecond(v)
	} else if r.Set(text) != nil {
		return 0, fmt.Errorf("%q is no rate; rows a second are wanted, as 250", text)
	}
	if v := r.Base(); v > 0 && !math.IsInf(v, 0) {
		return v, nil
	}
	return 0, fmt.Errorf("%q is no rate; one above 0 is wanted", text)
}

// setClock takes a clock, and after it the cycles to a tick.
func (s *takeSheet) setClock(text string) error {
	words := strings.Fields(text)
	if len(words) == 0 {
		return nil
	}
	var clock quantity.Rate
	if err := clock.Set(words[0]); err != nil {
		return err
	}
	hz := clock.Base()
	if hz != math.Trunc(hz) || !(hz >= 1 && hz <= 1e12) {
		return fmt.Errorf("%q: whole cycles a second are wanted, as 16MHz", words[0])
	}
	s.clockHz = int64(hz)
	if len(words) == 1 {
		return nil
	}
	n, err := strconv.ParseInt(strings.Join(words[1:], " "), 10, 64)
	if err != nil {
		return fmt.Errorf("%q: the cycles to a tick are wanted after the clock, as 16MHz 8", text)
	}
	s.prescale = n
	return nil
}

func (s *takeSheet) setRows(text string) (err error) {
	if text == "" {
		return nil
	}
	s.rows, err = strconv.ParseInt(text, 10, 64)
	if err != nil || s.rows < 1 {
		return fmt.Errorf("%q: a whole number of rows is wanted, as 64", text)
	}
	if s.rows > mostRows {
		return fmt.Errorf("here up to %d rows are recorded; coilwalk write vcd --rows %d writes more", mostRows, s.rows)
	}
	return nil
}
