package view

import (
	"fmt"
	"strings"

	"coilwalk/model/bench"
	"coilwalk/sequence"
	"coilwalk/view/picture"
	"coilwalk/view/practice"
)

// practised is a sitting of practice, and the bench that waits for its end.
type practised struct {
	*practice.Sitting
	own *bench.Bench
}

// practicePlace is the keys of practice. Those of the bench rest: what a row does
// is to be foreseen, not tried.
func (w *walk) practicePlace() *place {
	p := newPlace("practice", "on Walk, in practice",
		deed{"next-question", "enter", "next", "ask the next question", func(e *Explorer) {
			if !w.practised.Answered {
				e.notice = advice("answer first, with the number of a choice")
				return
			}
			e.bench.Stop()
			w.practised.Next()
			w.onBench(e, w.practised.Bench)
		}},
		deed{"row", "right l", "row", "once answered: energise another row, to see how it goes on", func(e *Explorer) {
			if w.practised.Answered {
				w.energise(e, (*bench.Bench).Next)
			}
		}},
		deed{"leave", "esc", "leave", "leave practice; your own bench is as it was", w.leavePractice})
	p.Typed, p.typed = "12345", func(e *Explorer, key string) {
		w.energise(e, func(*bench.Bench) { w.practised.Answer(int(key[0] - '1')) })
	}
	p.first = func() []hint {
		if w.practised.Answered {
			return nil
		}
		return []hint{{fmt.Sprintf("1…%d", len(w.practised.Question.Choices)), "answer", "answer the question with the choice of that number"}}
	}
	p.when = func() bool { return w.practised != nil }
	return p
}

// energise does something to the bench, and sets the picture turning.
func (w *walk) energise(e *Explorer, do func(*bench.Bench)) {
	e.notice = notice{}
	before := e.bench.Read()
	do(e.bench)
	e.follow(before)
}

// practise starts practice, on a bench of its own.
func (w *walk) practise(e *Explorer) {
	seed := e.Seed
	if seed == 0 {
		seed = uint64(e.Now().UnixNano())
	}
	e.bench.Stop()
	if w.sitting == nil {
		w.sitting = practice.New(e.bench.Motor(), seed)
	}
	w.practised = &practised{w.sitting, e.bench}
	w.onBench(e, w.sitting.Bench)
}

// onBench puts another bench under the picture.
func (w *walk) onBench(e *Explorer, b *bench.Bench) {
	e.bench, e.turn, e.notice, w.told = b, turning{}, notice{}, told{}
}

// leavePractice goes back to the bench that was left. The score stays.
func (w *walk) leavePractice(e *Explorer) {
	e.bench.Stop()
	w.onBench(e, w.practised.own)
	w.practised = nil
}

// leave ends practice when another screen is gone to.
func (w *walk) leave(e *Explorer) {
	if w.practised != nil {
		w.leavePractice(e)
	}
}

// foreseeing says whether a question is open: then nothing may show that tells
// the answer.
func (w *walk) foreseeing() bool { return w.practised != nil && !w.practised.Answered }

// drawPractice draws the question where else the order stands, which would tell.
func (w *walk) drawPractice(e *Explorer, g *picture.Grid, p layout) {
	q := w.practised.Question
	y := panel(g, p, "practice, "+q.Mode.Title, scoreWords(w.practised.Scores, q.Mode))
	say := func(words string, style picture.Style) {
		for _, line := range e.panelLines(words) {
			g.WriteWithin(1, y, g.W-2, line, style)
			y++
		}
	}
	if !w.practised.Answered {
		say(q.Stands+" "+q.Asks, picture.Loud(picture.Text))
		x := 1
		for i, c := range q.Choices {
			c = fmt.Sprintf("%d %s", i+1, c)
			if x > 1 && x+picture.Width(c) >= g.W {
				x, y = 1, y+1
			}
			x = g.Write(x, y, c, picture.Loud(picture.Current)) + 3
		}
		return
	}
	words, ink := "Right: ", picture.Good
	if !w.practised.Correct() {
		words, ink = "Not so, it is: ", picture.Alert
	}
	say(words+q.Choices[q.Right]+".", picture.Loud(ink))
	say(q.Why, picture.In(picture.Text))
}

// scoreWords tells the score, right of asked, in all and by mode, and how many were in
// a row in the mode that is asked about.
func scoreWords(scores [len(sequence.Modes)]practice.Score, now sequence.Mode) string {
	var all practice.Score
	var parts []string
	row := ""
	for i, m := range sequence.Modes {
		s := scores[i]
		all.Right, all.Asked = all.Right+s.Right, all.Asked+s.Asked
		parts = append(parts, fmt.Sprintf("%s %d/%d", m.Name, s.Right, s.Asked))
		if m.Name == now.Name && s.Streak > 1 {
			row = fmt.Sprintf("; %d in a row", s.Streak)
		}
	}
	return fmt.Sprintf("%d of %d: %s%s", all.Right, all.Asked, strings.Join(parts, ", "), row)
}
