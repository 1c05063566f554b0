package wiring

import (
	"fmt"
	"slices"
	"strings"

	"coilwalk/model/motor"
)

// effort is what a test costs a person, against a kick.
var effort = map[Test]float64{Kick: 1, Stiff: 1, Pulse: 1.3, Run: 1.3, Short: 1.2}

// can says whether a test tells anything on a motor: on a geared one a tick of
// the rotor is swallowed by the play, and so is how stiff it is.
func (t *Topology) can(test Test) bool {
	return !t.Geared || test == Run || test == Pulse
}

// questions lists every test that may tell something, in a fixed order. Each is
// as good after a turn of its leads, so the first lead comes first in a run.
func (s *Sitting) questions() (all []Question) {
	t := s.topology
	lead := t.Leads
	n := len(lead)
	pair := func(test Test, i, k int) {
		all = append(all, Question{test, []motor.Lead{lead[i], lead[k]}})
	}
	for i := range n {
		for k := range n {
			if i == k || t.other[i] == k {
				continue // the other end of a coil that is known tells nothing new
			}
			if t.halves && (i >= 4 || k >= 4) {
				continue // a half is asked by its first lead; the other is its opposite
			}
			if t.can(Kick) {
				pair(Kick, i, k)
			}
			if i < k {
				if t.can(Stiff) {
					pair(Stiff, i, k)
				}
				pair(Pulse, i, k)
			}
		}
	}
	if t.can(Run) {
		for _, p := range [][3]int{{1, 2, 3}, {1, 3, 2}, {2, 1, 3}, {2, 3, 1}, {3, 1, 2}, {3, 2, 1}} {
			for sense := range 8 {
				if !t.halves && sense > 0 {
					break
				}
				q := Question{Run, []motor.Lead{lead[0]}}
				for bit, h := range p {
					if sense>>bit&1 == 1 {
						h += 4
					}
					q.Leads = append(q.Leads, lead[h])
				}
				all = append(all, q)
			}
		}
	}
	return all
}

// Ask is the test to do next, with the reason.
type Ask struct {
	Question
	Why  string
	How  string
	Gain float64 // bits expected
}

// Settled says whether one mapping can be trusted.
func (s *Sitting) Settled() bool {
	for _, p := range s.odds {
		if p >= Trusted {
			return true
		}
	}
	return false
}

// Next chooses the test that tells most for its effort; ok is false once a
// mapping can be trusted. A test whose answer was Unclear is not asked again
// before the others.
func (s *Sitting) Next() (ask Ask, ok bool) {
	if s.Settled() {
		return ask, false
	}
	before := bitsOf(s.odds)
	best := -1.0
	for k, q := range s.asks {
		gain := before - s.expected(s.answers[k])
		worth := gain / effort[q.Test] / s.weariness(q)
		if worth > best+1e-9 {
			best, ask = worth, Ask{Question: q, Gain: gain}
		}
	}
	ask.Why = s.why(ask.Question)
	ask.How = s.how(ask.Question)
	return ask, true
}

// weariness makes a test that was done before give way to others, and one that
// could not be told all the more. That fades with each answer since: what alone
// parts two mappings is asked again, before many others that hardly do.
func (s *Sitting) weariness(q Question) float64 {
	const again, unclear = 2, 8
	tired := 1.0
	for k, r := range s.replies {
		if r.Test == q.Test && slices.Equal(r.Leads, q.Leads) {
			tired = max(tired, again)
			if r.Word == Unclear {
				since := len(s.replies) - 1 - k
				tired = max(tired, float64(unclear-since))
			}
		}
	}
	return tired
}

// expected gives the entropy that is left after a test, on average, by the odds
// of each word under each mapping.
func (s *Sitting) expected(under [][]float64) float64 {
	left := 0.0
	after := make([]float64, len(s.all))
	for w := range under[0] {
		total := 0.0
		for i := range after {
			after[i] = under[i][w] * s.odds[i]
			total += after[i]
		}
		if total <= 0 {
			continue
		}
		for i := range after {
			after[i] /= total
		}
		left += total * bitsOf(after)
	}
	return left
}

// why says what the answers would part.
func (s *Sitting) why(q Question) string {
	chance := make([]float64, len(s.topology.outcomes(q.Test)))
	for i, m := range s.all {
		for w, p := range s.predict(q, m) {
			chance[w] += p * s.odds[i]
		}
	}
	words, chance := s.topology.together(q.Test, chance)
	var parts []string
	for w, p := range chance {
		parts = append(parts, fmt.Sprintf("%s %.0f %%", words[w], 100*p))
	}
	text := "of what is still possible, " + strings.Join(parts, ", ")
	if q.Test == Run && s.topology.Geared {
		text += "; " + s.topology.hidden() + ", so the leads are run"
	}
	return text
}

// noBareEnd goes with whatever breaks a coil's current.
const noBareEnd = ". Hold no bare end: breaking the current kicks"

// how says how a test is done.
func (s *Sitting) how(q Question) string {
	t := s.topology
	switch q.Test {
	case Kick:
		text := fmt.Sprintf("energise %s (%s), turn the shaft a little by hand so that it snaps home; add %s, %s still on. Facing the shaft's end: a tick of %s cw or ccw; or no turn: slack", q.Leads[0], t.Energise(q.Leads[0]), q.Leads[1], q.Leads[0], t.tick())
		if t.halves {
			text += ", or held (two halves that pull together)"
		}
		return text + noBareEnd
	case Stiff:
		return fmt.Sprintf("energise %s and %s together and turn the shaft by hand: yes if it is firmly held, no if it is loose", q.Leads[0], q.Leads[1]) + noBareEnd
	case Pulse:
		if t.untapped() {
			return fmt.Sprintf("touch a 1.5 V cell for an instant across the half of %s, %s to +; a meter across the half of %s, red on %s: up, down, or none (no clear kick)", q.Leads[0], q.Leads[0], q.Leads[1], q.Leads[1]) + noBareEnd
		}
		return fmt.Sprintf("touch a 1.5 V cell for an instant between the tap (to +) and %s; a meter between the tap and %s, red on %s: up or down for a strong kick, none for none", q.Leads[0], q.Leads[1], q.Leads[1]) + noBareEnd
	case Run:
		rows, counted := t.RunRows()
		return fmt.Sprintf("energise %s, %s, %s, %s one after another, again and again, then in reverse: some 20 rows a second, without load, each way %s or more. cw or ccw if the shaft follows (that of the first way), buzz if it only trembles, still if nothing moves", q.Leads[0], q.Leads[1], q.Leads[2], q.Leads[3], t.far(rows, counted))
	}
	return ""
}

// Notes says which answers count for almost nothing, and why.
func (s *Sitting) Notes() (notes []string) {
	var hidden []string
	for _, r := range s.replies {
		if r.weighs() && !s.topology.can(r.Test) {
			hidden = append(hidden, r.String())
		}
	}
	if len(hidden) == 0 {
		return nil
	}
	return []string{fmt.Sprintf("on a geared motor almost nothing is made of %s: %s. Run or pulse; or where the rotor itself can be watched and turned, say that it is not geared (--geared=false, ask ungeared, or g)", strings.Join(hidden, ", "), s.topology.hidden())}
}
