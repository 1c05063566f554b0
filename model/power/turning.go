package power

import (
	"math"

	"coilwalk/model/quantity"
	"coilwalk/model/rotor"
	"coilwalk/sequence"
)

// Balance says who gets how many watts while it is on, once all is warm: what the
// supply gives is the sum of the rest.
type Balance struct {
	Supply   float64 // at its terminals, net of what clamps return
	Copper   float64
	Series   float64 // in resistors in series with the coils
	Stage    float64 // in what is on
	Clamp    float64 // in diodes
	Friction float64 // of motor and load
	Damping  float64 // of that, what grows with the speed
	Shaft    float64 // what the load gets
	Source   float64 // in the supply's own resistance, besides
}

// slowRate is the rate in rows a second below which what happens as a row begins
// hardly counts: the rows are taken at rest, in turn.
const slowRate = 20

// plant puts the connected motor into time, at a winding temperature in °C, on a
// supply of so many volts.
func (q *Question) plant(c coil, windingC, junctionC, volts, ampere float64) (rotor.Plant, []rotor.Estimate, error) {
	p, estimates, err := plantIn(q.Motor, q.Connection, q.Stage.Around(ampere, junctionC), quantity.Volts(volts))
	if err != nil {
		return p, nil, err
	}
	p.Resistance = c.at(windingC) + q.Series
	p.Current = c.rated
	if q.Stage.Regulates() {
		p.Current = q.set()
	}
	p.Load.Torque = q.Load
	return p, estimates, p.Check()
}

// turns is what a motor takes while it turns, at a winding temperature.
type turns struct {
	spent    rotor.Spent
	followed bool
}

// turning runs it at a rate. ok is false where it can not be run at all.
func (q *Question) turning(c coil, windingC, junctionC float64, slow ModeCost) (t turns, ok bool) {
	ampere := 0.0
	for _, i := range slow.Rest.Coils {
		ampere = max(ampere, math.Abs(i))
	}
	volts := q.Supply.Leaves(slow.Average)
	p, _, err := q.plant(c, windingC, junctionC, volts, ampere)
	if err != nil || volts <= 0 {
		return t, false
	}
	trials := rotor.NewTrials(p, q.Mode)
	t.spent, t.followed = trials.Spend(q.Rate)
	return t, trials.Err() == nil
}

// balance puts a run into its parts; that of the series resistors is copper to the
// run.
func (q *Question) balance(s rotor.Spent, c coil, windingC float64) Balance {
	series := s.Copper * q.Series / (c.at(windingC) + q.Series)
	b := Balance{Supply: s.Supply, Copper: s.Copper - series, Series: series, Stage: s.Switch, Clamp: s.Clamp, Friction: s.Viscous + s.Dry, Damping: s.Viscous, Shaft: s.Load}
	if volts := q.Supply.Volts; volts > 0 { // the mean current through the supply's resistance, as it was for the run
		i := s.Supply / volts
		b.Source = i * i * q.Supply.Ohms
	}
	return b
}

// Heating gives the current of a coil as its heat counts it, of a motor that turns
// and was run: the root of its mean square, over rows in which it is off as well.
func (a *Answer) Heating() float64 {
	coils := 2.0
	if a.Connection.Drive == sequence.Unipolar {
		coils = 4
	}
	return math.Sqrt(a.Balance.Copper / coils / Copper(a.Ohms, sheetC, a.Final))
}

// standing is the balance of a row at rest.
func standing(c Cost) Balance {
	return Balance{Supply: c.In(), Copper: c.Copper, Series: c.Series, Stage: c.Stage(), Source: c.Source}
}

// stepping is the balance of a mode walked slowly.
func stepping(m ModeCost) Balance {
	return Balance{Supply: m.In, Copper: m.Copper, Series: m.Series, Stage: m.Stage, Source: m.Source}
}
