package hold

import (
	"fmt"

	"coilwalk/model/live"
	"coilwalk/model/motor"
	"coilwalk/model/wiring"
)

// Test is a guided test that is being done on the real shaft, part by part: the
// person only watches, and answers.
type Test struct {
	question wiring.Question
	parts    [][]live.Timed
	made     int
}

// TestOf is the test of a question, on the leads that are on outputs 1 to 4: the
// one that was begun, while it has parts left, or else a new one.
func TestOf(q wiring.Question, now [4]motor.Lead, t *wiring.Topology, begun *Test) (*Test, error) {
	if begun != nil && begun.question.String() == q.String() && begun.made < len(begun.parts) {
		return begun, nil
	}
	parts, err := live.Perform(q, now, t)
	if err != nil {
		return nil, err
	}
	return &Test{question: q, parts: parts}, nil
}

// Perform sends the next part of a test, and says what to watch for.
func (h *Hold) Perform(t *Test) (watch string, err error) {
	rows := t.parts[t.made]
	if err := h.Motor.Play(rows); err != nil {
		return "", err
	}
	t.made++
	h.tests = true
	if !h.Bench.Released() { // the row that it held is not on any more
		before := h.Bench.Read()
		h.Bench.Release()
		h.Moved(before)
	}
	h.note(fmt.Sprintf("%s: part %d of %d", t.question, t.made, len(t.parts)))
	h.Sync()
	q := t.question
	switch last := t.made == len(t.parts); {
	case q.Test == wiring.Kick && !last:
		return fmt.Sprintf("%s is on: turn the shaft a little until it snaps home; then {ask.perform} adds %s", q.Leads[0], q.Leads[1]), nil
	case q.Test == wiring.Kick:
		return fmt.Sprintf("%s too: which way did it go? {walk.stop} switches off", q.Leads[1]), nil
	case q.Test == wiring.Stiff:
		return "both are on: turn the shaft by hand, and answer; {walk.stop} switches off", nil
	case q.Test == wiring.Run && !last:
		return fmt.Sprintf("%d rows in this order: watch which way; then {ask.perform} sends them back", len(rows)), nil
	case q.Test == wiring.Run:
		return fmt.Sprintf("%d rows the other way: what did it do? {walk.stop} switches off", len(rows)), nil
	}
	return "watch the shaft, and answer", nil
}

// Testing says whether what is on is a row of a test of the shaft, and none of the
// bench's order.
func (h *Hold) Testing() bool { return h.tests && (h.State.On || h.State.Running) }

// EndTest switches off what a test has left on, so that nobody who goes on to
// something else takes a coil that is on for one that is off. It stays armed.
func (h *Hold) EndTest() {
	if h.Sync(); !h.tests {
		return
	}
	if h.State.Running {
		h.Motor.Pause()
	}
	h.clear()
}

// clear sends a row with nothing on.
func (h *Hold) clear() {
	h.tests = false
	if !h.State.Armed {
		return
	}
	if _, err := h.Motor.Show(live.Step{}); err != nil {
		h.Say(err.Error(), true)
	}
}

// Answer puts an answer into the record, and switches off what was on for it.
func (h *Hold) Answer(r wiring.Reply, more bool) {
	h.note("answer: " + r.String())
	words := "noted: " + r.String()
	if more {
		words += "; {ask.perform} does the next test"
	}
	h.Say(words, false)
	h.clear()
}
