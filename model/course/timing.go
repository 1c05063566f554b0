package course

import "math"

// Rules by which the intervals of a run are read.
const (
	shortShare = 0.45 // of the usual interval: what is shorter is no row, if it leads back
	longTimes  = 1.5  // usual intervals: a longer one is told, where the run is steady about it
	steady     = 0.1  // of an interval, by which those about a long one may differ
)

// interval takes note of how long the row at hand lasted, up to a tick.
func (f *follower) interval(dwell, at int64) {
	switch {
	case f.i == f.start:
		return // the first row may have been held before the run began
	case float64(dwell) > longTimes*float64(f.usual):
		f.long(dwell, at)
		f.usual = max(f.usual, min(dwell, f.Dwell(f.i+1)))
	case float64(dwell)*longTimes < float64(f.usual):
		f.usual = min(f.usual, max(dwell, f.Dwell(f.i+1)))
	default:
		f.usual = dwell
	}
}

// long tells of an interval that is too long, where the run is steady on both
// sides of it: in an acceleration intervals differ as well.
func (f *follower) long(dwell, at int64) {
	usual, ok := f.steadyAbout()
	times := float64(dwell) / usual
	if !ok || times < longTimes || times > pauseTimes {
		return
	}
	fault := Fault{Kind: "gap", At: at, Long: float64(dwell) * f.Tick, Usual: usual * f.Tick, raw: f.i + 1}
	if k := math.Round(times); (k == 2 || k == 3) && math.Abs(times-k) <= steady*1.0001 {
		fault.Kind, fault.Count = "repeated-row", int(k)
	}
	f.fault(fault)
}

// steadyAbout gives the interval that the run keeps before and after the row at
// hand, if it keeps one.
func (f *follower) steadyAbout() (usual float64, ok bool) {
	const rows = 3
	if f.i-f.start < rows+1 || f.i+rows+1 >= f.n {
		return 0, false
	}
	sum, least, most := 0.0, math.Inf(1), 0.0
	for k := 1; k <= rows; k++ {
		for _, d := range [2]int64{f.Dwell(f.i - k), f.Dwell(f.i + k)} {
			v := float64(d)
			sum, least, most = sum+v, min(least, v), max(most, v)
		}
	}
	usual = sum / (2 * rows)
	return usual, most-least <= 2*steady*usual
}

// short says whether row i is too short to be a row of the run.
func (f *follower) short(i int) bool {
	return i+1 < f.n && float64(f.Dwell(i)) < shortShare*float64(f.usual)
}

// glitchAhead says that the next row is left at once for the one at hand.
func (f *follower) glitchAhead() bool {
	return f.i+2 < f.n && f.Row(f.i+2).Levels == f.Row(f.i).Levels && f.short(f.i+1)
}
