package view

import (
	"math"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"coilwalk/model/bench"
)

// frameMsg is the time for one more picture, by its number: a stale one is
// dropped, so that two chains of them can not double the speed.
type frameMsg int

// turning is the rotor's picture on its way from one rest to the next. It is
// only a picture: the rotor itself is at rest at the end of the way.
type turning struct {
	behind float64 // electrical degrees that the picture still had to go at the start
	start  time.Time
	takes  time.Duration
	played *played // the way that the rotor really goes; nil for a plain turn
}

// played is a motion that was run, to be shown slowed: the electrical degrees
// still to go at even times.
type played struct {
	left  []float64
	every time.Duration // between them, as shown
}

// add sends the picture on by some more, from where it is now.
func (t *turning) add(deg float64, now time.Time, takes time.Duration) {
	left := t.left(now) + deg
	if math.Abs(left) > farthest || math.Abs(left) < 1e-3 {
		*t = turning{}
		return
	}
	*t = turning{behind: left, start: now, takes: takes}
}

// left gives how far the picture still has to go: quick at first, then easing.
func (t *turning) left(now time.Time) float64 {
	if p := t.played; p != nil {
		at := float64(max(now.Sub(t.start), 0)) / float64(p.every)
		k := int(at)
		if k+1 >= len(p.left) {
			return 0
		}
		return p.left[k] + (at-float64(k))*(p.left[k+1]-p.left[k])
	}
	if t.behind == 0 || t.takes <= 0 {
		return 0
	}
	part := float64(now.Sub(t.start)) / float64(t.takes)
	if part >= 1 {
		return 0
	}
	still := 1 - max(part, 0)
	return t.behind * still * still
}

// pass lets the time since the last picture pass on the bench.
func (e *Explorer) pass() {
	now := e.Now()
	if e.bench.Running() {
		before := e.bench.Read()
		passed := min(now.Sub(e.last), bench.LongestStall) // as shown, however slow
		if slow := e.slowed.by(); before.Timed && slow > 1 {
			passed = time.Duration(float64(passed) / slow)
		}
		if rows := e.bench.Elapse(passed); rows > 0 && !before.Timed {
			e.follow(before)
		}
	}
	e.last = now
	if !e.turn.goesOn(now) {
		e.turn = turning{}
	}
}

// goesOn says whether the picture is still on its way; a swing passes its rest
// many times. A clock that went back says nothing of the way: it is over then.
func (t *turning) goesOn(now time.Time) bool {
	if now.Before(t.start) {
		return false
	}
	if p := t.played; p != nil {
		return now.Sub(t.start) < time.Duration(len(p.left))*p.every
	}
	return t.left(now) != 0
}

// next gives what is to be run beside the screen, and asks for a picture if
// anything moves and none is waited for.
func (e *Explorer) next() tea.Cmd {
	frame := e.nextFrame()
	if len(e.pending) == 0 {
		return frame
	}
	all := append(e.pending, frame)
	e.pending = nil
	return tea.Batch(all...)
}

// busy says whether something goes on beside the screen that is shown.
func (e *Explorer) busy() bool {
	b, ok := e.screens[e.at].(interface{ busy() bool })
	return ok && b.busy()
}

func (e *Explorer) nextFrame() tea.Cmd {
	if e.wait {
		return nil
	}
	if e.busy() && !e.Still { // else what it comes to is shown when it comes
		return e.frameIn(busyTime)
	}
	if !e.bench.Running() && e.turn == (turning{}) {
		return nil
	}
	return e.frameIn(e.pictureTime())
}

// hold keeps the picture of a run as it is where nothing is to move, but for one
// now and then. A key, or what came of something, is shown at once.
func (e *Explorer) hold(running bool) {
	e.held = e.Still && running && e.shown != "" && e.Now().Sub(e.drawn) < stillTime
}

// pictureTime is how long a picture of what moves may stand: where nothing is
// seen between rows, as long as a row is still shown in time.
func (e *Explorer) pictureTime() time.Duration {
	every := time.Second / frameRate
	if e.Still || e.turn == (turning{}) && e.bench.Running() && !e.bench.Timed() {
		every = max(every, time.Duration(float64(time.Second)/e.shownRate()/4))
	}
	return every
}

// shownRate gives the rows a second that are to be seen.
func (e *Explorer) shownRate() float64 {
	if e.bench.Timed() {
		return e.bench.Rate() / max(1, e.slowed.by())
	}
	return e.bench.Rate()
}

// frameIn asks for a picture after some time.
func (e *Explorer) frameIn(every time.Duration) tea.Cmd {
	e.wait = true
	e.frame++
	id := e.frame
	return tea.Tick(every, func(time.Time) tea.Msg { return frameMsg(id) })
}
