package course

import "coilwalk/sequence"

// follower goes through a course under one wiring, run by run, and notes what
// does not go on as it went.
type follower struct {
	*Course
	codes  codes
	levels [eighths][]uint8 // the rows that have each field

	i     int   // the row at which it stands
	began int64 // ticks: when that row began
	field int8
	gait  gait
	usual int64   // ticks: the interval of this run, last seen
	as    []int8  // fields that the rows from i+1 on stand for, once it is told what is wrong with them
	room  [4]int8 // for them

	lasted  [sideRows]int64 // ticks: the intervals before the row at hand, the last one first
	known   int             // how many of them are of this run, and were not its first
	excused int             // a row of which it is told already how long it lasts

	faults    []Fault
	runs      []Run
	pauses    []Pause
	skipped   []int  // rows that are none: excursions of a glitch, in rising order
	start     int    // of the run, in rows of the course
	more      int    // faults beyond those that are kept
	odd       int    // faults that are not like the one before, at the same distance
	apart     int    // rows of the course between the last two
	slips     [2]int // rows of the last two slips that a table may have, of one kind, the last one first
	slipKind  string // theirs
	slipStood bool   // that of the last
}

// Bounds on what is kept of a course; more than a person will read.
const (
	mostFaults = 10_000
	mostRuns   = 100_000
)

// Rules by which runs are parted.
const (
	pauseTimes = 20.0 // usual intervals: a longer one is a pause
	mostAhead  = 12   // rows that a way of going is judged by
	enoughRows = 4    // that go on in one way are a run of their own
)

func newFollower(c *Course, of codes) *follower {
	f := &follower{Course: c, codes: of}
	for l, code := range of {
		if code < eighths {
			f.levels[code] = append(f.levels[code], uint8(l))
		}
	}
	return f
}

func (f *follower) code(i int) int8 { return f.codes.of(f.Row(i)) }

// all goes through the whole course.
func (f *follower) all() {
	for f.i < f.n {
		switch c := f.code(f.i); {
		case len(f.as) > 0 || c == dead && f.startsWrong():
			f.beginAs()
		case c == dead:
			f.i++
			continue
		case c >= eighths:
			f.skipped = append(f.skipped, f.i)
			f.i++
			continue
		default:
			f.begin()
		}
		f.run()
	}
}

// startsWrong is a run whose first row is already wrong. It is told. The run begins at
// that row if it lasts no longer than a row, else at the next: then it stood before.
func (f *follower) startsWrong() (begins bool) {
	for _, g := range gaits {
		if f.i+1 < f.n && f.fits(f.i+1, g) >= enoughRows {
			if n := len(f.faults); n == 0 || f.faults[n-1].raw != f.i || timed[f.faults[n-1].Kind] { // else the run before it told
				f.fault(Fault{Kind: "both-ends-on", At: f.Row(f.i).At, Levels: f.written(f.i), raw: f.i})
			}
			if float64(f.Dwell(f.i)) > longTimes*float64(f.typical(f.i+1)) {
				return false
			}
			f.gait = g
			f.standFor((f.code(f.i+1) - g.step()) & 7)
			return true
		}
	}
	return false
}

// standFor takes the rows that come next for rows with these fields: what is wrong with
// them is told, and how long they last is judged as of any other.
func (f *follower) standFor(fields ...int8) { f.as = append(f.room[:0], fields...) }

// beginAs starts a run at a row of which it is known what it stands for, and in which gait.
func (f *follower) beginAs() {
	f.start, f.began, f.field = f.i, f.Row(f.i).At, f.as[0]
	f.as, f.known = f.as[1:], 0
	f.usual = f.typical(f.i)
}

// fits counts the rows after row i that go on in a way.
func (f *follower) fits(i int, g gait) (n int) {
	at := f.code(i)
	if !g.holds(at) {
		return 0
	}
	for n < mostAhead && i+n+1 < f.n {
		next := f.code(i + n + 1)
		if next >= eighths || step(at, next) != g.step() || n > 0 && f.Dwell(i+n) > int64(pauseTimes*float64(max(f.Dwell(i+n-1), f.Dwell(i+n+1)))) {
			break
		}
		at = next
		n++
	}
	return n
}

// begin starts a run at a row that has a field.
func (f *follower) begin() {
	f.start, f.began, f.field, f.known = f.i, f.Row(f.i).At, f.code(f.i), 0
	f.usual = f.typical(f.i)
	was, best, most := f.gait, gait{}, 0
	for _, g := range gaits {
		if n := f.fits(f.i, g); n > most {
			best, most = g, n
		}
	}
	f.gait = best
	if most >= enoughRows {
		return
	}
	if was.size != 0 && f.due() == f.i+1+most && f.fits(f.i, was) == most && was.holds(f.field) {
		f.gait = was // the table's slip cuts it short
		return
	}
	if f.putOnAgain() {
		f.begin()
		return
	}
	if f.stuckFromStart() {
		return
	}
	if most > 1 { // enough if nothing better comes: a table that does not close has short stretches
		return
	}
	// The first rows may be wrong themselves: what comes after tells.
	for k := 1; k <= 3 && f.i+k < f.n; k++ {
		if f.Dwell(f.i+k-1) > int64(pauseTimes*float64(f.typical(f.i+k))) {
			return
		}
		for _, g := range gaits {
			if g.holds(f.field) && f.fits(f.i+k, g) >= enoughRows {
				f.gait = g
				return
			}
		}
	}
}

// putOnAgain is a row that is only put on again after a rest, before a run of
// another mode: the run begins at the next.
func (f *follower) putOnAgain() bool {
	if f.i == 0 || f.i+1 >= f.n || f.code(f.i-1) != off {
		return false
	}
	for _, g := range gaits {
		if g.size == 2 && f.fits(f.i+1, g) >= enoughRows && !g.holds(f.code(f.i)) {
			f.i++
			return true
		}
	}
	return false
}

// typical gives the interval of the rows from i on: the middle one of some,
// whatever they do.
func (f *follower) typical(i int) int64 {
	var d [7]int64
	n := 0
	for ; n < len(d) && i+n+1 < f.n; n++ {
		k := n
		v := f.Dwell(i + n)
		for ; k > 0 && d[k-1] > v; k-- {
			d[k] = d[k-1]
		}
		d[k] = v
	}
	if n == 0 {
		return f.Dwell(i)
	}
	return d[n/2]
}

// run follows a run to its end, and leaves i at the row that comes after.
func (f *follower) run() {
	for f.i+1 < f.n {
		next, at := f.code(f.i+1), f.Row(f.i+1).At
		dwell := at - f.began
		if f.isPause(dwell) {
			f.endRun()
			f.pauses = append(f.pauses, Pause{From: f.began, To: at, Held: true})
			f.wrongAfterPause(next)
			f.i++
			return
		}
		if len(f.as) > 0 && !f.glitchAhead() {
			f.interval(dwell, at)
			f.i, f.began, f.field, f.as = f.i+1, at, f.as[0], f.as[1:]
			continue
		}
		if f.wanted(next) && !f.glitchAhead() {
			f.interval(dwell, at)
			f.i, f.began, f.field = f.i+1, at, next
			continue
		}
		if !f.explain(next, dwell) {
			return
		}
		if f.hopeless() {
			f.endRun()
			f.i = f.n
			return
		}
	}
	f.endRun()
	f.i = f.n
}

// wanted says whether a field is the one that the run comes to next.
func (f *follower) wanted(field int8) bool {
	return field < eighths && f.gait.size != 0 && step(f.field, field) == f.gait.step() && f.gait.holds(f.field)
}

// isPause says whether the row at hand is one that the run rests on: long beside
// the rows before it, or beside those after it.
func (f *follower) isPause(dwell int64) bool {
	long := func(usual int64) bool { return float64(dwell) > pauseTimes*float64(usual) }
	if f.i+4 < f.n && long(f.Dwell(f.i+1)) && long(f.typical(f.i+1)) {
		return true
	}
	return long(f.usual) && f.i > f.start
}

// hopeless says that so much is wrong that no order can be seen in it. What comes
// at equal distances does not count: a table that does not close has an order.
func (f *follower) hopeless() bool {
	return f.odd > 64 && f.odd > f.i/8
}

// endRun closes the run at the row at hand. A row alone is none: it is held.
func (f *follower) endRun() {
	if f.i == f.start || len(f.runs) >= mostRuns {
		return
	}
	r := Run{Mode: "none", From: f.Row(f.start).At, To: f.began, first: f.start, last: f.i, Rows: int64(f.i - f.start + 1)}
	if m, ok := f.gait.mode(); ok {
		r.Mode, r.Direction = m.Name, direction(f.gait.way)
	}
	f.runs = append(f.runs, r)
}

func direction(way int8) sequence.Direction { return sequence.Direction(way) }
