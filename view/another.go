package view

import (
	"coilwalk/model/bench"
	"coilwalk/model/motor"
	"coilwalk/view/sheet"
)

// keepsMotor says what is open that was read for the motor on the bench, so that it
// can not be another; "" for nothing.
func (e *Explorer) keepsMotor() string {
	switch {
	case e.screenAt(way(&tableScreen{})) >= 0:
		return "the table that is open"
	case e.screenAt(way(&recordingScreen{})) >= 0:
		return "the recording that is open"
	}
	return ""
}

// putOn puts another motor on the bench, as opening its file would: what was told of
// the motor before, its train, its faults, its supply, goes with it. The readings are
// this one's, and stay; and so does the step mode.
func (e *Explorer) putOn(m motor.Motor) {
	e.bench.Stop()
	mode, isMode := e.bench.Read().Order.Mode()
	e.bench = bench.New(m)
	if isMode {
		e.bench.SetMode(mode)
	}
	e.bench.Restart()

	if r := screenOf[*ratesScreen](e); r.job != nil { // nobody waits for what runs of the other
		r.job.dropped.Store(true)
	}
	if p := screenOf[*powerScreen](e); p.job != nil {
		p.job.dropped.Store(true)
	}
	leads := screenOf[*leadsScreen](e)
	e.screens, e.driven = standing(m), sheet.Shared{}
	e.at = e.screenAt(way(leads))
	e.screens[e.at] = leads
	e.places, e.hinted, e.generally = nil, nil, nil
	e.takeKeys()
	e.turn, e.slowed = turning{}, slowed{at: e.slowed.at}
	e.describe()
}
