package view

import (
	"bytes"
	"encoding/base64"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"

	"coilwalk/model/bench"
	"coilwalk/model/motor"
	"coilwalk/model/table"
	"coilwalk/sequence"
	"coilwalk/view/report"
	"coilwalk/view/sheet"
)

// taking opens Take Along for a motor.
func taking(t testing.TB, name string, w, h int, keys ...string) (*Explorer, *takeScreen) {
	t.Helper()
	e, _ := explorer(t, name, Settings{})
	sized(e, w, h)
	press(e, keys...)
	press(e, "A")
	return e, e.screens[e.at].(*takeScreen)
}

// What is taken along is what is on the bench: mode, drive and wiring as they are
// now, also after a swap.
func TestTakeAlongIsOfTheBench(t *testing.T) {
	_, s := taking(t, "vent-flap", 120, 36)
	if text := string(s.text); !strings.Contains(text, "Output 2: lead WH, coil end B+") || !strings.Contains(text, "Half step") {
		t.Fatalf("the file is not of the bench:\n%s", text)
	}
	e, s := taking(t, "vent-flap", 120, 36, "m", "m", "w", "23", "enter")
	mode, _ := e.bench.Read().Order.Mode()
	text := string(s.text)
	if mode.Name == "half" || !strings.Contains(text, "Output 2: lead GN, coil end A-") && !strings.Contains(text, "Output 2: lead WH, coil end A-") {
		t.Errorf("after a swap in %s:\n%s", mode.Name, text)
	}
	if v := e.View(); !strings.Contains(v, mode.Name+", as on Walk") || !strings.Contains(v, "swapped on Walk") {
		t.Errorf("it is not said what it is of:\n%s", v)
	}
	e, s = taking(t, "hybrid-8", 120, 36, "d")
	if want := e.bench.Read().Drive.String(); !strings.Contains(string(s.text), "("+want+")") {
		t.Errorf("the drive is not that of the bench, %s:\n%s", want, s.text)
	}
}

// The file follows each letter; what can not be read is told, changes nothing,
// and is put back when the line is left.
func TestTakeAlongFollowsTheTyping(t *testing.T) {
	e, s := taking(t, "vent-flap", 80, 24, "A", "down", "down", "down")
	press(e, "enter", "PORTC")
	if !strings.Contains(string(s.text), "PORTC bit 0") {
		t.Errorf("a port that is typed is not in the file:\n%s", s.text)
	}
	press(e, "esc")
	if strings.Contains(string(s.text), "PORTC") {
		t.Error("what was left is in the file")
	}
	before := string(s.text)
	for _, bad := range []struct{ line, text, says string }{
		{"kind", "rsut", "did you mean rust"}, {"kind", "cobol", "is no kind of file; c, cpp"}, {"step mode", "sine", "step mode:"}, {"holds", "both", "tables or stepper"},
		{"port", "8P", "no name of a register"}, {"bits", "0,1,2", "four bits"}, {"bits", "0,1,2,2", "bit 2 stands there twice"}, {"pins", "2,3,4,x", `"x" is no pin`},
		{"active", "middle", "high or low"}, {"at rest", "on", "held or off"}, {"rate", "quick", "is no rate"}, {"rate", "-3", "is no rate"}, {"rate", "60000", "20 us is the least"},
		{"ramp", "300", "as 300 2000"}, {"ramp", "300 0", "no acceleration"}, {"ramp", "300 2000", "above the rate of 100"}, {"ramp", "9000,2000", "less than a quarter"},
		{"clock", "16 parsecs", "clock:"}, {"clock", "1.5Hz", "whole cycles"}, {"clock", "16MHz 0", "prescale of 0"}, {"clock", "16MHz eight", "cycles to a tick"},
		{"rows", "7", "less than a cycle"}, {"rows", "20001", "coilwalk write vcd --rows 20001"}, {"rows", "many", "whole number of rows"},
	} {
		s.at = lineNamed(t, s, bad.line)
		was := s.fields[s.at].Text
		press(e, "enter")
		for range was {
			press(e, "backspace")
		}
		press(e, bad.text, "enter")
		if v := e.View(); e.ask == nil || !strings.Contains(v, bad.says) {
			t.Errorf("%s %q is taken, or %q is not said:\n%s", bad.line, bad.text, bad.says, v)
		}
		press(e, "esc")
		if e.ask != nil || string(s.text) != before {
			t.Fatalf("after %s %q the file is another", bad.line, bad.text)
		}
	}
	s.at = lineNamed(t, s, "ramp")
	press(e, "enter", "9000,7000", "enter", "up", "enter", "300", "enter")
	if v := e.View(); !strings.Contains(v, "empty the line rate first") {
		t.Errorf("a rate beside a ramp of ticks:\n%s", v)
	}
}

func lineNamed(t *testing.T, s *takeScreen, name string) int {
	t.Helper()
	for i, f := range s.fields {
		if f.Name == name {
			return i
		}
	}
	t.Fatalf("no line %s", name)
	return 0
}

// Whatever is chosen, there is a file as the engine makes it, or the reason why
// there is none; never both.
func TestTakeAlongMakesEveryKind(t *testing.T) {
	made := map[bool]int{}
	for _, name := range []string{"vent-flap", "hybrid-4"} {
		e, s := taking(t, name, 80, 24)
		turn := func(line string) {
			s.at = lineNamed(t, s, line)
			press(e, "right")
		}
		for range report.Kinds {
			turn("kind")
			for range sheet.TakeWords("holds") {
				turn("holds")
				for range sheet.TakeWords("step mode") {
					turn("step mode")
					view := strings.Join(strings.Fields(ansi.Strip(e.View())), " ")
					text, err := report.Made(s.sheet.Kind, s.walk, "")
					if missing := s.sheet.Misses(); missing != nil {
						text, err = nil, missing
					}
					made[err == nil]++
					if fmt.Sprint(err) != fmt.Sprint(s.err) || string(text) != string(s.text) || s.walk.Mode.Name != s.sheet.Mode.Name {
						t.Errorf("%s %s: %d bytes and %v, want %d and %v", s.sheet.Kind.Name, s.sheet.Mode.Name, len(s.text), s.err, len(text), err)
					}
					if err != nil && (s.text != nil || !strings.Contains(view, err.Error())) {
						t.Errorf("%s: %v is not shown:\n%s", s.sheet.Kind.Name, err, view)
					}
				}
			}
		}
		if s.sheet.Kind.Name != "c" || s.sheet.Stepper {
			t.Errorf("going round ends at %s", s.sheet.Kind.Name)
		}
	}
	if made[true] < 90 || made[false] < 60 {
		t.Errorf("%d were made, %d refused", made[true], made[false])
	}
}

// Saving asks for a name, replaces nothing, and a card is drawn as its name says.
func TestTakeAlongSaves(t *testing.T) {
	folder := t.TempDir()
	e, s := taking(t, "vent-flap", 120, 36)
	save := func(name string) {
		press(e, "s")
		for range e.ask.line.Value() {
			press(e, "backspace")
		}
		press(e, name, "enter")
	}
	file := filepath.Join(folder, "flap.c")
	save(file)
	got, err := os.ReadFile(file)
	if err != nil || !bytes.Equal(got, s.text) || !strings.HasPrefix(e.notice.words, "Written: "+file) || !strings.Contains(e.notice.words, "read back") {
		t.Errorf("%v; said %q", err, e.notice.words)
	}
	press(e, "right")
	save(file)
	if again, _ := os.ReadFile(file); e.ask == nil || !bytes.Equal(again, got) || !strings.Contains(e.notice.words, "is there already") {
		t.Errorf("a file is replaced, or %q is said", e.notice.words)
	}
	press(e, "esc", "left", "left")
	for _, ending := range []string{".svg", ".html", ".png"} {
		save(filepath.Join(folder, "card"+ending))
		text, err := os.ReadFile(filepath.Join(folder, "card"+ending))
		want, _ := report.NewCard(s.walk).Write("card" + ending)
		if err != nil || !bytes.Equal(text, want) {
			t.Errorf("%s: %v, %d bytes", ending, err, len(text))
		}
	}
	save(filepath.Join(folder, "card.pdf"))
	if !strings.Contains(e.notice.words, ".svg, .html, .png is wanted") {
		t.Errorf("said %q", e.notice.words)
	}
	press(e, "esc", "down", "left", "down", "right", "s") // a card of a stepper
	if e.ask != nil || !strings.Contains(e.notice.words, "there is no file to save") {
		t.Errorf("%s: said %q", s.sheet.Kind.Name, e.notice.words)
	}
	if all, _ := os.ReadDir(folder); len(all) != 4 {
		t.Errorf("there are %v", all)
	}
}

// The clipboard gets the file, in one write that a terminal knows as OSC 52; what
// is too much for one is not sent.
func TestTakeAlongCopies(t *testing.T) {
	var sent bytes.Buffer
	m, _ := motor.BuiltIn("vent-flap")
	e := New(bench.New(m), Settings{Now: newClock().Now, Terminal: &sent}, Opened{})
	sized(e, 80, 24)
	press(e, "A")
	s := e.screens[e.at].(*takeScreen)
	pressAndWait(e, "c")
	for _, msg := range pendingOf(e) {
		e.Update(msg)
	}
	body, ok := strings.CutPrefix(sent.String(), "\x1b]52;c;")
	body, ended := strings.CutSuffix(body, "\x1b\\")
	got, err := base64.StdEncoding.DecodeString(body)
	if !ok || !ended || err != nil || string(got) != string(s.text) {
		t.Errorf("sent %q", sent.String())
	}
	if !strings.Contains(e.notice.words, "may refuse") {
		t.Errorf("said %q", e.notice.words)
	}
	sent.Reset()
	s.at = lineNamed(t, s, "rows")
	press(e, "enter", "20000", "enter")
	s.at = 0
	for s.sheet.Kind.Name != "vcd" {
		press(e, "right")
	}
	pressAndWait(e, "c")
	if sent.Len() > 0 || !strings.Contains(e.notice.words, "more than terminals take") {
		t.Errorf("%d bytes were sent of %d; said %q", sent.Len(), len(s.text), e.notice.words)
	}
	e.Terminal = nil
	for s.sheet.Kind.Name != "csv" {
		press(e, "right")
	}
	pressAndWait(e, "c")
	if !strings.Contains(e.notice.words, "no terminal") {
		t.Errorf("said %q", e.notice.words)
	}
}

// pendingOf runs what is still to be run beside the screen.
func pendingOf(e *Explorer) (all []late) {
	for _, run := range e.pending {
		if msg, ok := run().(late); ok {
			all = append(all, msg)
		}
	}
	e.pending = nil
	return all
}

// Every line of a file can be gone to, and none is drawn twice or left out: put
// together, the screenfuls are the file.
func TestPreviewShowsAll(t *testing.T) {
	for _, size := range [][2]int{{80, 24}, {120, 36}} {
		e, s := taking(t, "vent-flap", size[0], size[1], "A", "down", "down", "right")
		seen := map[int]string{}
		for last := -1; s.preview.top != last; {
			e.View()
			last = s.preview.top
			for n := last; n < last+s.preview.shown; n++ {
				seen[n] = s.preview.line(n)
			}
			press(e, "pgdown")
		}
		var text strings.Builder
		for n := range s.preview.count() {
			text.WriteString(seen[n] + "\n")
		}
		if text.String() != string(s.text) {
			t.Errorf("%v: the screenfuls are not the file", size)
		}
		v := e.View()
		count := s.preview.count()
		if !strings.Contains(v, fmt.Sprintf("%d of %d", count, count)) {
			t.Errorf("its end is not reached:\n%s", v)
		}
		press(e, "home")
		if e.View(); s.preview.top != 0 {
			t.Error("home does not lead to the first line")
		}
		press(e, "end", "pgup", "home", "pgup")
		if s.preview.top != 0 {
			t.Error("it goes beyond the first line")
		}
	}
}

// Firmware holds no rows: lines that say something of rows are told off, and what
// the board is taken for stands there.
func TestTakeAlongFirmware(t *testing.T) {
	e, s := taking(t, "vent-flap", 120, 36)
	s.at = lineNamed(t, s, "kind")
	press(e, "enter", "backspace", "firmware", "enter")
	v := e.View()
	for _, words := range []string{"read back: it is for this board", "told on the serial line", "8,9,10,11 as usual", "loader a pin floats: put 10"} {
		if s.err != nil || !strings.Contains(strings.Join(strings.Fields(v), " "), words) {
			t.Errorf("%q is not said (%v):\n%s", words, s.err, v)
		}
	}
	if strings.Contains(v, "a row every") || !strings.Contains(string(s.text), "#define COIL_PIN_1 8 ") {
		t.Errorf("a pace is told, or the file is no firmware:\n%s", v)
	}
}

// A table that is walked is taken along as the step mode that its rows are, once
// they are one: after its rows were put right on the bench. The cure turns it, and
// says that the file is as it was.
func TestTakeAlongOfATable(t *testing.T) {
	for _, c := range []struct{ rows, keys, says, file, notice string }{
		{"1000\n1100\n0110\n0100\n0010\n0011\n0001\n1001\n", "A", "half; the table is not sound", "Half step", ""},
		{"1000\n1100\n0110\n0100\n0010\n0011\n0001\n1001\n", "T 1 A", "half, as the table on Walk", "Half step", "not in your file: it should now turn clockwise. enter runs it"},
		{"0001\n0010\n1000\n0100\n", "T 2 A", "wave, as the table on Walk", "Wave drive", "counter-clockwise"},
		{"1100\n0110\n0011\n1001\n", "A", "full, as the table on Walk", "Full step", ""},
	} {
		e, _ := onRows(t, "rows.txt", c.rows)
		sized(e, 120, 36)
		for _, key := range strings.Fields(c.keys) {
			press(e, key)
			if key < "9" && !strings.Contains(e.View(), c.notice) {
				t.Errorf("%q: after the cure it does not say %q:\n%s", c.rows, c.notice, e.View())
			}
		}
		s := screenOf[*takeScreen](e)
		if v := e.View(); !strings.Contains(v, c.says) || !strings.Contains(string(s.text), c.file) {
			t.Errorf("%q, %s: not %q with a file of %s:\n%s", c.rows, c.keys, c.says, c.file, v)
		}
	}
}

// What is taken along goes where the opened table stood: the bits of its outputs are
// those that the table has, so that the rows put into its place turn the motor the
// same way. (Left to bits 0 to 3 they turned it backwards.)
func TestTakeAlongKeepsTheTablesBits(t *testing.T) {
	e, o := onRows(t, "mine.c", "const uint8_t steps[8] = {0b1000,0b1100,0b0100,0b0110,0b0011,0b0010,0b0001,0b1001};\n")
	press(e, "T", "1", "A")
	s := screenOf[*takeScreen](e)
	if v := e.View(); !strings.Contains(v, "3,2,1,0, as mine.c is read") || !strings.Contains(string(s.text), "Output 1: lead BN, coil end A+, bit 3") {
		t.Errorf("the bits are not those of the table:\n%s\n%s", v, s.text)
	}
	rows := regexp.MustCompile(`coil_forward\[8\] = \{((?:\s*0x[0-9a-f]{2},[^\n]*)+)`).FindStringSubmatch(string(s.text))
	if rows == nil {
		t.Fatalf("no rows in\n%s", s.text)
	}
	source, err := table.Read("mine.c", []byte("const uint8_t steps[8] = {"+strings.Join(regexp.MustCompile(`0x[0-9a-f]{2}`).FindAllString(rows[1], -1), ",")+"};\n"), table.Options{})
	if err != nil {
		t.Fatal(err)
	}
	if v := table.Judge(&source.Tables[0], o.Question); !v.Sound || v.Direction != sequence.Forward {
		t.Errorf("put back, the rows are sound %t, %s: %+v", v.Sound, v.Direction, v.Faults)
	}
	press(e, "down", "down", "down", "down", "enter", "0,1,2,3", "enter") // said, they count
	if !strings.Contains(string(s.text), "coil end A+, bit 0") {
		t.Errorf("bits that are named do not count:\n%s", s.text)
	}
}
