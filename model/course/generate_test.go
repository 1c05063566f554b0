package course_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"strconv"
	"strings"
)

// asked is what the person says of a recording.
type asked struct {
	channels []string // on outputs 1 to 4; nil when they are to be found
	wiring   []int    // the end that each output is said to drive, by its place among A+ B+ A- B-; nil when nobody says
	level    int      // 1 high is on, −1 low; 0 when nobody says
	meant    int      // 1 forward, −1 reverse; 0 when nobody says
}

// stretch is a run as it was meant.
type stretch struct {
	mode        stepMode
	way         int
	rows        int
	first, last *beat
}

// generated is a recording with the truth beside it.
type generated struct {
	name   string // with the seed
	text   []byte
	asked  asked
	faults []wrong
	runs   []stretch
	steps  float64 // full steps from the first row to the last
	feeds  []int   // the end that each of the asked channels really drives
	low    bool
	trace  *trace // as it was written
	tick   int
}

// generate makes a recording with faults of kinds, or a sound one. A script
// that has no place for them is written anew.
func generate(series uint64, number int, kinds ...string) *generated {
	if other, err := strconv.ParseUint(os.Getenv("COILWALK_SEED"), 10, 32); err == nil {
		series += 1e6 * other // recordings that nobody has seen
	}
	r := rand.New(rand.NewPCG(series, uint64(number)))
	for {
		if g := attempt(r, kinds); g != nil {
			g.name = fmt.Sprintf("%s, seed %d, %d", strings.Join(append([]string{"sound"}, kinds...)[min(1, len(kinds)):], " and "), series, number)
			return g
		}
	}
}

func attempt(r *rand.Rand, kinds []string) *generated {
	has := func(kind string) bool { return slices.Contains(kinds, kind) }
	w := wish{modes: stepModes, long: len(kinds) > 0, fastest: 3000}
	w.oneMode = has("open-wrap") || r.IntN(3) == 0
	w.oneWay = has("open-wrap") || has("direction-reversed")
	w.slow = has("quantised-timer")
	if has("late-pin") && w.oneMode {
		w.modes = []stepMode{waveMode, fullMode}
	}
	s := write(r, w)
	g := &generated{low: s.chance(0.3)}
	var wrap wrong
	if has("open-wrap") {
		var ok bool
		if wrap, ok = s.openWrap(); !ok {
			return nil
		}
	}
	g.runs, g.steps = s.meant()
	t := timing{jitter: 0.03 * s.Float64() * float64(s.IntN(4)) / 3, most: math.Inf(1), low: g.low}
	if has("quantised-timer") {
		t.most = 20e3
	}
	tick := s.IntN(len(ticks))
	order := slices.Clone(kinds)
	slices.SortStableFunc(order, func(a, b string) int { return int(bit(b == "quantised-timer")) - int(bit(a == "quantised-timer")) })
	for _, kind := range order {
		fault := wrong{kind: kind, end: -1, first: s.beats[0], last: s.beats[0], whole: true}
		switch kind {
		case "outputs-permuted", "direction-reversed":
		case "open-wrap":
			fault = wrap
		default:
			var ok bool
			if fault, ok = s.spoilBeside(kind, kinds, g.low); !ok {
				return nil
			}
		}
		if kind == "glitch" {
			fault.pulse = math.Max(fault.pulse, 2*ticks[tick].ns)
		}
		g.faults = append(g.faults, fault)
	}
	for _, f := range g.faults {
		if f.kind == "glitch" && slices.ContainsFunc(g.faults, func(o wrong) bool { return o.whole && o.end == f.end }) {
			return nil // a pin that is stuck all the time has no glitches
		}
	}
	g.record(s, t, tick)
	return g
}

// spoilBeside puts in a fault that has to be told from others. A pin that is
// stuck all the time leaves too little of the rows to see in them what else is wrong,
// but for what has nothing to do with them.
func (s *script) spoilBeside(kind string, kinds []string, low bool) (wrong, bool) {
	if kind == "stuck-low" || kind == "stuck-high" {
		apartFromRows := true
		for _, other := range kinds {
			apartFromRows = apartFromRows && slices.Contains([]string{kind, "glitch", "outputs-permuted"}, other)
		}
		return s.spoilPin(wrong{kind: kind, end: -1, whole: apartFromRows && s.IntN(3) == 0}, low)
	}
	return s.spoil(kind, low)
}

// meant gives the runs of a script and the full steps of its whole way.
func (s *script) meant() (runs []stretch, steps float64) {
	begun := false
	last, run := 0, -1
	for _, b := range s.beats {
		if b.ends == 0 {
			continue
		}
		if begun {
			steps += float64(b.half-last) / 2
		}
		begun, last = true, b.half
		if b.leg < 0 {
			continue
		}
		l := s.legs[b.leg]
		if n := len(runs); n == 0 || run != l.run || runs[n-1].mode != l.mode || runs[n-1].way != l.way {
			runs = append(runs, stretch{mode: l.mode, way: l.way, first: b})
		}
		run = l.run
		runs[len(runs)-1].rows++
		runs[len(runs)-1].last = b
	}
	return runs, steps
}

// openWrap has the rows come from a table that lacks a row, or has one twice.
// (A wave table without a row never moves a pin, which is another fault.)
func (s *script) openWrap() (wrong, bool) {
	mode := s.legs[0].mode
	var table []int
	for k := range mode.cycle() {
		table = append(table, s.beats[len(s.beats)-1].half+k*8/mode.cycle())
	}
	if base := table[0] & 1; mode != halfMode && (base == 1) != (mode == fullMode) {
		return wrong{}, false
	}
	if mode == waveMode || s.chance(0.5) {
		table = append(table, table[len(table)-1])
	} else {
		table = table[:len(table)-1]
	}
	at := s.IntN(len(table))
	w := wrong{kind: "open-wrap", end: -1}
	var before *beat
	count := 0
	for _, b := range s.beats {
		if b.leg >= 0 {
			was := at
			at = (at + s.legs[b.leg].way + len(table)) % len(table)
			wraps := was == len(table)-1 && at == 0 || was == 0 && at == len(table)-1
			if len(table) > mode.cycle() { // it shows where the row is that stands twice
				wraps = was+at == 2*len(table)-3
			}
			if count++; wraps && w.first == nil {
				if count < 5 {
					return w, false
				}
				w.first, w.last = b, b
				if len(table) > mode.cycle() {
					w.first = before
				}
			}
		}
		before = b
		b.half = table[at]
		if b.ends != 0 {
			b.ends = endsAt(b.half)
		}
	}
	return w, w.first != nil
}
