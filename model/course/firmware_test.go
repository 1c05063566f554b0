package course_test

import (
	"math"
	"math/rand/v2"
)

// This generator of recordings knows nothing of what it holds to account: the
// three modes, the pins and the files are written down anew.
//
// Where the field is, is counted in half steps from A+ on, rising going forward:
// even places have one phase on, odd ones two.

// eight is the half-step order as bits: 1 A+, 2 B+, 4 A-, 8 B-.
var eight = [8]uint8{1, 1 | 2, 2, 2 | 4, 4, 4 | 8, 8, 8 | 1}

func endsAt(half int) uint8 { return eight[(half%8+8)%8] }

type stepMode string

const (
	waveMode stepMode = "wave"
	fullMode stepMode = "full"
	halfMode stepMode = "half"
)

var stepModes = []stepMode{waveMode, fullMode, halfMode}

// next gives the place after one in a mode: when the mode has just changed, the
// nearest that belongs to it.
func (m stepMode) next(half, way int) int {
	one := half + way
	if m == halfMode || (m == waveMode) == (one&1 == 0) {
		return one
	}
	return half + 2*way
}

func (m stepMode) cycle() int {
	if m == halfMode {
		return 8
	}
	return 4
}

// beat is a row that the firmware means, and how long it lasts.
type beat struct {
	half  int
	ends  uint8
	lasts float64 // ns
	usual float64 // ns: from row to row about here
	leg   int     // place in the script's legs; −1 before the first and in pauses with the coils off

	late    [4]float64 // ns by which the pin of an end comes late
	shift   float64    // ns of jitter
	at      float64    // ns, once it is laid out
	row     int        // number as seen on the pins, once it is laid out
	stumble bool       // a fault has been put in here
}

// leg is a stretch of rows of one mode one way, at one rate or evenly accelerated.
type leg struct {
	mode     stepMode
	way      int // 1 forward, −1 reverse
	rows     int
	from, to float64 // rows a second; from 0 is a start from rest, to 0 a stop to rest
	run      int
}

func (l leg) steady() bool { return l.from == l.to }

// intervals gives the time from each row to the next in ns. Evenly accelerated,
// the rate after n rows is √(from² + 2an), so those n took (√(from² + 2an) − from)/a.
func (l leg) intervals() []float64 {
	all := make([]float64, l.rows)
	a := (l.to*l.to - l.from*l.from) / (2 * float64(l.rows))
	after := func(n int) float64 {
		if a == 0 {
			return float64(n) / l.from
		}
		return (math.Sqrt(math.Max(0, l.from*l.from+2*a*float64(n))) - l.from) / a
	}
	for n := range all {
		all[n] = 1e9 * (after(n+1) - after(n))
	}
	return all
}

// wish is what a script has to have.
type wish struct {
	modes   []stepMode // that it may have
	oneMode bool
	oneWay  bool // no turns within a run, and all runs the same way
	long    bool // room for faults in each leg
	slow    bool // the first run starts with a ramp that a millisecond timer can make
	fastest float64
}

// script is what the firmware means to send.
type script struct {
	*rand.Rand
	legs  []leg
	beats []*beat
}

func (s *script) between(low, high float64) float64 { return low + (high-low)*s.Float64() }

// spread draws evenly by the logarithm.
func (s *script) spread(low, high float64) float64 {
	return low * math.Pow(high/low, s.Float64())
}

func (s *script) chance(share float64) bool { return s.Float64() < share }

func write(r *rand.Rand, w wish) *script {
	s := &script{Rand: r}
	mode := w.modes[s.IntN(len(w.modes))]
	way := 1 - 2*s.IntN(2)
	for run := range 1 + s.IntN(5) {
		if run > 0 && !w.oneMode && s.chance(0.4) {
			mode = w.modes[s.IntN(len(w.modes))]
		}
		if run > 0 && !w.oneWay && s.chance(0.4) {
			way = -way
		}
		mode, way = s.run(run, mode, way, w)
	}
	s.beat()
	return s
}

// run writes the legs of a run, and gives the mode and the way it ends with.
func (s *script) run(run int, mode stepMode, way int, w wish) (stepMode, int) {
	rate := s.spread(20, w.fastest)
	slow := w.slow && run == 0
	if slow {
		rate = s.between(150, 300)
	}
	add := func(rows int, from, to float64) {
		s.legs = append(s.legs, leg{mode: mode, way: way, rows: rows, from: from, to: to, run: run})
	}
	if slow || s.chance(0.5) {
		s.ramp(rate, slow, false, add)
	}
	for k := range 1 + s.IntN(3) {
		least := 5
		if k > 0 && !w.oneWay && s.chance(0.4) {
			way = -way
			least = 4
		} else if k > 0 && !w.oneMode {
			was := mode
			mode = w.modes[s.IntN(len(w.modes))]
			if s.chance(0.5) { // the shaft keeps its speed
				rate = s.keep(rate, was, mode)
			}
		}
		rows := least + s.IntN(8)
		if w.long || s.chance(0.8) {
			rows = 50 + s.IntN(100)
		}
		add(rows, rate, rate)
	}
	if !slow && s.chance(0.4) {
		s.ramp(rate, false, true, add)
	}
	return mode, way
}

func (s *script) keep(rate float64, was, is stepMode) float64 {
	switch {
	case was != halfMode && is == halfMode && rate < 1500:
		return 2 * rate
	case was == halfMode && is != halfMode && rate > 40:
		return rate / 2
	}
	return rate
}

// ramp adds an acceleration up to a rate, or a deceleration from it, whose
// rate changes by an eighth from row to row at the most; one in five from rest.
func (s *script) ramp(rate float64, slow, down bool, add func(rows int, from, to float64)) {
	ratio := s.between(1.3, 4)
	if slow {
		ratio = s.between(3, 4.5)
	}
	start := math.Max(20, rate/ratio)
	ratio = rate / start
	rows := 10 + int((ratio*ratio-1)*4*s.between(1, 2.5))
	if !slow && s.chance(0.2) {
		start, rows = 0, 30+s.IntN(100)
	}
	if down {
		add(rows, rate, start)
		return
	}
	add(rows, start, rate)
}

// beat makes rows of the legs, with the pauses between runs and the idling
// before and after them.
func (s *script) beat() {
	half := s.IntN(8)
	if s.legs[0].mode != halfMode {
		half &^= 1
		if s.legs[0].mode == fullMode {
			half++
		}
	}
	first := s.legs[0].intervals()[0]
	s.idle(first*s.between(24, 60), first, half)
	for i, l := range s.legs {
		if i > 0 && l.run != s.legs[i-1].run {
			s.pause(l, half)
		}
		for _, lasts := range l.intervals() {
			half = l.mode.next(half, l.way)
			s.beats = append(s.beats, &beat{half: half, ends: endsAt(half), lasts: lasts, usual: lasts, leg: i})
		}
	}
	last := s.beats[len(s.beats)-1]
	if s.chance(0.5) {
		last.lasts *= s.between(24, 60)
		return
	}
	s.beats = append(s.beats, &beat{half: half, lasts: last.usual * s.between(24, 60), usual: last.usual, leg: -1})
}

// idle is what stands on the pins before a run whose first step starts from
// half: the coils off, or the row on already.
func (s *script) idle(lasts, usual float64, half int) {
	switch s.IntN(3) {
	case 0: // off until the first row
		s.beats = append(s.beats, &beat{half: half, lasts: lasts, usual: usual, leg: -1})
	case 1: // on all the while
		s.beats = append(s.beats, &beat{half: half, ends: endsAt(half), lasts: lasts, usual: usual, leg: -1})
	default: // on again, and a step later it starts
		s.beats = append(s.beats, &beat{half: half, lasts: lasts, usual: usual, leg: -1},
			&beat{half: half, ends: endsAt(half), lasts: usual, usual: usual, leg: -1})
	}
}

// pause puts a pause before a leg: over twenty times the intervals on both sides.
func (s *script) pause(next leg, half int) {
	last := s.beats[len(s.beats)-1]
	start := next.intervals()[0]
	long := math.Max(last.usual, start) * s.between(24, 100)
	switch {
	case s.chance(0.5): // held
		last.lasts = long
		return
	case s.chance(0.5): // held for a while, then off
		last.lasts = long
	}
	s.idle(long, start, half)
}
