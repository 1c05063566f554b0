package sheet

import (
	"fmt"

	"coilwalk/model/files"
	"coilwalk/model/motor"
	"coilwalk/model/power"
	"coilwalk/model/quantity"
	"coilwalk/model/rotor"
	"coilwalk/model/travel"
	"coilwalk/sequence"
)

// Rates is what is asked of the motor in time.
type Rates struct {
	Motor motor.Motor
	Mode  sequence.Mode
	Driving
	Load      quantity.Torque
	Inertia   quantity.Inertia
	Rate      float64 // asked about; 0 for none
	Driven    power.Driven
	Plant     rotor.Plant
	Estimates []rotor.Estimate
}

// RatesLines are the lines of it.
func RatesLines(m motor.Motor) []Line[Rates] {
	return []Line[Rates]{
		{"stage", asksStage, "", (*Rates).setStage},
		{"supply", asksSupply, "", (*Rates).setSupply},
		{"connected", asksConnected, "", (*Rates).setConnection},
		{"step mode", asksMode, "", (*Rates).setMode},
		{"load", "what pulls back at the output shaft, as 20mN.m:", m.Figures.Load.String(), (*Rates).setLoad},
		{"inertia", "of what hangs on the output shaft, as 5g.cm2:", "", (*Rates).setInertia},
		{"rate", "judge this one, in rows a second:", "", (*Rates).setRate},
		{"set to", asksSet, "", (*Rates).setCurrent},
	}
}

// Drives settles how the motor is driven.
func (s *Rates) Drives() (err error) {
	s.Driven, err = s.drives(s.Motor)
	return err
}

// Machine makes the plant that the sheet describes.
func (s *Rates) Machine() (err error) {
	if err = s.Drives(); err != nil {
		return err
	}
	if s.Plant, s.Estimates, err = s.Driven.Plant(); err != nil {
		return err
	}
	if s.Load.Given() {
		s.Plant.Load.Torque = s.Load.Base()
	}
	s.Plant.Load.Inertia = s.Inertia.Base()
	s.Driven.Heat.Mode, s.Driven.Heat.Load = s.Mode, s.Plant.Load.Torque
	return s.Plant.Check()
}

func (s *Rates) setMode(text string) (err error) {
	if text == "" {
		return nil
	}
	s.Mode, err = sequence.ParseMode(text)
	return err
}

func (s *Rates) setLoad(text string) error {
	s.Load = quantity.Torque{}
	if text == "" {
		return nil
	}
	return s.Load.Set(text)
}

func (s *Rates) setInertia(text string) error {
	s.Inertia = quantity.Inertia{}
	if text == "" {
		return nil
	}
	if err := s.Inertia.Set(text); err != nil {
		return err
	}
	if s.Inertia.Base() < 0 {
		return fmt.Errorf("an inertia can not be negative")
	}
	return nil
}

func (s *Rates) setRate(text string) (err error) {
	s.Rate = 0
	if text == "" {
		return nil
	}
	if s.Rate, err = quantity.Rows(text); err == nil && s.Rate > travel.MostRate {
		err = fmt.Errorf("%s is more than any small motor follows; at most %d rows a second are taken", files.Quoted(text), travel.MostRate)
	}
	return err
}
