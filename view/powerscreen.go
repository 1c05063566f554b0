package view

import (
	"sync/atomic"

	"coilwalk/model/motor"
	"coilwalk/model/power"
	"coilwalk/model/quantity"
	"coilwalk/view/picture"
	"coilwalk/view/report"
	"coilwalk/view/sheet"
)

// powerScreen says what the motor costs on a stage and a supply. What a row takes
// at rest is there at each letter; what turning takes, and what else would do, is
// worked out beside the screen.
type powerScreen struct {
	form[sheet.Power]
	sheet  sheet.Power
	err    error // why there is no answer
	answer *power.Answer
	others *report.Power // with cures, supplies and connections; nil until they are there
	job    *powerJob
	driven power.Driven // the same motor as Rates runs it
	walked string       // the step mode that was walked then

	shares picture.Shares
	plot   picture.Plot
}

// powerJob is one run beside the screen; another makes it stale.
type powerJob struct{ dropped atomic.Bool }

// powerMsg is what a run beside the screen came to.
type powerMsg struct {
	screen *powerScreen
	job    *powerJob
	answer *power.Answer
	others *report.Power
	err    error
}

func newPowerScreen(m motor.Motor) *powerScreen {
	p := &powerScreen{}
	p.changed, p.fields = p.follow, sheet.PowerLines(m)
	return p
}

func (p *powerScreen) name() string { return "Power" }

func (p *powerScreen) places() []*place {
	own := newPlace("power", "on Power", p.turns(func(e *Explorer, line string) []string { return sheet.DrivingWords(e.bench.Motor(), line) })...)
	own.With = []string{"lines"}
	return []*place{own, p.form.place()}
}

// busy says whether something is worked out beside the screen.
func (p *powerScreen) busy() bool { return p.job != nil }

// enter takes motor and step mode from the bench, unless that was done.
func (p *powerScreen) enter(e *Explorer) {
	m := e.bench.Motor()
	same := p.walked == e.walked().Title || p.fieldSet("step mode")
	same = !p.drivenElsewhere(e) && same
	if p.answer != nil && same && m.Train.String() == p.sheet.Motor.Train.String() && e.bench.Read().Drive == p.sheet.Motor.Drive {
		return
	}
	p.walked = e.walked().Title
	p.answer = nil // what was set elsewhere stands, even where it does not fit these lines
	if err := p.follow(e); err != nil {
		p.err = err
	}
}

// follow reads the fields anew and answers them.
func (p *powerScreen) follow(e *Explorer) error {
	m := e.bench.Motor()
	m.Drive = e.bench.Read().Drive
	p.unset("step mode", sheet.WalkedHere(e.bench))
	p.unset("turning", "held at rest")
	p.unset("on for", "all of the time")
	p.unset("around it", "25 °C")
	p.unset("lasting", "for good")
	next, err := sheet.Read(p.fields, sheet.NewPower(m, e.walked()))
	if err != nil {
		return err
	}
	q, err := next.Question()
	var answer *power.Answer
	var driven power.Driven
	if err == nil {
		driven, err = next.Drives()
	}
	if err == nil {
		answer, err = power.Sketch(q)
	}
	if err != nil && p.answer != nil { // what was stays
		return err
	}
	if p.job != nil {
		p.job.dropped.Store(true)
	}
	p.sheet, p.answer, p.driven, p.err, p.others, p.job = next, answer, driven, err, nil, nil
	sheet.Keep(&e.driven, p.fields)
	if err != nil {
		return nil
	}
	p.unset("stage", answer.Stage.Name+", as usual")
	p.unset("supply", quantity.Volts(answer.Supply.Volts).Rounded(3)+", which suits")
	p.unset("connected", answer.Connection.Name)
	p.unset("set to", "not by this stage")
	if answer.Stage.Regulates() {
		p.unset("set to", quantity.Amperes(answer.Question.Current).Rounded(3)+", as rated")
	}
	p.work(e, q)
	return nil
}

// work starts what takes a while.
func (p *powerScreen) work(e *Explorer, q power.Question) {
	job := &powerJob{}
	p.job = job
	e.later(func() late {
		msg := powerMsg{screen: p, job: job}
		if job.dropped.Load() {
			return msg
		}
		if msg.answer, msg.err = power.Judge(q); msg.err == nil {
			msg.others = report.NewPower(msg.answer)
			msg.others.Others(power.Cures(msg.answer), power.OnEach(q), power.InEach(q))
		}
		return msg
	})
}

// arrive takes what a run came to, unless the fields have changed since.
func (msg powerMsg) arrive(*Explorer) {
	p := msg.screen
	if p.job != msg.job {
		return
	}
	p.job, p.err = nil, msg.err
	if msg.err == nil {
		p.answer, p.others = msg.answer, msg.others
	}
}
