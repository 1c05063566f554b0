package view

import "testing"

// Help of several pages is turned by the keys that scroll elsewhere, and is not left
// by them.
func TestHelpIsTurnedAsScreensAreScrolled(t *testing.T) {
	e, _ := explorer(t, "vent-flap", Settings{})
	sized(e, 80, 24)
	press(e, "?")
	if !e.moreHelp() {
		t.Fatal("there is one page only")
	}
	first := e.View()
	press(e, "pgdown")
	second := e.View()
	if !e.help || second == first {
		t.Fatal("pgdown does not turn to the next page")
	}
	for range 9 {
		press(e, "down")
	}
	if !e.help || e.moreHelp() {
		t.Errorf("down: shown %t, more %t", e.help, e.moreHelp())
	}
	for range 9 {
		press(e, "up")
	}
	if e.View() != first {
		t.Errorf("up does not lead back to the first page:\n%s", e.View())
	}
	press(e, "x")
	if e.help {
		t.Error("another key does not leave it")
	}
}
