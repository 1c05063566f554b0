package view

import (
	"math"
	"sync/atomic"

	"coilwalk/model/motor"
	"coilwalk/model/quantity"
	"coilwalk/model/rotor"
	"coilwalk/sequence"
	"coilwalk/view/picture"
	"coilwalk/view/report"
	"coilwalk/view/sheet"
)

// ratesScreen runs the motor in time: the torque on it, its response to a row, and
// the rates that it follows. The rates take a while, so they are run beside the
// screen, and what is shown says so.
type ratesScreen struct {
	form[sheet.Rates]
	sheet    sheet.Rates
	err      error // why nothing is run
	forbids  *report.Forbids
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
	if r := msg.screen; r.found == msg.found && r.sheet.Rate == msg.rate && r.found.For != nil {
		r.found.AddReversal(msg.turned, msg.known)
	}
}

func newRatesScreen(m motor.Motor) *ratesScreen {
	r := &ratesScreen{}
	r.changed, r.fields = r.follow, sheet.RatesLines(m)
	return r
}

func (r *ratesScreen) name() string { return "Rates" }

func (r *ratesScreen) places() []*place {
	own := newPlace("rates", "on Rates", append(r.turns(func(e *Explorer, line string) []string { return sheet.DrivingWords(e.bench.Motor(), line) }), deed{"cancel", "c", "cancel", "stop the run beside the screen", func(*Explorer) {
		if r.job != nil {
			r.job.dropped.Store(true)
		}
	}})...)
	own.With = []string{"lines"}
	return []*place{own, r.form.place()}
}

// enter runs the motor as it is on the bench now, unless that was done.
func (r *ratesScreen) enter(e *Explorer) {
	m := e.bench.Motor()
	same := r.walked == e.walked().Title || r.fieldSet("step mode")
	same = !r.drivenElsewhere(e) && same
	if r.begun && same && m.Train.String() == r.sheet.Motor.Train.String() && e.bench.Read().Drive == r.sheet.Motor.Drive {
		return
	}
	r.begun, r.walked = false, e.walked().Title
	if err := r.follow(e); err != nil { // what was set elsewhere stands
		r.err = err
	}
}

// follow reads the fields anew and runs what they say.
func (r *ratesScreen) follow(e *Explorer) error {
	m := e.bench.Motor()
	m.Drive = e.bench.Read().Drive
	r.unset("step mode", sheet.WalkedHere(e.bench))
	next, err := sheet.Read(r.fields, sheet.Rates{Motor: m, Mode: e.walked()})
	if err == nil {
		err = next.Drives()
	}
	if err != nil {
		return err
	}
	d := next.Driven
	r.unset("stage", d.Stage.Name+", as usual")
	if d.Stage.Instant() {
		r.unset("stage", d.Stage.Name+", no supply")
	}
	r.unset("supply", report.RatedWords(d))
	r.unset("connected", d.Connection.Name)
	r.unset("set to", "not by this stage")
	if d.Stage.Regulates() {
		r.unset("set to", "as rated")
		if d.Heat.Stage.Name != "" {
			r.unset("set to", quantity.Amperes(d.Heat.Current).Rounded(3)+", as rated")
		}
	}
	sheet.Keep(&e.driven, r.fields)
	only := r.begun && r.err == nil && r.fields[r.at].Name == "rate" // the machine is the same: judge, but do not run anew
	if only {
		next.Plant, next.Estimates = r.sheet.Plant, r.sheet.Estimates
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
	if r.err = s.Machine(); r.err != nil {
		return
	}
	r.forbids = report.ForbiddenBy(s.Driven)
	if r.err = r.forbids.Idle(); r.err != nil {
		return
	}
	order := s.Mode.Order()
	if r.response, r.err = rotor.Respond(s.Plant, order.Row(0), order.Row(1), rotor.ResponseSeconds(s.Plant)); r.err != nil {
		return
	}
	job := &ratesJob{}
	r.job = job
	plant, mode := s.Plant, s.Mode
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
	r.found = report.NewRates(s.Motor, s.Mode, s.Plant, r.response, msg.rates)
	r.found.Drives(s.Driven, "Power")
	r.found.AddEstimates(s.Estimates, nil)
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
	if s.Rate == 0 {
		return
	}
	f.Judge(s.Rate)
	e.later(func() late {
		msg := reversalMsg{screen: r, rate: s.Rate, found: f}
		var play float64
		_, play, msg.known = s.Motor.Train.Play()
		var err error
		if msg.turned, err = rotor.Reverse(s.Plant, play, s.Mode, s.Rate); err != nil {
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
