package view

import (
	"regexp"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
)

// escape is a sequence that gives marks their looks.
var escape = regexp.MustCompile("\x1b\\[[0-9;]*m")

// cellsOf gives the lines of a picture, a rune a cell.
func cellsOf(e *Explorer) (lines [][]rune) {
	for _, line := range strings.Split(escape.ReplaceAllString(e.View(), ""), "\n") {
		lines = append(lines, []rune(line))
	}
	return lines
}

func keyMsg(key string) tea.Msg { return tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(key)} }

// permutedRecording opens a recording whose outputs stand in another order than the motor
// states, and waits until all is read and run.
func permutedRecording(t *testing.T, w, h int) (*Explorer, *recordingScreen) {
	t.Helper()
	e, _ := recorded(t, "flap-faults.vcd", "vent-flap", Settings{Still: true})
	cmd := e.Init()
	sized(e, w, h)
	settle(e, cmd)
	e.View()
	return e, e.screens[e.at].(*recordingScreen)
}

// A digit puts the swap in that cures a recording: the bench sends what was recorded, with
// its leads swapped, and turns; the recording is judged so; a rewind takes it back.
func TestASwapOfARecordingIsPutIn(t *testing.T) {
	for key, swapped := range map[string][2]int{"1": {1, 2}, "2": {0, 3}} {
		e, r := permutedRecording(t, 80, 24)
		if v := escape.ReplaceAllString(e.View(), ""); !strings.Contains(v, "1 swap 2 3") || !strings.Contains(v, "2 swap 1 4") || r.Verdict.Faults[0].Kind != "outputs-permuted" {
			t.Fatalf("no cure is offered:\n%s", v)
		}
		stated := e.bench.Motor().Wiring
		way := r.Cures()[key[0]-'1'].Direction
		_, cmd := e.Update(keyMsg(key))
		settle(e, cmd)
		if v := e.View(); e.bench.Read().Wiring != stated.Swapped(swapped[0], swapped[1]) || !strings.Contains(v, "the rows recorded now turn ") {
			t.Errorf("%s: the leads are %v:\n%s", key, e.bench.Read().Wiring, v)
		}
		before, _ := e.bench.Read().Where.Known()
		for range 8 {
			press(e, "right")
		}
		if after, ok := e.bench.Read().Where.Known(); !ok || after.From(before)*float64(way) < 300 {
			t.Errorf("%s: eight rows turned it by %g°, %v was told", key, after.From(before), way)
		}
		press(e, "C")
		if v := e.View(); r.Verdict.Faults[0].Kind == "outputs-permuted" || strings.Contains(v, "swap 2 3") || !strings.Contains(strings.Join(r.Verdict.Notes, " "), "swapped") {
			t.Errorf("%s: it is not judged so: %v\n%s", key, r.Verdict.Notes, v)
		}
		press(e, "W")
		for range 9 {
			e.bench.Rewind()
		}
		for e.bench.Read().Wiring != stated && e.bench.Rewind() {
		}
		_, cmd = e.Update(keyMsg("C"))
		settle(e, cmd)
		if r.Verdict.Faults[0].Kind != "outputs-permuted" {
			t.Errorf("%s: taken back, it is judged with the leads swapped still: %+v", key, r.Verdict.Faults[0])
		}
	}
}

// What is sent needs no cure, and digits then do nothing.
func TestASoundRecordingHasNoCure(t *testing.T) {
	e, _ := recorded(t, "flap.vcd", "", Settings{})
	cmd := e.Init()
	sized(e, 80, 24)
	settle(e, cmd)
	before := e.bench.Read()
	press(e, "1", "2")
	if now := e.bench.Read(); now.Wiring != before.Wiring || now.Table || way(e.screens[e.at]) != "recording" {
		t.Errorf("digits did something: %+v", now)
	}
}

// All that is said of a fault can be read in the smallest window, line by line.
func TestAllOfAFaultCanBeRead(t *testing.T) {
	e, r := permutedRecording(t, 80, 24)
	press(e, "down")
	seen := map[string]bool{}
	for range 8 {
		for _, line := range cellsOf(e) {
			seen[string(line)] = true
		}
		press(e, "d")
	}
	for _, line := range r.detail(e, 50) {
		found := false
		for s := range seen {
			found = found || strings.Contains(s, line.words)
		}
		if !found {
			t.Errorf("%q can not be read in %v", line.words, len(seen))
		}
	}
	at := r.down
	if at == 0 || !strings.Contains(e.View(), "u reads back") {
		t.Errorf("it was not read on: %d\n%s", at, e.View())
	}
	press(e, "u", "u", "u", "u")
	if e.View(); r.down != 0 {
		t.Errorf("read back it stands at line %d", r.down)
	}
	sized(e, 200, 60)
	if v := e.View(); strings.Contains(v, "reads on") {
		t.Errorf("there is room for all:\n%s", v)
	}
}

// What stands beside the dial leaves the last column free.
func TestTheDialDoesNotTouchTheEdge(t *testing.T) {
	e, _ := permutedRecording(t, 80, 24)
	_, cmd := e.Update(keyMsg("1"))
	settle(e, cmd)
	press(e, "C")
	for range 9 { // each of the places of a magnet's pole
		for _, line := range cellsOf(e)[11:21] {
			if len(line) > 79 && line[79] != ' ' {
				t.Errorf("%q stands at the edge: %s", line[79], string(line))
			}
		}
		press(e, "right")
	}
}
