package view

import (
	"strings"
	"sync"
	"testing"
	"time"

	"coilwalk/model/bench"
	"coilwalk/model/live"
	"coilwalk/model/motor"
	"coilwalk/view/picture"
)

// slowLink acknowledges rows only when it is let.
type slowLink struct {
	*live.Null
	mu     sync.Mutex
	rows   []live.Row
	events chan live.Event
	number uint64
}

func newSlowLink() *slowLink {
	return &slowLink{Null: live.NewNull(), events: make(chan live.Event, 64)}
}

func (s *slowLink) Set(value, _ live.Row) (uint64, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.number++
	s.rows = append(s.rows, value)
	return s.number, nil
}

func (s *slowLink) Ping() (uint64, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.number++
	s.events <- live.Event{Kind: live.Heard, Number: s.number - uint64(len(s.rows))}
	return s.number, nil
}

func (s *slowLink) Events() <-chan live.Event { return s.events }
func (s *slowLink) Close() error              { return nil }

// sent waits for so many rows.
func (s *slowLink) sent(t *testing.T, n int) []live.Row {
	t.Helper()
	for range 500 {
		s.mu.Lock()
		rows := append([]live.Row(nil), s.rows...)
		s.mu.Unlock()
		if len(rows) >= n {
			return rows
		}
		time.Sleep(2 * time.Millisecond)
	}
	t.Fatalf("%d rows were never sent", n)
	return nil
}

// lets acknowledges all rows that were sent.
func (s *slowLink) lets() {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.events <- live.Event{Kind: live.Heard, Number: s.number, Row: s.rows[len(s.rows)-1]}
	s.rows = nil
}

func liveExplorer(t *testing.T, link live.Link, s Settings) (*Explorer, *clock) {
	t.Helper()
	m, _ := motor.BuiltIn("vent-flap")
	held := live.Hold(link, nil, nil)
	t.Cleanup(func() { held.Close() })
	c := newClock()
	s.Now = c.Now
	e := New(bench.New(m), s, Opened{Live: &Live{Motor: held}})
	return e, c
}

// arms goes through the question.
func arms(t *testing.T, e *Explorer, c *clock) {
	t.Helper()
	press(e, "a", "o", "n")
	c.pass(time.Second)
	pressAndWait(e, "enter")
	if !e.live.State.Armed {
		t.Fatal("it is not armed")
	}
}

// eventually takes up what the motor says until something holds.
func eventually(t *testing.T, e *Explorer, what string, is func() bool) {
	t.Helper()
	for range 1000 {
		e.Update(Stirred{})
		if is() {
			return
		}
		time.Sleep(2 * time.Millisecond)
	}
	t.Fatalf("%s never came:\n%s", what, e.View())
}

// The picture shows what the board acknowledged, never what was hoped.
func TestPictureWaitsForTheBoard(t *testing.T) {
	link := newSlowLink()
	e, c := liveExplorer(t, link, Settings{})
	sized(e, 80, 24)
	arms(t, e, c)
	press(e, "right")
	link.sent(t, 1)
	for range 20 {
		e.Update(Stirred{})
		time.Sleep(time.Millisecond)
	}
	if r := e.bench.Read(); r.Step != 0 || !e.bench.Released() {
		t.Fatalf("before the board said so the bench is at step %d", r.Step)
	}
	press(e, "right", "right", "right") // one of them is kept, no more
	link.lets()
	eventually(t, e, "the first row", func() bool { return !e.bench.Released() })
	if r := e.bench.Read(); r.Step != 0 || r.TurnedOK {
		t.Errorf("the first row on is that of step %d, and how far it turned is told: %t", r.Step, r.TurnedOK)
	}
	if rows := link.sent(t, 1); len(rows) != 1 || rows[0] != 0b0011 {
		t.Errorf("after it %v was sent, want the one key that was kept: row 2 of half step, 1100", rows)
	}
	link.lets()
	eventually(t, e, "step 1", func() bool { return e.bench.Read().Step == 1 })
	press(e, "right")
	link.sent(t, 1)
	link.lets()
	eventually(t, e, "step 2", func() bool { return e.bench.Read().Step == 2 })
	press(e, "right", "space")
	link.sent(t, 1)
	eventually(t, e, "off", func() bool { return e.bench.Released() })
	link.lets() // too late: what was off stays so
	for range 20 {
		e.Update(Stirred{})
		time.Sleep(time.Millisecond)
	}
	if r := e.bench.Read(); r.Step != 2 || !e.bench.Released() || e.live.State.On {
		t.Errorf("after space a late answer moved the bench to step %d", r.Step)
	}
}

// A run that was ended is not over before its last row was acknowledged: the row
// after it follows on that, and is not one that has gone by.
func TestRowAfterARun(t *testing.T) {
	link := newSlowLink()
	e, c := liveExplorer(t, link, Settings{})
	sized(e, 80, 24)
	arms(t, e, c)
	press(e, "enter")
	link.sent(t, 3)
	e.Update(Stirred{})
	press(e, "enter", "right")
	rows := link.sent(t, 3)
	time.Sleep(50 * time.Millisecond)
	if again := link.sent(t, 3); len(again) != len(rows) || e.bench.Read().Step != 0 {
		t.Fatalf("%d rows were sent and %d stand, though none was acknowledged; the bench is at step %d", len(rows), len(again), e.bench.Read().Step)
	}
	link.lets()
	eventually(t, e, "the run's last row", func() bool { return e.bench.Read().Step == int64(len(rows)-1) })
	after := link.sent(t, 1)
	if want, _ := live.RowOf(e.bench.Read().Order.Row(int64(len(rows)))); len(after) != 1 || after[0] != want {
		t.Errorf("after %d rows %v was sent, want %s", len(rows), after, want)
	}
	link.lets()
	eventually(t, e, "the row after it", func() bool { return e.bench.Read().Step == int64(len(rows)) })
}

// Keys that would need what a real motor can not do are answered, and do nothing.
func TestWhatARealMotorRefuses(t *testing.T) {
	e, c := liveExplorer(t, live.NewNull(), Settings{})
	sized(e, 80, 24)
	for _, k := range [][2]string{{"right", "a arms"}, {"enter", "a arms"}, {"backspace", "can not be undone"}} {
		press(e, k[0])
		if !strings.Contains(e.View(), k[1]) {
			t.Errorf("%s is not answered with %q:\n%s", k[0], k[1], e.View())
		}
	}
	arms(t, e, c)
	press(e, "right")
	eventually(t, e, "the first row", func() bool { return !e.bench.Released() })
	for _, k := range [][2]string{{"x", "space first"}, {"home", "space first"}, {"d", "space first"}} {
		press(e, k[0])
		if !strings.Contains(e.View(), k[1]) {
			t.Errorf("%s is not answered with %q:\n%s", k[0], k[1], e.View())
		}
	}
	press(e, "p", "9", "0", "0", "enter")
	if !strings.Contains(e.View(), "up to 200 a second") || e.bench.Rate() != live.MostRate {
		t.Errorf("900 rows a second are taken as %g:\n%s", e.bench.Rate(), e.View())
	}
}

// Each was looked at.
func TestGoldenLive(t *testing.T) {
	for _, size := range [][2]int{{80, 24}, {120, 36}} {
		name := map[int]string{80: "80x24", 120: "120x36"}[size[0]]
		e, c := liveExplorer(t, live.NewNull(), Settings{})
		sized(e, size[0], size[1])
		golden(t, "live-first-"+name, e.View())
		press(e, "a")
		golden(t, "live-cautions-"+name, e.View())
		press(e, "esc")
		arms(t, e, c)
		press(e, "right")
		eventually(t, e, "the first row", func() bool { return !e.bench.Released() })
		golden(t, "live-row1-"+name, e.View())
		press(e, "right")
		eventually(t, e, "step 1", func() bool { return e.bench.Read().Step == 1 })
		c.pass(time.Second)
		golden(t, "live-on-"+name, e.View())
		press(e, "?")
		golden(t, "live-help-"+name, e.View())
	}
	e, _ := liveExplorer(t, unguarded{live.NewNull()}, Settings{ASCII: true, Depth: picture.NoColour})
	sized(e, 80, 24)
	press(e, "a")
	golden(t, "live-unguarded-80x24", e.View())
}

// unguarded is a firmware that does not switch off by itself.
type unguarded struct{ *live.Null }

func (u unguarded) About() live.About {
	a := u.Null.About()
	a.Guard, a.Null = live.Guard{}, false
	return a
}
