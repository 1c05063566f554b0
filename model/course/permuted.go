package course

import (
	"math"

	"coilwalk/sequence"
)

// permuted is the case in which the outputs only stand in another order than
// the stated wiring needs: with two of them exchanged there is far less to tell.
// It tells so, and gives the course as it is once cured.
func (v *Verdict) permuted(c *Course, here *follower) *follower {
	if n := here.cost(); n <= mostUnpermuted {
		return nil
	}
	fewest := here.cost() / 2
	fault := Fault{Kind: "outputs-permuted", Times: 1}
	var cured *follower
	for i := range 4 {
		for k := i + 1; k < 4; k++ {
			way := v.Taken.Swapped(i, k)
			as := v.follow(c, way)
			n := as.cost()
			if n > fewest || as.hopeless() {
				continue
			}
			if n < fewest {
				fault.Swaps, cured, fewest = nil, nil, n
			}
			swap := Swap{Outputs: [2]int{i + 1, k + 1}, Direction: as.mainDirection()}
			if cured == nil || swap.Direction == sequence.Forward { // what is usually wanted comes first
				cured, v.cured = as, &way
				fault.Swaps = append([]Swap{swap}, fault.Swaps...)
			} else {
				fault.Swaps = append(fault.Swaps, swap)
			}
		}
	}
	if cured == nil {
		return nil
	}
	fault.At, fault.raw = v.firstJump(c)
	v.Faults = append(v.Faults, fault)
	return cured
}

// mostUnpermuted faults of order may be there without another order of the
// outputs being thought of.
const mostUnpermuted = 2

// cost counts what there is to tell of the order of the rows.
func (f *follower) cost() int {
	if f.hopeless() {
		return math.MaxInt32
	}
	n := f.more
	for _, t := range f.told() {
		if !timed[t.Kind] {
			n++
		}
	}
	return n
}

// firstJump gives the first row to which the field does not step.
func (v *Verdict) firstJump(c *Course) (at int64, raw int) {
	of := codesOf(v.Taken, v.Active == Low)
	last := off
	for i := range c.n {
		now := of.of(c.Row(i))
		if now == dead || last < eighths && now < eighths && (step(last, now) > 2 || step(last, now) < -2) {
			return c.Row(i).At, i
		}
		if now < eighths {
			last = now
		}
	}
	return c.First, 0
}
