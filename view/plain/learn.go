package plain

import (
	"strconv"
	"strings"
	"time"

	"coilwalk/sequence"
	"coilwalk/view/practice"
	"coilwalk/view/report"
	"coilwalk/view/tour"
)

// learnWords are those of the first minutes.
func learnWords() []word {
	return []word{
		{"tour", "[end]", "the first steps, note by note", (*Mode).walkThrough},
		{"practice", "[end]", "be asked what the next row will do; a number alone answers; practice seed N asks the same questions again", (*Mode).practise},
	}
}

// walkThrough says the notes of the walk-through one by one: the next once what a note
// asks for was done, or when the word is said again.
func (m *Mode) walkThrough(args []string) {
	switch {
	case m.real != nil:
		m.say("The first steps are taken without a real motor.")
		return
	case len(args) == 1 && args[0] == "end":
		m.tour = nil
		m.say("The walk-through is left.")
		return
	case len(args) > 0:
		m.say("tour takes no more than: tour end")
		return
	case m.tour == nil:
		m.tour = tour.Begin(m.Bench)
	case !m.tour.Skip(m.Bench):
		m.tour = nil
		m.say("That was the last note; tour begins again.")
		return
	}
	m.note()
}

// note says what the walk-through asks for now.
func (m *Mode) note() {
	n, s, place := m.tour.At()
	if s.Say == "" {
		return
	}
	shows := s.Shows
	if m.tour.Last() {
		shows = "That was the walk-through."
	}
	m.say("First steps, %d of %d, %s. %s %s", place, len(tour.All()), n.Title, worded(shows), s.Say)
}

// seen goes on with the walk-through where what it asks for was done.
func (m *Mode) seen() {
	for m.tour != nil && m.tour.Look(m.Bench) {
		if m.tour.Waits(m.Bench) {
			m.note()
		}
	}
}

// practise asks what will come of the next row; a number alone answers.
func (m *Mode) practise(args []string) {
	switch {
	case m.real != nil:
		m.say("Practice is done without a real motor.")
		return
	case len(args) == 1 && args[0] == "end":
		if m.practice == nil {
			m.say("No practice is on.")
			return
		}
		m.score()
		m.practice = nil
		return
	case len(args) == 2 && args[0] == "seed":
		seed, err := strconv.ParseUint(args[1], 10, 64)
		if err != nil {
			m.say("%q is no seed; a whole number is wanted.", args[1])
			return
		}
		m.practice = practice.New(m.Bench.Motor(), seed)
		m.say(ownBench)
	case len(args) > 0:
		m.say("practice is said alone, as practice seed 7, or as practice end.")
		return
	case m.practice == nil:
		m.practice = practice.New(m.Bench.Motor(), uint64(time.Now().UnixNano()))
		m.say(ownBench)
	case m.practice.Answered:
		m.practice.Next()
	}
	q := m.practice.Question
	m.say("%s: %s", q.Mode.Title, report.Stands(m.practice.Bench))
	m.say("%s %s", q.Stands, q.Asks)
	for i, c := range q.Choices {
		m.say("%d: %s", i+1, c)
	}
}

// ownBench is said where practice begins.
const ownBench = "A number answers, next asks another question, practice end leaves. Practice has a bench of its own; other words are about yours."

// asksAgain says whether next is said of practice: its next question, once one is
// answered.
func (m *Mode) asksAgain(name string, args []string) bool {
	if m.practice == nil || name != "next" || len(args) > 0 {
		return false
	}
	if m.practice.Answered {
		m.practise(nil)
	} else {
		m.say("Answer first, with the number of a choice; practice end leaves.")
	}
	return true
}

// foresee takes a number for the answer to the open question.
func (m *Mode) foresee(choice int) {
	switch p := m.practice; {
	case p == nil:
		m.say("A number answers a question of practice; say practice to be asked one.")
	case p.Answered:
		m.say("That was answered; say next for another question.")
	case !p.Answer(choice - 1):
		m.say("A number from 1 to %d is wanted.", len(p.Question.Choices))
	default:
		verdict := "Not so, it is"
		if p.Correct() {
			verdict = "Right"
		}
		m.say("%s: %s. %s", verdict, p.Question.Choices[p.Question.Right], p.Question.Why)
		m.say("%s", report.Step(p.Bench))
		m.score()
	}
}

// score says how practice goes, by step mode.
func (m *Mode) score() {
	var parts []string
	for i, mode := range sequence.Modes {
		parts = append(parts, m.practice.Scores[i].Words(mode))
	}
	m.say("Score: %s.", strings.Join(parts, "; "))
}
