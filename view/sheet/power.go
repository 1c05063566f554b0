package sheet

import (
	"coilwalk/model/motor"
	"coilwalk/model/power"
	"coilwalk/model/quantity"
	"coilwalk/sequence"
)

// Power is what is asked of currents and heat.
type Power struct {
	Motor motor.Motor
	Mode  sequence.Mode
	Driving
	Rate    float64
	Duty    float64
	Ambient quantity.Temperature
	Time    quantity.Time
	Load    quantity.Torque
}

// Drives says how the motor is driven where it is run in time.
func (s *Power) Drives() (power.Driven, error) {
	return s.drives(s.Motor)
}

// PowerLines are the lines of it.
func PowerLines(m motor.Motor) []Line[Power] {
	return []Line[Power]{
		{"stage", asksStage, "", (*Power).setStage},
		{"supply", asksSupply, "", (*Power).setSupply},
		{"connected", asksConnected, "", (*Power).setConnection},
		{"step mode", asksMode, "", (*Power).setMode},
		{"turning", "at how many rows a second; empty for held at rest:", "", (*Power).setRate},
		{"on for", "which part of the time, as 30%:", "", (*Power).setDuty},
		{"set to", asksSet, "", (*Power).setCurrent},
		{"around it", "temperature, as 25C:", "", (*Power).setAmbient},
		{"lasting", "how long it goes on, as 20min; empty for good:", "", (*Power).setTime},
		{"load", "what pulls at the output shaft, as 20mN.m:", m.Figures.Load.String(), (*Power).setLoad},
	}
}

// NewPower is a sheet with nothing asked yet: held at rest, for good, as rated.
func NewPower(m motor.Motor, mode sequence.Mode) Power {
	return Power{Motor: m, Mode: mode, Duty: 1}
}

// Question puts a sheet into one.
func (s *Power) Question() (power.Question, error) {
	q, err := power.Asked(s.Motor, s.Stage, s.Supply, s.Connection)
	if err != nil {
		return q, err
	}
	q.Mode, q.Rate, q.Duty, q.Hold, q.For = s.Mode, s.Rate, s.Duty, 1, s.Time.Base()
	if s.Limit.Given() {
		q.Supply.Limit, q.Supply.Promised = s.Limit.Base(), 0
	}
	if err := s.fits(q.Stage); err != nil {
		return q, err
	}
	if s.Set.holding {
		q.Hold = s.Set.hold
	}
	if s.Set.current.Given() {
		q.Current = s.Set.current.Base()
	}
	if s.Ambient.Given() {
		q.Ambient = s.Ambient.Base()
	}
	if s.Load.Given() {
		q.Load = s.Load.Base()
	}
	return q, q.Check()
}

func (s *Power) setMode(text string) (err error) {
	if text != "" {
		s.Mode, err = sequence.ParseMode(text)
	}
	return err
}

func (s *Power) setRate(text string) error {
	var r Rates
	err := r.setRate(text)
	s.Rate = r.Rate
	return err
}

func (s *Power) setDuty(text string) (err error) {
	if text != "" {
		s.Duty, err = power.ParsePart(text)
	}
	return err
}

func (s *Power) setAmbient(text string) error { return s.Ambient.UnmarshalText([]byte(text)) }

func (s *Power) setTime(text string) error { return s.Time.UnmarshalText([]byte(text)) }

func (s *Power) setLoad(text string) error { return s.Load.UnmarshalText([]byte(text)) }
