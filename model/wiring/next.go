package wiring

import (
	"fmt"
	"math"
	"sort"
	"strconv"
	"strings"
)

// next chooses the reading whose outcome the guesses disagree about most: the
// entropy of what the meter would show.
func (s *sitting) next(guesses []guess) *Next {
	n := len(s.leads)
	taken := map[[2]int]int{}
	for i := range s.readings {
		a, b := min(s.from[i], s.to[i]), max(s.from[i], s.to[i])
		taken[[2]int{a, b}]++
	}
	best, bestBits := [2]int{-1, -1}, 0.0
	for a := range n {
		for b := a + 1; b < n; b++ {
			bits := s.entropy(guesses, a, b)
			if taken[[2]int{a, b}] > 0 {
				bits /= 4 // a repeat tells only whether the first was a slip
			}
			if bits > bestBits+1e-9 {
				best, bestBits = [2]int{a, b}, bits
			}
		}
	}
	const worth = 0.05 // bits: below it the reading would only confirm
	if bestBits < worth {
		return nil
	}
	var can []string
	listed, total := 0.0, 0.0
	for i := range guesses {
		total += guesses[i].odds
	}
	for _, o := range s.shown(s.outcomes(guesses, best[0], best[1])) {
		if o.odds < 0.005 && len(can) > 0 {
			break
		}
		can = append(can, fmt.Sprintf("%s (%.0f %%)", o.words, 100*o.odds))
		listed += o.odds
	}
	if rest := total - listed; rest > 0.02 {
		can = append(can, fmt.Sprintf("anything else (%.0f %%)", 100*rest))
	}
	return &Next{A: s.leads[best[0]], B: s.leads[best[1]],
		Why: fmt.Sprintf("it may read %s, and that parts what is still possible", strings.Join(can, " or "))}
}

// shown gives outcomes as a person is told them: before any reading showed ohms,
// nothing is known of how many there may be.
func (s *sitting) shown(all []outcome) []outcome {
	if s.measured() {
		return all
	}
	some := outcome{words: someOhm}
	var told []outcome
	for _, o := range all {
		if o.words == "open" {
			told = append(told, o)
		} else {
			some.odds += o.odds
		}
	}
	if some.odds > 0 {
		told = append(told, some)
	}
	sort.SliceStable(told, func(i, k int) bool { return told[i].odds > told[k].odds })
	return told
}

// twoDigits writes a resistance to two digits, without an exponent.
func twoDigits(ohm float64) string {
	step := math.Pow(10, math.Floor(math.Log10(ohm))-1)
	return strconv.FormatFloat(math.Round(ohm/step)*step, 'f', max(0, int(math.Round(-math.Log10(step)))), 64)
}

type outcome struct {
	words string
	odds  float64
}

// outcomes sorts the guesses by what the meter would show between two leads.
func (s *sitting) outcomes(guesses []guess, a, b int) []outcome {
	sum := map[string]float64{}
	for i := range guesses {
		g := &guesses[i]
		if g.odds < 1e-4 || g.kind == Other {
			continue
		}
		h := g.between(a, b)
		if g.defect != nil && g.defect.kind == "open-lead" && (g.defect.a == a || g.defect.a == b) {
			h = apart
		}
		words := "open"
		switch {
		case h == 0:
			words = ohms(g.lead) + " ohm"
		case h > 0: // alike within the noise
			words = "about " + twoDigits(float64(h)*g.ohm) + " ohm"
		}
		sum[words] += g.odds
	}
	var all []outcome
	for w, o := range sum {
		all = append(all, outcome{w, o})
	}
	sort.Slice(all, func(i, k int) bool {
		return all[i].odds > all[k].odds || all[i].odds == all[k].odds && all[i].words < all[k].words
	})
	return all
}

func (s *sitting) entropy(guesses []guess, a, b int) float64 {
	total, bits := 0.0, 0.0
	all := s.outcomes(guesses, a, b)
	for _, o := range all {
		total += o.odds
	}
	for _, o := range all {
		if p := o.odds / total; p > 0 {
			bits -= p * math.Log2(p)
		}
	}
	return bits
}
