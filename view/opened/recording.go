package opened

import (
	"coilwalk/model/course"
	"coilwalk/model/motor"
	"coilwalk/model/rotor"
	"coilwalk/view/report"
)

// Recording is a recording whose rows are still to be read.
type Recording struct {
	File     string
	Source   report.Recorded
	Loading  *course.Loading
	Question course.Question
	Motor    *motor.Motor  // that the person named; nil without
	Machine  *course.Motor // the same, to be run along the rows; nil where it can not
	Whole    bool          // run it along all rows, however many
	Close    func()        // lets the file go
}

// Place is a place in a recording, at a row of it, and what is found there.
type Place struct {
	Course  *course.Course
	Verdict *course.Verdict // nil while the rows are read
	Answer  report.Read     // the verdict in words
	Ride    *course.Ride    // the motor run along it, as far as that has come; nil without
	Rider   *rotor.Motion   // runs it again from a mark to the row

	Row   int // of the course
	Fault int // the one that was gone to; −1 for none
	MarkA int // rows; −1 for none
	MarkB int

	shown Rotor
}

// Begin is the place at which a recording begins.
func Begin() Place { return Place{Fault: -1, MarkA: -1, MarkB: -1, shown: Rotor{row: -1}} }

// Judged takes a verdict.
func (p *Place) Judged(v *course.Verdict, of report.Recorded) {
	p.Course, p.Verdict = v.Course, v
	p.Answer = report.NewRead(of, v)
	p.Fault = min(p.Fault, len(p.Answer.Faults)-1)
	p.Row = max(0, min(p.Row, p.Course.Len()-1))
	if p.Row == 0 && p.Course.Len() > 0 {
		p.Row = min(v.Numbers.Row(1), p.Course.Len()-1) // not the idle time before it
	}
}

// Rotor is where the rotor is at the end of a row.
type Rotor struct {
	Deg    float64 // electrical
	Turned float64 // degrees electrical, from where it began
	Known  bool    // else the ride has not come so far

	row, ridden int
}

// Rotor runs the ride again to the end of the row. That takes a moment, so what
// was found is kept.
func (p *Place) Rotor() Rotor {
	ridden := 0
	if p.Ride != nil {
		ridden = p.Ride.Next()
	}
	if s := p.shown; s.row == p.Row && (s.Known || s.ridden == ridden) {
		return s
	}
	p.shown = Rotor{row: p.Row, ridden: ridden}
	if p.Row < ridden {
		at := p.Course.Row(p.Row).At + p.Course.Dwell(p.Row) - 1
		if state, ok := p.Ride.At(at, p.Rider); ok {
			p.shown.Deg, p.shown.Known = state.Place.Deg, true
			p.shown.Turned = p.Ride.Turned(state)
		}
	}
	return p.shown
}
