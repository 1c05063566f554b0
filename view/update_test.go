package view

import (
	"strings"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"coilwalk/model/bench"
	"coilwalk/model/motor"
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

// Every key means one thing on a screen, and help shows every action.
func TestKeysAreUniqueAndShown(t *testing.T) {
	seen := map[string]string{"q": "quit", "?": "help", "t": "theme", "tab": "screen", "ctrl+c": "quit"}
	e, _ := explorer(t, "vent-flap", Settings{})
	sized(e, 120, 50)
	for _, s := range e.screens {
		if other := seen[initial(s)]; other != "" {
			t.Errorf("key %q leads to %s and %s", initial(s), other, s.name())
		}
		seen[initial(s)] = s.name()
	}
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

// Every screen is a key away from every other, and help says so.
func TestScreensAreAKeyAway(t *testing.T) {
	e, _ := explorer(t, "vent-flap", Settings{})
	sized(e, 80, 24)
	for from := range e.screens {
		for to, s := range e.screens {
			e.show(from)
			press(e, initial(s))
			if e.at != to || !strings.Contains(strings.Split(e.View(), "\n")[1], "["+s.name()+"]") {
				t.Errorf("%s from screen %d leads to %d", initial(s), from, e.at)
			}
		}
	}
	press(e, "?")
	if help := e.View(); !strings.Contains(help, "W L F S R") {
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
	if faults := e.bench.Read().Faults; len(faults) != 1 {
		t.Fatalf("put in: %v", faults)
	}
	pressAndWait(e, "m")
	if v := e.View(); !strings.Contains(v, "two leads swapped") || !strings.Contains(v, "to decide:") && !strings.Contains(v, "try next:") {
		t.Errorf("it does not lead back:\n%s", v)
	}
	press(e, "W", "right", "right")
	c.pass(time.Second)
	if v := e.View(); !strings.Contains(v, "BK and RD swapped") {
		t.Errorf("Walk does not show the fault:\n%s", v)
	}
	press(e, "x")
	if e.bench.Read().Faults != nil {
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
	for range 5 {
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
		if r := recover(); r != "beside" {
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
