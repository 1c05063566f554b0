//go:build linux || darwin

package main

import (
	"bytes"
	"testing"
	"unicode/utf8"
)

// The same on the screen, where sequences of our own are sent all the time: none of
// evil is among them. Each file is opened, its own screen, help and Walk looked at.
func TestNothingSteersTheScreen(t *testing.T) {
	files := evilFiles(t, t.TempDir())
	for _, c := range []struct{ name, shows, keys string }{
		{"pins.vcd", "[ReCording]", "n?"}, {"pins.csv", "[ReCording]", "n?"}, {"table.c", "[Walk]", "T?"}, {"table.py", "[Walk]", "T?"}, {"comment.csv", "[Leads]", "?"},
	} {
		t.Run(c.name, func(t *testing.T) {
			x := open(t, binary, 120, 36, files[c.name])
			x.shows(c.shows)
			for _, key := range c.keys {
				x.press(string(key))
			}
			x.press(" ") // help closes at any key
			x.press("W")
			x.shows("[Walk]")
			x.press("q")
			x.ends()
			sent := x.sent()
			if !utf8.Valid(sent) {
				t.Error("bytes were sent that are no text")
			}
			for _, part := range []string{"\x1b[77;77H", "\x1b]0;evil", "\u009b", "\u202e", "\u2066", "\u200b", "\u2028", "\u0085"} {
				if at := bytes.Index(sent, []byte(part)); at >= 0 {
					t.Errorf("%q was sent, in %q", part, sent[max(0, at-60):min(len(sent), at+60)])
				}
			}
		})
	}
}
