package view

import (
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"

	"coilwalk/model/bench"
	"coilwalk/model/motor"
	"coilwalk/view/report"
	"coilwalk/view/sheet"
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

// A stage that is set to nothing is refused while a current is set, on Rates as on
// Power; and one that comes of the drive on Walk is said, with the line to empty.
func TestACurrentThatNothingIsSetToIsSaid(t *testing.T) {
	e, _ := explorer(t, "hybrid-6", Settings{})
	sized(e, 120, 36)
	to := func(name string) { // the line of that name on Power
		p := screenOf[*powerScreen](e)
		p.at = sheet.At(p.fields, name)
	}
	press(e, "P", "enter", "chopper", "enter")
	to("set to")
	press(e, "enter", "200mA 50%", "enter", "R")
	r := screenOf[*ratesScreen](e)
	if r.sheet.Plant.Current != 0.2 || !strings.Contains(ansi.Strip(e.View()), "200 mA") {
		t.Errorf("on Rates it is run at %v A:\n%s", r.sheet.Plant.Current, e.View())
	}
	press(e, "enter", "backspace", "backspace", "backspace", "backspace", "backspace", "backspace", "backspace", "mosfet", "enter")
	if v := ansi.Strip(e.View()); !strings.Contains(v, "does not set its current") || r.sheet.Stage.Name != "chopper" {
		t.Errorf("a MOSFET is set to nothing:\n%s", v)
	}
	press(e, "esc", "P")
	to("stage")
	before := e.driven
	press(e, "backspace")
	if v := ansi.Strip(e.View()); !strings.Contains(v, "does not set its current") || e.driven != before {
		t.Errorf("the usual stage of this drive is set to nothing:\n%s", v)
	}
	to("set to")
	press(e, "backspace", "R")
	if r.sheet.Plant.Current == 0.2 {
		t.Error("the current is set back on Power, and not on Rates")
	}
}

// What power forbids is cautioned of on Rates, and worked out once for it; behind a
// stage that does not work on its supply nothing is run.
func TestRatesSayWhatPowerForbids(t *testing.T) {
	e, _ := explorer(t, "hybrid-8", Settings{})
	sized(e, 80, 24)
	press(e, "R", "enter", "chopper", "enter", "down", "enter")
	press(e, "24V")
	pressAndWait(e, "enter")
	r := screenOf[*ratesScreen](e)
	if v := strings.Join(strings.Fields(ansi.Strip(e.View())), " "); !strings.Contains(v, "power not so: 2.12 A through an output") {
		t.Errorf("nothing is said of power:\n%s", e.View())
	}
	was := r.forbids
	e.View()
	if was == nil || r.forbids != was {
		t.Error("it is judged anew for a picture")
	}
	press(e, "enter", "backspace", "backspace", "backspace", "5V", "enter")
	if v := ansi.Strip(e.View()); r.err == nil || !strings.Contains(r.err.Error(), "needs 8 V to work at all, so the motor follows nothing") || !strings.Contains(v, "needs 8 V to work at all") || r.busy() || strings.Contains(v, "starts") {
		t.Errorf("a stage that does not work is run:\n%s", e.View())
	}
	press(e, "enter", "backspace", "backspace", "24V", "enter")
	r.at = sheet.At(r.fields, "set to")
	press(e, "enter", "800mA")
	pressAndWait(e, "enter")
	if v := ansi.Strip(e.View()); strings.Contains(v, "not so") || r.found == nil || r.found.PullOut < 500 {
		t.Errorf("a current that the stage stands:\n%s", v)
	}
}

// Take Along judges its rows with what drives the motor on Rates, and names it.
func TestTakeAlongIsJudgedAsRatesRun(t *testing.T) {
	e, _ := explorer(t, "hybrid-8", Settings{})
	sized(e, 80, 24)
	rate := func(text string) {
		a := screenOf[*takeScreen](e)
		a.at = sheet.At(a.fields, "rate")
		press(e, "enter", text, "enter")
	}
	press(e, "A")
	rate("1500")
	if v := ansi.Strip(e.View()); !strings.Contains(v, "does not follow these rows behind darlington on 4.2 V: see Rates.") {
		t.Errorf("behind the usual stage:\n%s", v)
	}
	press(e, "R", "enter", "chopper", "enter", "down", "enter", "24V", "enter", "A")
	if v := ansi.Strip(e.View()); strings.Contains(v, "does not follow") || !strings.Contains(v, "This file is for another drive than the stage on Rates; d on Walk changes it.") {
		t.Errorf("behind the chopper of Rates, which gets to 3500, and drives other leads:\n%s", v)
	}
	press(e, "R", "enter", "backspace", "backspace", "backspace", "5V", "enter", "A")
	if v := ansi.Strip(e.View()); !strings.Contains(v, "behind chopper on 5 V: see Rates.") {
		t.Errorf("behind one that does not work:\n%s", v)
	}
	if text := string(screenOf[*takeScreen](e).text); !strings.Contains(text, "Caution: behind the stage chopper on 5 V (bipolar, halves in series), which needs 8 V, hybrid-8 does not follow any rows.") {
		t.Errorf("the file does not say so:\n%s", text)
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
