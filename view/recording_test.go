package view

import (
	"fmt"
	"path/filepath"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"

	"coilwalk/model/bench"
	"coilwalk/model/course"
	"coilwalk/model/driver"
	"coilwalk/model/motor"
	"coilwalk/model/quantity"
	"coilwalk/model/recording"
	"coilwalk/model/rotor"
	"coilwalk/model/table"
	"coilwalk/view/opened"
	"coilwalk/view/picture"
	"coilwalk/view/report"
)

// recorded opens the explorer on a recording under testdata; with a motor's name
// it is run along it.
func recorded(t testing.TB, file, name string, s Settings) (*Explorer, *clock) {
	t.Helper()
	r, err := recording.Open(filepath.Join("..", "testdata", "recordings", file), nil, recording.Options{})
	if err != nil {
		t.Fatal(err)
	}
	loading, err := course.Begin(r, nil, table.Auto)
	if err != nil {
		t.Fatal(err)
	}
	recorded := opened.Recording{File: file, Source: report.Recorded{File: file, Recording: r, Choice: loading.Choice}, Loading: loading, Close: r.Close}
	m, _ := motor.BuiltIn(motor.Default)
	if name != "" {
		m, _ = motor.BuiltIn(name)
		plant, _, err := rotor.PlantOf(m, driver.Usual(m.Drive, false), quantity.Voltage{})
		if err != nil {
			t.Fatal(err)
		}
		recorded.Motor, recorded.Machine = &m, &course.Motor{Name: m.Name, Plant: plant}
		recorded.Source.Motor = &m
		recorded.Question.Wiring = &m.Wiring
	}
	c := newClock()
	s.Now = c.Now
	return New(bench.New(m), s, Opened{Recorded: &recorded}), c
}

// settle lets all that was begun beside the screen come to its end; pictures that
// are asked for meanwhile are none of it.
func settle(e *Explorer, cmd tea.Cmd) {
	for _, l := range lates(cmd) {
		_, next := e.Update(l)
		settle(e, next)
	}
}

// lates runs a command, and those in it, and gives the messages that are late
// ones.
func lates(cmd tea.Cmd) (all []late) {
	if cmd == nil {
		return nil
	}
	switch msg := cmd().(type) {
	case late:
		all = append(all, msg)
	case tea.BatchMsg:
		for _, beside := range msg {
			all = append(all, lates(beside)...)
		}
	}
	return all
}

// Each of these was looked at as a picture, dark and light.
func TestGoldenRecordings(t *testing.T) {
	for _, g := range []struct {
		name, file, motor string
		settings          Settings
		keys              []string
		sizes             [][2]int
	}{
		{"recording-sound", "flap.vcd", "", Settings{}, nil, [][2]int{{80, 24}, {120, 36}}},
		{"recording-faults", "flap-faults.vcd", "vent-flap", Settings{}, []string{"n", "n"}, [][2]int{{80, 24}, {120, 36}, {200, 60}}},
		{"recording-light", "flap-faults.vcd", "vent-flap", Settings{Depth: picture.Colours256, Theme: picture.Light}, []string{"n", "n"}, [][2]int{{80, 24}}},
		{"recording-ascii", "flap-faults.vcd", "vent-flap", Settings{ASCII: true}, []string{"n", "n", "n"}, [][2]int{{80, 24}, {120, 36}}},
		{"recording-marks", "flap.vcd", "vent-flap", Settings{}, []string{"a", "g", "row 20", "enter", "b", "+", "+", "+"}, [][2]int{{80, 24}}},
		{"recording-help", "flap.vcd", "", Settings{}, []string{"?"}, [][2]int{{80, 24}}},
	} {
		for _, size := range g.sizes {
			name := fmt.Sprintf("%s-%dx%d", g.name, size[0], size[1])
			t.Run(name, func(t *testing.T) {
				e, _ := recorded(t, g.file, g.motor, g.settings)
				cmd := e.Init()
				sized(e, size[0], size[1])
				settle(e, cmd)
				e.View() // keys go by what is shown
				press(e, g.keys...)
				golden(t, name, e.View())
			})
		}
	}
}

// From fault to fault and back, and over each row by row, the cursor stands where
// it is said to.
func TestWalkingThroughARecording(t *testing.T) {
	e, _ := recorded(t, "flap-faults.vcd", "vent-flap", Settings{})
	settle(e, e.Init())
	sized(e, 120, 36)
	e.View()
	r := e.screens[e.at].(*recordingScreen)
	shows := func(words ...string) {
		t.Helper()
		v := e.View()
		for _, w := range words {
			if !strings.Contains(v, w) {
				t.Errorf("%q is not shown:\n%s", w, v)
			}
		}
	}
	shows("row 1 ", "3 faults")
	press(e, "n")
	shows("▶ outputs-permuted", "row 2 ", "Exchange IN2 and IN3")
	press(e, "n")
	shows("▶ skipped-row", "row 121 ", "0.319840 s")
	press(e, "left", "left")
	shows("row 119 ")
	press(e, "right", "right", "right")
	shows("row 122 ")
	press(e, "n")
	shows("▶ fast-start", "row 181 ")
	press(e, "n")
	shows("no fault after this")
	press(e, "p")
	shows("▶ skipped-row")
	press(e, "g", "12", "enter")
	shows("row 12 ")
	press(e, "g", "0.9s", "enter")
	if at := r.Course.Seconds(r.Course.Row(r.Row).At); at > 0.9 || r.Course.Seconds(r.Course.Row(r.Row).At+r.Course.Dwell(r.Row)) < 0.9 {
		t.Errorf("0.9 s is not within the row at %v", at)
	}
	press(e, "g", "tomorrow", "enter")
	shows("is no time and no row")
	press(e, "esc")
	for range 60 { // no zoom loses the cursor, or the screen
		press(e, "+")
	}
	e.View()
	if c := r.column(); c < 0 || c >= float64(r.width) {
		t.Errorf("zoomed in, the cursor stands at column %v of %d", c, r.width)
	}
	for range 60 {
		press(e, "-")
	}
	if r.ticks != 0 {
		t.Errorf("zoomed out, a cell is %v ticks", r.ticks)
	}
}

// Before the motor has been run, and where it was not, its rest is not guessed.
func TestRotorNotYetRun(t *testing.T) {
	e, _ := recorded(t, "flap.vcd", "vent-flap", Settings{})
	cmd := e.Init()
	sized(e, 120, 36)
	e.Update(lates(cmd)[0]) // read and judged, and not yet run
	if v := e.View(); !strings.Contains(v, "not yet run") || !strings.Contains(v, "running the motor along it") {
		t.Errorf("what has not been run is shown as if it had:\n%s", v)
	}
	e2, _ := recorded(t, "flap.vcd", "", Settings{})
	settle(e2, e2.Init())
	sized(e2, 120, 36)
	if v := e2.View(); !strings.Contains(v, "rotor not run: commanded rest") {
		t.Errorf("without a motor a rotor is shown as run:\n%s", v)
	}
}

// Ended by hand, the running of the motor stops, and the rest stays as it is.
func TestRidingCanBeEnded(t *testing.T) {
	e, _ := recorded(t, "flap.vcd", "vent-flap", Settings{})
	cmd := e.Init()
	sized(e, 120, 36)
	_, cmd = e.Update(lates(cmd)[0])
	press(e, "c")
	settle(e, cmd)
	r := e.screens[e.at].(*recordingScreen)
	if r.busy() || r.Verdict == nil || r.Verdict.Lost != nil {
		t.Errorf("busy %v, verdict %v", r.busy(), r.Verdict)
	}
	if v := e.View(); !strings.Contains(v, "sound: half step") {
		t.Errorf("the rest is gone:\n%s", v)
	}
}
