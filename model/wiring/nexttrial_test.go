package wiring

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

// The next trial is the one that tells most: what is known of the word once the
// suspect is, by the definition of information (in the other direction than the code
// has it: what is known of the suspect once the word is). None that shows the same for
// the two likeliest is proposed where a test by hand parts those two, and none once a
// suspect is nearly sure.
func TestNextTrialTellsMost(t *testing.T) {
	random := rand.New(rand.NewPCG(9, 9))
	trials, hands, ends := 0, 0, 0
	for _, name := range []string{"vent-flap", "hybrid-4", "hybrid-6"} {
		s := suspectsOf(t, name)
		geared := s.motor.Train.Geared()
		for range seeds(120) {
			hidden := s.all[random.IntN(len(s.all))]
			var symptoms []Symptom
			for _, k := range random.Perm(len(Trials()))[:random.IntN(5)] {
				symptoms = append(symptoms, Symptom{Trial: Trials()[k], Seen: Seen(hidden.does[k].SeenIn(random.IntN(6), 6))})
			}
			odds := make([]float64, len(s.all))
			sum := otherwise * math.Pow(anyAnswer, float64(len(symptoms)))
			for i, one := range s.all {
				odds[i] = one.prior
				for _, symptom := range symptoms {
					odds[i] *= chanceOf(symptom, s.at(i, symptom.Trial), geared)
				}
				sum += odds[i]
			}
			most, best := 0.0, -1
			gains := make([]float64, len(Trials()))
			for k := range Trials() {
				if slices.ContainsFunc(symptoms, func(s Symptom) bool { return place(s.Trial) == k }) {
					continue
				}
				if gains[k] = learned(s, odds, sum, k, geared); gains[k] > most {
					most, best = gains[k], k
				}
			}

			j := s.Judge(symptoms)
			ranked := slices.DeleteFunc(slices.Clone(j.Ranked), func(d Diagnosis) bool { return d.does == nil })
			a, b := ranked[0], ranked[1]
			same := best >= 0 && a.does[best].Text() == b.does[best].Text()
			byThem := byHand(a.kind(), b.kind())
			switch next := j.Next; {
			case next == nil:
				ends++
				if a.Odds < nearlySure && most > 0.031 {
					t.Errorf("%s, %v: no trial, though one tells %.3f bits", name, symptoms, most)
				}
			case next.ByHand:
				hands++
			default:
				trials++
				if got := gains[place(next.Trial)]; got < most-1e-6 || got < 0.03-1e-6 {
					t.Errorf("%s, %v: %v tells %.4f bits, %v %.4f", name, symptoms, next.Trial, got, Trials()[best], most)
				}
				if a.Odds >= nearlySure {
					t.Errorf("%s, %v: a trial, though %s has %.2f", name, symptoms, a.Text, a.Odds)
				}
			}
			if apart := a.Odds < nearlySure && most > 0.031 && same && byThem != ""; apart != (j.Next != nil && j.Next.ByHand && j.Next.Why == byThem && a.Odds < nearlySure && most > 0.031) {
				t.Errorf("%s, %v: %+v is next, %q parts %q from %q", name, symptoms, j.Next, byThem, a.Text, b.Text)
			}
		}
	}
	if trials < 30 || hands < 10 || ends < 5 {
		t.Errorf("%d trials, %d tests by hand, %d ends: too few to tell", trials, hands, ends)
	}
}

// learned gives how many bits less are wanting of the suspect, on average, once the
// word of a trial is known.
func learned(s *Suspects, odds []float64, sum float64, k int, geared bool) float64 {
	bits := func(p []float64) (h float64) {
		total := 0.0
		for _, x := range p {
			total += x
		}
		for _, x := range p {
			if x > 0 {
				h -= x / total * math.Log2(x/total)
			}
		}
		return h
	}
	left := 0.0
	share := make([]float64, len(odds))
	for i := range odds {
		share[i] = odds[i] / sum
	}
	all := 0.0
	for _, word := range everyDoes {
		with := make([]float64, len(odds))
		total := 0.0
		for i := range odds {
			with[i] = share[i] * chanceOf(Symptom{Trial: Trials()[k], Seen: Seen(word)}, s.all[i].does[k], geared)
			total += with[i]
		}
		all += total
		left += total * bits(with)
	}
	return all*bits(share) - left
}
