package view

import (
	"fmt"
	"strings"

	"coilwalk/model/motor"
	"coilwalk/model/wiring"
	"coilwalk/view/hold"
)

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
	var err error
	if a.performing, err = hold.TestOf(next.Question, a.now, a.sitting.Topology(), a.performing); err != nil {
		return err
	}
	if !e.live.State.Armed {
		e.live.arms(e, hold.ArmedToTest)
		return nil
	}
	watch, err := e.live.Perform(a.performing)
	if err == nil {
		e.notice = advice(watch)
	}
	return err
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
	a.performing = nil
	_, more := a.sitting.Next()
	e.live.Answer(r, more)
}
