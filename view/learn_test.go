package view

import (
	"strings"
	"testing"
	"time"

	"coilwalk/view/tour"
)

// learning is a sitting that begins with the walk-through.
func learning(t *testing.T, s Settings) (*Explorer, *clock, *walk) {
	s.Tour = true
	e, c := explorer(t, "vent-flap", s)
	sized(e, 80, 24)
	return e, c, e.screens[0].(*walk)
}

// notes follow what was done on the bench, by whatever key, and not the keys.
func TestTourFollowsTheBench(t *testing.T) {
	e, c, w := learning(t, Settings{})
	at := func(want int) {
		t.Helper()
		if w.tour == nil {
			t.Fatalf("the walk-through ended before note %d", want)
		}
		if _, _, got := w.tour.At(); got != want {
			t.Fatalf("at note %d, want %d", got, want)
		}
	}
	at(1)
	press(e, "r", "m", "left") // other things are done, and it waits; reversed, left goes on
	at(2)
	press(e, "left", "backspace") // on, and undone: that is no way back
	at(2)
	press(e, "right")
	at(3)
	press(e, "r")
	for _, mode := range []string{"wave", "full", "half"} {
		for e.bench.Read().Order.Len() == 0 || inMode(e) != mode {
			press(e, "m")
		}
		press(e, "right", "right")
	}
	at(6)
	press(e, "space")
	at(6)
	press(e, "enter", "space")
	at(7)
	press(e, "w", "23", "enter", "right", "right", "right")
	if _, s, _ := w.tour.At(); !strings.Contains(s.Press, "walk.next") {
		t.Errorf("after three rows it says %q", s.Press)
	}
	press(e, "right", "right", "right", "right", "right", "x") // a whole cycle, for only that shows it for certain
	at(8)
	c.pass(time.Second)
	if view := e.View(); !strings.Contains(view, "8 of 8") || strings.Contains(view, "{") {
		t.Error("the last note is not on the screen, or names no key:\n" + view)
	}
	press(e, "esc")
	if view := e.View(); strings.Contains(view, "first steps") || !strings.Contains(view, "▼") {
		t.Error("left, the order is not back:\n" + view)
	}
}

func inMode(e *Explorer) string {
	m, _ := e.bench.Read().Order.Mode()
	return m.Name
}

// With the walk-through every key does what it does without: the bench comes out
// the same, and so does what is shown above the notes.
// A note that is gone on to asks for nothing that is so already: the bench begins in
// half step.
func TestNotesAskForWhatIsLeft(t *testing.T) {
	e, _, _ := learning(t, Settings{})
	press(e, "pgdown", "pgdown", "pgdown", "pgdown")
	if v := e.View(); !strings.Contains(v, "5 of 8: half step") || strings.Contains(v, "until the head says half step") || !strings.Contains(v, "twice as many rests") {
		t.Errorf("it asks for what is so already:\n%s", v)
	}
	press(e, "m")
	press(e, "pgdown", "i", "pgdown", "pgdown", "pgdown", "pgdown") // anew, in another mode
	if v := e.View(); !strings.Contains(v, "until the head says half step") {
		t.Errorf("it does not ask for half step:\n%s", v)
	}
}

func TestTourBlocksNoKey(t *testing.T) {
	keys := []string{"right", "m", "right", "g", "12", "enter", "w", "23", "enter", "right", "u", "f", "dead 2", "enter", "z", "x", "d", "S", "W", "home", "?", "?", "p", "20", "enter"}
	e, c, w := learning(t, Settings{})
	plain, pc := explorer(t, "vent-flap", Settings{})
	sized(plain, 80, 24)
	top := func(e *Explorer) string { return strings.Join(strings.Split(e.View(), "\n")[:18], "\n") }
	for _, k := range keys {
		press(e, k)
		press(plain, k)
		c.pass(time.Second)
		pc.pass(time.Second)
		if got, want := top(e), top(plain); !e.help && got != want {
			t.Fatalf("after %s:\n%s\nwithout the walk-through:\n%s", k, got, want)
		}
	}
	if w.tour == nil {
		t.Error("the walk-through ended by itself")
	}
}

// Each note fits its place on the smallest screen, and leaves the line that a
// question needs.
func TestNotesFit(t *testing.T) {
	for _, ascii := range []bool{false, true} {
		e, _, _ := learning(t, Settings{ASCII: ascii})
		for i, n := range tour.All() {
			most := tracesHeight - 1
			for _, s := range n.Stages {
				if lines := len(e.panelLines(s.Shows)) + len(e.panelLines(s.Press)); lines > most {
					t.Errorf("note %d, %q: %d lines, %d have room (ASCII: %v)", i+1, s.Press, lines, most, ascii)
				}
			}
		}
	}
}

// Practice is on a bench of its own, shows no answer before it is given, and leaves
// one's own as it was.
func TestPracticeLeavesTheBench(t *testing.T) {
	for _, size := range [][2]int{{80, 24}, {120, 36}, {200, 60}} {
		e, c := explorer(t, "vent-flap", Settings{Seed: 3})
		sized(e, size[0], size[1])
		w := e.screens[0].(*walk)
		press(e, "right", "right", "w", "23", "enter")
		own, before := e.bench, e.bench.Read().Step
		press(e, "e")
		for range 18 {
			step := e.bench.Read().Step
			press(e, "right", "m", "x") // rest: it is to be foreseen
			if e.bench.Read().Step != step || e.bench == own {
				t.Fatal("a key of the bench moved what is to be foreseen")
			}
			c.pass(time.Second)
			view := e.View()
			for _, tells := range []string{"a row turns", "order:", "moved"} {
				if strings.Contains(view, tells) {
					t.Fatalf("%q shows before the answer:\n%s", tells, view)
				}
			}
			q := w.practised.Question
			for _, choice := range q.Choices {
				if !e.grid.ASCII && !strings.Contains(view, choice) {
					t.Fatalf("the choice %q is not shown:\n%s", choice, view)
				}
			}
			press(e, string(rune('1'+q.Right)))
			c.pass(time.Second)
			if view := e.View(); !strings.Contains(view, "Right: "+q.Choices[q.Right]) {
				t.Fatalf("a right answer is not told:\n%s", view)
			}
			lines := e.panelLines(q.Why)
			if len(lines) > tracesHeight-2 || !strings.Contains(e.View(), lines[len(lines)-1]) {
				t.Errorf("not all of %q is shown", q.Why)
			}
			press(e, "enter")
		}
		for i, s := range w.sitting.Scores {
			if s.Asked != 6 || s.Right != 6 || s.Streak != 6 {
				t.Errorf("score %d is %+v", i, s)
			}
		}
		press(e, "L", "W")
		if e.bench != own || own.Read().Step != before || !own.Read().Rewired {
			t.Error("one's own bench is not as it was left")
		}
		press(e, "e")
		if w.sitting.Scores[0].Asked != 6 {
			t.Error("the score was not kept for the sitting")
		}
		press(e, "space", "esc")
		if e.bench != own {
			t.Error("esc does not leave practice")
		}
	}
}

// A real motor has neither.
func TestNeitherWithARealMotor(t *testing.T) {
	for _, p := range (&walk{live: true}).places() {
		if p.Name != "walk" {
			continue
		}
		for _, word := range []string{"tour", "practice"} {
			if !p.drops(word) {
				t.Errorf("%s can be asked for with a real motor", word)
			}
		}
	}
}
