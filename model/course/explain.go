package course

import "math/bits"

// explain finds out why the next row is not the one wanted, from what comes
// after it, and goes on behind the slip. It says false where the run ends.
//
// What needs the least is tried first: that the rows after the slip go on for
// as long as can be asked is what tells the explanations apart.
func (f *follower) explain(next int8, dwell int64) (goesOn bool) {
	if f.glitch() || f.latePin(next) {
		return true
	}
	if next == lost {
		f.endRun()
		f.i++
		return false
	}
	if f.otherGait() {
		return false
	}
	if f.stuck() {
		return true
	}
	for need := 3; need > 0; need-- {
		if f.slip(next, dwell, need) {
			return true
		}
	}
	if next == off {
		return f.switchedOff()
	}
	f.noPlace(next)
	f.endRun()
	f.i++
	return false
}

// fault keeps a fault.
func (f *follower) fault(fault Fault) {
	if fault.Times == 0 {
		fault.Times = 1
	}
	if n := len(f.faults); n == 0 || fault.raw-f.faults[n-1].raw != f.apart || fault.Kind != f.faults[n-1].Kind {
		f.odd++
		if n > 0 {
			f.apart = fault.raw - f.faults[n-1].raw
		}
	}
	if len(f.faults) >= mostFaults {
		f.more++
		return
	}
	f.faults = append(f.faults, fault)
}

// to goes to a row, which has this field.
func (f *follower) to(i int, field int8) {
	f.i, f.began, f.field = i, f.Row(i).At, field
}

// outputs gives the outputs, from 1, that differ between two rows.
func (f *follower) outputs(i, k int) (out []int) {
	for d := f.Row(i).Levels ^ f.Row(k).Levels; d != 0; d &= d - 1 {
		out = append(out, 1+bits.TrailingZeros8(d))
	}
	return out
}

// written gives the levels of row i, output 1 first.
func (f *follower) written(i int) string { return written(f.Row(i).Levels) }

func written(levels uint8) string {
	text := make([]byte, 4)
	for k := range text {
		text[k] = '0' + levels>>k&1
	}
	return string(text)
}

// row gives the levels of a field, output 1 first.
func (f *follower) row(field int8) string {
	if of := f.levels[field&7]; len(of) > 0 {
		return written(of[0])
	}
	return ""
}

// glitch is a pulse on some pin, too short for a row, that leads back.
func (f *follower) glitch() bool {
	if !f.glitchAhead() {
		return false
	}
	f.fault(Fault{Kind: "glitch", At: f.Row(f.i + 1).At, Outputs: f.outputs(f.i, f.i+1), Long: float64(f.Dwell(f.i+1)) * f.Tick,
		Usual: float64(f.usual) * f.Tick, Levels: f.written(f.i + 1), raw: f.i})
	f.skipped = append(f.skipped, f.i+1, f.i+2)
	f.i += 2 // and its row goes on
	return true
}

// latePin is a row whose pins do not move together: one comes when the row has
// long begun.
func (f *follower) latePin(next int8) bool {
	if f.i+2 >= f.n || !f.short(f.i+1) && !f.shortStart() {
		return false
	}
	a, m, b := f.Row(f.i).Levels, f.Row(f.i+1).Levels, f.Row(f.i+2).Levels
	field := f.code(f.i + 2)
	if (a^m)&(m^b) != 0 || !f.wanted(field) || f.gait.holds(next) {
		return false
	}
	if f.fits(f.i, gait{size: 1, way: f.gait.way}) >= enoughRows {
		return false // late once is late; late in every row is half step
	}
	f.fault(Fault{Kind: "late-pin", At: f.Row(f.i + 1).At, Outputs: f.outputs(f.i+1, f.i+2), Long: float64(f.Dwell(f.i+1)) * f.Tick,
		Usual: float64(f.usual) * f.Tick, raw: f.i + 1})
	f.skipped = append(f.skipped, f.i+2) // the row is counted where it began
	at := f.Row(f.i + 1).At
	f.i, f.began, f.field = f.i+2, at, field
	return true
}

// shortStart is short for a row right after a run's first, where no interval is
// known yet.
func (f *follower) shortStart() bool {
	return f.i == f.start && f.i+3 < f.n && float64(f.Dwell(f.i+1)) < shortShare*float64(f.Dwell(f.i+2))
}

// otherGait ends the run where enough rows go another way from here: another
// mode, or a reversal that is meant.
func (f *follower) otherGait() bool {
	for _, g := range gaits {
		if g == f.gait {
			continue
		}
		if f.fits(f.i, g) >= enoughRows || f.wholeRun(f.i, g) {
			f.endRun()
			f.i++
			return true
		}
		if f.i+1 < f.n && f.fits(f.i+1, g) >= enoughRows && (f.gait.size == 2 || g.size == 2) && g.parity != f.gait.parity {
			f.endRun()
			f.i++
			return true
		}
	}
	return false
}

// wholeRun says whether the rows after row i go another way up to a pause or to
// the end: few as they are, they are not between others.
func (f *follower) wholeRun(i int, g gait) bool {
	n := f.fits(i, g)
	return n > 0 && f.rests(i+n)
}

// rests says whether the motion ends with row i.
func (f *follower) rests(i int) bool {
	return i+1 >= f.n || float64(f.Dwell(i)) > pauseTimes*float64(f.usual) || f.code(i+1) == off && f.restsOff(i+1)
}

// restsOff says whether the outputs, off from row i on, stay so.
func (f *follower) restsOff(i int) bool {
	return i+1 >= f.n || float64(f.Dwell(i)) > pauseTimes*float64(f.usual)
}

// follows says whether row i has this field, and the run goes on after it for
// so many rows, or to where the motion ends.
func (f *follower) follows(i int, field int8, need int) bool {
	if i >= f.n || f.code(i) != field&7 || !f.gait.holds(field&7) {
		return false
	}
	at := field & 7
	for k := range need {
		if f.rests(i + k) {
			return true
		}
		next := f.code(i + k + 1)
		if next >= eighths || step(at, next) != f.gait.step() {
			return false
		}
		at = next
	}
	return true
}

// slip tries what can be wrong with a row or two, if the run then goes on for
// so many rows.
func (f *follower) slip(next int8, dwell int64, need int) bool {
	if f.gait.size == 0 || f.i+2 > f.n {
		return false
	}
	s, at := f.gait.step(), f.Row(f.i+1).At
	fault := Fault{At: at, Levels: f.written(f.i + 1), raw: f.i + 1}
	far := func(n int8) int8 { return (f.field + n*s) & 7 }
	if next == far(2) && f.i+2 < f.n && f.code(f.i+2) == far(1) && f.follows(f.i+3, far(3), need-1) {
		fault.Kind = "rows-exchanged"
		f.fault(fault)
		f.to(f.i+3, far(3))
		return true
	}
	if f.gait.size == 2 && f.runsBack(fault, need) {
		return true
	}
	for _, place := range []struct {
		field  int8
		wanted string
	}{{far(2), f.row(far(1))}, {far(1), ""}} {
		if !f.follows(f.i+2, place.field, need) {
			continue
		}
		if next == off && float64(f.Dwell(f.i+1)) > longTimes*float64(f.usual) {
			continue // it is switched off for longer than a row
		}
		fault.Kind, fault.Wanted = f.wrongKind(next), place.wanted
		f.fault(fault)
		f.to(f.i+2, place.field)
		return true
	}
	for n := int8(2); n <= 4; n++ {
		if f.gait.size == 2 && n > 2 || !f.follows(f.i+1, far(n), need) {
			continue
		}
		fault.Kind, fault.Count = "skipped-row", int(n-1)
		if f.doubled(dwell) || f.doubled(f.Dwell(f.i+1)) {
			fault.Kind, fault.Wanted, fault.Stood = "wrong-row", f.row(far(1)), true // its time passed
		}
		f.fault(fault)
		f.to(f.i+1, far(n))
		return true
	}
	return f.gait.size == 1 && f.runsBack(fault, need)
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
func (f *follower) doubled(dwell int64) bool {
	times := float64(dwell) / float64(f.usual)
	return f.i > f.start && times > 2-2*steady && times < 2+2*steady
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
	f.to(f.i+n, turn)
	return true
}

// switchedOff is a run that ends with the outputs off; if it goes on soon, as if
// nothing had been, that is a gap.
func (f *follower) switchedOff() bool {
	from, i := f.Row(f.i+1).At, f.i+1
	for i < f.n && f.code(i) == off {
		f.skipped = append(f.skipped, i)
		i++
	}
	to := f.Until
	if i < f.n {
		to = f.Row(i).At
	}
	soon := float64(to-from) <= pauseTimes*float64(f.usual) && f.i > f.start
	for n := int8(0); soon && n <= 2; n++ {
		if field := (f.field + n*f.gait.step()) & 7; f.follows(i, field, enoughRows-1) {
			f.fault(Fault{Kind: "gap", At: to, Long: float64(to-from) * f.Tick, Usual: float64(f.usual) * f.Tick, Levels: "0000", raw: f.i + 1})
			f.to(i, field)
			return true
		}
	}
	f.endRun()
	f.pauses = append(f.pauses, Pause{From: from, To: to})
	f.i = i
	return false
}

// noPlace is a row that nothing explains.
func (f *follower) noPlace(next int8) {
	f.fault(Fault{Kind: f.wrongKind(next), At: f.Row(f.i + 1).At, Levels: f.written(f.i + 1), raw: f.i + 1})
}
