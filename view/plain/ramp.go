package plain

import (
	"context"
	"strconv"

	"coilwalk/model/travel"
	"coilwalk/view/report"
	"coilwalk/view/sheet"
)

// ramp plans a move with acceleration.
func (m *Mode) ramp(args []string) {
	read := func() (sheet.Ramp, error) {
		return sheet.Read(m.sheets.ramp, sheet.NewRamp(m.driven(), sheet.Walked(m.Bench), m.sheets.shared))
	}
	use := func() error { _, err := read(); return err }
	if !edit(m, "ramp", m.sheets.ramp, args, use) {
		return
	}
	r, err := read()
	if err != nil {
		m.fail(err)
		return
	}
	way, err := r.Plan()
	if err != nil {
		m.fail(err)
		return
	}
	answer, err := r.Answer(context.Background(), way)
	if err != nil {
		m.fail(err)
		return
	}
	m.tell(answer)
}

// reckons says what comes of firmware's own reckoning.
func (m *Mode) reckons(args []string) {
	b := travel.Belief{Unit: 1e-3, PerMinute: 60_000}
	unit, wrong := "ms", len(args) < 2
	for k, word := range args {
		n, err := strconv.ParseInt(word, 10, 64)
		switch {
		case k == 0 && err == nil:
			b.StepsPerTurn = n
		case k == 1 && err == nil:
			b.RPM = n
		case k > 1 && word == "ms":
		case k > 1 && word == "us":
			unit, b.Unit, b.PerMinute = word, 1e-6, 60_000_000
		case k > 1 && word == "twice":
			b.Twice = true
		case k > 1 && word == "decimals":
			b.Floating = true
		default:
			wrong = true
		}
	}
	if wrong {
		m.say("Steps to a turn and turns a minute are wanted, as: reckons 2048 12 ms.")
		return
	}
	real, err := b.Reckon()
	if err != nil {
		m.fail(err)
		return
	}
	m.tell(report.NewBelief(m.Bench.Motor(), sheet.Walked(m.Bench), b, unit, real))
}
