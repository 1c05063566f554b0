package wiring

import (
	"math"
	"slices"

	"coilwalk/model/motor"
)

// Sitting is a person asking a motor: what is known, the answers so far, and what
// they come to.
type Sitting struct {
	topology *Topology
	replies  []Reply
	all      []mapping
	odds     []float64
	index    map[motor.Lead]int
	asks     []Question    // every test that can be done
	answers  [][][]float64 // to each of them under each mapping: the odds of each word
}

// Trusted is the odds from which a mapping is told as found, and proved next.
const Trusted = 0.97

// Sit begins with what is known and no answers.
func Sit(t *Topology) *Sitting {
	s := &Sitting{topology: t, all: t.mappings(), index: map[motor.Lead]int{}}
	for i, l := range t.Leads {
		s.index[l] = i
	}
	s.asks = s.questions()
	for _, q := range s.asks {
		under := make([][]float64, len(s.all))
		for i, m := range s.all {
			under[i] = s.predict(q, m)
		}
		s.answers = append(s.answers, under)
	}
	s.Answer(nil)
	return s
}

// Answer weighs all answers anew: an answer that is taken back is as if it had
// never been given.
func (s *Sitting) Answer(replies []Reply) {
	s.replies = slices.Clone(replies)
	s.odds = make([]float64, len(s.all))
	for i := range s.odds {
		s.odds[i] = 1 / float64(len(s.all))
	}
	for _, r := range replies {
		if !r.weighs() {
			continue
		}
		sum := 0.0
		for i, m := range s.all {
			s.odds[i] *= s.chance(r, m)
			sum += s.odds[i]
		}
		for i := range s.odds {
			s.odds[i] /= sum
		}
	}
}

// chance gives the odds of an answer under a mapping; two words that are one
// answer count together.
func (s *Sitting) chance(r Reply, m mapping) float64 {
	p := s.predict(r.Question, m)
	at := slices.Index(s.topology.outcomes(r.Test), r.Word)
	if one, two, ok := s.topology.alike(r.Test); ok && (at == one || at == two) {
		return p[one] + p[two]
	}
	return p[at]
}

// Replies gives the answers so far.
func (s *Sitting) Replies() []Reply { return s.replies }

// Topology gives what was known before.
func (s *Sitting) Topology() *Topology { return s.topology }

// Mapping is one way in which the leads may sit on the coil ends, with its odds.
type Mapping struct {
	Order [4]motor.Lead   // on A+, B+, A-, B-, starting with the lead named first
	Joins [][2]motor.Lead // 8 leads: inner ends to join; the joints are the taps
	Odds  float64
}

// Mappings lists all, the likeliest first.
func (s *Sitting) Mappings() (all []Mapping) {
	for i, m := range s.all {
		all = append(all, s.mapping(m, s.odds[i]))
	}
	slices.SortStableFunc(all, func(a, b Mapping) int {
		switch {
		case a.Odds > b.Odds+1e-12:
			return -1
		case a.Odds < b.Odds-1e-12:
			return 1
		}
		return 0
	})
	return all
}

func (s *Sitting) mapping(m mapping, odds float64) Mapping {
	out := Mapping{Odds: odds}
	t := s.topology
	if !t.halves {
		for i, l := range t.Leads {
			out.Order[m[i]] = l
		}
		return out
	}
	// Of each half one lead makes each of two opposite fields. The two halves of a
	// phase feed its two ends: the outer lead of the first makes 0° (or 90°), that
	// of the other the opposite, and their inner leads are joined.
	for phase := range 2 {
		var halves []int
		for h := range 4 {
			if m[h]%2 == phase {
				halves = append(halves, h)
			}
		}
		outer := func(h, quarter int) (out, in motor.Lead) {
			if m[h] == quarter {
				return t.Leads[h], t.Leads[h+4]
			}
			return t.Leads[h+4], t.Leads[h]
		}
		plus, innerPlus := outer(halves[0], phase)
		minus, innerMinus := outer(halves[1], phase+2)
		out.Order[phase], out.Order[phase+2] = plus, minus
		out.Joins = append(out.Joins, [2]motor.Lead{innerPlus, innerMinus})
	}
	return out
}

// bitsOf gives the entropy of odds that add up to one.
func bitsOf(odds []float64) float64 {
	h := 0.0
	for _, p := range odds {
		if p > 0 {
			h -= p * math.Log(p)
		}
	}
	return h / math.Ln2
}
