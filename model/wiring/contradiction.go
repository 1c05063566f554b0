package wiring

import (
	"fmt"
	"slices"
	"strings"
)

// Contradiction is an answer that does not fit the others, or what is known.
type Contradiction struct {
	Reply Reply
	Text  string
}

// against is how many times likelier a mapping's own word must be than the answer
// that was given, for the answer to speak against it. (A wrong order may turn by
// chance: an answer that is only the less likely one contradicts nothing.)
const against = 4

// Contradictions names the answers that do not fit together, in the order in
// which they were given.
func (s *Sitting) Contradictions() (all []Contradiction) {
	texts := make([]string, len(s.replies)) // of each answer; "" where nothing speaks against it
	s.doubtCoils(texts)
	s.doubtEachOther(texts)
	s.doubtLamps(texts)
	for k, r := range s.replies {
		if texts[k] != "" {
			all = append(all, Contradiction{r, texts[k]})
		}
	}
	return all
}

// doubtCoils finds answers that no mapping allows: they speak against what ohms
// told.
func (s *Sitting) doubtCoils(texts []string) {
	for k, r := range s.replies {
		if !r.weighs() {
			continue
		}
		never := true
		for _, m := range s.all {
			never = never && s.speaksAgainst(r, m)
		}
		if never {
			var can []string
			for _, m := range s.all {
				if word := s.expects(r.Question, m); !slices.Contains(can, word) {
					can = append(can, word)
				}
			}
			texts[k] = fmt.Sprintf("as the coils are known, it must be %s; do this test again, or measure the coils again", strings.Join(can, " or "))
		}
	}
}

// doubtEachOther finds the answers that the likeliest mapping does not expect,
// and where several are about as likely and each has such answers, all of these.
func (s *Sitting) doubtEachOther(texts []string) {
	most := slices.Max(s.odds)
	var likely []mapping
	for i, m := range s.all {
		if s.odds[i] >= most/2 {
			likely = append(likely, m)
		}
	}
	doubts := make([]int, len(s.replies)) // how many of the likely mappings speak against each answer
	for _, m := range likely {
		fits := true
		for k, r := range s.replies {
			if r.weighs() && texts[k] == "" && s.speaksAgainst(r, m) {
				doubts[k]++
				fits = false
			}
		}
		if fits {
			return
		}
	}
	for k, r := range s.replies {
		switch {
		case doubts[k] == 0:
		case doubts[k] == len(likely) && s.agree(r.Question, likely):
			texts[k] = fmt.Sprintf("the other answers make it %s; do this test again, or take the answer back", s.expects(r.Question, likely[0]))
		default:
			texts[k] = "it does not fit together with the other answers named; do one of them again, or take it back"
		}
	}
}

// agree says whether all of these mappings answer a question with the same word.
func (s *Sitting) agree(q Question, among []mapping) bool {
	return !slices.ContainsFunc(among, func(m mapping) bool { return s.expects(q, m) != s.expects(q, among[0]) })
}

// doubtLamps finds lamps that clash.
func (s *Sitting) doubtLamps(texts []string) {
	for k, r := range s.replies {
		for _, other := range s.replies {
			if r.clashes(other) {
				texts[k] = fmt.Sprintf("it can not be together with %s, for each row of wave drive lights an output of its own; look again: until they agree none of them counts", other)
				break
			}
		}
	}
}

// clashes says whether two lamps can not both be: one row with two outputs, or
// one output with two rows.
func (r Reply) clashes(other Reply) bool {
	return r.Test == Lamp && other.Test == Lamp && (r.Row == other.Row) != (r.Output == other.Output)
}

// weighs says whether an answer tells anything of the mapping.
func (r Reply) weighs() bool { return r.Test != Lamp && r.Word != Unclear }

func (s *Sitting) speaksAgainst(r Reply, m mapping) bool {
	_, most := s.likeliestWord(r.Question, m)
	return against*s.chance(r, m) < most
}

// expects gives the word that a mapping answers with.
func (s *Sitting) expects(q Question, m mapping) string {
	word, _ := s.likeliestWord(q, m)
	return word
}

// likeliestWord gives the word that a mapping answers with, and its odds.
func (s *Sitting) likeliestWord(q Question, m mapping) (word string, odds float64) {
	words, p := s.topology.together(q.Test, s.predict(q, m))
	odds = slices.Max(p)
	return words[slices.Index(p, odds)], odds
}
