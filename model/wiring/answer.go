package wiring

import (
	"fmt"
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
	Faults       []Found
	Undetermined []string
	Next         *Next   // the reading that would tell most; nil when none would tell more
	Odds         float64 // of the likeliest arrangement of all leads
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
// leads, with and without a fault, under the noise model of this package.
func Identify(readings []Reading) Answer {
	s := sit(readings)
	guesses := s.weigh()
	a := Answer{Leads: s.leads, Odds: guesses[0].odds}
	a.kinds(guesses)
	best := &guesses[0]
	if best.kind != Other {
		s.roles(&a, guesses)
		s.resistance(&a, best)
		s.found(&a, guesses)
	}
	a.open(best)
	a.Next = s.next(guesses)
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
		each := (r.Ohm - best.lead) / h
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
		text := fmt.Sprintf("The reading %s does not fit the others, which make it %s. Take it again.", shown(r), expected(halves[s.from[i]][s.to[i]], best))
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
	if best.kind == Other {
		add("No two-phase motor with 4, 5, 6 or 8 leads reads so. Is it unplugged from its driver? Did the shaft rest? Are the leads free of each other?")
		return
	}
	if a.Kinds[0].Odds < sure {
		add(fmt.Sprintf("The kind of motor: %s or %s.", a.Kinds[0].Kind, a.Kinds[1].Kind))
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

// Winding gives the winding as far as readings tell it, when it is certain down
// to the last lead: which end of a coil comes first, and with 5 or 8 leads which
// belong to one phase, is taken in the order of the leads, as ohms can not tell
// it. ok is false before that, and after a fault.
func (a Answer) Winding() (w motor.Winding, ok bool) {
	if len(a.Kinds) == 0 || a.Kinds[0].Odds < sure || len(a.Faults) > 0 {
		return w, false
	}
	switch kind := a.Kinds[0].Kind; {
	case kind == FiveLead && len(a.Common) == 1 && len(a.Leads) == 5:
		w.Common = a.Common[0]
		at := 0
		for _, l := range a.Leads {
			if l != w.Common {
				w.Ends[at] = l
				at++
			}
		}
		return w, true
	case kind == EightLead && len(a.Phases) == 4:
		for i, p := range a.Phases {
			if len(p.Ends) != 2 {
				return w, false
			}
			w.Ends[i], w.Inner[i] = p.Ends[0], p.Ends[1]
		}
		return w, true
	case (kind == FourLead || kind == SixLead) && len(a.Phases) == 2:
		for i, p := range a.Phases {
			if len(p.Ends) != 2 || (p.Tap == "") != (kind == FourLead) {
				return w, false
			}
			w.Ends[i], w.Ends[i+2], w.Taps[i] = p.Ends[0], p.Ends[1], p.Tap
		}
		return w, true
	}
	return w, false
}
