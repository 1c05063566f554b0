package wiring

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"sync"

	"coilwalk/model/motor"
	"coilwalk/model/rotor"
	"coilwalk/sequence"
)

// Diagnosis is one thing that may be wrong, with its odds: a fault, or several of
// a kind with which the motor does the same whatever is tried.
type Diagnosis struct {
	Faults []Fault // none where no fault of wiring or driver explains it
	Text   string
	Cure   string
	Odds   float64

	does []Behaviour
}

// Judged is what symptoms come to.
type Judged struct {
	Ranked    []Diagnosis // the likeliest first
	Next      *NextTrial  // what parts the likeliest; nil when nothing does
	NotJudged []string    // what has no odds here
}

// NextTrial is a trial, or a test by hand, that parts the two likeliest.
type NextTrial struct {
	Trial  Trial
	ByHand bool // Trial means nothing
	Shaft  bool // by hand, it is what the shaft does that tells at last
	Why    string
}

// How likely a kind of fault is before anything was seen, for all faults of the
// kind together, and how surely people tell what they see. Common practice, no
// source.
var kindOdds = map[FaultKind]float64{Swapped: 0.32, CoilReversed: 0.12, LeadOpen: 0.16, OutputDead: 0.10, OutputOn: 0.03,
	TapOff: 0.06, HalfReversed: 0.05, Deaf: 0.05, SupplySags: 0.03}

const (
	noFault   = 0.08
	otherwise = 0.03 // it is something that this model does not know
	anyAnswer = 0.2  // of a symptom, when it is
)

// hidden is how often a geared shaft's buzz passes for standing still, and the
// other way round: it can be heard, but not seen.
const hidden = 0.3

// told is how often what happens is told by a word.
var told = map[Does]map[Seen]float64{
	Clockwise:        {"cw": 0.94, "ccw": 0.02, "skips": 0.02, "buzz": 0.01, "still": 0.01},
	CounterClockwise: {"cw": 0.02, "ccw": 0.94, "skips": 0.02, "buzz": 0.01, "still": 0.01},
	Skips:            {"cw": 0.08, "ccw": 0.08, "skips": 0.55, "buzz": 0.27, "still": 0.02},
	Buzzes:           {"cw": 0.02, "ccw": 0.02, "skips": 0.08, "buzz": 0.83, "still": 0.05},
	Still:            {"cw": 0.01, "ccw": 0.01, "skips": 0.01, "buzz": 0.05, "still": 0.92},
}

// Suspects are all faults that a motor can have, with what it would do with each.
type Suspects struct {
	motor motor.Motor
	plant *rotor.Plant // nil where the motor gives too little to be run in time
	all   []suspect
	lock  sync.Mutex
}

// suspect is a fault, or faults of a kind that the trials can not tell apart.
type suspect struct {
	faults []Fault // none for a sound motor
	prior  float64
	does   []Behaviour // slowly, in the order of Trials
	atRate map[string]Behaviour
}

// at gives what the motor does with a suspect in a trial. One at a rate is run in
// time, once.
func (s *Suspects) at(i int, t Trial) Behaviour {
	one := &s.all[i]
	if t.Rate == 0 || s.plant == nil {
		return one.does[place(t)]
	}
	if one.atRate == nil {
		one.atRate = map[string]Behaviour{}
	}
	b, known := one.atRate[t.String()]
	if !known {
		b = BehaveInTime(s.motor, *s.plant, one.faults[:min(1, len(one.faults))], t)
		one.atRate[t.String()] = b
	}
	return b
}

// NewSuspects runs the rotor model on every fault of a motor, slowly.
func NewSuspects(m motor.Motor) *Suspects {
	faults := Faults(m)
	count := map[FaultKind]int{}
	for _, f := range faults {
		count[f.Kind]++
	}
	slowly := NewSlowly(m)
	s := &Suspects{motor: m, plant: slowly.plant, all: []suspect{{prior: noFault, does: slowly.trials(nil)}}}
	for _, f := range faults {
		s.add(f, kindOdds[f.Kind]/float64(count[f.Kind]), slowly.trials([]Fault{f}))
	}
	return s
}

// add puts a fault beside those that it can not be told from.
func (s *Suspects) add(f Fault, prior float64, does []Behaviour) {
	for i := range s.all {
		old := &s.all[i]
		if len(old.faults) > 0 && old.faults[0].Kind == f.Kind && sameDoes(old.does, does) {
			old.faults, old.prior = append(old.faults, f), old.prior+prior
			return
		}
	}
	s.all = append(s.all, suspect{faults: []Fault{f}, prior: prior, does: does})
}

func sameDoes(a, b []Behaviour) bool {
	for k := range a {
		if a[k].Places != b[k].Places || a[k].Either != b[k].Either || math.Abs(a[k].Hold-b[k].Hold) > 1e-9 {
			return false
		}
		for _, d := range everyDoes {
			if math.Abs(a[k].Share[d]-b[k].Share[d]) > 1e-9 {
				return false
			}
		}
	}
	return true
}

// Judge ranks the faults that explain symptoms. It may be called by several
// goroutines; one waits for another.
func (s *Suspects) Judge(symptoms []Symptom) Judged {
	s.lock.Lock()
	defer s.lock.Unlock()
	geared := s.motor.Train.Geared()
	odds := make([]float64, len(s.all))
	other := otherwise * math.Pow(anyAnswer, float64(len(symptoms)))
	sum := other
	for i := range s.all {
		odds[i] = s.all[i].prior
		for _, symptom := range symptoms {
			odds[i] *= chanceOf(symptom, s.at(i, symptom.Trial), geared)
		}
		sum += odds[i]
	}
	j := Judged{NotJudged: []string{"a driver stage that is too weak, or too hot (coilwalk power says what it stands)"}}
	atRate := slices.ContainsFunc(symptoms, func(s Symptom) bool { return s.Rate > 0 })
	if geared && slices.ContainsFunc(symptoms, func(s Symptom) bool { return s.Places > 0 }) {
		j.NotJudged = append(j.NotJudged, "the places of a buzz: gears hide them")
	}
	switch {
	case !atRate:
		j.NotJudged = append([]string{"a start that is too fast: try again at 20 rows a second, or say the rate, as half forward buzz at 600"}, j.NotJudged...)
	case s.plant == nil:
		j.NotJudged = append([]string{"the rate: the motor gives no holding torque or current, so it was judged as if slow"}, j.NotJudged...)
	}
	for i := range s.all {
		odds[i] /= sum
		d := Diagnosis{Faults: s.all[i].faults, Odds: odds[i], does: s.all[i].does, Text: "no fault of wiring or driver", Cure: "if it still fails, it is the rate or the supply under a load"}
		if len(d.Faults) == 0 && s.tooFast(symptoms) {
			d.Text, d.Cure = "no fault of wiring or driver: the rate itself", "start slower, and ramp (coilwalk rates --for says from where)"
		}
		if len(d.Faults) > 0 {
			d.Text, d.Cure = oneOf(s.motor, d.Faults), d.Faults[0].Cure(s.motor)
			if len(d.Faults) > 1 {
				d.Cure = whichOne(d.Faults[0].Kind)
			}
		}
		j.Ranked = append(j.Ranked, d)
	}
	slices.SortStableFunc(j.Ranked, func(a, b Diagnosis) int { return cmp.Compare(b.Odds, a.Odds) })
	j.Next = s.next(j.Ranked, odds, symptoms)
	j.Ranked = append(j.Ranked, Diagnosis{Text: "something that this model does not know", Odds: other / sum})
	slices.SortStableFunc(j.Ranked, func(a, b Diagnosis) int { return cmp.Compare(b.Odds, a.Odds) })
	return j
}

// tooFast says whether a sound motor does not turn as commanded at a rate that was
// tried.
func (s *Suspects) tooFast(symptoms []Symptom) bool {
	for _, symptom := range symptoms {
		turns := Clockwise
		if symptom.Way == sequence.Reverse {
			turns = CounterClockwise
		}
		if symptom.Rate > 0 && s.plant != nil && s.at(0, symptom.Trial).Likeliest() != turns {
			return true
		}
	}
	return false
}

// place gives the place of a trial among Trials.
func place(t Trial) int {
	return slices.IndexFunc(Trials(), func(other Trial) bool { return other.Mode.Name == t.Mode.Name && other.Way == t.Way })
}

// next chooses the trial whose outcome tells most, or a test by hand where no
// trial parts the two likeliest.
func (s *Suspects) next(ranked []Diagnosis, odds []float64, symptoms []Symptom) *NextTrial {
	geared := s.motor.Train.Geared()
	best, most := -1, 0.03 // bits: below it a trial would only confirm
	known := 0.0           // what is left is something that no trial tells of
	for _, odds := range odds {
		known += odds
	}
	for k, t := range Trials() {
		if slices.ContainsFunc(symptoms, func(seen Symptom) bool { return seen.Rate == 0 && place(seen.Trial) == k }) {
			continue
		}
		mixed, within := map[Seen]float64{}, 0.0
		for i := range s.all {
			each := map[Seen]float64{}
			for _, word := range seenWords[:len(everyDoes)] {
				p := chanceOf(Symptom{Trial: t, Seen: Seen(word)}, s.all[i].does[k], geared)
				each[Seen(word)] = p
				mixed[Seen(word)] += odds[i] * p
			}
			within += odds[i] * entropyOf(each)
		}
		if gain := known*entropyOf(mixed) - within; gain > most+1e-9 {
			best, most = k, gain
		}
	}
	a, b := ranked[0], ranked[1]
	hands := handsDecide(ranked)
	if best >= 0 && a.does[best].Text() == b.does[best].Text() && a.Odds < nearlySure { // it would part others, not these two
		if why := byHand(a.kind(), b.kind()); why != "" {
			return &NextTrial{ByHand: true, Why: why}
		}
		if hands != nil {
			return hands
		}
	}
	switch {
	case best >= 0 && a.Odds < nearlySure:
		return &NextTrial{Trial: Trials()[best], Why: fmt.Sprintf("with %s it %s; with %s it %s", a.Text, a.does[best].Text(), b.Text, b.does[best].Text())}
	case hands != nil:
		return hands
	case len(a.Faults) > 1:
		return &NextTrial{ByHand: true, Shaft: a.kind() == Swapped || a.kind() == HalfReversed, Why: whichOne(a.Faults[0].Kind)}
	case len(a.Faults) == 1 && len(b.Faults) > 0 && a.Odds < nearlySure:
		if why := byHand(a.Faults[0].Kind, b.Faults[0].Kind); why != "" {
			return &NextTrial{ByHand: true, Why: why}
		}
	}
	return nil
}

// kind gives the kind of the faults; "" for none of wiring or driver.
func (d Diagnosis) kind() FaultKind {
	if len(d.Faults) == 0 {
		return ""
	}
	return d.Faults[0].Kind
}

// nearlySure is the odds from which no further trial is asked for.
const nearlySure = 0.9

// chanceOf gives the probability of a word for a behaviour. On a geared shaft a
// buzz is often taken for standing still, and its places can not be counted.
func chanceOf(s Symptom, b Behaviour, geared bool) float64 {
	turns := b.Share[Clockwise] + b.Share[CounterClockwise]
	switch s.Seen {
	case Unsure:
		return 1
	case Weak:
		if b.Hold < 0.9 {
			return 0.02 + 0.5*turns
		}
		return 0.02 + 0.05*turns
	case Reverses:
		if b.Either {
			return 0.5
		}
		return 0.03
	}
	p := 0.0
	for _, d := range everyDoes {
		p += b.Share[d] * told[d][s.Seen]
	}
	if geared && (s.Seen == Seen(Buzzes) || s.Seen == Seen(Still)) { // the gears swallow half of the difference
		other := Seen(Buzzes)
		if s.Seen == other {
			other = Seen(Still)
		}
		for _, d := range everyDoes {
			p += hidden * b.Share[d] * (told[d][other] - told[d][s.Seen])
		}
	}
	if s.Places > 0 && !geared && b.Places > 0 && b.Share[Buzzes] > 0.1 {
		if s.Places == b.Places {
			p *= 0.6
		} else {
			p *= 0.4 / 5
		}
	}
	return p
}

// entropyOf gives the entropy, in bits, of some probabilities that need not add up to one.
func entropyOf(p map[Seen]float64) float64 {
	sum, h := 0.0, 0.0
	for _, word := range seenWords {
		sum += p[Seen(word)]
	}
	for _, word := range seenWords {
		if q := p[Seen(word)] / sum; q > 0 {
			h -= q * math.Log2(q)
		}
	}
	return h
}
