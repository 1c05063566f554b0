//go:build linux || darwin

package main

import (
	"os"
	"strings"
	"testing"
	"time"
)

// An unknown motor on the table: readings are typed in as the meter shows them,
// saved, and read again by the command and by the explorer.
func TestUnknownMotorByMeter(t *testing.T) {
	t.Chdir(t.TempDir())
	x := open(t, binary, 80, 24)
	x.shows("row  1 of 8")
	x.press("L")
	x.shows("[Leads]", "n names your own")
	x.press("n" + strings.Repeat(backspace, 20) + "red blue green black yellow white" + enter)
	ohm := map[string]string{"RD BU": "31", "BU GN": "30", "RD GN": "61", "BK YE": "30.5", "YE WH": "30", "BK WH": "60"}
	for range 15 {
		text := x.text()
		a, b, ok := strings.Cut(next(text), " ")
		if !ok {
			break
		}
		value := ohm[a+" "+b] + ohm[b+" "+a]
		if value == "" {
			value = "o"
		} else {
			value += enter
		}
		x.press(value)
		x.steadyAfter(text, "ohm:")
	}
	x.shows("6-lead", "─◠◠◠◠─┬─◠◠◠◠─", "tap", "a half-coil: 30", "No further reading")
	x.press("s" + enter)
	x.shows("saved; coilwalk leads readings.csv reads it")
	x.press("s" + enter)
	x.shows("is there already")
	x.press(escape)
	x.shows("Motor unplugged from everything")
	x.press("q")
	if status := x.ends(); status != 0 {
		t.Errorf("status %d", status)
	}
	x.isRestored()
	out := call(t, "", "leads", "readings.csv").out
	for _, want := range []string{"6-lead", "tap BU", "tap YE"} {
		if !strings.Contains(out, want) {
			t.Errorf("the saved readings do not tell %q:\n%s", want, out)
		}
	}
	x = open(t, binary, 80, 24, "readings.csv")
	x.shows("[Leads]", "6-lead", "tap")
	x.press("q")
	x.ends()
}

// A motor of which nothing was known: measured, asked, and then the motor of every
// screen, by a file that the commands take too.
func TestUnknownMotorGoesOnTheBench(t *testing.T) {
	t.Chdir(t.TempDir())
	readings := "BK,YE,30.2\nYE,GN,30.5\nBK,GN,60.4\nRD,WH,30.1\nWH,BU,30.4\nRD,BU,60.2\nBK,RD,open\nYE,WH,OL\n"
	for name, text := range map[string]string{"six.csv": readings, "mine.toml": "dear"} {
		if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	x := open(t, binary, 80, 24, "six.csv")
	x.shows("vent flap  5 leads", "Walk and Take Along still show", "m puts")
	x.press("m")
	x.shows("full steps to a turn of its rotor")
	x.press("48" + enter)
	x.shows("48 full steps to a turn; write the motor to which file?", "mine-2.toml")
	x.press(enter)
	x.shows("mine-2  6 leads · 48 steps a turn", "written: mine-2.toml, and on the bench. Not in it: gears, voltage, torque;", "The shaft has yet to tell which lead goes where: a asks it.")
	x.press("a")
	x.shows("? kick BK BU")
	x.press("2")
	x.shows("kick BK BU ccw", "? kick BK RD")
	x.press("1")
	x.shows("Found: A+ B+ A- B- are BK RD GN BU")
	x.press("m200" + enter)
	x.shows("mine-3.toml")
	x.press(enter)
	x.shows("mine-3  6 leads", "written: mine-3.toml")
	x.press("W")
	x.shows("[Walk]", "A+ ● BK", "B+ ○ RD", "mine-3  6 leads")
	x.press("A")
	x.shows("[Take Along]", "mine-3.c", "Output 2: lead RD, coil end B+")
	x.press("q")
	if status := x.ends(); status != 0 {
		t.Errorf("status %d", status)
	}
	x.isRestored()
	if text, err := os.ReadFile("mine.toml"); err != nil || string(text) != "dear" {
		t.Errorf("the file that was there holds %q, %v", text, err)
	}
	if out := call(t, "", "motors", "check", "mine-3.toml").out; !strings.Contains(out, "mine-3.toml: good") || !strings.Contains(out, "6 leads") {
		t.Errorf("its file is not good:\n%s", out)
	}
}

// steadyAfter waits until the screen is another one without some words, and has
// stopped changing: a picture half drawn is not read.
func (x *terminal) steadyAfter(before, without string) {
	x.t.Helper()
	last, since := "", time.Now()
	for end := time.Now().Add(patience); time.Now().Before(end); time.Sleep(5 * time.Millisecond) {
		now := x.text()
		if now == before || strings.Contains(now, without) || now != last {
			last, since = now, time.Now()
			continue
		}
		if time.Since(since) > 60*time.Millisecond {
			return
		}
	}
	x.t.Fatalf("the screen does not come to rest:\n%s", x.text())
}

// next reads off the screen which two leads to measure next.
func next(screen string) string {
	for _, line := range strings.Split(screen, "\n") {
		if _, after, ok := strings.Cut(line, "? "); ok {
			if pair, _, ok := strings.Cut(after, " next:"); ok {
				return strings.ReplaceAll(pair, " to ", " ")
			}
		}
	}
	if strings.Contains(screen, "n names your own") {
		return "RD BU"
	}
	return ""
}

// A hidden wiring, one answer wrong: the shaft is asked in the explorer until the
// mapping comes out, and the wrong answer is named.
func TestShaftIsAskedWhichLeadGoesWhere(t *testing.T) {
	t.Chdir(t.TempDir())
	if err := os.WriteFile("five.csv", []byte("BN,VT,52\nWH,VT,51\nGN,VT,52\nGY,VT,53\nBN,WH,103\nGN,GY,104\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	angle := map[string]int{"BN": 0, "GY": 90, "WH": 180, "GN": 270} // hidden
	x := open(t, binary, 120, 36, "five.csv")
	x.shows("[Leads]", "5-lead", "VT common")
	x.press("a")
	x.shows("? kick", "1 cw", "2 ccw", "3 slack")
	wrong := true
	for range 12 {
		text := x.text()
		_, after, asked := strings.Cut(text, "? kick ")
		if !asked {
			break
		}
		leads := strings.Fields(after)
		key := map[int]string{90: "1", 270: "2", 180: "3"}[(angle[leads[1]]-angle[leads[0]]+360)%360]
		if wrong && key == "3" {
			key, wrong = "1", false // a slip, once
		}
		x.press(key)
		x.steadyAfter(text, "\x00")
	}
	x.shows("Found: A+ B+ A- B- are BN GY WH GN", "! does not fit the others", "Only such a pair")
	x.press("q")
	x.ends()
	x.isRestored()
}

// The same in the line mode, the wrong answer taken back.
func TestShaftIsAskedInWords(t *testing.T) {
	t.Parallel()
	angle := map[string]int{"BN": 0, "GY": 90, "WH": 180, "GN": 270}
	words := "ask ungeared\n"
	for range 6 {
		out := call(t, words+"quit\n", "--plain").out
		next := strings.LastIndex(out, "Next: kick ")
		if next < strings.LastIndex(out, "Found (") {
			break
		}
		leads := strings.Fields(out[next+len("Next: kick "):])
		words += "answer " + map[int]string{90: "cw", 270: "ccw", 180: "slack"}[(angle[leads[1]]-angle[leads[0]]+360)%360] + "\n"
	}
	if out := strings.Join(strings.Fields(call(t, words, "--plain").out), " "); !strings.Contains(out, "Found (") || !strings.Contains(out, "are BN GY WH GN") {
		t.Errorf("after\n%s\n%s", words, out)
	}
}
