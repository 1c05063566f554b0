package view

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"coilwalk/model/bench"
	"coilwalk/model/motor"
	"coilwalk/view/picture"
)

// clock is a clock that stands until it is moved.
type clock struct{ now time.Time }

func (c *clock) Now() time.Time       { return c.now }
func (c *clock) pass(d time.Duration) { c.now = c.now.Add(d) }
func newClock() *clock                { return &clock{time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC)} }
func sized(e *Explorer, w, h int)     { e.Update(tea.WindowSizeMsg{Width: w, Height: h}) }

var events = map[string]tea.KeyMsg{
	"right": {Type: tea.KeyRight}, "left": {Type: tea.KeyLeft}, "backspace": {Type: tea.KeyBackspace},
	"enter": {Type: tea.KeyEnter}, "space": {Type: tea.KeySpace, Runes: []rune{' '}}, "esc": {Type: tea.KeyEsc}, "tab": {Type: tea.KeyTab},
	"home": {Type: tea.KeyHome}, "end": {Type: tea.KeyEnd}, "pgdown": {Type: tea.KeyPgDown}, "pgup": {Type: tea.KeyPgUp}, "down": {Type: tea.KeyDown}, "up": {Type: tea.KeyUp},
}

// press sends keys by name; a word in no list is typed letter by letter.
func press(e *Explorer, names ...string) {
	for _, n := range names {
		if msg, ok := events[n]; ok {
			e.Update(msg)
			continue
		}
		e.Update(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(n)})
	}
}

// flapReadings types the readings of the vent flap's motor: the cursor goes by
// itself to the pair that tells most. flapDrift tries firmware that holds 42:1,
// and the plan of 45 stops.
var (
	flapReadings = []string{"L", "242", "enter", "240", "enter", "241", "enter", "120", "enter", "x"}
	flapDrift    = []string{"S", "down", "down", "down", "enter", "42:1", "enter", "down", "enter", "45 stops", "enter", "down", "enter", "10 turns = 3562 deg", "enter"}
)

// takeStepper chooses a stepping source with a ramp, and goes to its end.
var takeStepper = []string{"A", "down", "down", "right", "down", "enter", "PORTB", "enter", "down", "down", "down", "down", "right", "down", "enter", "1100", "enter",
	"down", "enter", "400 20000", "enter", "end"}

// powerUSB puts the motor on a USB port.
var powerUSB = []string{"P", "down", "enter", "usb", "enter"}

// pressAndWait sends a key and lets what it starts beside the screen come to its
// end.
func pressAndWait(e *Explorer, name string) {
	msg, ok := events[name]
	if !ok {
		msg = tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(name)}
	}
	_, cmd := e.Update(msg)
	if cmd == nil {
		return
	}
	switch msg := cmd().(type) {
	case late:
		e.Update(msg)
	case tea.BatchMsg:
		for _, beside := range msg[:max(len(msg)-1, 0)] { // the last is the next picture
			e.Update(beside())
		}
	}
}

func explorer(t testing.TB, name string, s Settings) (*Explorer, *clock) {
	t.Helper()
	m, ok := motor.BuiltIn(name)
	if !ok {
		t.Fatalf("no motor %s", name)
	}
	c := newClock()
	s.Now = c.Now
	return New(bench.New(m), s, Opened{}), c
}

// Each of these was looked at as a picture, dark and light.
func TestGoldenScreens(t *testing.T) {
	for i, g := range []struct {
		name, motor string
		settings    Settings
		keys        []string
		sizes       [][2]int
	}{
		{"first", "vent-flap", Settings{}, nil, [][2]int{{80, 24}}},
		{"half", "vent-flap", Settings{}, []string{"right", "right", "right"}, [][2]int{{80, 24}, {120, 36}, {200, 60}}},
		{"half-colour", "vent-flap", Settings{Depth: picture.Colours256}, []string{"right", "right", "right"}, [][2]int{{80, 24}}},
		{"half-light", "vent-flap", Settings{Depth: picture.Colours256, Theme: picture.Light}, []string{"right", "right", "right"}, [][2]int{{80, 24}}},
		{"half-sixteen", "vent-flap", Settings{Depth: picture.Colours16}, []string{"right"}, [][2]int{{80, 24}}},
		{"ascii", "vent-flap", Settings{ASCII: true}, []string{"right", "right", "right"}, [][2]int{{80, 24}, {120, 36}}},
		{"swapped", "vent-flap", Settings{}, []string{"w", "23", "enter", "right", "right"}, [][2]int{{80, 24}, {120, 36}, {200, 60}}},
		{"micro", "hybrid-4", Settings{}, []string{"m", "right", "right"}, [][2]int{{80, 24}, {120, 36}}},
		{"unsure", "hybrid-4", Settings{}, []string{"m", "m", "w", "23", "enter", "right"}, [][2]int{{80, 24}, {120, 36}}},
		{"eight-leads", "hybrid-8", Settings{}, []string{"d", "right"}, [][2]int{{80, 24}, {200, 60}}},
		{"asking", "vent-flap", Settings{}, []string{"w", "2"}, [][2]int{{80, 24}}},
		{"help", "vent-flap", Settings{}, []string{"?"}, [][2]int{{80, 24}}},
		{"leads-first", "vent-flap", Settings{}, []string{"L"}, [][2]int{{80, 24}}},
		{"leads-found", "vent-flap", Settings{}, flapReadings, [][2]int{{80, 24}, {120, 36}, {200, 60}}},
		{"leads-light", "vent-flap", Settings{Depth: picture.Colours256, Theme: picture.Light}, flapReadings, [][2]int{{80, 24}}},
		{"leads-ascii", "vent-flap", Settings{ASCII: true}, flapReadings, [][2]int{{80, 24}}},
		{"leads-contradiction", "vent-flap", Settings{}, append(slices.Clone(flapReadings), "up", "1", "7", "enter"), [][2]int{{80, 24}}},
		{"asks-first", "vent-flap", Settings{}, []string{"L", "a"}, [][2]int{{80, 24}}},
		{"asks-found", "hybrid-6", Settings{}, []string{"L", "a", "1", "1"}, [][2]int{{80, 24}, {120, 36}}},
		{"asks-eight", "hybrid-8", Settings{}, []string{"L", "a", "1", "3"}, [][2]int{{80, 24}, {120, 36}, {200, 60}}},
		{"asks-against", "hybrid-8", Settings{}, []string{"L", "a", "1", "e", "kick RD WH ccw", "enter", "e", "kick RD WH ccw", "enter"}, [][2]int{{80, 24}}},
		{"faults-first", "vent-flap", Settings{}, []string{"F"}, [][2]int{{80, 24}}},
		{"faults-put-in", "hybrid-4", Settings{}, []string{"F", "down", "enter", "m"}, [][2]int{{80, 24}, {120, 36}, {200, 60}}},
		{"faults-ascii", "hybrid-4", Settings{ASCII: true}, []string{"F", "right", "down", "enter", "buzz 2", "enter"}, [][2]int{{80, 24}}},
		{"faults-walk", "vent-flap", Settings{}, []string{"F", "down", "enter", "W", "right", "right"}, [][2]int{{80, 24}}},
		{"shaft-first", "vent-flap", Settings{}, []string{"S"}, [][2]int{{80, 24}, {120, 36}}},
		{"shaft-drift", "vent-flap", Settings{}, flapDrift, [][2]int{{80, 24}, {120, 36}, {200, 60}}},
		{"shaft-ascii", "vent-flap", Settings{ASCII: true}, flapDrift, [][2]int{{80, 24}}},
		{"shaft-no-train", "hybrid-4", Settings{}, []string{"S", "down", "down", "down", "down", "down", "enter", "200 steps=45 deg", "enter"}, [][2]int{{80, 24}}},
		{"rates-running", "vent-flap", Settings{}, []string{"R"}, [][2]int{{80, 24}, {120, 36}, {200, 60}}},
		{"rates-ascii", "hybrid-4", Settings{ASCII: true}, []string{"R"}, [][2]int{{80, 24}}},
		{"rates-refused", "hybrid-4", Settings{}, []string{"R", "enter", "darlington", "enter"}, [][2]int{{80, 24}}},
		{"rates-turned", "hybrid-6", Settings{}, []string{"P", "enter", "chopper", "enter", "R"}, [][2]int{{80, 24}, {120, 36}}},
		{"power-turned", "hybrid-6", Settings{}, []string{"R", "enter", "chopper", "enter", "P"}, [][2]int{{80, 24}, {120, 36}}},
		{"power-usb", "geared-can", Settings{}, powerUSB, [][2]int{{80, 24}, {120, 36}, {200, 60}}},
		{"power-small-bridge", "hybrid-4", Settings{}, []string{"P", "enter", "small-bridge", "enter", "down", "enter", "12V", "enter"}, [][2]int{{80, 24}, {120, 36}}},
		{"power-turning", "vent-flap", Settings{}, []string{"P", "down", "enter", "12V", "enter", "down", "down", "down", "enter", "300", "enter"}, [][2]int{{80, 24}, {200, 60}}},
		{"power-light", "geared-can", Settings{Depth: picture.Colours256, Theme: picture.Light}, powerUSB, [][2]int{{80, 24}}},
		{"power-ascii", "geared-can", Settings{ASCII: true}, powerUSB, [][2]int{{80, 24}}},
		{"power-misfit", "hybrid-4", Settings{}, []string{"P", "enter", "darlington", "enter"}, [][2]int{{80, 24}}},
		{"take-first", "vent-flap", Settings{}, []string{"A"}, [][2]int{{80, 24}, {120, 36}}},
		{"take-stepper", "vent-flap", Settings{}, takeStepper, [][2]int{{80, 24}, {120, 36}, {200, 60}}},
		{"take-colour", "vent-flap", Settings{Depth: picture.Colours256}, takeStepper, [][2]int{{80, 24}}},
		{"take-light", "vent-flap", Settings{Depth: picture.Colours256, Theme: picture.Light}, []string{"A", "right", "right", "right", "pgdown"}, [][2]int{{80, 24}}},
		{"take-ascii", "vent-flap", Settings{ASCII: true}, []string{"A", "enter", "backspace", "markdown", "enter", "end"}, [][2]int{{80, 24}}},
		{"take-strings", "vent-flap", Settings{}, []string{"A", "enter", "backspace", "json", "enter", "pgdown"}, [][2]int{{80, 24}}},
		{"take-card", "hybrid-8", Settings{}, []string{"A", "left"}, [][2]int{{80, 24}, {120, 36}, {200, 60}}},
		{"take-card-micro", "hybrid-4", Settings{ASCII: true}, []string{"A", "left", "down", "left"}, [][2]int{{120, 36}}},
		{"take-refused", "hybrid-4", Settings{}, []string{"A", "down", "left"}, [][2]int{{80, 24}}},
		{"take-help", "vent-flap", Settings{}, []string{"A", "?"}, [][2]int{{80, 24}}},
		{"trouble-first", "vent-flap", Settings{}, []string{"U"}, [][2]int{{80, 24}}},
		{"trouble-asks", "vent-flap", Settings{}, []string{"U", "enter"}, [][2]int{{120, 36}, {200, 60}}},
		{"trouble-ascii", "vent-flap", Settings{ASCII: true}, []string{"U", "s", "overheats", "enter"}, [][2]int{{80, 24}}},
		{"trouble-faults", "hybrid-4", Settings{}, []string{"U", "down", "1"}, [][2]int{{80, 24}}},
		{"words", "vent-flap", Settings{}, []string{"/", "enter"}, [][2]int{{80, 24}}},
		{"word-load-angle", "vent-flap", Settings{}, []string{"/", "load angle", "enter"}, [][2]int{{80, 24}}},
		{"word-ascii", "vent-flap", Settings{ASCII: true}, []string{"?", "/", "step mode", "enter"}, [][2]int{{80, 24}}},
		{"tour", "vent-flap", Settings{Tour: true}, []string{"right", "left"}, [][2]int{{80, 24}, {120, 36}, {200, 60}}},
		{"tour-ascii", "vent-flap", Settings{Tour: true, ASCII: true}, nil, [][2]int{{80, 24}}},
		{"practice", "vent-flap", Settings{Seed: 1}, []string{"e"}, [][2]int{{80, 24}, {120, 36}}},
		{"practice-answered", "vent-flap", Settings{Seed: 1}, []string{"e", "1", "enter", "4"}, [][2]int{{80, 24}, {200, 60}}},
		{"practice-ascii", "vent-flap", Settings{Seed: 1, ASCII: true}, []string{"e"}, [][2]int{{80, 24}}},
		{"small", "vent-flap", Settings{}, nil, [][2]int{{40, 10}, {20, 3}}},
	} {
		if raced && i%4 != 0 {
			continue
		}
		for _, size := range g.sizes {
			name := fmt.Sprintf("%s-%dx%d", g.name, size[0], size[1])
			t.Run(name, func(t *testing.T) {
				e, c := explorer(t, g.motor, g.settings)
				sized(e, size[0], size[1])
				for _, k := range g.keys {
					if slices.ContainsFunc([]string{"faults", "power", "trouble", "word"}, func(p string) bool { return strings.HasPrefix(g.name, p) }) {
						pressAndWait(e, k)
					} else {
						press(e, k)
					}
				}
				c.pass(time.Second) // the picture has come to rest
				golden(t, name, e.View())
			})
		}
	}
}

// golden holds text against a file. COILWALK_RECORD=1 writes it anew: then look
// at what changed.
func golden(t *testing.T, name, text string) {
	t.Helper()
	path := filepath.Join("..", "testdata", "screens", name+".golden")
	if os.Getenv("COILWALK_RECORD") != "" {
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if text != string(want) {
		t.Errorf("the screen is not as recorded in %s (COILWALK_RECORD=1 records it anew):\n%s", path, text)
	}
}

// A view is as many lines as the terminal has, none wider: one line more and
// the library drops the first.
func TestViewFillsTheTerminal(t *testing.T) {
	for i, name := range motor.Names() {
		for j, size := range [][2]int{{1, 1}, {20, 5}, {79, 24}, {80, 23}, {80, 24}, {81, 25}, {109, 29}, {110, 30}, {120, 36}, {159, 50}, {160, 44}, {200, 60}, {250, 80}} {
			if raced && i%3 != j%3 {
				continue
			}
			e, c := explorer(t, name, Settings{})
			sized(e, size[0], size[1])
			more := []string{}
			if size[0]%40 == 0 { // these are slow
				more = []string{"F", "down", "enter", "right", "enter", "buzz", "enter", "m", "?", "?", "R", "down", "enter", "24V", "enter", "c", "?", "?"}
			}
			for _, k := range append([]string{"right", "m", "right", "w", "13", "enter", "right", "?", "?", "g", "123456789012", "enter",
				"L", "52", "enter", "o", "1.2k", "enter", "down", "?", "?", "n", "esc", "a", "L", "a", "1", "2", "a", "S", "down", "enter", "8deg", "enter", "down", "down", "enter", "2048", "enter", "A", "right", "pgdown", "left", "left", "end", "down", "left", "?", "?", "T", "tab"}, more...) {
				press(e, k)
				c.pass(50 * time.Millisecond)
				lines := strings.Split(e.View(), "\n")
				if len(lines) != size[1] {
					t.Fatalf("%s %v after %s: %d lines", name, size, k, len(lines))
				}
				for _, line := range lines {
					if w := picture.Width(line); w > size[0] {
						t.Fatalf("%s %v after %s: a line is %d wide: %q", name, size, k, w, line)
					}
				}
			}
		}
	}
}
