//go:build linux || darwin

package main

import (
	"strings"
	"testing"
)

// The keys of the folder count on the screen, and foot and words show them.
func TestOtherKeysOnTheScreen(t *testing.T) {
	configured(t, map[string]string{"keys.toml": "[walk]\nnext = \"n\"\n[anywhere]\nquit = \"ctrl+q\"\n"})
	x := open(t, binary, 80, 24)
	x.shows("row  1 of 8", "press n for the next row", "n next", "ctrl+q quit")
	x.press(right)
	x.press("q")
	x.press("n")
	x.shows("row  2 of 8")
	x.press("\x11") // ctrl+q
	if status := x.ends(); status != 0 {
		t.Errorf("status %d", status)
	}
}

// A file that can not be used is told in a sentence, and everything else is as if
// it were not there.
func TestWrongSettingsDoNoHarm(t *testing.T) {
	configured(t, map[string]string{"keys.toml": "[walk]\nnexxt = \"n\"\n", "settings.toml": "animation = \"no\"\n"})
	x := open(t, binary, 80, 24)
	x.shows("row  1 of 8", "keys left as they came: keys.toml:2:1: there is no \"nexxt\" in walk; did", "→ next")
	x.press(right)
	x.shows("row  2 of 8")
	x.press("q")
	if status := x.ends(); status != 0 {
		t.Errorf("status %d", status)
	}
}

// What is set counts, and options count before it.
func TestSettingsOfTheFolder(t *testing.T) {
	configured(t, map[string]string{"settings.toml": "ascii = true\ncolor = \"never\"\nanimation = false\n"})
	x := open(t, binary, 80, 24)
	x.shows("row  1 of 8", "right next")
	for _, b := range x.sent() {
		if b >= 0x80 {
			t.Fatalf("a byte %#x was sent with ascii = true", b)
		}
	}
	if strings.Contains(string(x.sent()), "38;") {
		t.Error("a colour was sent with color = \"never\"")
	}
	x.press("q")
	x.ends()
	y := open(t, binary, 80, 24, "--ascii=false", "--color", "always")
	y.shows("row  1 of 8", "→ next")
	if !strings.Contains(string(y.sent()), "38;5;") {
		t.Error("--color always is not heard where color = \"never\" is set")
	}
	y.press("q")
	y.ends()
}

// A folder that can not be read is no folder.
func TestNoFolderOfSettings(t *testing.T) {
	t.Setenv("COILWALK_CONFIG", "/dev/null/settings")
	x := open(t, binary, 80, 24)
	x.shows("row  1 of 8", "→ next")
	x.press("q")
	if status := x.ends(); status != 0 {
		t.Errorf("status %d", status)
	}
}

// Programs that build and test set CI, and terminals opened inside them have it too:
// it tells nothing of the terminal, which shows colours there as elsewhere.
func TestColourWhereCIIsSet(t *testing.T) {
	t.Setenv("CI", "true")
	x := open(t, binary, 80, 24)
	x.shows("row  1 of 8")
	if !strings.Contains(string(x.sent()), "38;5;") {
		t.Error("no colour was sent")
	}
	x.press("q")
	x.ends()
}
