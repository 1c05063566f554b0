package trouble

import (
	"errors"
	"math/big"
	"sync"

	"coilwalk/model/driver"
	"coilwalk/model/motor"
	"coilwalk/model/power"
	"coilwalk/model/quantity"
	"coilwalk/model/rotor"
	"coilwalk/model/wiring"
	"coilwalk/sequence"
)

// Found is what the model of a motor says to a question; what was not asked is nil.
type Found struct {
	Symptoms []wiring.Symptom
	Judged   *wiring.Judged
	Rates    []ModeRates
	Stage    driver.Stage // that the rates are on
	Power    *power.Answer
	Shaft    *ShaftRows
}

// ModeRates is what a step mode starts and follows.
type ModeRates struct {
	Mode  sequence.Mode
	Rates rotor.Rates
}

// ShaftRows is what a half step is at the shaft.
type ShaftRows struct {
	Rows    *big.Rat // to a turn
	Rounded *big.Rat // the ratio in whole turns, as people print it; nil without a train, or where it is whole
	Drift   motor.Drift
}

// Ask runs the model of a motor for a question. Faults take a fifth of a
// second, rates up to one. An error says what the motor's figures do not allow.
func (a Ask) Ask(m motor.Motor) (Found, error) {
	switch a.Engine {
	case Faults:
		return a.faults(m)
	case Rates:
		return ratesOf(m)
	case Power:
		return heldOf(m)
	case Shaft:
		return shaftOf(m), nil
	}
	return Found{}, nil
}

func (a Ask) faults(m motor.Motor) (f Found, err error) {
	for _, told := range a.Told {
		s, err := wiring.ParseSymptom(told)
		if err != nil {
			return f, err
		}
		f.Symptoms = append(f.Symptoms, s)
	}
	judged := wiring.NewSuspects(m).Judge(f.Symptoms)
	f.Judged = &judged
	return f, nil
}

func ratesOf(m motor.Motor) (f Found, err error) {
	plant, _, err := rotor.PlantOf(m, driver.Usual(m.Drive, false), quantity.Voltage{})
	if err != nil {
		return f, err
	}
	f.Stage = plant.Stage
	f.Rates = []ModeRates{{Mode: sequence.Full}, {Mode: sequence.Half}}
	var failed [2]error
	var both sync.WaitGroup
	for i := range f.Rates {
		both.Go(func() {
			trials := rotor.NewTrials(plant, f.Rates[i].Mode)
			f.Rates[i].Rates, _ = trials.Follow(rotor.Sweep{}, nil)
			failed[i] = trials.Err()
		})
	}
	both.Wait()
	return f, errors.Join(failed[:]...)
}

func heldOf(m motor.Motor) (f Found, err error) {
	q, err := power.Ask(m, driver.Usual(m.Drive, true), driver.Supply{})
	if err != nil {
		return f, err
	}
	q.Mode = sequence.Half
	f.Power, err = power.Sketch(q)
	return f, err
}

func shaftOf(m motor.Motor) Found {
	s := &ShaftRows{Rows: m.StepsPerShaftTurn(sequence.Half)}
	if m.Train.Geared() && !m.Train.Ratio().IsInt() {
		whole := new(big.Rat).Add(m.Train.Ratio(), big.NewRat(1, 2))
		s.Rounded = new(big.Rat).SetInt(new(big.Int).Div(whole.Num(), whole.Denom()))
		believed := new(big.Rat).Mul(s.Rows, new(big.Rat).Quo(s.Rounded, m.Train.Ratio()))
		s.Drift = motor.DriftOf(s.Rows, believed)
	}
	return Found{Shaft: s}
}
