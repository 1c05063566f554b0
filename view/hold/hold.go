// Package hold is the hold on a real motor that the explorer and the line mode
// share: what may be sent, and what is told of what the board says. Words that
// name what a person can do do so by its place and word in braces, as
// {walk.next}, for whoever shows them to put a key or a word there.
package hold

import (
	"errors"
	"fmt"

	"coilwalk/model/bench"
	"coilwalk/model/live"
	"coilwalk/view/action"
	"coilwalk/view/report"
)

// Hold is one hold on a motor. The bench goes on only by what the board
// acknowledged: a row is done on a copy first, sent, and the copy taken when the
// board says that it stands so.
type Hold struct {
	Motor *live.Motor
	Bench *bench.Bench // as the board has it
	State live.State   // as it was taken up last

	Moved func(before bench.Reading)     // Bench is another, or stands elsewhere
	Say   func(words string, alarm bool) // tells a person
	Redo  func(a action.Action)          // does what came while a row was on its way

	record Record        // of the sitting; nil without one
	torn   bool          // it has ended, and that has been told
	waits  *waits        // a row that is on its way
	again  action.Action // what came meanwhile; one is kept
	ran    int64         // rows of runs that the bench has made
	offs   uint64        // State.Off as it was taken up
	tests  bool          // what is on is a test of the shaft, which the bench has no part in
}

// waits is a row on its way to the board.
type waits struct {
	number uint64
	trial  *bench.Bench
	before bench.Reading
}

// Record is the record of a sitting with a real motor.
type Record interface {
	Note(word string)
	Err() error // why it has ended before the sitting
}

// Take takes hold of a motor; nothing is on yet. The functions of a Hold are for
// whoever takes it to set. The record may be nil.
func Take(m *live.Motor, b *bench.Bench, record Record) *Hold {
	b.Restart()
	b.Release()
	s := m.State()
	return &Hold{Motor: m, Bench: b, State: s, offs: s.Off, record: record}
}

// Off switches off at once.
func (h *Hold) Off() {
	h.Motor.Off("")
	h.Sync()
}

// note puts a word into the record, where there is one.
func (h *Hold) note(word string) {
	if h.record != nil {
		h.record.Note(word)
	}
}

// Sync takes up what the board has said.
func (h *Hold) Sync() {
	h.follow()
	if h.record != nil && !h.torn && h.record.Err() != nil {
		h.torn = true
		h.Say(h.record.Err().Error()+"; the motor goes on without it", true)
	}
}

func (h *Hold) follow() {
	s := h.Motor.State()
	was := h.State
	h.State = s
	if rows := s.Ran - h.ran; rows > 0 {
		before := h.Bench.Read()
		if err := h.Bench.Rows(rows); err == nil {
			h.ran = s.Ran
			h.Moved(before)
		}
	}
	if !s.Armed {
		h.tests = false
	}
	if s.Off != h.offs {
		h.offs, h.waits, h.again = s.Off, nil, action.Action{}
		before := h.Bench.Read()
		h.Bench.Release()
		h.Moved(before)
		switch {
		case s.Why != "":
			h.Say("OFF: "+s.Why, true)
		case was.Armed:
			h.Say(Freed, false)
		}
		return
	}
	if w := h.waits; w != nil {
		if !s.Armed || s.Number < w.number {
			return
		}
		h.waits = nil
		h.Bench = w.trial
		h.Moved(w.before)
	}
	if s.Owed > 0 || s.Running {
		return
	}
	if again := h.again; again.Do != nil {
		h.again = action.Action{}
		h.Redo(again)
	}
}

// Freed is said when a person has switched off.
const Freed = "off and disarmed: the load is free; {live.arm} arms again"

// ErrLost is met by everything that would send something.
var ErrLost = errors.New("the link is lost: {anywhere.quit} leaves, then connect anew")

// errMoving tells that a run was stopped instead of what was asked for.
var errMoving = errors.New("the run is stopped, its last row held; press it again")

// errMicro is met by microsteps.
var errMicro = errors.New("microsteps are currents between off and on, which pins can not give; {walk.mode} goes on to another mode")

// Try does an action on the real motor.
func (h *Hold) Try(a action.Action, args []string) error {
	h.Sync()
	if h.State.Lost {
		return ErrLost
	}
	off := h.Bench.Released()
	switch a.Word {
	case "run":
		return h.run()
	case "faster", "slower", "rate":
		return h.pace(a, args)
	case "rewind":
		return errors.New("time can not be undone on a real motor; {walk.back} turns it back")
	case "go":
		return errors.New("a real motor goes there row by row: {walk.next} or {walk.back}, or {walk.run}")
	case "swap", "drive", "rewire", "restart":
		if !off {
			return errors.New("{walk.stop} first: this is for when the coils are off")
		}
	}
	if h.State.Running {
		h.Motor.Pause()
		return errMoving
	}
	if h.Behind() {
		h.again = a
		return nil
	}
	before := h.Bench.Read()
	trial := h.Bench.Copy()
	if err := a.Do(trial, args); err != nil {
		return err
	}
	for a.Word == "mode" && len(args) == 0 && !wholeRows(trial) { // on to one that pins can give
		if err := a.Do(trial, args); err != nil {
			return err
		}
	}
	if a.Word == "mode" && !wholeRows(trial) {
		return errMicro
	}
	if off && a.Word == "restart" {
		trial.Release()
	}
	now := trial.Read()
	if trial.Released() || now.Outputs == before.Outputs {
		h.Bench = trial
		h.Moved(before)
		return nil
	}
	row, ok := live.RowOf(now.Outputs)
	if !ok {
		return errMicro
	}
	number, err := h.Motor.Show(live.Step{Outputs: row, Coils: now.Coils})
	if err != nil {
		return fmt.Errorf("%w: {live.arm} arms", err)
	}
	h.tests = false
	h.waits = &waits{number: number, trial: trial, before: before}
	h.Sync()
	return nil
}

// Behind says whether rows are on their way that the bench has not made yet: what
// is next can not be said before they are acknowledged.
func (h *Hold) Behind() bool { return h.waits != nil || h.State.Owed > 0 }

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
func (h *Hold) run() error {
	if h.State.Running {
		h.Pause()
		return nil
	}
	if h.Behind() { // the cycle would begin at a row that has gone by
		return nil
	}
	outputs, coils := h.Bench.Ahead()
	cycle := make([]live.Step, len(outputs))
	for k := range outputs {
		row, ok := live.RowOf(outputs[k])
		if !ok {
			return errMicro
		}
		cycle[k] = live.Step{Outputs: row, Coils: coils[k]}
	}
	if err := h.Motor.Run(cycle, h.Bench.Rate()); err != nil {
		if !h.State.Armed {
			return fmt.Errorf("%w: {live.arm} arms", err)
		}
		return err
	}
	h.Sync()
	return nil
}

// Pause ends a run, and tells how evenly it went.
func (h *Hold) Pause() {
	h.Motor.Pause()
	h.Sync()
	h.Say("held: "+report.LatePhrase(h.Motor.State().Pace), false)
}

// pace changes the rate; a run goes on with the row that is next.
func (h *Hold) pace(a action.Action, args []string) error {
	err := a.Do(h.Bench, args)
	if h.Bench.Rate() > live.MostRate {
		h.Bench.SetRate(live.MostRate)
		if err == nil {
			err = fmt.Errorf("from here rows can be sent at up to %d a second", live.MostRate)
		}
	}
	if h.State.Running {
		h.Motor.Pause()
		h.Say("held: {walk.run} runs at the new rate", false)
	}
	return err
}
