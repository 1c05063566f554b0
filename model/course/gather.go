package course

import (
	"math"

	"coilwalk/model/recording"
)

// Edges that belong to one change of rows come within the skew window: pins
// that firmware writes one after another are no fault. A burst of edges is one
// change when it is over within the window, is short beside the rows on both
// sides, and no pin moves twice in it.
const (
	windowSeconds = 200e-6 // what slow firmware takes to write four pins
	skewShare     = 8      // a burst is at most an eighth of the row before and after it
)

// gatherer makes rows of samples. Bit k of a sample is output k+1.
type gatherer struct {
	course  *Course
	window  int64 // ticks
	pending []state
	moved   uint8 // pins that moved in pending
	before  state // the row before pending
	now     uint8 // levels of the last state
	flags   uint8
	began   bool
}

// state is what the outputs are for an instant at least.
type state struct {
	at     int64
	levels uint8
	flags  uint8
}

func newGatherer(tick float64) *gatherer {
	return &gatherer{course: &Course{Tick: tick}, window: int64(windowSeconds / tick), before: state{at: math.MinInt64 / 2}, pending: make([]state, 0, 8)}
}

func (g *gatherer) add(samples []recording.Sample) {
	for k := range samples {
		s := &samples[k]
		levels, flags := uint8(s.High&0xf), uint8(0)
		if s.Unknown&0xf != 0 {
			flags = unknown
		}
		switch {
		case !g.began:
			g.began, g.course.First = true, s.At
		case levels == g.now && flags == g.flags:
			continue
		}
		moved := levels ^ g.now
		g.now, g.flags = levels, flags
		if len(g.pending) > 0 {
			first, last := g.pending[0], g.pending[len(g.pending)-1]
			dwell := s.At - last.at
			if dwell > g.window || dwell > (first.at-g.before.at)/skewShare || moved&g.moved != 0 || last.flags != flags || len(g.pending) == cap(g.pending) {
				g.flush(g.pending, s.At)
				g.pending, g.moved = g.pending[:0], 0
			}
		}
		g.pending, g.moved = append(g.pending, state{s.At, levels, flags}), g.moved|moved
	}
}

// end gives the course, once all samples are in.
func (g *gatherer) end(until int64) *Course {
	if len(g.pending) > 0 {
		g.flush(g.pending, max(until, g.pending[len(g.pending)-1].at+1))
		g.pending = g.pending[:0]
	}
	g.course.Until = until
	return g.course
}

// flush makes a row of a burst, or several where it is too long for one.
func (g *gatherer) flush(burst []state, next int64) {
	first, last := burst[0], burst[len(burst)-1]
	if len(burst) == 1 {
		g.row(last, first.at)
		return
	}
	span := last.at - first.at
	if span <= (first.at-g.before.at)/skewShare && span <= (next-last.at)/skewShare {
		g.row(last, first.at)
		return
	}
	longest := 0
	for k := range len(burst) - 1 {
		if burst[k+1].at-burst[k].at > burst[longest+1].at-burst[longest].at {
			longest = k
		}
	}
	g.flush(burst[:longest+1], burst[longest+1].at)
	g.flush(burst[longest+1:], next)
}

func (g *gatherer) row(s state, from int64) {
	r := Row{At: from, Skew: uint32(min(s.at-from, math.MaxUint32)), Levels: s.levels, Flags: s.flags}
	if n := g.course.n; n > 0 {
		if last := g.course.Row(n - 1); last.Levels == r.Levels && last.Flags == r.Flags {
			return // a burst that came back to where it was
		}
	}
	g.course.add(r)
	g.before = state{at: from, levels: s.levels}
}
