package plain

import (
	"errors"
	"fmt"
	"strconv"
	"time"

	"coilwalk/model/bench"
	"coilwalk/model/live"
	"coilwalk/model/motor"
	"coilwalk/view/action"
	"coilwalk/view/hold"
	"coilwalk/view/report"
)

// Live is a real motor that the line mode is bound to.
type Live struct {
	Motor   *live.Motor
	Record  hold.Record     // of the sitting; nil without one
	Stirred <-chan struct{} // the motor has changed
	Ended   <-chan struct{} // the sitting is to end
}

func realWords() []word {
	return []word{
		{"arm", "", "make the real motor ready: says the cautions, and asks for the word on", (*Mode).arm},
		{"off", "", "switch all coils off at once, and disarm; so does an empty line", (*Mode).off},
		{"board", "", "say how the real motor stands, and what the board is", (*Mode).board},
		{"ports", "", "list the serial ports", (*Mode).ports},
	}
}

const noBoard = "There is no real motor here. Start with coilwalk live PORT --plain, or to try the words, coilwalk live --rehearse --plain."

// real is a real motor in hand.
type real struct {
	hold    *hold.Hold
	stirred <-chan struct{}
	ended   <-chan struct{}
	moved   bool // the bench has, and nothing was told of it
	quiet   bool // what an action changed is told before that
	soon    bool // it was told that it is off soon
	warm    bool // it was told that it is warm
	pending []string
}

// hold takes hold of the real motor.
func (m *Mode) hold() {
	h := hold.Take(m.Live.Motor, m.Bench, m.Live.Record)
	r := &real{hold: h, stirred: m.Live.Stirred, ended: m.Live.Ended}
	h.Moved = func(bench.Reading) { m.Bench, r.moved = h.Bench, true }
	h.Say = func(words string, _ bool) { m.say("%s.", worded(words)) }
	h.Redo = func(a action.Action) { m.try(a, nil) }
	m.real = r
	words, _ := report.LiveState(h.State)
	m.say("%s. Nothing is on. Say arm to make it ready, off to switch off.", words)
}

// heard takes up what the board said, and tells of it at once.
func (m *Mode) heard() {
	r := m.real
	r.hold.Sync()
	s := r.hold.State
	if r.moved && !r.quiet && !s.Running && !r.hold.Behind() {
		r.moved = false
		m.where()
	}
	switch near := s.Armed && s.Left > 0 && s.Left < soonOff; {
	case near && !r.soon:
		r.soon = true
		m.say("It switches off in %.0f s by itself; any word keeps it.", s.Left.Seconds())
	case !near:
		r.soon = false
	}
	if s.Warm && !r.warm {
		m.say("The winding is reckoned to be warm: %.0f of %.0f °C.", s.Celsius, s.Most)
	}
	r.warm = s.Warm
}

// soonOff is from when on it is told that it goes off by itself.
const soonOff = 15 * time.Second

// realLine waits for the next line, and tells what the motor says meanwhile. The
// end of the input, whatever it comes of, switches off.
func (m *Mode) realLine() (string, bool) {
	r := m.real
	if len(r.pending) > 0 {
		line := r.pending[0]
		r.pending = r.pending[1:]
		return line, true
	}
	for {
		select {
		case line, ok := <-m.source.lines:
			if !ok {
				r.hold.Off()
				return "", false
			}
			r.hold.Motor.Touch()
			return line, true
		case <-r.stirred:
			m.heard()
		case <-r.ended:
			return "", false
		}
	}
}

// settle waits until the board has acknowledged what was sent, or has switched
// off. Lines wait meanwhile: what comes next goes on from there.
func (m *Mode) settle() (quiet bool) {
	r := m.real
	late := time.NewTimer(settleTime)
	defer late.Stop()
	for r.hold.Behind() {
		select {
		case <-r.stirred:
			m.heard()
		case <-r.ended:
			return false
		case <-late.C:
			return false
		}
	}
	m.heard()
	return true
}

// settleTime is longer than a board may be silent before it is given up.
const settleTime = 3 * time.Second

// realAct does an action on the real motor.
func (m *Mode) realAct(a action.Action, args []string) {
	h := m.real.hold
	switch a.Word {
	case "stop":
		if h.Sync(); h.State.Running {
			h.Pause()
			m.settle()
			return
		}
		m.say("It does not run. off switches off.")
		return
	case "run":
		if len(args) > 0 {
			if rate, err := strconv.ParseFloat(args[0], 64); err != nil || len(args) > 1 || !m.try(rateOf(), []string{strconv.FormatFloat(rate, 'g', -1, 64)}) {
				if err != nil || len(args) > 1 {
					m.say("With a real motor run takes a rate, in rows a second, as: run 50. stop ends it.")
				}
				return
			}
		}
		if m.try(a, nil) && h.State.Armed && h.Motor.State().Running {
			m.say("It runs at %g rows a second. stop holds it, off switches off.", h.Bench.Rate())
		}
		return
	case "rate", "faster", "slower":
		if m.try(a, args) {
			m.tellChange(a)
		}
		return
	}
	n, one := count(a, args)
	if !one || a.Word == "rewind" {
		m.real.quiet = true
		done := m.try(a, args) && m.settle()
		if m.real.quiet = false; done {
			m.tellChange(a)
		}
		m.heard()
		return
	}
	if n > mostRows {
		m.say("With a real motor up to %d rows are walked at a time; run goes on by itself.", mostRows)
		return
	}
	for k := range n {
		started := time.Now()
		if !m.try(a, nil) || !m.settle() || !h.State.Armed {
			return
		}
		if k+1 < n && !m.idle(time.Duration(float64(time.Second)/h.Bench.Rate())-time.Since(started)) {
			return
		}
	}
}

// idle lets some time pass; false where something came meanwhile.
func (m *Mode) idle(some time.Duration) bool {
	r := m.real
	timer := time.NewTimer(max(some, 0))
	defer timer.Stop()
	for {
		select {
		case <-timer.C:
			return true
		case <-r.stirred:
			if m.heard(); !r.hold.State.Armed {
				return false
			}
		case line, ok := <-m.source.lines:
			if ok {
				r.pending = append(r.pending, line)
			} else {
				r.hold.Off()
			}
			return false
		case <-r.ended:
			return false
		}
	}
}

func rateOf() action.Action {
	for _, a := range action.All() {
		if a.Word == "rate" {
			return a
		}
	}
	return action.Action{}
}

// try does an action on the real motor, and says why where it can not be done.
func (m *Mode) try(a action.Action, args []string) bool {
	if err := m.real.hold.Try(a, args); err != nil {
		m.fail(err)
		return false
	}
	return true
}

// arm makes ready: the cautions first, and then the word, typed by a hand.
func (m *Mode) arm([]string) {
	if m.real == nil {
		m.say(noBoard)
		return
	}
	h := m.real.hold
	switch h.Sync(); {
	case h.State.Lost:
		m.fail(hold.ErrLost)
		return
	case h.State.Armed:
		m.say("%s.", worded(hold.Already))
		return
	}
	for _, line := range report.LiveCautionsSaid(h.State.About) {
		m.say("%s", line)
	}
	m.say("%s; anything else leaves it.", report.Sentence(hold.Asks))
	asked := time.Now()
	line, ok := m.line()
	if !ok {
		return
	}
	if err := hold.Answered(line, time.Since(asked)); err != nil {
		m.fail(fmt.Errorf("%w; say arm to be asked again", err))
		return
	}
	if err := h.Motor.Arm(); err != nil {
		m.fail(fmt.Errorf("not armed: %w", err))
		return
	}
	h.Sync()
	m.say("%s.", report.Sentence(worded(hold.Armed)))
}

// off switches off at once.
func (m *Mode) off([]string) {
	if m.real == nil {
		m.say(noBoard)
		return
	}
	before := m.told
	m.real.hold.Off()
	if m.real.moved = false; m.told == before {
		m.say("It is off.")
	}
}

// board says how the real motor stands.
func (m *Mode) board([]string) {
	if m.real == nil {
		m.say(noBoard)
		return
	}
	h := m.real.hold
	h.Sync()
	s := h.State
	words, _ := report.LiveState(s)
	m.say("%s.", words)
	if s.Unsure {
		m.say("Nobody can know whether the coils are off: motor supply off.")
	} else {
		m.say("The board says how its outputs stand: %s.", report.OutputsOn(s.Row.Sequence()))
	}
	if s.Why != "" {
		m.say("Switched off last: %s.", s.Why)
	}
	if s.Most > 0 {
		m.say("Winding: %.0f of %.0f °C.", s.Celsius, s.Most)
	}
	if s.Pace.Rows > 1 {
		m.say("%s.", report.LatePhrase(s.Pace))
	}
	m.say("%s on %s; outputs 1 to 4 are pins %d, %d, %d and %d.", s.About.Firmware, s.About.Place, s.About.Pins[0], s.About.Pins[1], s.About.Pins[2], s.About.Pins[3])
}

// perform does the next part of the test that is asked for.
func (m *Mode) perform([]string) {
	if m.real == nil {
		m.say(noBoard)
		return
	}
	if err := m.performs(); err != nil {
		m.fail(err)
	}
}

func (m *Mode) performs() error {
	if err := m.sit(); err != nil {
		return err
	}
	next, ok := m.sitting.Next()
	switch {
	case !ok:
		return errors.New("there is nothing left to ask")
	case m.now == ([4]motor.Lead{}):
		return errors.New("which leads are on outputs 1 to 4? Say outputs and their names, as: outputs BN WH GN GY")
	case !m.real.hold.State.Armed:
		return errors.New("not armed: {live.arm} first, then {ask.perform}")
	}
	var err error
	if m.test, err = hold.TestOf(next.Question, m.now, m.sitting.Topology(), m.test); err != nil {
		return err
	}
	watch, err := m.real.hold.Perform(m.test)
	if err != nil {
		return err
	}
	m.say("%s.", worded(watch))
	return nil
}

func (m *Mode) ports([]string) {
	ports, err := live.Ports()
	if err != nil {
		m.fail(fmt.Errorf("the serial ports can not be listed: %w; a port can still be named", err))
		return
	}
	if len(ports) == 0 {
		m.say("No serial port is told of; plug the board in.")
	}
	for _, port := range ports {
		m.say("%s", port)
	}
}
