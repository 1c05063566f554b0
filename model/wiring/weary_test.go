package wiring

import (
	"math/rand/v2"
	"slices"
	"testing"
)

// A test that could not be told gives way to others, and less with each answer that
// was given since; never so little as one that was not done. By hand from its rule.
func TestWearinessFades(t *testing.T) {
	s := Sit(newShaftBench(rand.New(rand.NewPCG(1, 4)), 4).topology())
	tired, other := s.asks[0], s.asks[1]
	if got := s.weariness(tired); got != 1 {
		t.Errorf("a test that was not done weighs %g", got)
	}
	for _, c := range []struct {
		before, since int
		want          float64
	}{{0, 0, 8}, {3, 0, 8}, {0, 1, 7}, {4, 5, 3}, {2, 6, 2}, {0, 20, 2}} {
		var replies []Reply
		for range c.before {
			replies = append(replies, Reply{Question: other, Word: Unclear})
		}
		replies = append(replies, Reply{Question: tired, Word: Unclear})
		for range c.since {
			replies = append(replies, Reply{Question: other, Word: Unclear})
		}
		s.Answer(replies)
		if got := s.weariness(tired); got != c.want {
			t.Errorf("%d answers before and %d since: it weighs %g, want %g", c.before, c.since, got, c.want)
		}
	}
}

// A pair of which either may come first is asked once, in the order of the names.
func TestPairsAreAskedOnce(t *testing.T) {
	for _, leads := range []int{4, 5, 6, 8} {
		s := Sit(newShaftBench(rand.New(rand.NewPCG(2, uint64(leads))), leads).topology())
		pairs := 0
		for _, q := range s.asks {
			if q.Test != Pulse && q.Test != Stiff {
				continue
			}
			pairs++
			if i, k := slices.Index(s.topology.Leads, q.Leads[0]), slices.Index(s.topology.Leads, q.Leads[1]); i >= k {
				t.Errorf("%s: lead %d is asked with lead %d", q, i+1, k+1)
			}
		}
		if pairs < 4 {
			t.Errorf("%d leads: only %d pairs", leads, pairs)
		}
	}
}
