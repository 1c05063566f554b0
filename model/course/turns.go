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
	first uint8 // row whose levels are known
}

// turnsOf counts the changes between rows whose levels are known.
func turnsOf(c *Course) (t turns) {
	last, have := uint8(0), false
	t.first = 0x10 // of no meaning
	for i := 0; i < c.n; i++ {
		if r := c.Row(i); r.Flags&unknown == 0 {
			t.first = r.Levels & 0xf
			break
		}
	}
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

// level tells which level switches an output on: by how often the outputs that
// move are high; where most is full step, by the rows with one or three outputs
// high, and by the rests, all off or all on.
func (t *turns) level() (activeLow, found bool) {
	var high [4]int
	var rows [17]int
	rows[t.first]++
	for from := range t.count {
		for to, n := range t.count[from] {
			for k := range high {
				high[k] += n * (to >> k & 1)
			}
			rows[to] += n
		}
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
	if share < seldom || share > often {
		return share > often, true
	}
	one, three := likeWaves(rows, 0), likeWaves(rows, 15)
	if one != three {
		return three, true
	}
	if (rows[0] > 0) != (rows[15] > 0) {
		return rows[15] > 0, true
	}
	return false, false
}

// likeWaves says whether the rows with a single output unlike a rest are those of
// wave drive or half step: three of the four at least come often. A pin that is
// stuck, or late now and then, makes fewer.
func likeWaves(rows [17]int, rest int) bool {
	const often = 8 // times
	n, most := 0, 0
	for k := range 4 {
		most = max(most, rows[rest^1<<k])
	}
	for k := range 4 {
		if c := rows[rest^1<<k]; c >= often && 5*c >= most {
			n++
		}
	}
	return n >= 3
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
