package view

import (
	"math"
	"strings"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
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
	if got := e.bench.Read().Step; got < 24 || got > 25 {
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

func TestStillShowsRestsOnly(t *testing.T) {
	e, _ := explorer(t, "vent-flap", Settings{Still: true})
	sized(e, 80, 24)
	press(e, "right")
	if e.wait || e.turn != (turning{}) {
		t.Error("a picture between rests was asked for")
	}
}

// Where nothing is to move, a run changes the picture less than three times a second,
// whatever its rate, and it is still as fast; and what is reckoned beside the screen
// asks for no picture.
func TestStillRunsQuietly(t *testing.T) {
	for _, rate := range []string{"1", "12", "900"} {
		e, c := explorer(t, "vent-flap", Settings{Still: true})
		sized(e, 80, 24)
		press(e, "p", rate, "enter", "enter")
		last, changes := e.View(), 0
		for range 5 * frameRate {
			c.pass(time.Second / frameRate)
			e.Update(frameMsg(e.frame))
			if now := e.View(); now != last {
				last = now
				changes++
			}
		}
		if changes > 14 || changes < 4 {
			t.Errorf("at %s rows a second the picture changes %d times in 5 s", rate, changes)
		}
		if got, want := e.bench.Read().Step, 5*e.bench.Rate(); math.Abs(float64(got)-want) > 0.02*want+1 {
			t.Errorf("after 5 s at %s rows a second it is at step %d", rate, got)
		}
		press(e, "space")
		if v := e.View(); !strings.Contains(v, "stopped") {
			t.Errorf("a key is not shown at once:\n%s", v)
		}
	}
	e, _ := explorer(t, "vent-flap", Settings{Still: true})
	sized(e, 80, 24)
	press(e, "R")
	if r := e.screens[e.at].(*ratesScreen); !r.busy() || e.wait {
		t.Errorf("rates: busy %v, a picture is waited for: %v", r.busy(), e.wait)
	}
}

// Every screen is a key away from every other, and help says so.
func TestScreensAreAKeyAway(t *testing.T) {
	e, _ := explorer(t, "vent-flap", Settings{})
	sized(e, 80, 24)
	for from := range e.screens {
		for to, s := range e.screens {
			e.show(from)
			press(e, initial(s))
			if e.at != to || !strings.Contains(strings.ToLower(strings.Split(e.View(), "\n")[1]), "["+strings.ToLower(s.name())+"]") {
				t.Errorf("%s from screen %d leads to %d", initial(s), from, e.at)
			}
		}
	}
	press(e, "?")
	if help := e.View(); !strings.Contains(help, "one: W L F S R") {
		t.Errorf("help does not name the letters:\n%s", help)
	}
}

// Numbers follow each letter; what can not be read is told and changes nothing;
// leaving puts back what was. And the bench has the train.
func TestShaftFollowsTheTyping(t *testing.T) {
	e, _ := explorer(t, "vent-flap", Settings{})
	sized(e, 120, 36)
	press(e, "S", "enter")
	for range len("9:23,10:27,11:29,12:28") {
		press(e, "backspace")
	}
	press(e, "10:")
	if v := e.View(); !strings.Contains(v, "is no mesh") || !strings.Contains(v, "no train") {
		t.Errorf("half a mesh:\n%s", v)
	}
	press(e, "4")
	if v := e.View(); !strings.Contains(v, "2/5") {
		t.Errorf("10:4 is not followed:\n%s", v)
	}
	press(e, "0", "enter")
	if v := e.View(); !strings.Contains(v, "256 rows to a turn") {
		t.Errorf("4:1 on 64 half steps makes 256:\n%s", v)
	}
	press(e, "W", "right")
	if v := e.View(); !strings.Contains(v, "train 4:1") || e.bench.Ratio() != 4 {
		t.Errorf("Walk has another train:\n%s", v)
	}
	press(e, "S", "enter", "5", "esc")
	if v := e.View(); !strings.Contains(v, "256 rows to a turn") {
		t.Errorf("esc does not put the train back:\n%s", v)
	}
}

// The cursor goes where the next reading tells most, and a reading that can not
// be read stays to be mended.
func TestReadingsAreTypedInTurn(t *testing.T) {
	e, _ := explorer(t, "vent-flap", Settings{})
	sized(e, 80, 24)
	press(e, "L", "n")
	for range len("BN WH GN GY VT") {
		press(e, "backspace")
	}
	press(e, "a b c a", "enter")
	if v := e.View(); !strings.Contains(v, "stands twice") {
		t.Errorf("a lead named twice:\n%s", v)
	}
	press(e, "backspace", "d", "enter")
	press(e, "5", "x", "enter")
	l := e.screens[1].(*leadsScreen)
	if len(l.readings) != 0 || e.ask == nil || e.ask.line.Value() != "5x" {
		t.Errorf("5x was taken: %v", l.readings)
	}
	press(e, "backspace", "enter") // a–b 5 ohm: one coil
	for range 6 {
		if a, b, ok := l.next(); ok && (a == "c" && b == "d" || a == "d" && b == "c") {
			press(e, "5.1", "enter")
		} else if ok {
			press(e, "o")
		}
	}
	if l.answer == nil || l.answer.Kinds[0].Kind != "4-lead" || len(l.answer.Phases) != 2 {
		t.Errorf("%v make %+v", l.readings, l.answer)
	}
	before := len(l.readings)
	press(e, "up", "up", "left", "left", "left", "backspace")
	if len(l.readings) != before-1 {
		t.Errorf("%d readings, then %d", before, len(l.readings))
	}
}

// A fault that is put in shows on Walk, and what the model does with it, taken
// for one's own motor, leads back to it.
func TestFaultsArePutInAndFound(t *testing.T) {
	e, c := explorer(t, "hybrid-4", Settings{})
	sized(e, 120, 36)
	press(e, "F", "m") // before it was run: taken over when it comes
	f := e.screens[2].(*faultScreen)
	if pressAndWait(e, "enter"); f.takes || len(f.symptoms) != 6 || !f.waits { // the first: two leads swapped
		t.Errorf("%d symptoms are taken over when they come", len(f.symptoms))
	}
	if r := e.bench.Read(); !r.Rewired {
		t.Fatalf("put in: %v", r.Wiring)
	}
	pressAndWait(e, "m")
	if v := e.View(); !strings.Contains(v, "two leads swapped") || !strings.Contains(v, "cure: energise one lead after another") {
		t.Errorf("it does not lead back:\n%s", v)
	}
	press(e, "W", "right", "right")
	c.pass(time.Second)
	if v := e.View(); !strings.Contains(v, "BK and RD swapped") {
		t.Errorf("Walk does not show the fault:\n%s", v)
	}
	press(e, "x")
	if e.bench.Read().Rewired {
		t.Error("x leaves a fault in")
	}
	press(e, "F", "right", "enter", "buzz 2", "enter", "enter", "smoke", "enter")
	if v := e.View(); !strings.Contains(v, "nothing that can be seen") || e.ask == nil {
		t.Errorf("smoke was taken:\n%s", v)
	}
	press(e, "esc", "up", "backspace")
	if len(f.symptoms) != 5 {
		t.Errorf("%d symptoms are left of six", len(f.symptoms))
	}
}

// Slowed, a row by hand is played as the rotor takes it: it passes its rest, rings
// about it, and ends there, ten times slower than it really is.
func TestRowIsPlayedAsTheRotorTakesIt(t *testing.T) {
	e, c := explorer(t, "hybrid-4", Settings{})
	sized(e, 80, 24)
	press(e, "m", "m", "z", "z", "z", "z", "z") // ×1/10
	press(e, "right")
	if !e.wait || e.turn.played == nil {
		t.Fatalf("nothing is played: %+v", e.slowed)
	}
	start := c.now
	passes, last := 0, e.turn.left(c.now)
	var at []time.Time
	for range 1000 {
		c.pass(time.Millisecond)
		left := e.turn.left(c.now)
		if last*left < 0 {
			passes++
			at = append(at, c.now)
		}
		last = left
	}
	if passes < 4 || last != 0 {
		t.Fatalf("it passes its rest %d times, and ends %.3f° from it", passes, last)
	}
	// Half a swing takes half a ring: the response's own figure, ten times longer.
	half := at[3].Sub(at[1]).Seconds() / 2
	if want := 10 / e.slowed.response.RingHz / 2; half < 0.8*want || half > 1.25*want {
		t.Errorf("half a swing takes %.4f s as shown, %.4f expected", half, want)
	}
	if v := e.View(); !strings.Contains(v, "×1/10, rings") {
		t.Errorf("it is not told:\n%s", v)
	}
	frames(e, c, time.Second)
	if e.wait || e.turn != (turning{}) {
		t.Errorf("it is still waited for, %v after the start", c.now.Sub(start))
	}
	press(e, "z")
	press(e, "right")
	if e.turn.played != nil {
		t.Error("a plain turn is played")
	}
}
