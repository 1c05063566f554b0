package view

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"

	"coilwalk/model/bench"
	"coilwalk/model/live"
	"coilwalk/model/motor"
	"coilwalk/model/wiring"
)

// sixReadings are those of a motor with two taps, by the published lead table of its
// kind: BK YE GN and RD WH BU.
const sixReadings = "BK,YE,30.2\nYE,GN,30.5\nBK,GN,60.4\nRD,WH,30.1\nWH,BU,30.4\nRD,BU,60.2\nBK,RD,open\nYE,WH,OL\n"

// withReadings opens the explorer on the vent flap, with readings of another motor, in
// a folder of its own.
func withReadings(t *testing.T, text string, s Settings, is Opened) (*Explorer, *clock) {
	t.Helper()
	var err error
	if is.Readings, err = wiring.ReadReadings("r", []byte(text)); err != nil {
		t.Fatal(err)
	}
	m, _ := motor.BuiltIn("vent-flap")
	c := newClock()
	s.Now = c.Now
	e := New(bench.New(m), s, is)
	sized(e, 80, 24)
	return e, c
}

// said gives what stands on the screen, its lines joined.
func shownWords(e *Explorer) string {
	return strings.Join(strings.Fields(strings.ReplaceAll(ansi.Strip(e.View()), "·", "")), " ")
}

func shows(t *testing.T, e *Explorer, want ...string) {
	t.Helper()
	for _, w := range want {
		if !strings.Contains(shownWords(e), w) {
			t.Errorf("the screen does not show %q:\n%s", w, ansi.Strip(e.View()))
		}
	}
}

// The screens of making a motor of what was found, each looked at as a picture.
func TestGoldenMotorOfReadings(t *testing.T) {
	home, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	states := map[string][]string{"motor-found": nil, "motor-asked": {"m"}, "motor-named": {"m", "48", "enter"}, "motor-made": {"m", "48", "enter", "enter"},
		"motor-answered": {"a", "1", "2", "1", "1", "m", "48", "enter", "enter"}}
	for name, keys := range states {
		for _, size := range [][2]int{{80, 24}, {120, 36}} {
			t.Chdir(t.TempDir())
			e, _ := withReadings(t, sixReadings, Settings{}, Opened{})
			sized(e, size[0], size[1])
			press(e, keys...)
			text := e.View()
			t.Chdir(home)
			golden(t, name+map[int]string{80: "-80x24", 120: "-120x36"}[size[0]], text)
		}
	}
}

// What was found becomes the motor of every screen, as opening its file would: by
// readings alone in the order of the names, and where the shaft has told it, in its
// order.
func TestMotorOfReadings(t *testing.T) {
	for _, c := range []struct {
		asked []string
		ends  [4]motor.Lead
		says  string
	}{
		{nil, [4]motor.Lead{"BK", "BU", "GN", "RD"}, "The shaft has yet to tell which lead goes where: a asks it."},
		{[]string{"a", "1", "2", "1"}, [4]motor.Lead{"BK", "BU", "GN", "RD"}, "on the bench."},
		{[]string{"a", "2", "1", "2"}, [4]motor.Lead{"BK", "RD", "GN", "BU"}, "on the bench."},
	} {
		t.Chdir(t.TempDir())
		e, _ := withReadings(t, sixReadings, Settings{}, Opened{})
		press(e, "W", "m", "m", "L") // wave drive
		shows(t, e, "Walk and Take Along still show", "m puts")
		press(e, c.asked...)
		if n := len(c.asked); n > 0 && e.bench.Motor().Name == "vent-flap" && !strings.Contains(shownWords(e), "Found: A+ B+ A- B- are") {
			press(e, c.asked[n-1]) // one answer more
		}
		press(e, "m", "4", "x", "8", "enter")
		shows(t, e, "32 full steps to a turn; write the motor to which file?", "mine.toml")
		press(e, "enter")
		shows(t, e, "written: mine.toml", c.says, "mine 6 leads 32 steps a turn")
		if strings.Contains(shownWords(e), "another motor") {
			t.Errorf("it is on the bench, and still:\n%s", ansi.Strip(e.View()))
		}
		m, err := motor.Open("mine.toml", nil)
		if err != nil {
			t.Fatal(err)
		}
		on := e.bench.Motor()
		if m.Ends != c.ends || m.Taps[0] == "" || m.PolePairs != 8 || m.Counted.Rings != 4 || m.Figures.Resistance.Base() != 30 || m.Train.Geared() || !bytes.Equal(m.Text(), on.Text()) {
			t.Errorf("the file has\n%s\nand the bench\n%s", m.Text(), on.Text())
		}
		if mode, ok := e.bench.Read().Order.Mode(); !ok || mode.Name != "wave" {
			t.Errorf("the step mode is %v", mode)
		}
		press(e, "W")
		shows(t, e, "A+ ● BK", "taps YE and WH")
		press(e, "A")
		shows(t, e, "mine.c", "the motor mine")
		press(e, "S")
		if strings.Contains(shownWords(e), "42.4") {
			t.Errorf("the train of the vent flap is there still:\n%s", ansi.Strip(e.View()))
		}
		press(e, "R")
		press(e, "P")
		press(e, "F")
		press(e, "U")
		press(e, "L")
		if len(c.asked) > 0 {
			press(e, "esc")
		}
		shows(t, e, "BK", "60.4") // the readings stay
	}
}

// No file is lost for it, and a name without an ending gets that of a motor file. An
// answer that can not be keeps the question open.
func TestMotorOfReadingsLosesNothing(t *testing.T) {
	t.Chdir(t.TempDir())
	e, _ := withReadings(t, sixReadings, Settings{}, Opened{})
	if err := os.WriteFile("mine.toml", []byte("dear"), 0o600); err != nil {
		t.Fatal(err)
	}
	press(e, "m", "enter")
	shows(t, e, "this is needed: most hybrids have 200 steps, can motors 24 to 48")
	press(e, "47", "enter")
	shows(t, e, "a whole number that 4 divides is wanted")
	press(e, "backspace", "8", "enter")
	shows(t, e, "mine-2.toml")
	press(e, "mine.toml", "enter")
	shows(t, e, "this file is there already")
	if e.bench.Motor().Name != "vent-flap" {
		t.Error("a file that is there puts its motor on the bench")
	}
	press(e, "esc", "m", "48", "enter", "backspace")
	for range 20 {
		press(e, "backspace")
	}
	press(e, "enter")
	shows(t, e, "the name of a file is wanted")
	press(e, "two words", "enter")
	if text, err := os.ReadFile("two words.toml"); err != nil || !strings.Contains(string(text), `name = "mine"`) {
		t.Errorf("%v:\n%s", err, text)
	}
	if text, _ := os.ReadFile("mine.toml"); string(text) != "dear" {
		t.Errorf("the file that was there holds %q", text)
	}
	// A long name is told whole.
	folder := strings.Repeat("f", 60)
	long := filepath.Join(folder, strings.Repeat("n", 50)) + ".toml"
	if err := os.Mkdir(folder, 0o700); err != nil {
		t.Fatal(err)
	}
	press(e, "m", "48", "enter", long, "enter")
	if all := strings.ReplaceAll(shownWords(e), " ", ""); !strings.Contains(all, long) || !strings.Contains(all, "addthemthere") {
		t.Errorf("it is cut off:\n%s", ansi.Strip(e.View()))
	}
}

// Where no motor is found yet, or the bench can not take another, the key says why.
func TestMotorOfReadingsIsRefused(t *testing.T) {
	t.Chdir(t.TempDir())
	e, _ := explorer(t, "vent-flap", Settings{})
	sized(e, 80, 24)
	press(e, "L", "m")
	shows(t, e, "no readings yet; a motor is made of those of its leads")
	press(e, "a", "m")
	shows(t, e, "no readings yet; a motor is made of those of its leads")
	e, _ = withReadings(t, "BK,YE,30\nYE,GN,30\n", Settings{}, Opened{})
	press(e, "m")
	shows(t, e, "the readings do not settle yet what the leads are")
	held := live.Hold(live.NewNull(), nil, nil)
	defer held.Close()
	e, _ = withReadings(t, sixReadings, Settings{}, Opened{Live: &Live{Motor: held}})
	press(e, "L", "m")
	shows(t, e, "a real motor is bound, and the bench keeps what it was bound with")
	if e.ask != nil || strings.Contains(shownWords(e), "another motor") {
		t.Errorf("a real motor is bound:\n%s", ansi.Strip(e.View()))
	}
}

// A table that is open was read for the motor on the bench: the new one is written,
// and the bench stays.
func TestMotorOfReadingsBesideATable(t *testing.T) {
	t.Chdir(t.TempDir())
	e, _ := onTable(t, Settings{})
	sized(e, 80, 24)
	readings, err := wiring.ReadReadings("r", []byte(sixReadings))
	if err != nil {
		t.Fatal(err)
	}
	screenOf[*leadsScreen](e).open(readings)
	press(e, "L", "m", "48", "enter", "enter")
	shows(t, e, "written: mine.toml. The bench keeps its motor, vent flap, for the table that is open; leave, and coilwalk --motor mine.toml has the new one.")
	if _, err := motor.Open("mine.toml", nil); err != nil || e.bench.Motor().Name != "vent-flap" || e.screenAt("table") < 0 {
		t.Errorf("%v, on the bench: %s", err, e.bench.Motor().Name)
	}
}

// Who typed 60 is told on the screen where 59.7 comes from.
func TestOhmsOfTheMeterAreTold(t *testing.T) {
	e, _ := withReadings(t, "BK,RD,open\nBK,BU,60\nRD,GN,120\nBK,WH,open\nBK,YE,120\n", Settings{}, Opened{})
	shows(t, e, "without the meter's leads", "some 0.3 ohm", "WH has shown no")
	e, _ = withReadings(t, "BK,RD,open\n", Settings{}, Opened{})
	if text := shownWords(e); strings.Contains(text, "meter's") || strings.Contains(text, "a coil:") {
		t.Errorf("nothing was read in ohms, and still:\n%s", text)
	}
}

// A train that a person typed on Shaft is that of the motor that the readings are of:
// the shaft is asked so that gears may hide a tick, and the motor file has it. The train
// of the built-in motor that is on the bench when it opens is not.
func TestATypedTrainGoesWithTheReadings(t *testing.T) {
	for typed, geared := range map[string]bool{"": false, "10:40,12:36": true} {
		t.Chdir(t.TempDir())
		e, _ := withReadings(t, sixReadings, Settings{}, Opened{})
		if typed != "" {
			press(e, "S", "enter")
			for range 40 {
				press(e, "backspace")
			}
			press(e, typed, "enter", "L")
		}
		press(e, "a")
		if got := screenOf[*leadsScreen](e).asks.sitting.Topology().Geared; got != geared {
			t.Errorf("train %q: asked as geared: %t", typed, got)
		}
		press(e, "m", "48", "enter", "enter")
		text, err := os.ReadFile("mine.toml")
		if err != nil {
			t.Fatal(err)
		}
		if m, err := motor.Parse("mine.toml", text); err != nil || m.Train.Geared() != geared || geared && m.Train.String() != typed {
			t.Errorf("train %q: the file has %q, %v", typed, m.Train.String(), err)
		}
	}
}
