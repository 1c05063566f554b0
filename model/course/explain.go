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
	if f.comesAgain() && (f.slipKind == "rows-exchanged" && f.exchanged(f.wrongNext(), 2) || f.slip(next, dwell, 3)) {
		return true // however long it lasts this time
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
	if alike(fault, fault) && !timed[fault.Kind] {
		if fault.Kind != f.slipKind {
			f.slipKind, f.slips = fault.Kind, [2]int{}
		}
		f.slips[0], f.slips[1], f.slipStood = fault.raw, f.slips[0], fault.Stood
	}
	if len(f.faults) >= mostFaults {
		f.more++
		return
	}
	f.faults = append(f.faults, fault)
}

// comesAgain says that the next row is as far from the last slip as that was from the one
// before, which was of the same kind: the table has it.
func (f *follower) comesAgain() bool { return f.due() == f.i+1 }

// due gives the row at which a slip of the table comes again, −1 where none does.
func (f *follower) due() int {
	if f.slips[1] == 0 {
		return -1
	}
	return f.slips[0] + f.slips[0] - f.slips[1]
}

// to goes to a row, which has this field.
func (f *follower) to(i int, field int8) {
	f.i, f.began, f.field, f.known = i, f.Row(i).At, field, 0
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
	f.interval(at-f.began, at)
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
// so many rows, or to where the motion ends. Glitches and late pins on the way are
// seen when the run comes there.
func (f *follower) follows(i int, field int8, need int) bool {
	i, ok := f.arrives(i, field&7)
	if !ok || !f.gait.holds(field&7) {
		return false
	}
	at := field & 7
	for range need {
		i = f.behindGlitches(i)
		if f.rests(i) {
			return true
		}
		at = (at + f.gait.step()) & 7
		if i, ok = f.arrives(i+1, at); !ok {
			return false
		}
	}
	return true
}

// arrives gives the row from i on that has a field: row i, or the next where a pin is late.
func (f *follower) arrives(i int, field int8) (row int, ok bool) {
	if i < f.n && f.code(i) == field {
		return i, true
	}
	return i + 1, i > 0 && i+1 < f.n && f.short(i) && f.code(i+1) == field && f.lateIn(i)
}

// lateIn says whether row i is what comes of a pin that is late for the next.
func (f *follower) lateIn(i int) bool {
	a, m, b := f.Row(i-1).Levels, f.Row(i).Levels, f.Row(i+1).Levels
	return (a^m)&(m^b) == 0 && !f.gait.holds(f.code(i))
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
