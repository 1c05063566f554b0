package sheet

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"coilwalk/model/files"
	"coilwalk/model/handoff"
	"coilwalk/model/motor"
	"coilwalk/model/quantity"
	"coilwalk/sequence"
	"coilwalk/view/opened"
	"coilwalk/view/report"
)

// Take is what the lines of Take along say.
type Take struct {
	Kind     handoff.Kind
	Mode     sequence.Mode
	Stepper  bool
	Board    handoff.Board
	IdleOff  bool
	Rate     float64 // rows a second
	Rated    bool    // it was said
	Start    float64
	Accel    float64 // rows a second in each second; 0 without such a ramp
	Ticks    []int64 // of a ramp that is given so
	ClockHz  int64
	Prescale int64
	Rows     int64 // 0 when not said
}

// TakeLines are the lines of it.
func TakeLines() []Line[Take] {
	return []Line[Take]{
		{"kind", strings.Join(kindNames(), ", ") + ":", "c", (*Take).setKind},
		{"step mode", asksMode, "", (*Take).setMode},
		{"holds", "tables of both directions, or a stepper, which steps by itself (c, cpp):", "tables", (*Take).setHolds},
		{"port", "the register of the outputs as in source, as PORTB:", "", (*Take).setPort},
		{"bits", "the bits of outputs 1 to 4 there, as 0,1,2,3:", "", (*Take).setBits},
		{"pins", "the pin numbers of outputs 1 to 4, as 2,3,4,5:", "", (*Take).setPins},
		{"active", "the level that switches an output on, high or low:", "", (*Take).setActive},
		{"at rest", "held, or all coils off:", "held", (*Take).setRest},
		{"rate", "rows a second, as 250; with a ramp the rate that it leads to:", "", (*Take).setRate},
		{"ramp", "start rate, and rows/s more each second: 300 2000; or ticks: 20000,15000:", "", (*Take).setRamp},
		{"clock", "of the controller, and cycles to a tick of its timer, as 16MHz 8:", "", (*Take).setClock},
		{"rows", "of a recording (vcd), each way:", "", (*Take).setRows},
	}
}

// NewTake is a sheet with nothing said yet. Of a table that was opened, nil without
// one, it has the bits and the level of its outputs: what is taken along goes where
// that stood.
func NewTake(mode sequence.Mode, from *opened.Table) Take {
	s := Take{Mode: mode, Board: handoff.Plain, Rate: handoff.UsualRate, ClockHz: handoff.UsualClock, Prescale: handoff.UsualPrescale}
	if from == nil {
		return s
	}
	s.Board.ActiveLow = from.Question.ActiveLow
	if bits := from.Verdict().Table.Bits; len(bits) == len(s.Board.Bits) && slices.Max(bits) <= handoff.MostBit {
		copy(s.Board.Bits[:], bits)
	}
	return s
}

// ActiveWord says the level that counts while none is said.
func ActiveWord(from *opened.Table) string {
	if NewTake(sequence.Half, from).Board.ActiveLow {
		return "low, as in " + from.File
	}
	return "high"
}

// BitsWords says the bits that count while none are said, and where they are from.
func BitsWords(from *opened.Table) string {
	own := NewTake(sequence.Half, from).Board.Bits
	words := strings.Trim(strings.ReplaceAll(fmt.Sprint(own), " ", ","), "[]")
	if from != nil && own != handoff.Plain.Bits {
		words += ", as " + from.File + " is read"
	}
	return words
}

// TakeWords are what some lines can hold; the others take letters.
func TakeWords(line string) []string {
	switch line {
	case "kind":
		return kindNames()
	case "step mode":
		names := sequence.ModeNames()
		names[len(names)-1] += " 16"
		return append([]string{""}, names...)
	case "holds":
		return []string{"tables", "stepper"}
	case "active":
		return []string{"high", "low"}
	case "at rest":
		return []string{"held", "off"}
	}
	return nil
}

// mostRows of a recording are made at each letter that is typed; more take time,
// and the command for them.
const mostRows = 20_000

// Walk puts a sheet and a motor together.
func (s *Take) Walk(m motor.Motor) (*handoff.Walk, error) {
	pace, err := s.pace()
	if err != nil {
		return nil, err
	}
	w := &handoff.Walk{Motor: m, Mode: s.Mode, Board: s.Board, Pace: pace, Rows: s.Rows, IdleOff: s.IdleOff, Stepper: s.Stepper}
	if w.Rows == 0 {
		w.Rows = w.Usual()
	}
	if cycle := int64(s.Mode.Rows()); w.Rows < cycle {
		return nil, fmt.Errorf("rows: %d are less than a cycle, which has %d", w.Rows, cycle)
	}
	return w, nil
}

// pace says how the rows follow one another.
func (s *Take) pace() (handoff.Pace, error) {
	switch {
	case s.Ticks != nil && s.Rated:
		return handoff.Pace{}, errors.New("a ramp of ticks ends at its own rate; empty the line rate first")
	case s.Ticks != nil:
		return handoff.Pace{ClockHz: s.ClockHz, Prescale: s.Prescale}.With(s.Ticks)
	case s.Accel > 0 && s.Start > s.Rate:
		return handoff.Pace{}, fmt.Errorf("the ramp starts at %g rows a second, above the rate of %g", s.Start, s.Rate)
	case s.Accel > 0:
		return handoff.Speeding(s.ClockHz, s.Prescale, s.Start, s.Rate, s.Accel)
	}
	return handoff.Even(s.ClockHz, s.Prescale, s.Rate)
}

// Misses says what the kind needs and was not said.
func (s *Take) Misses() error {
	if s.Kind.Numbers && !s.Board.Numbered {
		return fmt.Errorf("%s sets pins by their numbers; give those of outputs 1 to 4 under pins, as 2,3,4,5", s.Kind.Name)
	}
	return nil
}

func (s *Take) setKind(text string) error {
	if text == "" {
		text = "c"
	}
	kind, ok := report.KindNamed(text)
	if !ok {
		if near := files.Nearest(text, kindNames()); near != "" {
			return fmt.Errorf("%s is no kind of file; did you mean %s?", files.Quoted(text), near)
		}
		return fmt.Errorf("%s is no kind of file; %s are", files.Quoted(text), strings.Join(kindNames(), ", "))
	}
	s.Kind = kind
	return nil
}

func (s *Take) setMode(text string) (err error) {
	if text != "" {
		s.Mode, err = sequence.ParseMode(text)
	}
	return err
}

func (s *Take) setHolds(text string) (err error) {
	s.Stepper, err = second(text, "tables", "stepper")
	return err
}

func (s *Take) setActive(text string) (err error) {
	s.Board.ActiveLow, err = second(text, "high", "low")
	return err
}

func (s *Take) setRest(text string) (err error) {
	s.IdleOff, err = second(text, "held", "off")
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
	return false, fmt.Errorf("%s or %s is wanted, not %s", one, other, files.Quoted(text))
}

func (s *Take) setPort(text string) error {
	if text == "" {
		return nil
	}
	return s.Board.SetPort(text)
}

func (s *Take) setBits(text string) error {
	if text == "" {
		return nil
	}
	return s.Board.SetBits(text)
}

func (s *Take) setPins(text string) error {
	if text == "" {
		return nil
	}
	return s.Board.SetPins(text)
}

func (s *Take) setRate(text string) (err error) {
	if text != "" {
		s.Rate, err = quantity.Rows(text)
		s.Rated = true
	}
	return err
}

// setRamp takes ticks where there is a comma, else a start rate and how fast the
// rate grows.
func (s *Take) setRamp(text string) (err error) {
	if text == "" {
		return nil
	}
	if strings.Contains(text, ",") {
		s.Ticks, err = handoff.ParseIntervals(text)
		return err
	}
	words := strings.Fields(text)
	if len(words) != 2 {
		return fmt.Errorf("%s: a start rate and its growth are wanted, as 300 2000, or ticks, as 9000,7000", files.Quoted(text))
	}
	if s.Start, err = quantity.Rows(words[0]); err != nil && words[0] != "0" {
		return err
	}
	s.Accel, err = strconv.ParseFloat(words[1], 64)
	if err != nil || !(s.Accel > 0) || math.IsInf(s.Accel, 0) {
		return fmt.Errorf("%s is no acceleration; rows/s more in each second are wanted, above 0, as 2000", files.Quoted(words[1]))
	}
	return nil
}

// setClock takes a clock, and after it the cycles to a tick.
func (s *Take) setClock(text string) error {
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
		return fmt.Errorf("%s: whole cycles a second are wanted, as 16MHz", files.Quoted(words[0]))
	}
	s.ClockHz = int64(hz)
	if len(words) == 1 {
		return nil
	}
	n, err := strconv.ParseInt(strings.Join(words[1:], " "), 10, 64)
	if err != nil {
		return fmt.Errorf("%s: the cycles to a tick are wanted after the clock, as 16MHz 8", files.Quoted(text))
	}
	s.Prescale = n
	return nil
}

func (s *Take) setRows(text string) (err error) {
	if text == "" {
		return nil
	}
	s.Rows, err = strconv.ParseInt(text, 10, 64)
	if err != nil || s.Rows < 1 {
		return fmt.Errorf("%s: a whole number of rows is wanted, as 64", files.Quoted(text))
	}
	if s.Rows > mostRows {
		return fmt.Errorf("here up to %d rows are recorded; coilwalk write vcd --rows %d writes more", mostRows, s.Rows)
	}
	return nil
}

func kindNames() (names []string) {
	for _, k := range report.Kinds {
		names = append(names, k.Name)
	}
	return names
}
