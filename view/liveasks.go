package view

import (
	"fmt"
	"strings"

	"coilwalk/model/live"
	"coilwalk/model/motor"
	"coilwalk/model/wiring"
)

// performed is a test that is being done on the real shaft, part by part.
type performed struct {
	question string
	parts    [][]live.Timed
	made     int
}

// perform does the next part of the test that is asked for: the person only
// watches the shaft, and answers.
func (a *shaftAsks) perform(e *Explorer) error {
	next, ok := a.sitting.Next()
	if !ok {
		return fmt.Errorf("there is nothing left to ask")
	}
	if a.now == ([4]motor.Lead{}) {
		a.askOutputs(e, next.Question)
		return nil
	}
	if p := a.performing; p == nil || p.question != next.Question.String() || p.made == len(p.parts) {
		parts, err := live.Perform(next.Question, a.now, a.sitting.Topology())
		if err != nil {
			return err
		}
		a.performing = &performed{question: next.Question.String(), parts: parts}
	}
	do := func() error { return a.part(e, next.Question) }
	if !e.live.state.Armed {
		e.live.arms(e, do)
		return nil
	}
	return do()
}

// part sends one part, and says what to watch for.
func (a *shaftAsks) part(e *Explorer, q wiring.Question) error {
	p := a.performing
	rows := p.parts[p.made]
	if err := e.live.motor.Play(rows); err != nil {
		return err
	}
	p.made++
	e.live.note(fmt.Sprintf("%s: part %d of %d", p.question, p.made, len(p.parts)))
	e.live.sync(e)
	words := "watch the shaft, and answer"
	switch last := p.made == len(p.parts); {
	case q.Test == wiring.Kick && !last:
		words = fmt.Sprintf("%s is on: turn the shaft a little until it snaps home; then p adds %s", q.Leads[0], q.Leads[1])
	case q.Test == wiring.Kick:
		words = fmt.Sprintf("%s too: which way did it go? space switches off", q.Leads[1])
	case q.Test == wiring.Stiff:
		words = "both are on: turn the shaft by hand, and answer; space switches off"
	case q.Test == wiring.Run && !last:
		words = fmt.Sprintf("%d rows in this order: watch which way; then p sends them back", len(rows))
	case q.Test == wiring.Run:
		words = fmt.Sprintf("%d rows the other way: what did it do? space switches off", len(rows))
	}
	e.notice = advice(words)
	return nil
}

// askOutputs asks for what nobody said yet: which lead is on which output.
func (a *shaftAsks) askOutputs(e *Explorer, q wiring.Question) {
	e.asks("which leads are on outputs 1 to 4? as "+strings.Join(words(q.Leads), " ")+" …", "", func(text string) error {
		leads, err := wiring.ParseLeads(text)
		if err != nil {
			return err
		}
		if len(leads) != 4 {
			return fmt.Errorf("four leads are wanted, in the order of the outputs")
		}
		a.now = [4]motor.Lead(leads)
		a.shown = nil
		return a.perform(e)
	})
}

// answered puts an answer into the record, and switches off what was on for it.
func (a *shaftAsks) answered(e *Explorer, r wiring.Reply) {
	if e.live == nil {
		return
	}
	e.live.note("answer: " + r.String())
	a.performing = nil
	e.notice = advice("noted: " + r.String())
	if _, more := a.sitting.Next(); more {
		e.notice.words += "; p does the next test"
	}
	if e.live.state.Armed {
		if _, err := e.live.motor.Show(live.Step{}); err != nil {
			e.notice = alarm(err.Error())
		}
	}
}
