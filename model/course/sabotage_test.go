package course_test

import (
	"math"
	"slices"
)

// wrong is a fault that was put in, and what is accepted as telling of it.
type wrong struct {
	kind   string
	first  *beat // where it first shows
	last   *beat // up to where it may be told to begin
	whole  bool  // it is there from the start: row 0, or any up to first
	loose  bool  // a pin is stuck at the time, so rows are not counted for sure
	end    int   // the pin, by the coil end it drives; −1 for none
	high   bool  // of a pin that is stuck
	until  *beat // the first that is sound again; nil for the end
	pulse  float64
	within float64 // ns after its beat: of a pulse

	row, lastRow int
	from, to     float64 // s
	channel      string  // "" where no single one is wrong
}

// apart is how many rows lie between two faults at least.
const apart = 12

// inside lists the beats at which something may go wrong: so many rows inside a
// leg, on either side, that no one has to guess, and far from other faults.
func (s *script) inside(margin int, fits func(leg) bool) []int {
	var all []int
	for i := margin; i < len(s.beats)-margin; i++ {
		b := s.beats[i]
		if b.leg < 0 || s.beats[i-margin].leg != b.leg || s.beats[i+margin].leg != b.leg || !fits(s.legs[b.leg]) {
			continue
		}
		clean := true
		for k := max(0, i-apart); k < min(len(s.beats), i+apart+1); k++ {
			clean = clean && !s.beats[k].stumble
		}
		if clean {
			all = append(all, i)
		}
	}
	return all
}

// singleRow are the faults of a few rows in one place.
var singleRow = []string{"both-ends-on", "no-field", "skipped-row", "repeated-row", "gap", "rows-exchanged", "wrong-row", "reversal", "glitch", "late-pin"}

// spoil puts a fault of a kind in, and says whether there was a place.
func (s *script) spoil(kind string, low bool) (wrong, bool) {
	w := wrong{kind: kind, end: -1}
	if !slices.Contains(singleRow, kind) {
		return s.spoilPin(w, low)
	}
	anyLeg := func(leg) bool { return true }
	fits := anyLeg
	switch kind {
	case "repeated-row", "gap":
		fits = leg.steady
	case "late-pin":
		fits = func(l leg) bool { return l.mode != halfMode }
	}
	places := s.inside(8, fits)
	if len(places) == 0 {
		return w, false
	}
	i := places[s.IntN(len(places))]
	b := s.beats[i]
	mode := s.legs[b.leg].mode
	w.first, w.last = b, b
	b.stumble = true
	switch kind {
	case "both-ends-on":
		coil := uint8(1|4) << s.IntN(2)
		b.ends |= coil
	case "no-field":
		b.ends = 0
	case "skipped-row":
		s.beats = slices.Delete(s.beats, i, i+1)
		w.first, w.last = s.beats[i], s.beats[i]
		w.first.stumble = true
	case "repeated-row":
		b.lasts *= float64(2 + s.IntN(2))
		w.last = s.beats[i+1]
	case "gap":
		b.lasts *= s.odd()
		w.last = s.beats[i+1]
	case "rows-exchanged":
		next := s.beats[i+1]
		b.ends, next.ends = next.ends, b.ends
		b.half, next.half = next.half, b.half
	case "wrong-row":
		off := 1 - 2*s.IntN(2)
		if mode == halfMode {
			off = 2 + s.IntN(4)
		}
		b.ends = endsAt(b.half + off)
	case "reversal":
		w.first = s.back(i, 1+s.IntN(3))
		w.last = w.first
	case "glitch":
		w.end = s.IntN(4)
		w.within = b.lasts * s.between(0.25, 0.75)
		w.pulse = s.spread(50, b.lasts/20)
	case "late-pin":
		changed := b.ends ^ s.beats[i-1].ends
		if changed == 0 { // of a table that has a row twice
			return w, false
		}
		for w.end = s.IntN(4); changed>>w.end&1 == 0; w.end = s.IntN(4) {
		}
		b.late[w.end] = b.usual * s.between(0.2, 1.0/3)
	}
	return w, true
}

// odd is how many times too long a gap is: neither two nor three times.
func (s *script) odd() float64 {
	switch s.IntN(4) {
	case 0:
		return s.between(1.6, 1.85)
	case 1:
		return s.between(2.2, 2.8)
	}
	return s.spread(3.2, 18)
}

// back has the rows after one run back, and then on again.
func (s *script) back(i, rows int) *beat {
	var more []*beat
	of := func(k int) *beat {
		b := *s.beats[k]
		b.stumble = true
		return &b
	}
	for k := i - 1; k >= i-rows; k-- {
		more = append(more, of(k))
	}
	for k := i - rows + 1; k <= i; k++ {
		more = append(more, of(k))
	}
	for _, b := range more {
		b.lasts, b.usual = s.beats[i].lasts, s.beats[i].usual
	}
	s.beats = slices.Insert(s.beats, i+1, more...)
	return more[0]
}

// spoilPin has a pin stick; what is wrong with a whole recording is made when it
// is put together.
func (s *script) spoilPin(w wrong, low bool) (wrong, bool) {
	switch w.kind {
	case "stuck-low", "stuck-high":
		w.high = w.kind == "stuck-high"
		return s.stick(w, w.high != low)
	case "quantised-timer":
		return s.truncate(w)
	}
	return w, false
}

// stick has a pin stay on, or off: from the start, or from a row at which it
// should have changed, on to the end or to a row at which it is right again. It
// stays so for three cycles at least.
func (s *script) stick(w wrong, on bool) (wrong, bool) {
	w.end = s.IntN(4)
	is := func(k int) bool { return s.beats[k].ends>>w.end&1 == 1 }
	moved := func(k int) bool { return is(k) != on }
	share := s.IntN(3)
	if w.whole {
		for k, b := range s.beats {
			if moved(k) && b.leg >= 0 {
				w.first, w.last = b, b
				return w, true
			}
		}
		return w, false
	}
	var places []int
	for _, i := range s.inside(10, func(leg) bool { return true }) {
		cycle := s.legs[s.beats[i].leg].mode.cycle()
		if i+3*cycle+10 < len(s.beats) && s.beats[i+3*cycle+10].leg == s.beats[i].leg && moved(i) && !moved(i-1) {
			places = append(places, i)
		}
	}
	if len(places) == 0 {
		return w, false
	}
	i := places[s.IntN(len(places))]
	w.first, w.last = s.beats[i], s.beats[i]
	end := len(s.beats)
	if share > 0 {
		cycle := s.legs[s.beats[i].leg].mode.cycle()
		end = min(i+3*cycle+s.IntN(40), len(s.beats))
		for end < len(s.beats) && (moved(end) || s.beats[end].leg != s.beats[i].leg) {
			end++
		}
	}
	for k := i; k < end; k++ {
		if s.beats[k].stumble {
			return w, false
		}
		s.beats[k].stumble = true
	}
	if end < len(s.beats) {
		w.until = s.beats[end]
	}
	return w, true
}

// truncate has the first run, which starts with a ramp, timed in whole
// milliseconds.
func (s *script) truncate(w wrong) (wrong, bool) {
	whole := func(ns float64) float64 { return math.Max(1, math.Floor(ns/1e6)) * 1e6 }
	for _, b := range s.beats {
		if b.leg < 0 || s.legs[b.leg].run > 0 {
			continue
		}
		if b.leg == 0 {
			if w.first == nil {
				w.first = b
			}
			w.last = b
		}
		if b.lasts == b.usual {
			b.lasts = whole(b.usual)
		}
		b.usual = whole(b.usual)
	}
	return w, true
}
