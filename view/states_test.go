package view

import (
	"testing"
	"time"

	"coilwalk/model/bench"
	"coilwalk/model/live"
	"coilwalk/model/motor"
	"coilwalk/model/table"
	"coilwalk/sequence"
	"coilwalk/view/opened"
)

// state is a screen as keys bring it about.
type state struct {
	name  string
	open  func(t *testing.T, s Settings) (*Explorer, *clock)
	keys  []string
	waits bool // for what keys start beside the screen
}

// everyState are all screens, with what can be on them. Each screen is among them;
// a test holds that.
func everyState() []state {
	return []state{
		{name: "first", open: on("vent-flap")},
		{name: "walk", open: on("vent-flap"), keys: []string{"right", "right"}},
		{name: "running", open: on("vent-flap"), keys: []string{"enter"}},
		{name: "slow", open: on("vent-flap"), keys: []string{"z", "right"}},
		{name: "micro", open: on("hybrid-8"), keys: []string{"m", "right", "right", "right"}},
		{name: "unsure", open: on("hybrid-4"), keys: []string{"m", "m", "w", "23", "enter", "right"}},
		{name: "bridge", open: on("hybrid-4"), keys: []string{"right", "right"}},
		{name: "put in", open: on("vent-flap"), keys: []string{"f", "open BN", "enter", "right"}},
		{name: "wrong answer", open: on("vent-flap"), keys: []string{"w", "2", "enter"}},
		{name: "question", open: on("vent-flap"), keys: []string{"w", "234"}},
		{name: "help", open: on("vent-flap"), keys: []string{"?"}},
		{name: "first steps", open: on("vent-flap"), keys: []string{"i", "right"}},
		{name: "practice", open: on("vent-flap"), keys: []string{"e"}},
		{name: "practice answered", open: on("vent-flap"), keys: []string{"e", "1"}},
		{name: "no readings", open: on("vent-flap"), keys: []string{"L"}},
		{name: "readings", open: on("vent-flap"), keys: flapReadings},
		{name: "contradiction", open: on("vent-flap"), keys: append(append([]string(nil), flapReadings...), "up", "1", "7", "enter")},
		{name: "motor", open: on("vent-flap"), keys: append(append([]string(nil), flapReadings...), "m", "48", "enter")},
		{name: "asked", open: on("hybrid-8"), keys: []string{"L", "a", "1", "e", "kick RD WH ccw", "enter", "e", "kick RD WH ccw", "enter"}},
		{name: "answered", open: on("hybrid-6"), keys: []string{"L", "a", "1", "1"}},
		{name: "faults", open: on("hybrid-4"), keys: []string{"F", "down", "enter", "m"}, waits: true},
		{name: "trials", open: on("hybrid-4"), keys: []string{"F", "right", "down", "enter", "buzz 2", "enter"}, waits: true},
		{name: "drift", open: on("vent-flap"), keys: flapDrift},
		{name: "rates", open: on("vent-flap"), keys: []string{"R"}},
		{name: "power", open: on("geared-can"), keys: powerUSB, waits: true},
		{name: "power refused", open: on("hybrid-4"), keys: []string{"P", "enter", "darlington", "enter"}, waits: true},
		{name: "trouble", open: on("vent-flap"), keys: []string{"U", "enter", "down"}},
		{name: "trouble answered", open: on("vent-flap"), keys: []string{"U", "down", "down", "enter", "down", "down"}, waits: true},
		{name: "word", open: on("vent-flap"), keys: []string{"/", "load angle", "enter"}, waits: true},
		{name: "words", open: on("vent-flap"), keys: []string{"?", "/", "enter"}},
		{name: "card", open: on("hybrid-8"), keys: []string{"A", "left"}},
		{name: "source", open: on("vent-flap"), keys: takeStepper},
		{name: "table", open: onTable, keys: []string{"T"}},
		{name: "recording", open: onRecording("flap-faults.vcd"), keys: []string{"n", "n"}},
		{name: "marks", open: onRecording("flap.vcd"), keys: []string{"a", "g", "row 20", "enter", "b", "+", "+", "+"}},
		{name: "live", open: onNothing, keys: []string{"right"}},
		{name: "cautions", open: onNothing, keys: []string{"a"}},
		{name: "dark leads", open: on("hybrid-4", "BK", "BN", "RD", "OG"), keys: []string{"right"}},
		{name: "light leads", open: on("hybrid-4", "YE", "GN", "BU", "VT"), keys: []string{"right"}},
		{name: "more leads", open: on("hybrid-4", "GY", "WH", "PK", "GD"), keys: []string{"right"}},
		{name: "striped leads", open: on("hybrid-4", "TQ", "SR", "WH/RD", "YE/GN"), keys: []string{"right"}},
	}
}

// on opens a built-in motor, with other leads where they are given.
func on(name string, leads ...motor.Lead) func(*testing.T, Settings) (*Explorer, *clock) {
	return func(_ *testing.T, s Settings) (*Explorer, *clock) {
		m, _ := motor.BuiltIn(name)
		copy(m.Ends[:], leads)
		c := newClock()
		s.Now = c.Now
		return New(bench.New(m), s, Opened{}), c
	}
}

// onRecording opens a recording, read to its end, with a motor run along it.
func onRecording(file string) func(*testing.T, Settings) (*Explorer, *clock) {
	return func(t *testing.T, s Settings) (*Explorer, *clock) {
		e, c := recorded(t, file, "vent-flap", s)
		sized(e, 120, 36)
		settle(e, e.next())
		e.View() // keys go by what is shown
		return e, c
	}
}

// onTable opens a table on a wiring that it is not made for: two outputs stand in
// the other order.
func onTable(t *testing.T, s Settings) (*Explorer, *clock) {
	source, err := table.Read("crossed.txt", []byte("1010\n0110\n0101\n1001\n"), table.Options{})
	if err != nil {
		t.Fatal(err)
	}
	m, _ := motor.BuiltIn("vent-flap")
	q := table.Question{Wiring: &sequence.Permutation{sequence.APlus, sequence.AMinus, sequence.BPlus, sequence.BMinus}, AnyDrive: true}
	verdicts := source.Judge(q)
	b := bench.New(m)
	b.SetTable(verdicts[0].Outputs, verdicts[0].Taken)
	c := newClock()
	s.Now = c.Now
	return New(b, s, Opened{Checked: &opened.Table{File: "crossed.txt", Verdicts: verdicts, Question: q}}), c
}

// onNothing opens the explorer bound to a board that is none.
func onNothing(t *testing.T, s Settings) (*Explorer, *clock) {
	return liveExplorer(t, live.NewNull(), s)
}

// at brings the state about.
func (s state) at(t *testing.T, settings Settings, w, h int) (*Explorer, *clock) {
	t.Helper()
	e, c := s.open(t, settings)
	sized(e, w, h)
	for _, k := range s.keys {
		if s.waits {
			pressAndWait(e, k)
		} else {
			press(e, k)
		}
	}
	c.pass(time.Second)
	return e, c
}

// allOf holds that every screen that there can be is among the states, and help and
// a question.
func allOf(t *testing.T, states []shown) {
	seen := map[string]bool{}
	for _, s := range states {
		e := s.e
		seen[way(e.screens[e.at])] = true
		if e.help {
			seen["help"] = true
		}
		if e.ask != nil {
			seen["question"] = true
		}
	}
	wanted := []string{"help", "question"}
	for _, s := range everyScreen() {
		wanted = append(wanted, way(s))
	}
	for _, name := range wanted {
		if !seen[name] {
			t.Errorf("no state shows %s", name)
		}
	}
}
