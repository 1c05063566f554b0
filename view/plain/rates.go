package plain

import (
	"coilwalk/model/rotor"
	"coilwalk/sequence"
	"coilwalk/view/report"
	"coilwalk/view/sheet"
)

// ratesSheet reads what stands under rates.
func (m *Mode) ratesSheet() (sheet.Rates, error) {
	return sheet.Read(m.sheets.rates, sheet.Rates{Motor: m.driven(), Mode: sheet.Walked(m.Bench)})
}

// rates runs the motor in time.
func (m *Mode) rates(args []string) {
	sheet.Into(&m.sheets.shared, m.sheets.rates)
	use := func() error {
		s, err := m.ratesSheet()
		if err == nil {
			err = s.Drives()
		}
		if err == nil {
			sheet.Keep(&m.sheets.shared, m.sheets.rates)
		}
		return err
	}
	if !edit(m, "rates", m.sheets.rates, args, use) {
		return
	}
	answer, _, err := m.followed()
	if err != nil {
		m.fail(err)
		return
	}
	first := []string{"power: ", "start-stop rate: "}
	if answer.For != nil {
		first = thoughts(report.Sentence(answer.For.Text) + ".")
	}
	m.leading(answer.Text(), first...)
}

// followed finds the rates that the motor follows.
func (m *Mode) followed() (*report.Rates, sheet.Rates, error) {
	s, err := m.ratesSheet()
	if err == nil {
		err = s.Machine()
	}
	if err != nil {
		return nil, s, err
	}
	if report.ForbiddenBy(s.Driven).Idle() != nil {
		answer := report.NewIdleRates(s.Motor, s.Mode, s.Plant)
		answer.Drives(s.Driven, "power")
		if s.Rate > 0 {
			answer.Judge(s.Rate)
		}
		return answer, s, nil
	}
	order := s.Mode.Order()
	response, err := rotor.Respond(s.Plant, order.Row(0), order.Row(1), rotor.ResponseSeconds(s.Plant))
	if err != nil {
		return nil, s, err
	}
	trials := rotor.NewTrials(s.Plant, s.Mode)
	found, _ := trials.Follow(rotor.Sweep{}, nil)
	if err := trials.Err(); err != nil {
		return nil, s, err
	}
	answer := report.NewRates(s.Motor, s.Mode, s.Plant, response, found)
	answer.Drives(s.Driven, "power")
	answer.AddEstimates(s.Estimates, nil)
	for _, other := range []sequence.Mode{sequence.Full, sequence.Half} {
		rates := found
		if other.Name != s.Mode.Name {
			rates, _ = rotor.NewTrials(s.Plant, other).Follow(rotor.Sweep{}, nil)
		}
		answer.Compare(other, rates)
	}
	if s.Rate > 0 {
		answer.Judge(s.Rate)
		_, play, known := s.Motor.Train.Play()
		if turned, err := rotor.Reverse(s.Plant, play, s.Mode, s.Rate); err == nil {
			answer.AddReversal(turned, known)
		}
	}
	return answer, s, nil
}

// curveLoads is how many loads the curve has.
const curveLoads = 12

// curve says both rates over the load.
func (m *Mode) curve([]string) {
	sheet.Into(&m.sheets.shared, m.sheets.rates)
	s, err := m.ratesSheet()
	if err == nil {
		err = s.Machine()
	}
	if err != nil {
		m.fail(err)
		return
	}
	if err := report.ForbiddenBy(s.Driven).Idle(); err != nil {
		m.fail(err)
		return
	}
	points, _ := rotor.Curve(s.Plant, s.Mode, rotor.CurveLoads(s.Plant, curveLoads), nil)
	for _, line := range report.CurveLines(points) {
		m.say("%s", line)
	}
}
