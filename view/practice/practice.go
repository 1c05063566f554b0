// Package practice asks what a row will do before it is energised, lets the bench
// do it, and says what came of it and why. What is right is what a copy of the
// bench does; there is no table of answers.
package practice

import (
	"fmt"
	"math/rand/v2"

	"coilwalk/model/bench"
	"coilwalk/model/motor"
	"coilwalk/sequence"
)

// Question is one thing to foresee.
type Question struct {
	Mode    sequence.Mode
	Stands  string   // how things stand
	Asks    string   // the question
	Choices []string // from 1 on the keys
	Right   int      // the choice that is right, from 0
	Why     string   // what makes it so, once it was answered
	do      func(b *bench.Bench)
}

// Score is how one step mode goes.
type Score struct {
	Asked, Right int
	Streak       int // right ones since the last wrong one
}

// Words tells a score in a few words.
func (s Score) Words(mode sequence.Mode) string {
	words := fmt.Sprintf("%s %d of %d", mode.Name, s.Right, s.Asked)
	if s.Streak > 1 {
		words += fmt.Sprintf(", %d in a row", s.Streak)
	}
	return words
}

// Sitting is a row of questions on a bench of its own.
type Sitting struct {
	Bench    *bench.Bench
	Question Question
	Answered bool
	Chosen   int // the last answer, from 0
	Scores   [len(sequence.Modes)]Score
	motor    motor.Motor
	random   *rand.Rand
	asked    int
}

// New starts a sitting with a motor; the same seed asks the same questions.
func New(m motor.Motor, seed uint64) *Sitting {
	s := &Sitting{motor: m, random: rand.New(rand.NewPCG(seed, 0))}
	s.Next()
	return s
}

// attempts bounds the search for a question that has one certain answer.
const attempts = 1000

// Next asks the next question. Modes come in turn, and so do kinds of question, each
// mode one kind ahead of the mode before it, so that no two alike follow each other;
// rows, faults and directions are drawn. The first round is without faults.
func (s *Sitting) Next() {
	s.Answered = false
	mode := s.asked % len(sequence.Modes)
	kinds := kinds(s.motor)
	kind := (s.asked/len(sequence.Modes) + mode) % len(kinds)
	s.asked++
	for range attempts {
		b := bench.New(s.motor)
		b.SetMode(sequence.Modes[mode])
		b.Restart() // at home in this mode
		b.Step(int64(s.random.IntN(2 * b.Read().Order.Len())))
		q, ok := kinds[kind](s.random, b)
		if !ok {
			kind = (kind + 1) % len(kinds)
			continue
		}
		if r := b.Read(); s.asked <= len(sequence.Modes) && (r.Rewired || len(r.Faults) > 0) {
			continue
		}
		q.Mode = sequence.Modes[mode]
		s.Bench, s.Question = b, q
		return
	}
	panic("no question with one certain answer was found") // a test asks every motor
}

// Answer takes a choice, from 0, lets the bench do what was asked about, and
// counts it; false where there is no such choice, or it was answered before.
func (s *Sitting) Answer(choice int) bool {
	if s.Answered || choice < 0 || choice >= len(s.Question.Choices) {
		return false
	}
	s.Answered, s.Chosen = true, choice
	score := &s.Scores[s.mode()]
	score.Asked++
	if score.Streak++; s.Correct() {
		score.Right++
	} else {
		score.Streak = 0
	}
	s.Question.do(s.Bench)
	return true
}

// Correct says whether the last answer was right.
func (s *Sitting) Correct() bool { return s.Chosen == s.Question.Right }

// mode gives the place of the question's mode in sequence.Modes.
func (s *Sitting) mode() int {
	for i, m := range sequence.Modes {
		if m.Name == s.Question.Mode.Name {
			return i
		}
	}
	return 0
}
