package power

import (
	"math"

	"coilwalk/sequence"
)

// Winding is a winding's temperature followed in time, as rows come and go:
//
//	dt/ds = (ambient + Rth·P(row, t) − t)/time constant
//
// The rotor is taken to stand: a turning motor's back-EMF keeps its currents
// lower, so that the temperature is rather told too high.
type Winding struct {
	Question
	Body
	Estimated bool    // the body's figures are those of motors of the kind
	Celsius   float64 // now

	coil coil
}

// Follow begins to follow a winding, at the ambient temperature.
func Follow(q Question) (*Winding, error) {
	if err := q.Check(); err != nil {
		return nil, err
	}
	c, err := q.coil()
	if err != nil {
		return nil, err
	}
	body, estimates := q.body()
	return &Winding{Question: q, Body: body, Estimated: len(estimates) > 0, Celsius: q.Ambient, coil: c}, nil
}

// Pass lets seconds go by under a row, given as it arrives at the coil ends.
func (w *Winding) Pass(row sequence.Row, seconds float64) {
	to := w.Ambient + w.Thermal*w.Costs(row).Copper
	w.Celsius = min(Hottest, to+(w.Celsius-to)*math.Exp(-seconds/w.Seconds))
}

// Costs works out a row as warm as the winding is now.
func (w *Winding) Costs(row sequence.Row) Cost {
	return w.costs(row, w.coil, w.Celsius, w.Ambient)
}
