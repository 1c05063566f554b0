package course

import (
	"math"
	"slices"
)

// mostIntervals of a run are looked at for its rates; a longer run is sampled
// evenly.
const mostIntervals = 100_000

// rate gives a run its rates.
func (v *Verdict) rate(r *Run) {
	d := v.intervals(r, mostIntervals)
	if len(d) == 0 {
		return
	}
	slices.Sort(d)
	r.Least, r.Most, r.Median = 1/v.Course.Seconds(d[len(d)-1]), 1/v.Course.Seconds(d[0]), 1/v.Course.Seconds(d[len(d)/2])
}

// intervals gives how long the rows of a run last, in ticks, rows that are none
// left out; at most so many, spread evenly in stretches.
func (v *Verdict) intervals(r *Run, most int) (d []int64) {
	const stretch = 1000
	skip := 0
	if rows := r.last - r.first; rows > most {
		skip = (rows/most + 1) * stretch
	}
	none := v.Numbers.none
	k, _ := slices.BinarySearch(none, r.first)
	began := v.Course.Row(r.first).At
	for i := r.first + 1; i <= r.last; i++ {
		if skip > 0 && (i-r.first)%stretch == 0 {
			i += skip
			if i > r.last {
				break
			}
			began = v.Course.Row(i).At
			k, _ = slices.BinarySearch(none, i+1)
			continue
		}
		if k < len(none) && none[k] == i {
			k++
			continue
		}
		if at := v.Course.Row(i).At; at > began {
			d = append(d, at-began)
			began = at
		}
	}
	return d
}

// A timer that counts whole milliseconds shows in a ramp: every interval is a
// whole number of them, and there are several such numbers.
const (
	leastChanges = 3    // intervals that differ from the one before
	leastNumbers = 3    // different numbers of milliseconds
	leastMembers = 12   // intervals
	offGrid      = 0.06 // ms that an interval may be off a whole one
	mostGrid     = 40   // ms: above, a whole number is no loss
)

// quantised looks for runs whose rates are those of whole milliseconds.
func (v *Verdict) quantised() {
	for i := range v.Runs {
		r := &v.Runs[i]
		numbers, changes, last := map[int]bool{}, 0, 0
		on, off := 0, 0
		for _, d := range v.intervals(r, 5000) {
			ms := v.Course.Seconds(d) * 1e3
			n := int(math.Round(ms))
			if math.Abs(ms-float64(n)) > offGrid || n < 1 || n > mostGrid {
				off++
				continue
			}
			if on++; n != last && last != 0 {
				changes++
			}
			last = n
			numbers[n] = true
		}
		if on >= leastMembers && off <= 1+on/50 && changes >= leastChanges && len(numbers) >= leastNumbers {
			v.Faults = append(v.Faults, Fault{Kind: "quantised-timer", At: r.From, raw: r.first, Times: 1, Count: len(numbers), Least: least(numbers), Until: r.To})
			return // once is enough
		}
	}
}

func least(numbers map[int]bool) int {
	first := mostGrid
	for n := range numbers {
		first = min(first, n)
	}
	return first
}

// usualSkew gives the median of the skews of rows in which two pins move.
func usualSkew(c *Course) float64 {
	var skews []uint32
	every := max(1, c.n/mostIntervals)
	for i := 1; i < c.n; i += every {
		if d := c.Row(i).Levels ^ c.Row(i-1).Levels; d&(d-1) != 0 {
			skews = append(skews, c.Row(i).Skew)
		}
	}
	if len(skews) == 0 {
		return 0
	}
	slices.Sort(skews)
	return float64(skews[len(skews)/2]) * c.Tick
}
