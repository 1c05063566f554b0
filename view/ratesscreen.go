package view

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"sync/atomic"

	"coilwalk/model/driver"
	"coilwalk/model/motor"
	"coilwalk/model/quantity"
	"coilwalk/model/rotor"
	"coilwalk/sequence"
	"coilwalk/view/picture"
	"coilwalk/view/report"
)

// ratesScreen runs the motor in time: the torque on it, its response to a row, and
// the rates that it follows. The rates take a while, so they are run beside the
// screen, and what is shown says so.
type ratesScreen struct {
	form[ratesSheet]
	sheet    ratesSheet
	err      error // why there is no plant
	response rotor.Response
	job      *ratesJob
	found    *report.Rates
	points   []rotor.CurvePoint
	begun    bool
	walked   string // the step mode that was walked then

	torque picture.Curve
	plot   picture.Plot
	curves picture.Plot
}

// ratesSheet is what the fields say.
type ratesSheet struct {
	motor     motor.Motor
	mode      sequence.Mode
	stage     driver.Stage
	supply    quantity.Voltage
	load      quantity.Torque
	inertia   quantity.Inertia
	rate      float64 // asked about; 0 for none
	plant     rotor.Plant
	estimates []rotor.Estimate
}

// ratesJob is one run beside the screen.
type ratesJob struct {
	dropped atomic.Bool
	share   atomic.Uint64 // float64 bits of the part that is done
}

func (j *ratesJob) done() float64 { return math.Float64frombits(j.share.Load()) }

func (j *ratesJob) goesOn(share float64) bool {
	j.share.Store(math.Float64bits(share))
	return !j.dropped.Load()
}

// ratesMsg is what a run beside the screen came to.
type ratesMsg struct {
	screen *ratesScreen
	job    *ratesJob
	rates  rotor.Rates
	beside [len(compared)]rotor.Rates
	points []rotor.CurvePoint
	whole  bool
	err    error
}

// compared are the step modes whose rates stand beside each other.
var compared = [...]sequence.Mode{sequence.Full, sequence.Half}

// reversalMsg is what turning round at the rate asked comes to, run beside the
// screen.
type reversalMsg struct {
	screen *ratesScreen
	rate   float64
	found  *report.Rates
	turned rotor.Reversal
	known  bool // the play of the train
}

func (msg reversalMsg) arrive(*Explorer) {
	if r := msg.screen; r.found == msg.found && r.sheet.rate == msg.rate && r.found.For != nil {
		r.found.AddReversal(msg.turned, msg.known)
	}
}

func newRatesScreen(m motor.Motor) *ratesScreen {
	r := &ratesScreen{}
	load := m.Figures.Load.String()
	r.changed = r.follow
	r.fields = []field[ratesSheet]{
		{"stage", "darlington, mosfet, bridge, mosfet-bridge, chopper, current, ideal:", "", (*ratesSheet).setStage},
		{"supply", "the motor supply, as 12V; empty for the rated voltage:", "", (*ratesSheet).setSupply},
		{"step mode", "wave, full, half, or micro and a divisor:", "", (*ratesSheet).setMode},
		{"load", "what pulls back at the output shaft, as 20mN.m:", load, (*ratesSheet).setLoad},
		{"inertia", "of what hangs on the output shaft, as 5g.cm2:", "", (*ratesSheet).setInertia},
		{"rate", "judge this one, in rows a second:", "", (*ratesSheet).setRate},
	}
	return r
}

func (r *ratesScreen) name() string { return "Rates" }

func (r *ratesScreen) keys() []hint {
	return append(slices.Clone(formKeys), hint{"c", "cancel", "stop the run beside the screen"}, hint{"space", "", "stop; always, and only that"})
}

func (r *ratesScreen) key(e *Explorer, key string) bool {
	if key == "c" {
		if r.job != nil {
			r.job.dropped.Store(true)
		}
		return true
	}
	return r.form.key(e, key)
}

// enter runs the motor as it is on the bench now, unless that was done.
func (r *ratesScreen) enter(e *Explorer) {
	m := e.bench.Motor()
	same := r.walked == e.walked().Title || r.fieldSet("step mode")
	if r.begun && same && m.Train.String() == r.sheet.motor.Train.String() && e.bench.Read().Drive == r.sheet.motor.Drive {
		return
	}
	r.begun, r.walked = false, e.walked().Title
	if err := r.follow(e); err != nil {
		e.notice = alarm(err.Error())
	}
}

// follow reads the fields anew and runs what they say.
func (r *ratesScreen) follow(e *Explorer) error {
	m := e.bench.Motor()
	m.Drive = e.bench.Read().Drive
	r.unset("step mode", e.walked().Name+", as on Walk")
	r.unset("stage", driver.Usual(m.Drive, false).Name)
	next, err := r.read(ratesSheet{motor: m, mode: e.walked()})
	if err != nil {
		return err
	}
	only := r.begun && r.err == nil && r.fields[r.at].name == "rate" // the machine is the same: judge, but do not run anew
	if only {
		next.plant, next.estimates = r.sheet.plant, r.sheet.estimates
	}
	r.sheet = next
	if !only {
		r.run(e)
	}
	if r.found != nil {
		r.judge(e)
	}
	return nil
}

// run computes the response at once and starts the rest.
func (r *ratesScreen) run(e *Explorer) {
	if r.job != nil {
		r.job.dropped.Store(true)
	}
	s := &r.sheet
	r.begun, r.job, r.found, r.points = true, nil, nil, nil
	s.plant, s.estimates, r.err = rotor.PlantOf(s.motor, s.stage, s.supply)
	if r.err != nil {
		return
	}
	if s.load.Given() {
		s.plant.Load.Torque = s.load.Base()
	}
	s.plant.Load.Inertia = s.inertia.Base()
	if r.err = s.plant.Check(); r.err != nil {
		return
	}
	order := s.mode.Order()
	if r.response, r.err = rotor.Respond(s.plant, order.Row(0), order.Row(1), rotor.ResponseSeconds(s.plant)); r.err != nil {
		return
	}
	job := &ratesJob{}
	r.job = job
	plant, mode := s.plant, s.mode
	e.later(func() late {
		msg := ratesMsg{screen: r, job: job}
		t := rotor.NewTrials(plant, mode)
		swept := 0
		msg.rates, msg.whole = t.Follow(rotor.Sweep{}, func(float64) bool {
			swept++
			return job.goesOn(0.6 * (1 - math.Exp(-float64(swept)/60)))
		})
		for i, other := range compared {
			if msg.beside[i] = msg.rates; other.Name != mode.Name && msg.whole {
				msg.beside[i], msg.whole = rotor.NewTrials(plant, other).Follow(rotor.Sweep{}, func(float64) bool { return job.goesOn(0.6) })
			}
		}
		if msg.err = t.Err(); msg.whole && msg.err == nil {
			msg.points, msg.whole = rotor.Curve(plant, mode, rotor.CurveLoads(plant, curveLoads), func(share float64) bool { return job.goesOn(0.6 + 0.4*share) })
		}
		return msg
	})
}

// curveLoads is how many loads the curves have.
const curveLoads = 12

// arrive takes what a run came to; one that was dropped is not waited for.
func (msg ratesMsg) arrive(e *Explorer) {
	r := msg.screen
	if r.job != msg.job {
		return
	}
	r.job = nil
	if msg.err != nil || !msg.whole {
		r.err = msg.err
		return
	}
	s := &r.sheet
	r.points = msg.points
	r.found = report.NewRates(s.motor, s.mode, s.plant, r.response, msg.rates)
	r.found.AddEstimates(s.estimates, nil)
	for i, other := range compared {
		r.found.Compare(other, msg.beside[i])
	}
	r.judge(e)
}

// judge says what is to be said of the rate asked about: at once but for what
// turning round at it comes to.
func (r *ratesScreen) judge(e *Explorer) {
	f, s := r.found, r.sheet
	f.For, f.Reversal = nil, nil
	if s.rate == 0 {
		return
	}
	f.Judge(s.rate)
	e.later(func() late {
		msg := reversalMsg{screen: r, rate: s.rate, found: f}
		var play float64
		_, play, msg.known = s.motor.Train.Play()
		var err error
		if msg.turned, err = rotor.Reverse(s.plant, play, s.mode, s.rate); err != nil {
			return lateNothing{}
		}
		return msg
	})
}

// lateNothing is what a run comes to that there is nothing to be told of.
type lateNothing struct{}

func (lateNothing) arrive(*Explorer) {}

// busy says whether something runs beside the screen.
func (r *ratesScreen) busy() bool { return r.job != nil && !r.job.dropped.Load() }

func (s *ratesSheet) setStage(text string) (err error) {
	s.stage = driver.Stage{}
	if text != "" {
		if s.stage, err = driver.Named(text); err == nil {
			err = s.stage.Allows(s.motor.Drive)
		}
	}
	return err
}

func (s *ratesSheet) setSupply(text string) (err error) {
	s.supply = quantity.Voltage{}
	if text != "" {
		err = s.supply.Set(text)
	}
	if s.stage.Name == "" {
		s.stage = driver.Usual(s.motor.Drive, s.supply.Given())
	}
	return err
}

func (s *ratesSheet) setMode(text string) (err error) {
	if text == "" {
		return nil
	}
	s.mode, err = modeOf(text)
	return err
}

func (s *ratesSheet) setLoad(text string) error {
	s.load = quantity.Torque{}
	if text == "" {
		return nil
	}
	return s.load.Set(text)
}

func (s *ratesSheet) setInertia(text string) error {
	s.inertia = quantity.Inertia{}
	if text == "" {
		return nil
	}
	if err := s.inertia.Set(text); err != nil {
		return err
	}
	if s.inertia.Base() < 0 {
		return fmt.Errorf("an inertia can not be negative")
	}
	return nil
}

func (s *ratesSheet) setRate(text string) (err error) {
	s.rate = 0
	if text == "" {
		return nil
	}
	s.rate, err = strconv.ParseFloat(strings.TrimSuffix(strings.TrimSpace(text), "rows/s"), 64)
	if err != nil || !(s.rate > 0 && s.rate <= 1e6) {
		return fmt.Errorf("%q is no rate; rows a second are wanted, as 600", text)
	}
	return nil
}
