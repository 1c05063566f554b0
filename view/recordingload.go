package view

import (
	"context"
	"errors"
	"fmt"
	"sync/atomic"

	"coilwalk/model/course"
	"coilwalk/model/rotor"
)

// loading is what goes on beside the screen: the rows are read, then judged, then
// a motor is run along them.
type loading struct {
	rows   atomic.Pointer[course.Course] // so far
	stop   context.CancelFunc
	what   string // that goes on; "" when all is done
	ended  bool   // it was ended by hand
	failed error
}

// rideRows are run at a time, so that the screen sees how far it is.
const rideRows = 500

// loadedMsg is a recording whose rows have been read and judged.
type loadedMsg struct {
	screen  *recordingScreen
	verdict *course.Verdict
	err     error
}

// begin reads the rows beside the screen.
func (r *recordingScreen) begin(e *Explorer) {
	ctx, stop := context.WithCancel(context.Background())
	r.load.stop, r.load.what = stop, "reading"
	e.later(func() late {
		defer r.Close()
		rows, err := r.Loading.Rows(ctx, func(c *course.Course) { r.load.rows.Store(c) })
		if errors.Is(err, context.Canceled) && r.load.rows.Load() != nil { // what was read till then is judged
			rows, err = r.load.rows.Load(), nil
		}
		if err != nil {
			return loadedMsg{screen: r, err: err}
		}
		r.load.rows.Store(rows)
		return loadedMsg{screen: r, verdict: course.Judge(rows, r.Loading.Choice.Outputs, r.Question)}
	})
}

func (msg loadedMsg) arrive(e *Explorer) {
	r := msg.screen
	r.load.what, r.load.failed = "", msg.err
	if msg.err != nil {
		e.notice = alarm(msg.err.Error())
		return
	}
	r.judged(msg.verdict)
	r.tell(e, r.notice())
	if r.load.ended {
		r.tell(e, advice("ended: only what was read till then is told"))
	}
	if r.Machine == nil || r.Course.Len() == 0 || r.load.ended {
		return
	}
	r.load.what = "running the motor along it"
	if !r.Whole && !r.Course.Whole() {
		r.finish(e, nil)
		return
	}
	r.Rider = rotor.NewMotion(&r.Machine.Plant)
	r.rideOn(e, course.NewRide(r.Verdict, &r.Machine.Plant))
}

// judged takes a verdict.
func (r *recordingScreen) judged(v *course.Verdict) {
	r.Judged(v, r.Source)
	r.summed = r.Answer.Judgement()
}

// notice says at once what the person came for.
func (r *recordingScreen) notice() notice {
	if r.Verdict.Sound {
		return advice(r.summed)
	}
	return alarm(r.summed + "; {recording.next-fault} goes to the first")
}

// rideMsg is a ride that has come some rows on. While more is run, what it has
// come to may be read: only what lies beyond is added.
type rideMsg struct {
	screen *recordingScreen
	ride   *course.Ride
	so     course.Ride
	err    error
}

func (r *recordingScreen) rideOn(e *Explorer, ride *course.Ride) {
	e.later(func() late {
		err := ride.Run(context.Background(), ride.Next()+rideRows)
		return rideMsg{r, ride, *ride, err}
	})
}

func (msg rideMsg) arrive(e *Explorer) {
	r := msg.screen
	if msg.err != nil {
		r.load.what = ""
		e.notice = alarm(msg.err.Error())
		return
	}
	so := msg.so
	r.Ride = &so
	if r.load.ended {
		r.load.what = ""
		return
	}
	if so.Next() < r.Course.Len() {
		r.rideOn(e, msg.ride)
		return
	}
	r.finish(e, msg.ride)
}

// heldMsg is the verdict with what the motor does not follow.
type heldMsg struct {
	screen  *recordingScreen
	verdict *course.Verdict
	err     error
}

func (r *recordingScreen) finish(e *Explorer, ride *course.Ride) {
	v, m := r.Verdict, r.Machine
	e.later(func() late {
		with, err := v.With(context.Background(), m, ride)
		return heldMsg{r, with, err}
	})
}

func (msg heldMsg) arrive(e *Explorer) {
	r := msg.screen
	r.load.what = ""
	if msg.err != nil {
		e.notice = alarm(msg.err.Error())
		return
	}
	more := len(msg.verdict.Faults) > len(r.Verdict.Faults)
	r.judged(msg.verdict)
	if more {
		r.tell(e, r.notice())
	}
}

// tell gives a notice where the screen is shown: it speaks of its keys.
func (r *recordingScreen) tell(e *Explorer, n notice) {
	if e.screens[e.at] == screen(r) {
		e.notice = n
	}
}

// end stops what goes on beside the screen; what it has come to stays.
func (r *recordingScreen) end() {
	if r.load.what != "" {
		r.load.ended = true
		r.load.stop()
	}
}

// busy says whether something goes on beside the screen.
func (r *recordingScreen) busy() bool { return r.load.what != "" }

// progress says how far it is.
func (r *recordingScreen) progress() string {
	switch {
	case r.load.what == "":
		return ""
	case r.Ride != nil && r.Verdict != nil:
		return fmt.Sprintf("%s: %.0f %%", r.load.what, 100*float64(r.Ride.Next())/float64(max(1, r.Course.Len())))
	case r.Verdict == nil:
		if read, total := r.Source.Recording.Progress(); total > 0 {
			return fmt.Sprintf("%s: %.0f %%", r.load.what, 100*float64(read)/float64(total))
		}
	}
	return r.load.what
}
