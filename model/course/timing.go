package course

import (
	"math"
	"slices"
)

// Rules by which the intervals of a run are read.
const (
	shortShare = 0.45 // of the usual interval: what is shorter is no row, if it leads back
	longTimes  = 1.5  // usual intervals: a longer one is told, where the run is steady about it
	steady     = 0.1  // of an interval, by which those about a long one may differ
)

// sideRows is how many rows on either side of a long one must be steady.
const sideRows = 3

// interval takes note of how long the row at hand lasted, up to a tick.
func (f *follower) interval(dwell, at int64) {
	if f.i == f.start {
		return // the first row may have been held before the run began
	}
	switch {
	case f.i == f.excused:
	case float64(dwell) > longTimes*float64(f.usual):
		f.long(dwell, at)
		f.usual = max(f.usual, min(dwell, f.Dwell(f.i+1)))
	case float64(dwell)*longTimes < float64(f.usual):
		f.usual = min(f.usual, max(dwell, f.Dwell(f.i+1)))
	default:
		f.usual = dwell
	}
	f.lasted[2], f.lasted[1], f.lasted[0] = f.lasted[1], f.lasted[0], dwell
	f.known++
}

// long tells of an interval that is too long, where the run is steady on both
// sides of it: in an acceleration intervals differ as well.
func (f *follower) long(dwell, at int64) {
	usual, ok := f.steadyAbout(dwell)
	times := float64(dwell) / usual
	if !ok || times < longTimes || times > pauseTimes {
		return
	}
	fault := Fault{Kind: "gap", At: at, Long: float64(dwell) * f.Tick, Usual: usual * f.Tick, raw: f.i + 1}
	if k := whole(times); k > 0 {
		fault.Kind, fault.Count = "repeated-row", k
	}
	f.fault(fault)
}

// whole gives how many rows have the time of one that stands twice or thrice, else 0.
func whole(times float64) int {
	if k := math.Round(times); (k == 2 || k == 3) && math.Abs(times-k) <= steady*1.0001 {
		return int(k)
	}
	return 0
}

// steadyAbout gives the interval that the run keeps before and after the row at
// hand, if it keeps one. On each side one may be longer, if it or the row at hand
// stands for several: a table has a row twice, and elsewhere is a gap. No
// acceleration looks so.
func (f *follower) steadyAbout(dwell int64) (usual float64, ok bool) {
	if f.known < sideRows {
		return 0, false
	}
	var all [2 * sideRows]int64
	copy(all[:], f.lasted[:])
	for k, i := sideRows, f.i+1; k < len(all); k++ {
		if all[k], i = f.lasts(i); i >= f.n {
			return 0, false
		}
	}
	sorted := all
	slices.Sort(sorted[:])
	middle := float64(sorted[sideRows-1])
	sum, least, most, n, longer := 0.0, math.Inf(1), 0.0, 0.0, [2]int{}
	for k, d := range all {
		v := float64(d)
		if v <= longTimes*middle {
			sum, least, most, n = sum+v, min(least, v), max(most, v), n+1
			continue
		}
		if longer[k/sideRows]++; longer[k/sideRows] > 1 || v > pauseTimes*middle || whole(v/middle) == 0 && whole(float64(dwell)/middle) == 0 {
			return 0, false
		}
	}
	usual = sum / n
	return usual, most-least <= 2*steady*usual
}

// lasts gives how long row i lasts, and the row that comes after it: what is too short
// to be a row belongs to the one about it.
func (f *follower) lasts(i int) (dwell int64, next int) {
	from := i
	if f.short(i) {
		i++ // a pin is late
	}
	next = f.behindGlitches(i) + 1
	if next >= f.n {
		return 0, f.n
	}
	return f.Row(next).At - f.Row(from).At, next
}

// short says whether row i is too short to be a row of the run.
func (f *follower) short(i int) bool {
	return i+1 < f.n && float64(f.Dwell(i)) < shortShare*float64(f.usual)
}

// glitchAhead says that the next row is left at once for the one at hand.
func (f *follower) glitchAhead() bool { return f.glitchIn(f.i) }

// glitchIn says that the row after row i is left at once for row i again.
func (f *follower) glitchIn(i int) bool {
	return i+2 < f.n && f.Row(i+2).Levels == f.Row(i).Levels && f.short(i+1)
}

// behindGlitches gives the row that row i goes on as, after all its glitches.
func (f *follower) behindGlitches(i int) int {
	for f.glitchIn(i) {
		i += 2
	}
	return i
}
