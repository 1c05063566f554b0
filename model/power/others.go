package power

import (
	"coilwalk/model/driver"
)

// Resistor is one in series with a coil, or in the lead that two halves share.
type Resistor struct {
	Ohms  float64
	Watts float64 // that it turns into heat while its coil is on
}

// SeriesFor gives the resistor that brings the current of a coil down to so many
// ampere, cold, on the supply as it is without load; ok is false where none is
// wanted, or the stage sets the current itself.
//
//	R = (supply − drop(i))/i − coil
func (a *Answer) SeriesFor(ampere float64) (r Resistor, ok bool) {
	if a.Stage.Regulates() || ampere <= 0 {
		return r, false
	}
	lost := a.Stage.Around(ampere, a.Ambient).Switch.At(ampere)
	c := coil{ohms: a.Ohms}
	r.Ohms = (a.Supply.Volts-lost)/ampere - c.at(a.Ambient) - a.Series
	r.Watts = ampere * ampere * r.Ohms
	return r, r.Ohms > 0.02*c.at(a.Ambient)
}

// Supplied is the same question on another kind of supply.
type Supplied struct {
	Supply driver.Supply
	Answer *Answer
}

// OnEach judges the question on every kind of supply: why one can do it and another
// can not. A kind whose voltage is free has what the motor and its stage need.
func OnEach(q Question) (all []Supplied) {
	c, err := q.coil()
	if err != nil {
		return nil
	}
	for _, s := range driver.Supplies {
		if s.Volts == 0 {
			s.Volts = q.usualVolts(c)
		}
		q.Supply, q.aside, q.slowly = s, true, true
		if a, err := Judge(q); err == nil {
			all = append(all, Supplied{s, a})
		}
	}
	return all
}

// InEach judges the question in every connection that the stage can feed.
func InEach(q Question) (all []*Answer) {
	q.aside, q.slowly = true, true
	for _, c := range q.Motor.Connections() {
		if q.Stage.Allows(c.Drive) != nil {
			continue
		}
		q := q
		q.Connect(c)
		if a, err := Judge(q); err == nil {
			all = append(all, a)
		}
	}
	return all
}
