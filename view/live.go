package view

import (
	"errors"
	"fmt"
	"time"

	"coilwalk/model/bench"
	"coilwalk/model/files"
	"coilwalk/model/live"
	"coilwalk/view/action"
	"coilwalk/view/picture"
	"coilwalk/view/report"
)

// grip is the explorer's hold on a real motor. The bench goes on only by what the
// board acknowledged: a row is done on a copy first, sent, and the copy taken when
// the board says that it stands so.
type grip struct {
	motor *live.Motor
	note  func(string) // into the record of the sitting

	waits *waits        // a row that is on its way
	again action.Action // a key that came meanwhile; one is kept
	ran   int64         // rows of runs that the bench has made
	offs  uint64        // State.Off as it was taken up

	state live.State
}

// waits is a row on its way to the board.
type waits struct {
	number uint64
	trial  *bench.Bench
	before bench.Reading
}

// Stirred is the message that the real motor has changed.
type Stirred struct{}

// newGrip takes hold of a motor; nothing is on yet.
func newGrip(e *Explorer, l Live) *grip {
	e.bench.Restart()
	e.bench.Release()
	note := l.Note
	if note == nil {
		note = func(string) {}
	}
	return &grip{motor: l.Motor, note: note, state: l.Motor.State(), offs: l.Motor.State().Off}
}

// off switches off at once.
func (l *grip) off(e *Explorer) {
	l.motor.Off("")
	l.sync(e)
}

// sync takes up what the board has said.
func (l *grip) sync(e *Explorer) {
	s := l.motor.State()
	was := l.state
	l.state = s
	if rows := s.Ran - l.ran; rows > 0 {
		before := e.bench.Read()
		if err := e.bench.Rows(rows); err == nil {
			l.ran = s.Ran
			e.follow(before)
		}
	}
	if s.Off != l.offs {
		l.offs, l.waits, l.again = s.Off, nil, action.Action{}
		before := e.bench.Read()
		e.bench.Release()
		e.follow(before)
		switch {
		case s.Why != "":
			e.notice = alarm("OFF: " + s.Why)
		case was.Armed:
			again := "a on Walk arms again"
			if _, on := e.screens[e.at].(*walk); on {
				again = "a arms again"
			}
			e.notice = advice("off and disarmed: the load is free; " + again)
		}
		return
	}
	if w := l.waits; w != nil {
		if !s.Armed || s.Number < w.number {
			return
		}
		l.waits = nil
		e.bench = w.trial
		e.follow(w.before)
	}
	if s.Owed > 0 || s.Running {
		return
	}
	if again := l.again; again.Do != nil {
		l.again = action.Action{}
		e.act(again, nil)
	}
}

// errLost is met by every key that would send something.
var errLost = errors.New("the link is lost: q leaves, then connect anew")

// errMoving tells that a key stopped a run instead of doing what it does.
var errMoving = errors.New("the run is stopped, its last row held; press it again")

// try does an action on the real motor.
func (l *grip) try(e *Explorer, a action.Action, args []string) error {
	l.sync(e)
	if l.state.Lost {
		return errLost
	}
	off := e.bench.Released()
	switch a.Word {
	case "run":
		return l.run(e)
	case "faster", "slower", "rate":
		return l.pace(e, a, args)
	case "rewind":
		return errors.New("time can not be undone on a real motor; ← turns it back")
	case "go":
		return errors.New("a real motor goes there row by row: → or ←, or enter")
	case "swap", "drive", "rewire", "restart":
		if !off {
			return errors.New("space first: this is for when the coils are off")
		}
	}
	if l.state.Running {
		l.motor.Pause()
		return errMoving
	}
	if l.behind() {
		l.again = a
		return nil
	}
	before := e.bench.Read()
	trial := e.bench.Copy()
	if err := a.Do(trial, args); err != nil {
		return err
	}
	for a.Word == "mode" && len(args) == 0 && !wholeRows(trial) { // on to one that pins can give
		if err := a.Do(trial, args); err != nil {
			return err
		}
	}
	if off && a.Word == "restart" {
		trial.Release()
	}
	now := trial.Read()
	if trial.Released() || now.Outputs == before.Outputs {
		e.bench = trial
		e.follow(before)
		return nil
	}
	row, ok := live.RowOf(now.Outputs)
	if !ok {
		return errors.New("microsteps are currents between off and on, which pins can not give; m goes on to another mode")
	}
	number, err := l.motor.Show(live.Step{Outputs: row, Coils: now.Coils})
	if err != nil {
		return fmt.Errorf("%w: a arms", err)
	}
	l.waits = &waits{number: number, trial: trial, before: before}
	l.sync(e)
	return nil
}

// behind says whether rows are on their way that the bench has not made yet: what
// is next can not be said before they are acknowledged.
func (l *grip) behind() bool { return l.waits != nil || l.state.Owed > 0 }

// wholeRows says whether every row of the order is one of on and off.
func wholeRows(b *bench.Bench) bool {
	outputs, _ := b.Ahead()
	for _, row := range outputs {
		if !row.Whole() {
			return false
		}
	}
	return true
}

// run starts or ends a run.
func (l *grip) run(e *Explorer) error {
	if l.state.Running {
		l.motor.Pause()
		l.sync(e)
		e.notice = advice("held: " + report.LatePhrase(l.motor.State().Pace))
		return nil
	}
	if l.behind() { // the cycle would begin at a row that has gone by
		return nil
	}
	outputs, coils := e.bench.Ahead()
	cycle := make([]live.Step, len(outputs))
	for k := range outputs {
		row, ok := live.RowOf(outputs[k])
		if !ok {
			return errors.New("microsteps are currents between off and on, which pins can not give; m goes on to another mode")
		}
		cycle[k] = live.Step{Outputs: row, Coils: coils[k]}
	}
	if err := l.motor.Run(cycle, e.bench.Rate()); err != nil {
		if !l.state.Armed {
			return fmt.Errorf("%w: a arms", err)
		}
		return err
	}
	l.sync(e)
	return nil
}

// pace changes the rate; a run goes on with the row that is next.
func (l *grip) pace(e *Explorer, a action.Action, args []string) error {
	err := a.Do(e.bench, args)
	if e.bench.Rate() > live.MostRate {
		e.bench.SetRate(live.MostRate)
		if err == nil {
			err = fmt.Errorf("from here rows can be sent at up to %d a second", live.MostRate)
		}
	}
	if l.state.Running {
		l.motor.Pause()
		e.notice = advice("held: enter runs at the new rate")
	}
	return err
}

// arms asks whether to make ready. What is pasted, or comes as quickly as no
// hand types, does not.
func (l *grip) arms(e *Explorer, then func() error) {
	if l.state.Lost {
		e.notice = alarm(errLost.Error())
		return
	}
	if l.state.Armed {
		e.notice = advice("it is armed: → energises the next row, space switches off")
		return
	}
	asked := e.Now()
	p := e.asks("to arm, type on and press enter", "", func(text string) error {
		if text != "on" {
			return fmt.Errorf("%q is not the word on: still not armed; esc leaves", files.Shown(text))
		}
		if e.Now().Sub(asked) < handTime {
			return errors.New("that came quicker than a hand types; type on and press enter")
		}
		e.notice = advice("arming …")
		e.later(func() late {
			err := l.motor.Arm()
			return armed{err, then}
		})
		return nil
	})
	p.typed = true
	p.above = report.LiveCautions(l.state.About)
}

// soonOff is from when on it is told how long it stays armed.
const soonOff = 30 * time.Second

// handTime is the least time in which a person reads a question and types a word.
const handTime = 300 * time.Millisecond

// armed is what came of arming.
type armed struct {
	err  error
	then func() error
}

func (a armed) arrive(e *Explorer) {
	e.live.sync(e)
	if a.err == nil && a.then != nil {
		a.err = a.then()
	}
	switch {
	case a.err != nil:
		e.notice = alarm("not armed: " + a.err.Error())
	case a.then == nil:
		e.notice = advice("armed, nothing is on yet: → energises the next row, space switches off")
	}
}

// drawState draws how the real motor stands, at the right of the head, and gives
// where it begins.
func (l *grip) drawState(g *picture.Grid) (x int) {
	words, ink := report.LiveState(l.state)
	style := picture.Loud(map[report.Alarm]picture.Ink{report.Calm: picture.Faint, report.Ready: picture.Current, report.Energised: picture.Good, report.Trouble: picture.Alert}[ink])
	g.WriteEnd(g.W-1, 0, words, style)
	return g.W - 1 - picture.Width(words)
}

// numbers are the readings of the real motor.
func (l *grip) numbers() []number {
	list := []number{{"board", l.state.Row.String(), picture.Strong}}
	if l.state.Unsure {
		list[0] = number{"board", "not known", picture.Alert}
	}
	if l.state.Most > 0 {
		ink := picture.Text
		if l.state.Warm {
			ink = picture.Alert
		}
		list = append(list, number{"winding", fmt.Sprintf("%.0f of %.0f °C", l.state.Celsius, l.state.Most), ink})
	}
	if l.state.Pace.Rows > 1 {
		list = append(list, number{"late", report.Late(l.state.Pace), picture.Text})
	}
	if l.state.Armed && l.state.Left > 0 && l.state.Left < soonOff {
		list = append(list, number{"off in", fmt.Sprintf("%.0f s", l.state.Left.Seconds()), picture.Text})
	}
	return list
}
