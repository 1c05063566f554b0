// Package power says what a motor costs: what its coils, its driver stage and its
// supply carry, how warm they get, and whether that will do.
package power

import (
	"fmt"
	"math"

	"coilwalk/model/driver"
	"coilwalk/model/files"
	"coilwalk/model/motor"
	"coilwalk/sequence"
)

// Question is what is asked: a motor in a connection, on a stage and a supply,
// doing something for some time. Ask fills what is left out.
type Question struct {
	Motor      motor.Motor
	Connection motor.Connection // how its coils are joined; its Drive is the drive
	Stage      driver.Stage
	Supply     driver.Supply
	Mode       sequence.Mode
	Rate       float64 // rows a second; 0 for held at rest, on the row that costs most
	Duty       float64 // part of the time in which it is so; else all is off
	Current    float64 // A, that a stage is set to that regulates; else no matter
	Hold       float64 // part of it, at rest
	Series     float64 // ohm, put in series with each coil
	Ambient    float64 // °C
	For        float64 // s, that it goes on; 0 for good
	Logic      float64 // V, the controller's high level; 0 when it is not asked
	Load       float64 // N·m at the shaft, that it has to hold or turn

	aside  bool // one of many alternatives: the course of its temperature is not wanted
	slowly bool // not run in time: the rows are taken at rest in turn, which costs more
}

// runs says whether the motor is run in time for it.
func (q *Question) runs() bool { return q.Rate >= slowRate && !q.slowly }

// Suits is the title of a supply that nobody named.
const Suits = "a supply that suits"

// Ask puts a question with the usual answers to what is not said: the connection
// that the motor's drive means, a usual stage, a supply that the motor's figures
// call for, half step, held at rest for good in a room of 25 °C. The supply may be
// the zero one.
func Ask(m motor.Motor, stage driver.Stage, supply driver.Supply) (Question, error) {
	return AskIn(m, ConnectionOn(m, stage), stage, supply)
}

// Asked is Ask with the usual stage where the zero one is named, in the connection
// of a word, "" for the usual one.
func Asked(m motor.Motor, stage driver.Stage, supply driver.Supply, connection string) (Question, error) {
	if connection == "" {
		if stage.Name == "" {
			stage = driver.Usual(m.Drive, true)
		}
		return Ask(m, stage, supply)
	}
	c, err := ConnectionNamed(m, connection)
	if err != nil {
		return Question{}, err
	}
	if stage.Name == "" {
		stage = driver.Usual(c.Drive, true)
	}
	return AskIn(m, c, stage, supply)
}

// AskIn is Ask of a motor in a connection.
func AskIn(m motor.Motor, c motor.Connection, stage driver.Stage, supply driver.Supply) (Question, error) {
	q := Question{Motor: m, Connection: c, Stage: stage, Supply: supply, Mode: sequence.Half, Duty: 1, Hold: 1, Ambient: 25, Load: m.Figures.Load.Base()}
	coil, err := q.coil()
	if err != nil {
		return q, err
	}
	q.Current = coil.rated
	if q.Supply.Volts == 0 {
		q.Supply.Volts = q.usualVolts(coil)
		if q.Supply.Name == "" {
			q.Supply.Title, q.Supply.Source = Suits, "none was named: what brings the rated current through the stage"
		}
	}
	return q, nil
}

// connectionFor gives the connection of a motor for a drive that holds most, the
// first of such.
func connectionFor(m motor.Motor, d sequence.Drive) (best motor.Connection) {
	for _, c := range m.Connections() {
		if c.Drive == d && c.Torque > best.Torque {
			best = c
		}
	}
	return best
}

// usualVolts gives the voltage of a supply that is not named: what brings the rated
// current through the stage; of a stage that regulates, several times as much, at
// least what it needs, and no more than it stands with ease.
func (q *Question) usualVolts(c coil) float64 {
	volts := c.rated * c.ohms
	if l := q.Stage.Limits; q.Stage.Regulates() && !q.Stage.Instant() {
		usual := max(12, l.Least, math.Ceil(4*volts))
		if l.Most > 0 {
			usual = min(usual, max(l.Least, math.Floor(nearly*l.Most)))
		}
		return usual
	}
	return volts + q.Stage.Around(c.rated, sheetC).Switch.At(c.rated)
}

// Check says what keeps a question from being one.
func (q *Question) Check() error {
	wrong := func(what, right string) error { return &files.Complaint{What: what, Right: right} }
	for _, part := range []struct {
		name        string
		value       float64
		least, most float64
		unit        string
	}{
		{"the supply", q.Supply.Volts, 1e-3, 1e4, " V"}, {"the supply's resistance", q.Supply.Ohms, 0, 1e6, " ohm"}, {"the supply's limit", q.Supply.Limit, 0, 1e6, " A"},
		{"the rate", q.Rate, 0, 1e6, " rows/s"}, {"the duty", q.Duty, 0, 1, ""}, {"the current", q.Current, 1e-6, 1e4, " A"}, {"the hold", q.Hold, 0, 1, ""},
		{"the series resistance", q.Series, 0, 1e6, " ohm"}, {"the ambient temperature", q.Ambient, -100, 200, " °C"}, {"the time", q.For, 0, 1e10, " s"},
		{"the logic level", q.Logic, 0, 1e3, " V"},
	} {
		if !(part.value >= part.least && part.value <= part.most) {
			return wrong(fmt.Sprintf("%s can not be %g%s", part.name, part.value, part.unit), fmt.Sprintf("from %g to %g%s is wanted", part.least, part.most, part.unit))
		}
	}
	_, err := q.coil()
	return err
}

// set gives what a stage that regulates holds, in A.
func (q *Question) set() float64 {
	if q.Rate == 0 {
		return q.Current * q.Hold
	}
	return q.Current
}
