package wiring

import (
	"fmt"
	"math"
	"slices"
	"sort"

	"coilwalk/model/motor"
)

// The noise model of a reading. A winding's halves differ a little and a hand
// meter errs by some per cent: together relative. Probe contact adds absolute.
// Meter leads add one unknown resistance to all readings. And now and then a
// reading is simply wrong: a slipped probe, two leads taken for each other.
const (
	relative = 0.035 // of the resistance, standard deviation
	absolute = 0.10  // ohm, standard deviation
	mostLead = 0.5   // ohm, of the meter leads together
	slip     = 0.01  // chance that a reading is wrong altogether
	missed   = 0.02  // chance, for each lead that is not named, that it was overlooked
)

// faulty is the chance of each fault at each place where it can be.
var faulty = map[string]float64{"open-lead": 0.01, "lead-to-case": 2e-3, "shorted-coil": 5e-4, "shorted-phases": 2e-4}

// prior is the chance of each kind before anything was measured.
var prior = map[string]float64{FourLead: 0.27, FiveLead: 0.27, SixLead: 0.27, EightLead: 0.09, Other: 0.10}

// guess is a layout, perhaps with a fault, and how well it explains the readings.
type guess struct {
	layout
	defect *defect
	log    float64 // ln of prior × likelihood
	odds   float64
	ohm    float64 // of a half-coil, the mean of what explains the readings
	lead   float64 // of the meter leads, likewise
}

// sitting is a set of readings on its way to an answer.
type sitting struct {
	leads    []motor.Lead // without the case
	touched  int          // of them, by a reading
	readings []Reading
	from, to []int // of each reading: places in leads; len(leads) for the case
	ohms     []float64
	meters   []float64
}

func sit(readings []Reading, named []motor.Lead) *sitting {
	s := &sitting{readings: readings}
	seen := map[motor.Lead]int{}
	know := func(leads ...motor.Lead) {
		for _, l := range leads {
			if _, known := seen[l]; !known && l != Case {
				seen[l] = 0
				s.leads = append(s.leads, l)
			}
		}
	}
	for _, r := range readings {
		know(r.A, r.B)
	}
	s.touched = len(s.leads)
	know(named...)
	sort.Slice(s.leads, func(i, k int) bool { return s.leads[i] < s.leads[k] }) // so that the order of readings can not matter
	for i, l := range s.leads {
		seen[l] = i
	}
	seen[Case] = len(s.leads)
	for _, r := range readings {
		s.from, s.to = append(s.from, seen[r.A]), append(s.to, seen[r.B])
	}
	s.grid()
	return s
}

// grid chooses the resistances of a half-coil and of the meter leads that are
// weighed: a fine logarithmic one about all that was read.
func (s *sitting) grid() {
	const step = 1.02
	least, most := math.Inf(1), 0.0
	for _, r := range s.readings {
		if !r.Open && r.Ohm > 0 {
			least, most = min(least, r.Ohm), max(most, r.Ohm)
		}
	}
	if most == 0 {
		least, most = 1, 100
	}
	least = max(least/2.2, 0.05)
	most = max(most*1.2, 2*least)
	for r := least; r <= most && len(s.ohms) < 400; r *= step {
		s.ohms = append(s.ohms, r)
	}
	if least > 40 { // the meter leads can not be told from the noise
		s.meters = []float64{mostLead / 2}
		return
	}
	for m := 0.0; m <= mostLead+1e-9; m += mostLead / 5 {
		s.meters = append(s.meters, m)
	}
}

// anything is the density of a reading that may be anything, per ohm: even over
// the decades from 0.1 ohm to 10 Mohm.
func anything(ohm float64) float64 { return 1 / (ohm + 0.1) / math.Log(1e8) }

// chance gives the probability (density) of a reading when so many half-coils of
// a resistance lie between the probes; apart for none.
func chance(r Reading, halves, ohm, meter float64) float64 {
	switch {
	case halves < 0 && r.Open:
		return 1 - slip
	case halves < 0:
		return slip * anything(r.Ohm)
	case r.Open:
		return slip
	}
	want := halves*ohm + meter
	spread := math.Hypot(relative*halves*ohm, absolute)
	off := (r.Ohm - want) / spread
	return (1-slip)*math.Exp(-off*off/2)/(spread*math.Sqrt(2*math.Pi)) + slip*anything(r.Ohm)
}

// weigh computes for all layouts how well they explain the readings.
func (s *sitting) weigh() []guess {
	// The likelihood of each reading for each number of half-coils, once for all.
	points := len(s.ohms) * len(s.meters)
	table := make([][4][]float64, len(s.readings))
	for i, r := range s.readings {
		for h := range table[i] {
			table[i][h] = make([]float64, points)
			for p := range points {
				table[i][h][p] = math.Log(chance(r, float64(h-1), s.ohms[p/len(s.meters)], s.meters[p%len(s.meters)]))
			}
		}
	}
	all := layouts(len(s.leads))
	count := map[string]int{}
	for i := range all {
		count[all[i].kind]++
	}
	guesses := make([]guess, 0, len(all))
	sum := make([]float64, points)
	for i := range all {
		l := &all[i]
		clear(sum)
		for k := range s.readings {
			h := apart
			if s.from[k] < len(s.leads) && s.to[k] < len(s.leads) {
				h = l.between(s.from[k], s.to[k])
			}
			for p, v := range table[k][h+1] {
				sum[p] += v
			}
		}
		g := guess{layout: *l}
		g.ohm, g.lead = s.means(sum)
		g.log = logMean(sum) + math.Log(prior[l.kind]/float64(count[l.kind])) + float64(l.missing)*math.Log(missed)
		guesses = append(guesses, g)
	}
	other := guess{layout: layout{kind: Other, coil: make([]int, len(s.leads)), inner: make([]bool, len(s.leads))}, log: math.Log(prior[Other])}
	for _, r := range s.readings {
		if r.Open {
			other.log += math.Log(0.5)
		} else {
			other.log += math.Log(0.5 * anything(r.Ohm))
		}
	}
	guesses = append(guesses, other)
	guesses = append(guesses, s.defects(guesses)...)
	normalise(guesses)
	// What a meter can not tell apart counts together: an open coil reads the
	// same whichever of its leads is broken.
	class := map[string]float64{}
	key := func(g *guess) string { return fmt.Sprint(g.kind, g.coil, g.inner, s.named(g)) }
	for i := range guesses {
		if guesses[i].odds > 1e-6 {
			class[key(&guesses[i])] += guesses[i].odds
		}
	}
	weight := func(g *guess) float64 {
		if g.odds > 1e-6 {
			return class[key(g)]
		}
		return g.odds
	}
	sort.SliceStable(guesses, func(i, k int) bool { return guesses[i].odds > guesses[k].odds })
	best := 0
	for i := 1; i < len(guesses) && guesses[i].odds > 1e-6; i++ {
		if weight(&guesses[i]) > weight(&guesses[best])+1e-12 {
			best = i
		}
	}
	guesses[0], guesses[best] = guesses[best], guesses[0]
	return guesses
}

// means gives the resistances of a half-coil and of the meter leads, weighed by
// how well each explains the readings.
func (s *sitting) means(logs []float64) (ohm, meter float64) {
	most, total := slices.Max(logs), 0.0
	for p, v := range logs {
		if w := math.Exp(v - most); w > 1e-9 {
			ohm += w * s.ohms[p/len(s.meters)]
			meter += w * s.meters[p%len(s.meters)]
			total += w
		}
	}
	return ohm / total, meter / total
}

// logMean gives ln of the mean of exp, without overflow.
func logMean(logs []float64) float64 {
	most := math.Inf(-1)
	for _, v := range logs {
		most = max(most, v)
	}
	sum := 0.0
	for _, v := range logs {
		sum += math.Exp(v - most)
	}
	return most + math.Log(sum/float64(len(logs)))
}

func normalise(guesses []guess) {
	most, sum := math.Inf(-1), 0.0
	for i := range guesses {
		most = max(most, guesses[i].log)
	}
	for i := range guesses {
		guesses[i].odds = math.Exp(guesses[i].log - most)
		sum += guesses[i].odds
	}
	for i := range guesses {
		guesses[i].odds /= sum
	}
}
