package view

import (
	"fmt"
	"math"
	"time"

	"coilwalk/model/bench"
	"coilwalk/model/rotor"
	"coilwalk/view/report"
)

// slowed is whether a row that is energised by hand is played as the rotor really
// takes it, and how many times slower that and a run are shown.
type slowed struct {
	at       int // of slowness
	response rotor.Response
	fault    string // why there is nothing to play
}

// slowness are the ways to play a row: 0 for a plain turn.
var slowness = []float64{0, 50, 200, 1000, 2, 10}

// by gives how many times slower than it is a motion is shown; 0 for plain turns.
func (s *slowed) by() float64 { return slowness[s.at] }

// slower goes to the next of them.
func (e *Explorer) slower() {
	s := &e.slowed
	s.at = (s.at + 1) % len(slowness)
	s.response, s.fault = rotor.Response{}, ""
	e.turn = turning{}
	if slowness[s.at] == 0 {
		e.notice = advice("a row by hand turns the rotor to its rest; a run goes as fast as it is")
		return
	}
	e.notice = advice(fmt.Sprintf("rows by hand, and a run, are played as the rotor takes them, %.0f times slower", slowness[s.at]))
}

// play sets the picture on the way that the rotor really goes from one rest to
// the next; false where that is not wanted or not known, as while it runs.
func (e *Explorer) play(before, now bench.Reading) bool {
	s := &e.slowed
	slow := slowness[s.at]
	if slow == 0 || now.Running || now.Coils == before.Coils || !before.HasField || !now.HasField {
		return false
	}
	plant, err := e.bench.Plant()
	if err != nil {
		s.fault = err.Error()
		return false
	}
	from, _ := before.Where.Known()
	to, _ := now.Where.Known()
	s.response, err = rotor.Respond(plant, before.Coils, now.Coils, rotor.ResponseSeconds(plant))
	turned := to.From(from)
	if err != nil || math.Abs(s.response.Step-turned) > 5 { // another rest than the slow one: not what is told beside it
		s.response = rotor.Response{}
		return false
	}
	p := &played{every: time.Duration(slow * (s.response.Times[1] - s.response.Times[0]) * float64(time.Second))}
	for i, deg := range s.response.Degrees {
		p.left = append(p.left, turned-deg)
		if s.response.Settling > 0 && s.response.Times[i] > 1.3*s.response.Settling {
			break
		}
	}
	e.turn = turning{start: e.Now(), played: p}
	return true
}

// words says what was played: "×1/50, rings 94 Hz".
func (s *slowed) words() string {
	slow := slowness[s.at]
	if slow == 0 {
		return ""
	}
	words := fmt.Sprintf("×1/%.0f", slow)
	switch {
	case s.fault != "":
		return words + ": " + s.fault
	case s.response.RingHz > 0:
		words += fmt.Sprintf(", rings %s Hz", report.Hertz(s.response.RingHz))
	case s.response.Step != 0:
		words += ", does not ring"
	}
	return words
}
