package view

import (
	"testing"
	"time"
)

// pictures lets so many pictures pass, the clock standing on by as much each time.
func pictures(e *Explorer, c *clock, n int, each time.Duration) {
	for range n {
		c.pass(each)
		e.Update(frameMsg(e.frame))
		e.View()
	}
}

// The clock on the wall jumps by days, both ways, while it runs, turns and plays
// slowly: rows are neither made up for nor lost, no picture hangs, and it goes on
// at its rate. (The real clock is the machine's monotonic one, which does not jump.)
func TestClockThatJumps(t *testing.T) {
	const frame = time.Second / frameRate
	for _, how := range []struct {
		settings Settings
		keys     []string
	}{
		{Settings{}, []string{"p", "20", "enter", "enter"}},
		{Settings{}, []string{"z", "p", "200", "enter", "enter"}},
		{Settings{Still: true}, []string{"w", "2 3", "enter", "p", "20", "enter", "enter"}},
	} {
		for _, jump := range []time.Duration{-48 * time.Hour, time.Second, 48 * time.Hour} {
			e, c := explorer(t, "vent-flap", how.settings)
			sized(e, 80, 24)
			press(e, how.keys...)
			if !e.bench.Running() {
				t.Fatalf("%v: it does not run", how.keys)
			}
			rows := func() int64 { return e.bench.Read().Step }
			pictures(e, c, frameRate, frame)
			before := rows()
			pictures(e, c, frameRate, frame)
			usual := rows() - before
			before = rows()
			c.pass(jump)
			pictures(e, c, frameRate, frame)
			if after := rows() - before; usual == 0 || after < usual-2 || after > usual+7 { // a quarter of a second at 20 a second, at most
				t.Errorf("%v, a jump by %v: %d rows in a second, without it %d", how.keys, jump, after, usual)
			}
			press(e, "space")
			c.pass(-jump)
			pictures(e, c, frameRate/2, frame)
			if e.bench.Running() {
				t.Errorf("%v, a jump by %v: it still runs", how.keys, jump)
			}
		}
	}
}

// A row by hand, and the clock jumps back before its picture has come round: the
// picture is at its rest a moment later, not when the clock is where it was.
func TestTurnWhenTheClockJumpsBack(t *testing.T) {
	for _, keys := range [][]string{{"right"}, {"z", "right"}} {
		e, c := explorer(t, "hybrid-4", Settings{})
		sized(e, 120, 36)
		press(e, keys...)
		pictures(e, c, 2, time.Second/frameRate)
		if e.turn == (turning{}) {
			t.Fatalf("%v: nothing turns", keys)
		}
		c.pass(-48 * time.Hour)
		pictures(e, c, 10*frameRate, time.Second/frameRate)
		if e.turn != (turning{}) {
			t.Errorf("%v: ten seconds later it has %v° to go", keys, e.turn.left(c.Now()))
		}
	}
}
