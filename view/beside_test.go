package view

import (
	"fmt"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"

	"coilwalk/model/bench"
	"coilwalk/model/motor"
)

// The rates are run beside the screen: keys go on meanwhile, what was found is
// shown when it comes, and what was dropped is not.
func TestRatesRunBesideTheScreen(t *testing.T) {
	e, _ := explorer(t, "vent-flap", Settings{})
	sized(e, 120, 36)
	pressAndWait(e, "R")
	v := e.View()
	for _, want := range []string{"low-side Darlington array, 12 V", "overshoots", "starts", "follows", "rows/s", "rpm at the shaft"} {
		if !strings.Contains(v, want) {
			t.Errorf("%q is not shown:\n%s", want, v)
		}
	}
	for range 6 {
		press(e, "down")
	}
	press(e, "enter", "1500", "enter")
	if v := e.View(); !strings.Contains(v, "buzzes; ramp from") || e.screens[4].(*ratesScreen).job != nil {
		t.Errorf("the verdict on 1500 rows/s, without another run:\n%s", v)
	}
	press(e, "enter", "backspace", "backspace", "backspace", "backspace", "300")
	pressAndWait(e, "enter")
	if v := e.View(); !strings.Contains(v, "(its play alone is 12.2), and no row is lost") || !strings.Contains(v, "half starts to 5") {
		t.Errorf("turning round at 300 rows/s, and the modes compared:\n%s", v)
	}
	for range 3 {
		press(e, "up")
	}
	press(e, "enter", "nonsense")
	if v := e.View(); !strings.Contains(v, "nonsense") || !strings.Contains(v, "step mode:") {
		t.Errorf("nonsense was taken for a mode:\n%s", v)
	}
	press(e, "esc", "down")
	screen := e.screens[4].(*ratesScreen)
	press(e, "enter", "10mN.m")
	first := screen.job
	if first == nil || !screen.busy() {
		t.Fatal("another load starts no run")
	}
	press(e, "enter", "c")
	if screen.busy() || !strings.Contains(e.View(), "stopped") {
		t.Errorf("c does not stop the run:\n%s", e.View())
	}
	e.Update(ratesMsg{screen: screen, job: &ratesJob{}, whole: true})
	if screen.found != nil {
		t.Error("what was dropped is shown")
	}
	pressAndWait(e, "W")
	press(e, "right")
	if e.bench.Read().Step != 1 {
		t.Error("Walk does not go on")
	}
}

// A fault of ours beside the screen comes up where the terminal is put back.
func TestFaultBesideTheScreenIsNotLost(t *testing.T) {
	e, _ := explorer(t, "vent-flap", Settings{})
	e.later(func() late { panic("beside") })
	_, cmd := e.Update(tea.WindowSizeMsg{Width: 80, Height: 24})
	defer func() {
		if r := recover(); fmt.Sprint(r) != "beside" {
			t.Errorf("it comes up as %v", r)
		}
	}()
	batch, _ := cmd().(tea.BatchMsg)
	if batch == nil { // one alone is no batch
		e.Update(cmd())
		return
	}
	e.Update(batch[0]())
	t.Error("it is lost")
}

// Power follows at every letter, also while what takes longer runs beside the
// screen; what comes late for fields that have changed since is not shown.
func TestPowerIsLive(t *testing.T) {
	e, _ := explorer(t, "geared-can", Settings{})
	sized(e, 120, 36)
	press(e, "P", "down", "enter", "usb")
	p := e.screens[e.at].(*powerScreen)
	first := p.job
	if v := e.View(); first == nil || !p.busy() || !strings.Contains(v, "Marginal: it draws 162 mA") || !strings.Contains(v, "looked for") {
		t.Fatalf("a supply that is typed is not judged at once:\n%s", v)
	}
	press(e, "3")
	if v := e.View(); !strings.Contains(v, "Marginal: it draws 161 mA") {
		t.Errorf("usb3 is not judged at the letter:\n%s", v)
	}
	e.Update(powerMsg{screen: p, job: first, answer: nil})
	if !p.busy() || p.answer == nil {
		t.Error("what came for another supply was taken")
	}
	press(e, "x")
	if v := e.View(); !strings.Contains(v, "did you mean usb3?") || p.answer.Supply.Name != "usb3" {
		t.Errorf("usb3x:\n%s", v)
	}
	press(e, "backspace", "enter", "up", "enter", "bridge", "enter")
	if v := e.View(); !strings.Contains(v, "can not drive 5 leads") {
		t.Errorf("a bridge on five leads:\n%s", v)
	}
	pressAndWait(e, "backspace")
	if v := e.View(); p.busy() || !strings.Contains(v, "rest on rows with one phase on") {
		t.Errorf("the cure is not shown when it comes:\n%s", v)
	}
	for _, bad := range []struct{ down, text, want string }{
		{"down", "12V 0x", "12V 0x"}, {"down", "sideways", "can not be connected"}, {"down", "sine", "step mode"}, {"down", "-5", "no rate"}, {"down", "200%", "30% or 0.3"},
		{"down", "1A", "does not set its current"}, {"down", "5V", "temperature"}, {"down", "5V", "time"}, {"down", "5V", "torque"},
	} {
		press(e, bad.down, "enter", bad.text, "enter")
		if v := e.View(); !strings.Contains(v, bad.want) {
			t.Errorf("%s is taken, or not complained of by %q:\n%s", bad.text, bad.want, v)
		}
		press(e, "esc")
	}
}

// A motor that says too little is told what it lacks.
func TestPowerOfAMotorWithoutFigures(t *testing.T) {
	m, _ := motor.BuiltIn("hybrid-4")
	m.Figures = motor.Figures{}
	c := newClock()
	e := New(bench.New(m), Settings{Now: c.Now}, Opened{})
	sized(e, 80, 24)
	pressAndWait(e, "P")
	if v := e.View(); !strings.Contains(v, "gives no phase") {
		t.Errorf("what is missing is not told:\n%s", v)
	}
}
