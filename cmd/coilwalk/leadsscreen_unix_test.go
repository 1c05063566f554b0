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
