package view

import (
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"

	"coilwalk/model/bench"
	"coilwalk/model/motor"
	"coilwalk/view/report"
)

// What drives the motor is set once: on Rates it counts for Power, and the other way
// round, also where it was set and taken back.
func TestRatesAndPowerShareWhatDrives(t *testing.T) {
	e, _ := explorer(t, "hybrid-6", Settings{})
	sized(e, 120, 36)
	shown := func(when string, wants ...string) {
		t.Helper()
		v := ansi.Strip(e.View())
		for _, want := range wants {
			if !strings.Contains(v, want) {
				t.Errorf("%s: %q is not shown:\n%s", when, want, v)
			}
		}
	}
	press(e, "R")
	shown("at first", "darlington, as usual", "12 V, as rated", "Power takes 13.3 V", "Name a supply, and both take it")
	press(e, "P")
	shown("at first", "13.3 V, which suits", "Rates runs on the rated 12 V")
	press(e, "R", "P") // judged once more for nothing else
	judged := screenOf[*powerScreen](e).answer
	press(e, "R", "P")
	if screenOf[*powerScreen](e).answer != judged {
		t.Error("it is judged anew though nothing was set")
	}

	press(e, "enter", "chopper", "enter")
	shown("the stage on Power", "Taken as bipolar, halves in series: the stage wants it. Walk stays unipolar.")
	press(e, "R")
	shown("the stage on Power", "chopper module, 28 V which suits it", "Taken as bipolar, halves in series: the stage wants it. Walk stays unipolar.")
	press(e, "down", "enter", "24V", "enter")
	shown("the supply on Rates", "chopper module, 24 V set by you")
	press(e, "down", "enter", "half", "enter", "P")
	a := screenOf[*powerScreen](e).answer
	if a.Stage.Name != "chopper" || a.Supply.Volts != 24 || a.Connection.Word != "half" {
		t.Errorf("Power is asked of %s, %v V, %s", a.Stage.Name, a.Supply.Volts, a.Connection.Word)
	}
	shown("the supply on Rates", "count on Rates too")

	press(e, "enter", "backspace", "esc") // tried out, and left
	press(e, "R")
	if p := screenOf[*ratesScreen](e).sheet.Plant; p.Stage.Name != "chopper" || p.Supply != 24 {
		t.Errorf("what was only tried out on Power counts on Rates: %s, %v V", p.Stage.Name, p.Supply)
	}
	press(e, "P", "backspace", "R", "up", "backspace", "up", "up", "backspace", "down", "down", "backspace")
	shown("all taken back", "darlington, as usual", "12 V, as rated")

	press(e, "up", "up", "enter", "chopper", "enter")
	other, _ := motor.BuiltIn("vent-flap")
	e.putOn(other)
	press(e, "R")
	shown("another motor", "darlington, as usual")
}

// A setting of Rates that does not fit a line of Power says which, on Power.
func TestWhatDoesNotFitIsSaidOnPower(t *testing.T) {
	e, _ := explorer(t, "hybrid-4", Settings{})
	sized(e, 80, 24)
	press(e, "P", "down", "down", "down", "down", "down", "down", "enter", "200mA", "enter")
	press(e, "R", "enter", "bridge", "enter", "P")
	if v := ansi.Strip(e.View()); !strings.Contains(v, "a stage that does") || strings.Contains(v, "verdict") {
		t.Errorf("a bridge is set to nothing:\n%s", v)
	}
	press(e, "up", "up", "up", "up", "up", "enter", "9V", "enter")
	if text := screenOf[*powerScreen](e).fields[1].Text; text != "9V" {
		t.Errorf("another line can not be filled in meanwhile: %q", text)
	}
	press(e, "down", "down", "down", "down", "down", "backspace")
	if v := ansi.Strip(e.View()); !strings.Contains(v, "verdict") || screenOf[*powerScreen](e).answer.Stage.Name != "bridge" {
		t.Errorf("the line is empty:\n%s", v)
	}
}

// A stage that the leads can not be driven by is refused alike, with what to do.
func TestAStageThatFitsNoLeadsIsRefusedAlike(t *testing.T) {
	e, _ := explorer(t, "vent-flap", Settings{})
	sized(e, 120, 36)
	press(e, "P", "enter", "chopper", "enter")
	press(e, "R")
	for screen, words := range map[string]string{"Power": report.PowerDecides(screenOf[*powerScreen](e).answer), "Rates": screenOf[*ratesScreen](e).err.Error()} {
		if !strings.Contains(words, "a bridge can not drive 5 leads as they are") || !strings.Contains(words, "a stage that sinks is wanted, with the common at the supply") {
			t.Errorf("on %s: %s", screen, words)
		}
	}
}

// Left and right go through the words of a line, and by those that do not fit.
func TestArrowsGoThroughTheWords(t *testing.T) {
	e, _ := explorer(t, "hybrid-8", Settings{})
	sized(e, 120, 36)
	texts := func() (rates, power string) {
		r, p := screenOf[*ratesScreen](e), screenOf[*powerScreen](e)
		return r.fields[r.at].Text, p.fields[p.at].Text
	}
	press(e, "R", "right", "right")
	if r, _ := texts(); r != "mosfet" {
		t.Errorf("stage %q after two", r)
	}
	press(e, "left", "left", "left")
	if r, _ := texts(); r != "ideal" {
		t.Errorf("stage %q before the first", r)
	}
	press(e, "right", "down", "down", "left")
	if r, _ := texts(); r != "parallel" {
		t.Errorf("connected %q, before none", r)
	}
	press(e, "right", "down", "right")
	if r, _ := texts(); r != "wave" {
		t.Errorf("step mode %q", r)
	}
	press(e, "down", "right")
	if r, _ := texts(); r != "" || !strings.Contains(e.View(), "and type it") {
		t.Errorf("a load %q", r)
	}
	press(e, "P", "enter", "chopper", "enter", "down", "down", "down", "down", "down", "down", "enter", "1A", "enter", "up", "up", "up", "up", "up", "up", "right", "right")
	if _, p := texts(); p != "chopper" || !strings.Contains(ansi.Strip(e.View()), "does not set its current") { // past current, and by all that are set to nothing
		t.Errorf("stage %q:\n%s", p, e.View())
	}
}

// That the case burns is told once, in the verdict or in the foot.
func TestAHotCaseIsToldOnce(t *testing.T) {
	for name, keys := range map[string][]string{"vent-flap": {"P"}, "hybrid-4": {"P", "enter", "small-bridge", "enter"}} {
		for _, size := range [][2]int{{80, 24}, {120, 36}, {200, 60}} {
			e, _ := explorer(t, name, Settings{})
			sized(e, size[0], size[1])
			press(e, keys[:len(keys)-1]...)
			pressAndWait(e, keys[len(keys)-1])
			v := strings.Join(strings.Fields(ansi.Strip(e.View())), " ")
			if n := strings.Count(v, "burns skin") + strings.Count(v, "burn skin"); n != 1 {
				t.Errorf("%s at %v: told %d times:\n%s", name, size, n, e.View())
			}
		}
	}
}

// With nothing named Rates runs the motor as Walk does.
func TestRatesRunAsWalkDoes(t *testing.T) {
	for _, name := range motor.Names() {
		m, _ := motor.BuiltIn(name)
		walk, err := bench.New(m).Plant()
		if err != nil {
			t.Fatal(err)
		}
		e, _ := explorer(t, name, Settings{})
		sized(e, 80, 24)
		press(e, "R")
		if p := screenOf[*ratesScreen](e).sheet.Plant; p.Supply != walk.Supply || p.Stage.Name != walk.Stage.Name || p.Current != walk.Current {
			t.Errorf("%s: %s on %v V, and %s on %v V", name, p.Stage.Name, p.Supply, walk.Stage.Name, walk.Supply)
		}
	}
}
