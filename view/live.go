package view

import (
	"fmt"
	"time"

	"coilwalk/model/bench"
	"coilwalk/view/action"
	"coilwalk/view/hold"
	"coilwalk/view/picture"
	"coilwalk/view/report"
)

// grip is the explorer's hold on a real motor.
type grip struct{ *hold.Hold }

// Stirred is the message that the real motor has changed.
type Stirred struct{}

// newGrip takes hold of a motor; nothing is on yet.
func newGrip(e *Explorer, l Live) *grip {
	h := hold.Take(l.Motor, e.bench, l.Record)
	h.Moved = func(before bench.Reading) {
		e.bench = h.Bench
		e.follow(before)
	}
	h.Say = func(words string, bad bool) {
		if _, on := e.screens[e.at].(*walk); words == hold.Freed && !on {
			words = "off and disarmed: the load is free; {live.arm} on Walk arms again"
		}
		if e.notice = advice(words); bad {
			e.notice = alarm(words)
		}
	}
	h.Redo = func(a action.Action) { e.act(a, nil) }
	return &grip{h}
}

// arms asks whether to make ready, and says what then can be done. What is pasted,
// or comes as quickly as no hand types, does not.
func (l *grip) arms(e *Explorer, then string) {
	if l.State.Lost {
		e.notice = alarm(hold.ErrLost.Error())
		return
	}
	if l.State.Armed {
		e.notice = advice(hold.Already)
		return
	}
	asked := e.Now()
	p := e.asks(hold.Asks, "", func(text string) error {
		if err := hold.Answered(text, e.Now().Sub(asked)); err != nil {
			return fmt.Errorf("%w; type on and press enter, or esc leaves", err)
		}
		e.notice = advice("arming …")
		e.later(func() late {
			err := l.Motor.Arm()
			return armed{err, then}
		})
		return nil
	})
	p.typed = true
	p.above = report.LiveCautions(l.State.About)
}

// soonOff is from when on it is told how long it stays armed.
const soonOff = 30 * time.Second

// armed is what came of arming.
type armed struct {
	err  error
	then string // what is said then
}

func (a armed) arrive(e *Explorer) {
	e.live.Sync()
	if e.notice = advice(a.then); a.err != nil {
		e.notice = alarm("not armed: " + a.err.Error())
	}
}

// drawState draws how the real motor stands, at the right of the head, and gives
// where it begins.
func (l *grip) drawState(g *picture.Grid) (x int) {
	words, ink := report.LiveState(l.State)
	style := picture.Loud(map[report.Alarm]picture.Ink{report.Calm: picture.Faint, report.Ready: picture.Current, report.Energised: picture.Good, report.Trouble: picture.Alert}[ink])
	g.WriteEnd(g.W-1, 0, words, style)
	return g.W - 1 - picture.Width(words)
}

// numbers are the readings of the real motor.
func (l *grip) numbers() []number {
	list := []number{{"board", l.State.Row.String(), picture.Strong}}
	if l.State.Unsure {
		list[0] = number{"board", "not known", picture.Alert}
	}
	if l.State.Most > 0 {
		ink := picture.Text
		if l.State.Warm {
			ink = picture.Alert
		}
		list = append(list, number{"winding", fmt.Sprintf("%.0f of %.0f °C", l.State.Celsius, l.State.Most), ink})
	}
	if l.State.Pace.Rows > 1 {
		list = append(list, number{"late", report.Late(l.State.Pace), picture.Text})
	}
	if l.State.Armed && l.State.Left > 0 && l.State.Left < soonOff {
		list = append(list, number{"off in", fmt.Sprintf("%.0f s", l.State.Left.Seconds()), picture.Text})
	}
	return list
}
