package wiring

import "fmt"

// bare says of each lead that no reading has shown a resistance between it and any
// other: it may be what it is taken for, and it may be broken inside.
func (s *sitting) bare() []bool {
	bare := make([]bool, len(s.leads))
	for i := range bare {
		bare[i] = true
	}
	for k, r := range s.readings {
		if !r.Open && s.from[k] < len(bare) && s.to[k] < len(bare) { // what the case reads is no coil
			bare[s.from[k]], bare[s.to[k]] = false, false
		}
	}
	return bare
}

// whole proposes a reading that would show a bare lead whole, where none parts the
// guesses any more: by the odds, leads that break are seldom, and so the kind is sure
// before each lead was seen to carry anything. nil where every lead has, where one is
// told as broken, or where each pair of such a lead was read.
func (s *sitting) whole(best *guess) *Next {
	bare := s.bare()
	read := map[[2]int]bool{}
	for k := range s.readings {
		read[[2]int{s.from[k], s.to[k]}], read[[2]int{s.to[k], s.from[k]}] = true, true
	}
	var any *Next
	halves := s.halves(best)
	for i := range s.leads {
		if !bare[i] || s.broken(best, i) {
			continue
		}
		to := -1
		for k := range s.leads {
			if k == i || read[[2]int{i, k}] {
				continue
			}
			if any == nil {
				any = &Next{A: s.leads[k], B: s.leads[i], Why: fmt.Sprintf("%s has shown no resistance yet, and only some ohm show a lead whole", s.leads[i])}
			}
			// One that is known to be whole tells of this one alone.
			if best.kind != Other && halves[i][k] >= 0 && (to < 0 || bare[to] && !bare[k]) {
				to = k
			}
		}
		if to >= 0 {
			return &Next{A: s.leads[to], B: s.leads[i],
				Why: fmt.Sprintf("%s has shown no resistance yet; to %s it should read %s, if it is whole", s.leads[i], s.leads[to], s.should(halves[i][to], best))}
		}
	}
	return any
}

// broken says whether a guess has a lead broken, or the coil that it is of.
func (s *sitting) broken(g *guess, lead int) bool {
	f := g.defect
	if f == nil || f.kind != "open-lead" {
		return false
	}
	return f.a == lead || (g.kind == FourLead || g.kind == EightLead) && g.coil[f.a] == g.coil[lead]
}

// should says what a meter is to show across so many half-coils, to two digits, as
// for each reading that is still to come; no figure before any was read.
func (s *sitting) should(halves float64, g *guess) string {
	switch {
	case !s.measured():
		return someOhm
	case halves < 0.01: // a joint
		return ohms(g.lead) + " ohm"
	}
	return "about " + twoDigits(halves*g.ohm) + " ohm"
}

// made says what the others make of a reading; no figure before any was read.
func (s *sitting) made(halves float64, g *guess) string {
	if halves >= 0 && !s.measured() {
		return someOhm
	}
	return expected(halves, g)
}

// someOhm is a resistance of which no reading says yet how much it may be.
const someOhm = "some ohm"

// measured says whether any reading showed a resistance.
func (s *sitting) measured() bool {
	for _, r := range s.readings {
		if !r.Open {
			return true
		}
	}
	return false
}

// orBroken says of a reading of open that does not fit what would make it fit as
// well: a lead that nothing has shown whole.
func (s *sitting) orBroken(r Reading, at ...int) string {
	if !r.Open {
		return ""
	}
	bare := s.bare()
	for _, i := range at {
		if i < len(bare) && bare[i] {
			return fmt.Sprintf(" Or %s is broken, the lead or its coil: it has shown no resistance yet.", s.leads[i])
		}
	}
	return ""
}
