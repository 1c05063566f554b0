package course

import "math"

// slip tries what can be wrong with a row or two, if the run then goes on for
// so many rows.
func (f *follower) slip(next int8, dwell int64, need int) bool {
	if f.gait.size == 0 || f.i+2 > f.n {
		return false
	}
	s, fault := f.gait.step(), f.wrongNext()
	far := func(n int8) int8 { return (f.field + n*s) & 7 }
	if f.exchanged(fault, need) || f.gait.size == 2 && f.runsBack(fault, need) || f.misplaced(fault, need, 2) || f.misplaced(fault, need, 1) {
		return true
	}
	for n := int8(2); n <= 4; n++ {
		if f.gait.size == 2 && n > 2 || !f.follows(f.i+1, far(n), need) {
			continue
		}
		fault.Kind, fault.Count = "skipped-row", int(n-1)
		if f.doubled(dwell) || f.doubled(f.Dwell(f.i+1)) || f.slipStood && f.comesAgain() {
			fault.Kind, fault.Wanted, fault.Stood = "wrong-row", f.row(far(1)), true // its time passed
		}
		switch {
		case f.times(dwell, int(n)) || f.doubled(dwell):
			f.excused = f.i
		case f.doubled(f.Dwell(f.i + 1)):
			f.excused = f.i + 1
		}
		f.fault(fault)
		f.standFor(far(n))
		return true
	}
	return f.gait.size == 1 && f.runsBack(fault, need)
}

// wrongNext is the fault that the next row is, as far as that is known of any.
func (f *follower) wrongNext() Fault {
	return Fault{At: f.Row(f.i + 1).At, Levels: f.written(f.i + 1), raw: f.i + 1}
}

// exchanged is two rows each in the other's place.
func (f *follower) exchanged(fault Fault, need int) bool {
	s := f.gait.step()
	one, two := (f.field+s)&7, (f.field+2*s)&7
	second := f.behindGlitches(f.i+1) + 1
	if s == 0 || f.code(f.i+1) != two || second >= f.n || f.code(second) != one || !f.follows(f.behindGlitches(second)+1, f.field+3*s, need-1) {
		return false
	}
	fault.Kind = "rows-exchanged"
	f.fault(fault)
	f.standFor(one, two)
	return true
}

// misplaced is a row that has no place, after which the run goes on with the first or the
// second row from the one at hand: it was put in, or is another's.
func (f *follower) misplaced(fault Fault, need int, after int8) bool {
	s, next := f.gait.step(), f.code(f.i+1)
	if !f.follows(f.behindGlitches(f.i+1)+1, f.field+after*s, need) {
		return false
	}
	if times := float64(f.Dwell(f.i+1)) / float64(f.usual); next == off && (times > pauseTimes || times > longTimes && !(f.comesAgain() && f.slipKind == "no-field")) {
		return false // it is switched off for longer than a row
	}
	stands := (f.field + (after-1)*s) & 7
	fault.Kind = f.wrongKind(next)
	if after == 2 {
		fault.Wanted = f.row(stands)
	}
	f.fault(fault)
	f.standFor(stands)
	return true
}

// wrongAfterPause looks whether the row after a pause is a wrong one of a run that then
// goes on as it did before: it is the first of the next run all the same. Rows that
// rest again at once are too few to tell.
func (f *follower) wrongAfterPause(next int8) {
	if len(f.as) > 0 || f.gait.size == 0 || f.wanted(next) || next == lost || f.i+3 >= f.n || f.rests(f.i+1) || f.rests(f.i+2) || f.rests(f.i+3) {
		return
	}
	fault := f.wrongNext()
	if f.fits(f.i+3, f.gait) > 0 && f.exchanged(fault, 2) || f.fits(f.i+2, f.gait) < 2 {
		return
	}
	if !f.misplaced(fault, 2, 2) && next != off {
		f.misplaced(fault, 2, 1)
	}
}

// wrongKind names a row that is wrong by what it does.
func (f *follower) wrongKind(code int8) string {
	switch code {
	case off:
		return "no-field"
	case dead:
		return "both-ends-on"
	}
	return "wrong-row"
}

// doubled says whether an interval is two usual ones.
func (f *follower) doubled(dwell int64) bool { return f.times(dwell, 2) }

// times says whether an interval is so many usual ones.
func (f *follower) times(dwell int64, n int) bool {
	times := float64(dwell) / float64(f.usual)
	return f.i > f.start && math.Abs(times-float64(n)) < float64(n)*steady
}

// runsBack is a reversal of too few rows to be meant.
func (f *follower) runsBack(fault Fault, need int) bool {
	back := f.gait
	back.way = -back.way
	n := f.fits(f.i, back)
	if n == 0 || n >= enoughRows {
		return false
	}
	turn := f.code(f.i + n)
	if !f.follows(f.i+n, turn, need) || f.rests(f.i+n) {
		return false
	}
	fault.Kind, fault.Count = "reversal", n
	f.fault(fault)
	f.as = f.room[:0]
	for k := 1; k <= n; k++ {
		f.as = append(f.as, f.code(f.i+k))
	}
	return true
}
