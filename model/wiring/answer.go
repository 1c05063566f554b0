package wiring

import (
	"sort"

	"coilwalk/model/motor"
)

// Answer is what the readings say of a motor.
type Answer struct {
	Leads        []motor.Lead
	Kinds        []KindOdds // the likeliest first
	Common       []motor.Lead
	Phases       []Phase // what is sure to belong together
	Ohm          float64 // of a half-coil (4 and 8 leads: of a coil); 0 when not known
	Least, Most  float64 // the range of what was read for it
	Meter        float64 // ohm of the meter's own leads, taken off each reading
	Faults       []Found
	Undetermined []string
	Next         *Next   // the reading that would tell most, or show a lead whole; nil when none would tell more
	Odds         float64 // of the likeliest arrangement of all leads
	TooFew       bool    // readings to say anything yet
}

// KindOdds is a kind of motor and its odds.
type KindOdds struct {
	Kind string
	Odds float64
}

// Phase is leads that one phase or coil connects.
type Phase struct {
	Ends []motor.Lead
	Tap  motor.Lead
}

// Found is a fault, or readings that contradict the rest.
type Found struct {
	Kind  string
	Leads []motor.Lead
	Odds  float64
	Text  string
}

// Next is a reading to take.
type Next struct {
	A, B motor.Lead
	Why  string
}

// sure is the odds from which something is told as certain.
const sure = 0.95

// Identify infers a motor from readings, by weighing all arrangements of the
// leads, with and without a fault, under the noise model of this package. Leads
// that are there and that no reading touches yet may be named.
func Identify(readings []Reading, named ...motor.Lead) Answer {
	s := sit(readings, named)
	guesses := s.weigh()
	a := Answer{Leads: s.leads, Odds: guesses[0].odds}
	a.kinds(guesses)
	best := &guesses[0]
	if best.kind != Other {
		s.roles(&a, guesses)
		s.resistance(&a, best)
		a.Meter = best.lead
		s.found(&a, guesses)
	}
	if a.Next = s.next(guesses); a.Next == nil {
		a.Next = s.whole(best)
	}
	if a.TooFew = s.touched < 4 || len(readings) < 3; a.TooFew {
		a.Undetermined = []string{"Too few readings yet to tell: touch every lead that the motor has at least once."}
		return a
	}
	a.open(best)
	return a
}

func (a *Answer) kinds(guesses []guess) {
	sum := map[string]float64{}
	for _, g := range guesses {
		sum[g.kind] += g.odds
	}
	for _, k := range Kinds {
		a.Kinds = append(a.Kinds, KindOdds{k, sum[k]})
	}
	sort.SliceStable(a.Kinds, func(i, k int) bool { return a.Kinds[i].Odds > a.Kinds[k].Odds })
}

// roles tells which leads are certainly common or tap, and which certainly
// belong together.
func (s *sitting) roles(a *Answer, guesses []guess) {
	n := len(s.leads)
	inner := make([]float64, n)
	together := make([][]float64, n)
	for i := range together {
		together[i] = make([]float64, n)
	}
	for _, g := range guesses {
		for i := range n {
			if g.inner[i] {
				inner[i] += g.odds
			}
			for k := range n {
				if g.kind != Other && g.kind != FiveLead && g.coil[i] == g.coil[k] {
					together[i][k] += g.odds
				}
			}
		}
	}
	kind := guesses[0].kind
	done := make([]bool, n)
	for i := range n {
		if kind == FiveLead {
			if inner[i] >= sure {
				a.Common = append(a.Common, s.leads[i])
			}
			continue
		}
		if done[i] {
			continue
		}
		var p Phase
		for k := i; k < n; k++ {
			if k == i || together[i][k] >= sure {
				done[k] = true
				if inner[k] >= sure {
					p.Tap = s.leads[k]
				} else {
					p.Ends = append(p.Ends, s.leads[k])
				}
			}
		}
		if len(p.Ends) > 1 || p.Tap != "" && len(p.Ends) > 0 {
			a.Phases = append(a.Phases, p)
		}
	}
}

// resistance gives the half-coil's resistance from all readings that fit.
func (s *sitting) resistance(a *Answer, best *guess) {
	halves := s.halves(best)
	sum, count := 0.0, 0.0
	for i, r := range s.readings {
		h := halves[s.from[i]][s.to[i]]
		if r.Open || h < 0.9 || s.slipped(r, h, best) {
			continue
		}
		each := max(0, r.Ohm-best.lead) / h // the meter's leads are a guess, and may be more than was read
		if count == 0 || each < a.Least {
			a.Least = each
		}
		a.Most = max(a.Most, each)
		sum, count = sum+each*h, count+h
	}
	if count > 0 {
		a.Ohm = sum / count
	}
}

// halves gives the half-coils between any two places under a guess.
func (s *sitting) halves(g *guess) [][]float64 {
	f := g.defect
	if f == nil {
		f = &defect{}
	}
	return s.withFault(&g.layout, f)
}

// slipped says whether a reading is rather a slip than what is expected.
func (s *sitting) slipped(r Reading, halves float64, g *guess) bool {
	p := chance(r, halves, g.ohm, g.lead)
	if r.Open {
		return halves >= 0
	}
	return p < 3*slip*anything(r.Ohm)
}
