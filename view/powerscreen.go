package view

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"sync/atomic"

	"coilwalk/model/driver"
	"coilwalk/model/motor"
	"coilwalk/model/power"
	"coilwalk/model/quantity"
	"coilwalk/sequence"
	"coilwalk/view/picture"
	"coilwalk/view/report"
)

// powerScreen says what the motor costs on a stage and a supply. What a row takes
// at rest is there at each letter; what turning takes, and what else would do, is
// worked out beside the screen.
type powerScreen struct {
	form[powerSheet]
	sheet  powerSheet
	err    error // why there is no answer
	answer *power.Answer
	others *report.Power // with cures, supplies and connections; nil until they are there
	job    *powerJob
	walked string // the step mode that was walked then

	shares picture.Shares
	plot   picture.Plot
}

// powerSheet is what the fields say.
type powerSheet struct {
	motor      motor.Motor
	mode       sequence.Mode
	stage      driver.Stage
	supply     driver.Supply
	limit      quantity.Current
	connection string
	rate       float64
	duty       float64
	set        powerSet
	ambient    quantity.Temperature
	time       quantity.Time
	load       quantity.Torque
}

// powerSet is what a stage that regulates is set to.
type powerSet struct {
	current quantity.Current
	hold    float64
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
	p.changed = p.follow
	p.fields = []field[powerSheet]{
		{"stage", driver.Names() + ", or a file:", "", (*powerSheet).setStage},
		{"supply", "as 12V or 12V 2A, or " + driver.SupplyNames() + ":", "", (*powerSheet).setSupply},
		{"connected", "unipolar, half, series, parallel or parted:", "", (*powerSheet).setConnection},
		{"step mode", "wave, full, half, or micro and a divisor:", "", (*powerSheet).setMode},
		{"turning", "at how many rows a second; empty for held at rest:", "", (*powerSheet).setRate},
		{"on for", "which part of the time, as 30%:", "", (*powerSheet).setDuty},
		{"set to", "a chopper's current, and a part of it at rest, as 1.2A 50%:", "", (*powerSheet).setCurrent},
		{"around it", "temperature, as 25C:", "", (*powerSheet).setAmbient},
		{"lasting", "how long it goes on, as 20min; empty for good:", "", (*powerSheet).setTime},
		{"load", "what pulls at the output shaft, as 20mN.m:", m.Figures.Load.String(), (*powerSheet).setLoad},
	}
	return p
}

func (p *powerScreen) name() string { return "Power" }

func (p *powerScreen) keys() []hint {
	return append(slices.Clone(formKeys), hint{"space", "", "stop; always, and only that"})
}

// busy says whether something is worked out beside the screen.
func (p *powerScreen) busy() bool { return p.job != nil }

// enter takes motor and step mode from the bench, unless that was done.
func (p *powerScreen) enter(e *Explorer) {
	m := e.bench.Motor()
	same := p.walked == e.walked().Title || p.fieldSet("step mode")
	if p.answer != nil && same && m.Train.String() == p.sheet.motor.Train.String() && e.bench.Read().Drive == p.sheet.motor.Drive {
		return
	}
	p.walked = e.walked().Title
	if err := p.follow(e); err != nil {
		e.notice = alarm(err.Error())
	}
}

// follow reads the fields anew and answers them.
func (p *powerScreen) follow(e *Explorer) error {
	m := e.bench.Motor()
	m.Drive = e.bench.Read().Drive
	p.unset("step mode", e.walked().Name+", as on Walk")
	p.unset("turning", "held at rest")
	p.unset("on for", "all of the time")
	p.unset("around it", "25 °C")
	p.unset("lasting", "for good")
	next, err := p.read(powerSheet{motor: m, mode: e.walked(), duty: 1, set: powerSet{hold: 1}})
	if err != nil {
		return err
	}
	q, err := next.question()
	var answer *power.Answer
	if err == nil {
		answer, err = power.Sketch(q)
	}
	if err != nil && p.answer != nil { // what was stays
		return err
	}
	if p.job != nil {
		p.job.dropped.Store(true)
	}
	p.sheet, p.answer, p.err, p.others, p.job = next, answer, err, nil, nil
	if err != nil {
		return nil
	}
	p.unset("stage", answer.Stage.Name)
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

// question puts a sheet into one.
func (s *powerSheet) question() (power.Question, error) {
	stage := s.stage
	if stage.Name == "" {
		stage = driver.Usual(s.motor.Drive, true)
	}
	q, err := power.Ask(s.motor, stage, s.supply)
	if err != nil {
		return q, err
	}
	if s.connection != "" {
		c, err := power.ConnectionNamed(s.motor, s.connection)
		if err != nil {
			return q, err
		}
		q.Connect(c)
	}
	q.Mode, q.Rate, q.Duty, q.Hold, q.For = s.mode, s.rate, s.duty, s.set.hold, s.time.Base()
	if s.limit.Given() {
		q.Supply.Limit, q.Supply.Promised = s.limit.Base(), 0
	}
	if s.set.current.Given() || s.set.hold != 1 {
		if !stage.Regulates() {
			return q, fmt.Errorf("set to: a %s does not set its current", stage.Title)
		}
		if s.set.current.Given() {
			q.Current = s.set.current.Base()
		}
	}
	if s.ambient.Given() {
		q.Ambient = s.ambient.Base()
	}
	if s.load.Given() {
		q.Load = s.load.Base()
	}
	return q, q.Check()
}

func (s *powerSheet) setStage(text string) (err error) {
	s.stage = driver.Stage{}
	if text == "-" {
		return errors.New("there is no standard input to read here; a name or a file is wanted")
	}
	if text != "" {
		s.stage, err = driver.Open(text, strings.NewReader(""))
	}
	return err
}

// setSupply reads a supply, and after it what it may give.
func (s *powerSheet) setSupply(text string) (err error) {
	s.supply, s.limit = driver.Supply{}, quantity.Current{}
	if text == "" {
		return nil
	}
	if cut := strings.LastIndexAny(text, " ,"); cut > 0 && s.limit.Set(text[cut+1:]) == nil {
		text = text[:cut]
	}
	s.supply, err = driver.ParseSupply(text)
	return err
}

func (s *powerSheet) setConnection(text string) error { s.connection = text; return nil }

func (s *powerSheet) setMode(text string) (err error) {
	if text != "" {
		s.mode, err = modeOf(text)
	}
	return err
}

func (s *powerSheet) setRate(text string) error {
	var r ratesSheet
	err := r.setRate(text)
	s.rate = r.rate
	return err
}

func (s *powerSheet) setDuty(text string) (err error) {
	if text != "" {
		s.duty, err = power.ParsePart(text)
	}
	return err
}

// setCurrent reads a current, a part that is held with at rest, or both.
func (s *powerSheet) setCurrent(text string) (err error) {
	for _, word := range strings.Fields(text) {
		if strings.HasSuffix(word, "%") {
			s.set.hold, err = power.ParsePart(word)
		} else {
			err = s.set.current.Set(word)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

func (s *powerSheet) setAmbient(text string) error { return s.ambient.UnmarshalText([]byte(text)) }
func (s *powerSheet) setTime(text string) error    { return s.time.UnmarshalText([]byte(text)) }
func (s *powerSheet) setLoad(text string) error    { return s.load.UnmarshalText([]byte(text)) }
