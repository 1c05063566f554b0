package wiring

import (
	"math/rand/v2"

	"coilwalk/model/motor"
)

// A bench of its own, with a motor whose truth is written down as the field angle
// of each lead, and a person who tests it, errs now and then, and sometimes can
// not tell. It shares nothing with what it tests but the words.
type shaftBench struct {
	*rand.Rand
	leads  []string
	angle  map[string]int // degrees of field when energised
	same   map[string]string
	eight  bool
	five   bool
	six    bool
	geared bool
	wrong  float64
	blind  float64
	plain  bool // this person knows no word "held", and can not tell instead
}

// benchWords are the words that a person answers with.
var benchWords = map[string][]string{
	"kick": {"cw", "ccw", "slack"}, "run": {"cw", "ccw", "buzz", "still"}, "pulse": {"up", "down", "none"},
	"stiff": {"yes", "no"}, "short": {"stiff", "free"},
}

// newShaftBench makes a motor of a number of leads with its truth at random.
func newShaftBench(r *rand.Rand, leads int) *shaftBench {
	b := &shaftBench{Rand: r, angle: map[string]int{}, same: map[string]string{}, five: leads == 5, six: leads == 6, eight: leads == 8}
	turn := 90 * r.IntN(4)
	way := 1 - 2*r.IntN(2)
	switch leads {
	case 5:
		for i, k := range r.Perm(4) {
			l := string(rune('p' + i))
			b.leads = append(b.leads, l)
			b.angle[l] = (turn + 90*k + 360) % 360
		}
	case 4, 6:
		b.leads = []string{"p", "q", "r", "s"}
		for i, l := range b.leads {
			b.angle[l] = ((turn+way*90*i)%360 + 360) % 360
		}
		b.same = map[string]string{"p": "r", "r": "p", "q": "s", "s": "q"}
	case 8:
		for h, k := range r.Perm(4) {
			x, y := string(rune('a'+h))+"1", string(rune('a'+h))+"2"
			b.leads = append(b.leads, x, y)
			if r.IntN(2) == 0 {
				k += 4
			}
			// Halves 0 and 2 are phase A, 1 and 3 phase B; wound either way.
			at := []int{0, 90, 0, 90, 180, 270, 180, 270}[k]
			b.angle[x] = (turn + at) % 360
			b.angle[y] = (b.angle[x] + 180) % 360
			b.same[x], b.same[y] = y, x
		}
	}
	return b
}

// topology tells what a meter would have told.
func (b *shaftBench) topology() *Topology {
	lead := func(s string) motor.Lead { return motor.Lead(s) }
	var t *Topology
	var err error
	switch {
	case b.five:
		t, err = OfFive([]motor.Lead{"p", "q", "r", "s"}, "z")
	case b.six:
		t, err = OfSix([2]motor.Lead{"p", "r"}, [2]motor.Lead{"q", "s"}, [2]motor.Lead{"y", "z"})
	case b.eight:
		var halves [][2]motor.Lead
		for i := 0; i < 8; i += 2 {
			halves = append(halves, [2]motor.Lead{lead(b.leads[i]), lead(b.leads[i+1])})
		}
		t, err = OfCoils(halves)
	default:
		t, err = OfCoils([][2]motor.Lead{{"p", "r"}, {"q", "s"}})
	}
	if err != nil {
		panic(err)
	}
	t.Geared = b.geared
	return t
}

// does tells what really happens in a test.
func (b *shaftBench) does(q Question) string {
	at := make([]int, len(q.Leads))
	for i, l := range q.Leads {
		at[i] = b.angle[string(l)]
	}
	diff := func(from, to int) int { return ((to-from)%360 + 360) % 360 }
	switch q.Test {
	case Kick:
		if b.plain && diff(at[0], at[1]) == 0 {
			return "unsure"
		}
		return map[int]string{90: "cw", 270: "ccw", 180: "slack", 0: "held"}[diff(at[0], at[1])]
	case Stiff:
		if diff(at[0], at[1]) == 180 {
			return "no"
		}
		return "yes"
	case Pulse:
		switch diff(at[0], at[1]) {
		case 90, 270:
			return "none"
		case 180:
			if b.eight {
				return "down"
			}
		}
		if !b.eight { // as cell and meter are held
			return []string{"up", "down"}[b.IntN(2)]
		}
		return "up"
	case Short:
		if b.same[string(q.Leads[0])] == string(q.Leads[1]) {
			return "stiff"
		}
		return "free"
	case Run:
		step := diff(at[0], at[1])
		for k := range 4 {
			if diff(at[k], at[(k+1)%4]) != step {
				return "buzz"
			}
		}
		switch step {
		case 90:
			return "cw"
		case 270:
			return "ccw"
		}
		return "buzz"
	}
	return "unsure"
}

// tells is what the person says of it.
func (b *shaftBench) tells(q Question) Reply {
	word := b.does(q)
	words := benchWords[string(q.Test)]
	if b.eight && !b.plain && q.Test == "kick" {
		words = []string{"cw", "ccw", "slack", "held"}
	}
	if b.Float64() < b.blind {
		word = "unsure"
	} else if word != "unsure" && b.Float64() < b.wrong {
		other := words[b.IntN(len(words))]
		for other == word {
			other = words[b.IntN(len(words))]
		}
		word = other
	}
	return Reply{Question: q, Word: word}
}

// right says whether a mapping turns this motor clockwise, whatever lead it
// starts with, and for 8 leads whether its joins are those of one phase.
func (b *shaftBench) right(m Mapping) bool {
	for k := range 4 {
		from, to := b.angle[string(m.Order[k])], b.angle[string(m.Order[(k+1)%4])]
		if ((to-from)%360+360)%360 != 90 {
			return false
		}
	}
	for i, j := range m.Joins {
		if b.same[string(m.Order[i])] != string(j[0]) || b.same[string(m.Order[i+2])] != string(j[1]) {
			return false
		}
	}
	return true
}

// play asks and answers until a mapping can be trusted, at most so many times.
func (b *shaftBench) play(most int) (s *Sitting, asked int) {
	s = Sit(b.topology())
	for asked < most {
		ask, ok := s.Next()
		if !ok {
			break
		}
		s.Answer(append(s.Replies(), b.tells(ask.Question)))
		asked++
	}
	return s, asked
}
