package view

import (
	"strings"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"coilwalk/view/action"
)

// frames lets time pass as the library would: each picture that was asked for
// comes, in its turn.
func frames(e *Explorer, c *clock, total time.Duration) (count int) {
	const tick = time.Second / frameRate
	for end := c.now.Add(total); c.now.Before(end); {
		c.pass(tick)
		if e.wait {
			e.Update(frameMsg(e.frame))
			count++
		}
	}
	return count
}

func TestRunningFollowsTheClock(t *testing.T) {
	e, c := explorer(t, "vent-flap", Settings{})
	sized(e, 80, 24)
	press(e, "enter")
	frames(e, c, 2*time.Second)
	if got := e.bench.Read().Step; got < 23 || got > 24 {
		t.Errorf("after 2 s at 12 rows a second it is at step %d", got)
	}
	press(e, "space")
	at := e.bench.Read().Step
	press(e, "space", "space")
	frames(e, c, time.Second)
	if got := e.bench.Read().Step; got != at || e.bench.Running() {
		t.Errorf("it went on to step %d after space", got)
	}
}

// A second chain of pictures would run the motor at twice its rate.
func TestStaleFramesAreDropped(t *testing.T) {
	e, c := explorer(t, "vent-flap", Settings{})
	sized(e, 80, 24)
	press(e, "enter")
	old := e.frame
	press(e, "space", "enter", "space", "enter")
	c.pass(100 * time.Millisecond)
	e.Update(frameMsg(e.frame))
	before, waits := e.bench.Read().Step, e.frame
	c.pass(time.Second)
	if _, cmd := e.Update(frameMsg(old)); cmd != nil {
		t.Error("a stale picture started another chain")
	}
	if e.bench.Read().Step != before || e.frame != waits {
		t.Error("a stale picture moved the motor")
	}
}

func TestNothingIsAskedForAtRest(t *testing.T) {
	e, c := explorer(t, "vent-flap", Settings{})
	sized(e, 80, 24)
	press(e, "right")
	if !e.wait {
		t.Fatal("a turn asks for no picture")
	}
	count := frames(e, c, time.Second)
	if e.wait || count < 3 || count > 12 {
		t.Errorf("a turn of %v took %d pictures; waiting still: %v", easeTime, count, e.wait)
	}
}

// The picture of the rotor goes from rest to rest without a leap, and ends on
// the rest itself.
func TestTurnIsSteady(t *testing.T) {
	e, c := explorer(t, "vent-flap", Settings{})
	press(e, "right")
	last := e.turn.left(c.now)
	if last < 40 || last > 45 {
		t.Fatalf("the picture starts %v° from the rest", last)
	}
	for range 30 {
		c.pass(10 * time.Millisecond)
		now := e.turn.left(c.now)
		if now > last || now < 0 || last-now > 6 {
			t.Fatalf("from %v° to %v° in 10 ms", last, now)
		}
		last = now
	}
	if last != 0 {
		t.Errorf("it stays %v° from the rest", last)
	}
}

func TestSpaceStopsInEveryState(t *testing.T) {
	for _, open := range [][]string{nil, {"?"}, {"w"}, {"g", "1"}} {
		e, _ := explorer(t, "vent-flap", Settings{})
		sized(e, 80, 24)
		press(e, "enter")
		press(e, open...)
		press(e, "space")
		if e.bench.Running() {
			t.Errorf("after %v, space does not stop", open)
		}
	}
}

func TestPromptKeepsItsQuestionToItself(t *testing.T) {
	e, _ := explorer(t, "vent-flap", Settings{})
	sized(e, 80, 24)
	press(e, "w", "9", "9", "enter")
	if want := "can not be swapped"; !strings.Contains(e.notice.words, want) {
		t.Errorf("said %q, want %q in it", e.notice.words, want)
	}
	press(e, "g", "q", "esc")
	if e.ask != nil || e.bench.Read().Step != 0 {
		t.Error("esc does not leave the question")
	}
	press(e, "g12", "enter") // letters that came at once
	if got := e.bench.Read().Step; got != 12 {
		t.Errorf("at step %d", got)
	}
	e.Update(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune("rrr"), Paste: true})
	if got := e.bench.Read().Way; got != 1 {
		t.Error("a paste was taken for keys")
	}
}

// Every key means one thing on a screen, and help shows every action.
func TestKeysAreUniqueAndShown(t *testing.T) {
	seen := map[string]string{"q": "quit", "?": "help", "t": "theme", "tab": "screen", "ctrl+c": "quit"}
	e, _ := explorer(t, "vent-flap", Settings{})
	sized(e, 120, 50)
	press(e, "?")
	help := e.View()
	for _, a := range action.All() {
		for _, k := range a.Keys {
			if other := seen[k]; other != "" {
				t.Errorf("key %q is both %s and %s", k, other, a.Word)
			}
			seen[k] = a.Word
		}
		if !strings.Contains(help, a.Says) || !strings.Contains(help, a.Shown) {
			t.Errorf("help does not show %s", a.Word)
		}
	}
}

func TestStillShowsRestsOnly(t *testing.T) {
	e, _ := explorer(t, "vent-flap", Settings{Still: true})
	sized(e, 80, 24)
	press(e, "right")
	if e.wait || e.turn != (turning{}) {
		t.Error("a picture between rests was asked for")
	}
}
