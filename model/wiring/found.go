package wiring

import (
	"fmt"

	"coilwalk/model/motor"
)

// found tells faults and contradictions.
func (s *sitting) found(a *Answer, guesses []guess) {
	best := &guesses[0]
	odds := map[string]float64{}
	for _, g := range guesses {
		if g.defect != nil {
			odds[s.named(&g)] += g.odds
		}
	}
	if best.defect != nil {
		if sum := odds[s.named(best)]; sum > 0.5 {
			a.Faults = append(a.Faults, s.tell(best, sum))
		}
	}
	halves := s.halves(best)
	var bad []int
	for i, r := range s.readings {
		if s.slipped(r, halves[s.from[i]][s.to[i]], best) {
			bad = append(bad, i)
		}
	}
	for _, i := range bad {
		r := s.readings[i]
		text := fmt.Sprintf("The reading %s does not fit the others, which make it %s. Take it again.", shown(r), s.made(halves[s.from[i]][s.to[i]], best)) + s.orBroken(r, s.from[i], s.to[i])
		for _, k := range bad {
			if k != i && s.exchanged(i, k, halves, best) { // the same words for both
				text = fmt.Sprintf("The readings %s and %s fit if they are exchanged. Take both again.", shown(s.readings[min(i, k)]), shown(s.readings[max(i, k)]))
			}
		}
		a.Faults = append(a.Faults, Found{Kind: "contradiction", Leads: []motor.Lead{r.A, r.B}, Odds: 1, Text: text})
	}
}

// exchanged says whether two readings fit once their values change places.
func (s *sitting) exchanged(i, k int, halves [][]float64, g *guess) bool {
	a, b := s.readings[i], s.readings[k]
	a.Ohm, b.Ohm, a.Open, b.Open = b.Ohm, a.Ohm, b.Open, a.Open
	return !s.slipped(a, halves[s.from[i]][s.to[i]], g) && !s.slipped(b, halves[s.from[k]][s.to[k]], g)
}

func shown(r Reading) string {
	if r.Open {
		return fmt.Sprintf("%s–%s open", r.A, r.B)
	}
	return fmt.Sprintf("%s–%s %s ohm", r.A, r.B, ohms(r.Ohm))
}

func ohms(v float64) string {
	switch {
	case v >= 100:
		return fmt.Sprintf("%.0f", v)
	case v >= 10:
		return fmt.Sprintf("%.1f", v)
	}
	return fmt.Sprintf("%.2f", v)
}

func expected(halves float64, g *guess) string {
	if halves < 0 {
		return "open"
	}
	return "about " + ohms(halves*g.ohm+g.lead) + " ohm"
}

// named tells two faults apart where a meter can: an open coil of a 4- or 8-lead
// motor reads the same whichever of its leads is broken.
func (s *sitting) named(g *guess) string {
	f := g.defect
	if f == nil {
		return ""
	}
	if f.kind == "open-lead" && (g.kind == FourLead || g.kind == EightLead) {
		return fmt.Sprint(f.kind, " coil ", g.kind, g.coil)
	}
	return fmt.Sprint(f.kind, f.a, f.b)
}

func (s *sitting) tell(g *guess, odds float64) Found {
	f := g.defect
	a, b := s.leads[f.a], s.leads[f.b]
	found := Found{Kind: f.kind, Leads: []motor.Lead{a}, Odds: odds}
	switch f.kind {
	case "open-lead":
		found.Text = fmt.Sprintf("%s reads open to everything: the lead or its coil is broken.", a)
		if g.kind == FourLead || g.kind == EightLead {
			for i := range s.leads {
				if i != f.a && g.coil[i] == g.coil[f.a] {
					found.Leads = append(found.Leads, s.leads[i])
					found.Text = fmt.Sprintf("The coil between %s and %s is broken, or one of its leads is; or the probe slipped: read it again.", a, s.leads[i])
				}
			}
		}
	case "lead-to-case":
		found.Leads = append(found.Leads, Case)
		found.Text = fmt.Sprintf("%s is connected to the motor's case. Do not power this motor: its case could become live.", a)
	case "shorted-coil":
		found.Text = fmt.Sprintf("The half-coil of %s has only about %.0f %% of the others' resistance: turns are shorted.", a, 100*f.left)
	case "shorted-phases":
		found.Leads = append(found.Leads, b)
		found.Text = fmt.Sprintf("%s and %s are connected where they should not be: two phases are shorted.", a, b)
	}
	return found
}

// open tells what ohms can not say, or do not say yet.
func (a *Answer) open(best *guess) {
	add := func(text string) { a.Undetermined = append(a.Undetermined, text) }
	likeliest := a.Kinds[0]
	switch {
	case likeliest.Kind == Other && likeliest.Odds >= sure:
		add("No two-phase motor with 4, 5, 6 or 8 leads reads so. Is it unplugged from its driver? Did the shaft rest? Are the leads free of each other?")
		return
	case likeliest.Kind == Other:
		add("The kind of motor: it reads like none with 4, 5, 6 or 8 leads so far, but one reading that slipped may be all that is wrong.")
		return
	case likeliest.Odds < sure:
		add(fmt.Sprintf("The kind of motor: %s or %s.", likeliest.Kind, a.Kinds[1].Kind))
	}
	if best.kind == Other { // each arrangement alone is less likely than none of them
		return
	}
	if best.missing > 0 {
		add(fmt.Sprintf("%d more lead%s of a %s motor: not named in the readings.", best.missing, plural(best.missing), best.kind))
	}
	switch best.kind {
	case FiveLead:
		add("Which two ends are one phase: every end reads the same to the common and twice that to every other end. Only the shaft tells.")
		if len(a.Common) == 0 && best.missing > 0 {
			add("The common: equal readings between all ends mean that it was not found, before they mean a short. Look for one more lead.")
		} else if len(a.Common) == 0 {
			add("Which lead is the common.")
		}
	case EightLead:
		add("Which two halves are one phase, and which way round each is wound. A pulse from a cell tells, not ohms.")
	default:
		add("Which end of each coil is which: exchanging both ends of one coil only reverses the shaft.")
	}
	add("A few shorted turns: they lie within the meter's tolerance.")
}

func plural(n int) string {
	if n == 1 {
		return ""
	}
	return "s"
}
