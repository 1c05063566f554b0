package course

import (
	"context"
	"errors"
	"math"
	"sort"

	"coilwalk/model/rotor"
	"coilwalk/sequence"
)

// Ride is a motor that is run along a course, from the course's first row on: the
// same machine in time that tells what rates it follows.
type Ride struct {
	course *Course
	codes  codes
	rows   [16]sequence.Row
	motion *rotor.Motion

	next      int // the row that is energised next
	commanded place
	began     bool
	origin    rotor.Position
	slipped   int64 // whole cycles that the rotor is behind its rows
	marks     []mark
	slips     []Slip
}

// mark is a moment from which the ride can be taken up again.
type mark struct {
	row       int
	state     rotor.State
	commanded place
}

// Slip is where the rotor falls out of step: it comes to rest a multiple of four
// full steps from where it is commanded to.
type Slip struct {
	Row   int     // of the course, from 0
	Steps float64 // full steps lost on the way it goes; below zero when it ran ahead
}

const (
	markRows     = 64   // from one mark to the next: so many are run again to show a moment
	rideTolerant = 1e-5 // of Motion, as for trials of rates
	mostSeconds  = 1e9  // some thirty years: beyond, a moment is too small beside the time
)

// NewRide puts a motor at rest on the course's first row that has a field.
func NewRide(v *Verdict, plant *rotor.Plant) *Ride {
	r := &Ride{course: v.Course, codes: v.codes, motion: rotor.NewMotion(plant)}
	r.motion.Tolerance = rideTolerant
	for levels := range r.rows {
		r.rows[levels] = v.Row(uint8(levels))
	}
	return r
}

// Row gives the coil ends that four outputs put on.
func (v *Verdict) Row(levels uint8) (row sequence.Row) {
	if v.Active == Low {
		levels ^= 0xf
	}
	for k := range row {
		row[v.Taken[k]] = float64(levels >> k & 1)
	}
	return row
}

// Next gives the row up to which the motor has been run.
func (r *Ride) Next() int { return r.next }

// Slips gives where it fell out of step so far, and how many full steps it is
// behind now.
func (r *Ride) Slips() (all []Slip, lostSteps float64) { return r.slips, 4 * float64(r.slipped) }

// Run goes on until a row, at most; it stops when the context is done.
func (r *Ride) Run(ctx context.Context, until int) error {
	for r.next < min(until, r.course.n) {
		if r.next%markRows == 0 {
			if err := ctx.Err(); err != nil {
				return err
			}
		}
		if err := r.row(); err != nil {
			return err
		}
	}
	return nil
}

// row energises the next row and runs to its end.
func (r *Ride) row() error {
	row := r.course.Row(r.next)
	on := r.rows[row.Levels&0xf]
	r.commanded.pass(r.codes.of(row))
	at := r.course.Seconds(row.At)
	until := at + r.course.Seconds(r.course.Dwell(r.next))
	if until > mostSeconds {
		return errors.New("a motor can not be run along more than thirty years; is the timescale of the recording right?")
	}
	if !r.began {
		field := r.codes.of(row)
		if field >= eighths {
			r.next++
			return nil
		}
		r.began, r.origin = true, rotor.Position{Deg: 45 * float64(field)}
		r.motion.Start(rotor.State{Seconds: at, Place: r.origin})
		r.motion.Energise(on)
		if _, _, err := r.motion.Settle(on, 1); err != nil { // it was put there before the recording begins
			return err
		}
		s := r.motion.State()
		s.Seconds = at
		r.motion.Start(s)
	}
	if r.next%markRows == 0 || len(r.marks) == 0 {
		r.marks = append(r.marks, mark{r.next, r.motion.State(), r.commanded})
	}
	r.motion.Energise(on)
	if err := r.motion.Dwell(on, until); err != nil {
		return err
	}
	r.look()
	r.next++
	return nil
}

// outOfStep is how far, in degrees electrical, a rotor is from its row when it
// belongs to another cycle. In step it lags or leads less than half of one; a
// swing may take it further for a moment.
const outOfStep = 250

// look compares where the rotor is with where it is commanded to be.
func (r *Ride) look() {
	off := 45*float64(r.commanded.eighths) - r.motion.State().Place.From(r.origin) - 360*float64(r.slipped)
	if math.Abs(off) < outOfStep {
		return
	}
	cycles := int64(math.Round(off / 360))
	r.slipped += cycles
	way := int64(1)
	if r.commanded.way < 0 {
		way = -1
	}
	r.slips = append(r.slips, Slip{r.next, 4 * float64(cycles*way)})
}

// At gives the state of the machine at a moment that has been run; ok is false
// where it has not.
func (r *Ride) At(at int64, motion *rotor.Motion) (s rotor.State, ok bool) {
	i := r.course.Find(at)
	if i < 0 || i >= r.next || len(r.marks) == 0 || i < r.marks[0].row {
		return s, false
	}
	k := sort.Search(len(r.marks), func(k int) bool { return r.marks[k].row > i }) - 1
	again := *r
	again.motion, again.next, again.marks = motion, r.marks[k].row, nil
	again.commanded = r.marks[k].commanded
	motion.Tolerance = rideTolerant
	motion.Start(r.marks[k].state)
	for again.next < i {
		on := again.rows[again.course.Row(again.next).Levels&0xf]
		motion.Energise(on)
		if motion.Dwell(on, again.course.Seconds(again.course.Row(again.next+1).At)) != nil {
			return s, false
		}
		again.next++
	}
	on := again.rows[again.course.Row(i).Levels&0xf]
	motion.Energise(on)
	if motion.Dwell(on, again.course.Seconds(at)) != nil {
		return s, false
	}
	return motion.State(), true
}

// Turned gives how far the rotor has come since it stood on the course's first
// row, in degrees electrical.
func (r *Ride) Turned(s rotor.State) float64 { return s.Place.From(r.origin) }
