package course

import (
	"slices"

	"coilwalk/sequence"
)

// turns counts which row follows which, over a whole course: what can be said
// from that alone is said quickly, however long the course is.
type turns struct {
	count [16][16]int
	all   int
}

// turnsOf counts the changes between rows whose levels are known.
func turnsOf(c *Course) (t turns) {
	last, have := uint8(0), false
	for k, chunk := range c.chunks {
		for i := range chunk[:min(len(chunk), c.n-k*chunkRows)] {
			r := &chunk[i]
			if r.Flags&unknown != 0 {
				have = false
				continue
			}
			if have {
				t.count[last][r.Levels&0xf]++
				t.all++
			}
			last, have = r.Levels&0xf, true
		}
	}
	return t
}

// sound gives the share of changes that are steps of at most 90° between rows
// that have a field, of those that the codes could make such: a change to or
// from all off is neither.
func (t *turns) sound(c *codes) float64 {
	good, all := 0, 0
	for from := range t.count {
		for to, n := range t.count[from] {
			a, b := c[from], c[to]
			if n == 0 || a == off || b == off {
				continue
			}
			all += n
			if a < eighths && b < eighths {
				if s := step(a, b); s >= -2 && s <= 2 {
					good += n
				}
			}
		}
	}
	if all == 0 {
		return 0
	}
	return float64(good) / float64(all)
}

// How much of its rows an output is on tells its level: a quarter in wave drive,
// three eighths in half step, or the rest of that. In full step it is a half
// either way.
const (
	seldom = 0.45
	often  = 0.55
)

// level tells which level switches an output on, by the outputs that move; in
// full step by its pauses, all off or all on.
func (t *turns) level() (activeLow, found bool) {
	var high [4]int
	var none, all int
	for from := range t.count {
		for to, n := range t.count[from] {
			for k := range high {
				high[k] += n * (to >> k & 1)
			}
		}
		none, all = none+t.count[from][0], all+t.count[from][15]
	}
	var shares []float64
	for _, n := range high {
		if n > 0 && n < t.all {
			shares = append(shares, float64(n)/float64(t.all))
		}
	}
	if len(shares) == 0 {
		return false, false
	}
	slices.Sort(shares) // the middle ones tell: a single pin may be stuck
	share := (shares[len(shares)/2] + shares[(len(shares)-1)/2]) / 2
	switch {
	case share < seldom || share > often:
		return share > often, true
	case (none > 0) != (all > 0):
		return all > 0, true
	}
	return false, false
}

// best gives the pairing of outputs into coils under which most changes are
// steps.
func (t *turns) best(activeLow bool) (p sequence.Permutation, which int) {
	most := -1.0
	for i, coils := range pairings {
		c := codesOf(wiringOf(coils), activeLow)
		if s := t.sound(&c); s > most+1e-9 {
			most, which = s, i
		}
	}
	return wiringOf(pairings[which]), which
}
