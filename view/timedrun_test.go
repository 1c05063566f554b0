package view

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"coilwalk/model/bench"
	"coilwalk/model/motor"
)

// A run in time as it stands on the screen; each was looked at as a picture.
func TestGoldenRuns(t *testing.T) {
	for _, g := range []struct {
		name, motor string
		settings    Settings
		keys        []string
		sizes       [][2]int
	}{
		{"run-follows", "vent-flap", Settings{}, []string{"p", "600", "enter", "enter"}, [][2]int{{80, 24}, {120, 36}, {200, 60}}},
		{"run-slowed", "hybrid-6", Settings{ASCII: true}, []string{"p", "60", "enter", "z", "enter"}, [][2]int{{80, 24}}},
	} {
		for _, size := range g.sizes {
			name := fmt.Sprintf("%s-%dx%d", g.name, size[0], size[1])
			t.Run(name, func(t *testing.T) {
				e, c := explorer(t, g.motor, g.settings)
				sized(e, size[0], size[1])
				press(e, g.keys...)
				frames(e, c, time.Second)
				golden(t, name, e.View())
			})
		}
	}
}

// While it runs the picture is where the rotor is, and it trails the field; the
// words say the rate asked, the lag and what was lost. Stopped it eases to its
// rest, and nothing is asked for any more.
func TestARunIsShownInTime(t *testing.T) {
	e, c := explorer(t, "vent-flap", Settings{})
	sized(e, 120, 36)
	press(e, "p", "1000", "enter", "enter")
	count := frames(e, c, time.Second)
	r := e.bench.Read()
	if count < 25 || r.Step < 900 || e.turn != (turning{}) {
		t.Fatalf("%d pictures, step %d, %+v", count, r.Step, e.turn)
	}
	v := e.View()
	for _, want := range []string{"1000 rows/s asked: in step, ", "electrical behind the field, no row lost", "lost  no row"} {
		if !strings.Contains(v, want) {
			t.Errorf("%q is not told:\n%s", want, v)
		}
	}
	was := r.Where.Places[0]
	if got := e.screens[0].(*walk).dial.Rotors; len(got) != 1 || got[0] != was.Deg {
		t.Errorf("the dial shows %v, the rotor is at %v", got, was)
	}
	press(e, "space")
	at := e.bench.Read().Where.Places[0]
	if left := e.turn.left(c.now); math.Abs(left-at.From(was)) > 1e-6 {
		t.Errorf("the picture has %v° to go, the rotor went on by %v°", left, at.From(was))
	}
	frames(e, c, time.Second)
	if e.wait || e.bench.Read().Timed {
		t.Error("it does not come to an end")
	}
}

// A rate that the motor does not follow is told as that, with what to do next; and
// so is one that shakes because of its wiring.
func TestARunThatIsNotFollowed(t *testing.T) {
	for _, c := range []struct {
		keys []string
		want string
	}{
		{[]string{"p", "3000", "enter", "enter"}, "rows lost so far. R tells rates."},
		{[]string{"w", "23", "enter", "enter"}, "12 rows/s asked: it buzzes; "},
		{[]string{"w", "13", "enter", "enter"}, "12 rows/s asked: it turns the other way, by "},
	} {
		e, clock := explorer(t, "vent-flap", Settings{})
		sized(e, 80, 24)
		press(e, c.keys...)
		frames(e, clock, 2*time.Second)
		if v := e.View(); !strings.Contains(v, c.want) {
			t.Errorf("%v: %q is not told:\n%s", c.keys, c.want, v)
		}
	}
}

// What a run has lost is told once it is stopped, and laid on the rate only where the
// wiring is the motor's own.
func TestAStoppedRunSaysWhatIsToBlame(t *testing.T) {
	for want, keys := range map[string][]string{
		"R tells rates": {"p", "3000", "enter", "enter"},
		"wired as it is; F tells what a fault does": {"w", "23", "enter", "enter"},
	} {
		e, clock := explorer(t, "vent-flap", Settings{})
		sized(e, 120, 36)
		press(e, keys...)
		frames(e, clock, 2*time.Second)
		press(e, "space")
		frames(e, clock, time.Second)
		if said := e.said(); !strings.Contains(said, " lost ") || !strings.Contains(said, want) {
			t.Errorf("%v: %q is not told: %q", keys, want, said)
		}
	}
}

// Slowed, a run takes so much longer: a second at a fiftieth is 20 ms of it.
func TestARunIsSlowed(t *testing.T) {
	e, c := explorer(t, "hybrid-6", Settings{})
	sized(e, 80, 24)
	press(e, "p", "500", "enter", "z", "enter") // ×1/50
	frames(e, c, time.Second)
	if got := e.bench.Read().Step; got < 10 || got > 11 {
		t.Errorf("step %d after a fiftieth of a second at 500 rows a second", got)
	}
	if v := e.View(); !strings.Contains(v, "×1/50") {
		t.Errorf("it is not told:\n%s", v)
	}
}

// Without figures a run goes from rest to rest, and says why.
func TestARunWithoutFigures(t *testing.T) {
	m, _ := motor.BuiltIn("vent-flap")
	m.Figures = motor.Figures{}
	c := newClock()
	e := New(bench.New(m), Settings{Now: c.Now}, Opened{})
	sized(e, 120, 36)
	press(e, "enter")
	frames(e, c, time.Second)
	if v := e.View(); !strings.Contains(v, "from rest to rest: vent-flap: the motor gives no holding torque") || e.bench.Read().Step < 11 {
		t.Errorf("step %d:\n%s", e.bench.Read().Step, v)
	}
}

// With --no-animation a picture comes with the rows, not between them.
func TestStillRunsAreSeldomDrawn(t *testing.T) {
	for _, c := range []struct {
		still bool
		keys  []string
		want  time.Duration
	}{
		{true, []string{"p", "2", "enter", "enter"}, time.Second / 8},
		{true, []string{"p", "100", "enter", "z", "enter"}, time.Second / 8}, // ×1/50
		{true, []string{"p", "100", "enter", "enter"}, time.Second / frameRate},
		{false, []string{"p", "2", "enter", "enter"}, time.Second / frameRate},
	} {
		e, clock := explorer(t, "vent-flap", Settings{Still: c.still})
		sized(e, 80, 24)
		press(e, c.keys...)
		frames(e, clock, time.Second)
		if got := e.pictureTime(); got != c.want || e.turn != (turning{}) {
			t.Errorf("still %v, %v: a picture every %v, want %v", c.still, c.keys, got, c.want)
		}
	}
}
