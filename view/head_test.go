package view

import (
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"
)

// The name of the screen that one is on stands whole in the bar, at the least width
// too, and with keys that make every name longer; with the keys as they are, so do
// the names of all the others.
func TestTheBarNamesTheScreen(t *testing.T) {
	groups, _ := otherKeys(t)
	for _, with := range []Settings{{}, {Keys: groups}, {Keys: groups, ASCII: true}} {
		e, _ := explorer(t, "vent-flap", with)
		for _, w := range []int{minWidth, 120, 200} {
			sized(e, w, minHeight)
			for i, s := range e.screens {
				e.show(i)
				bar := strings.ToLower(strings.Split(ansi.Strip(e.View()), "\n")[1])
				if name := strings.ToLower(s.name()) + "]"; !strings.Contains(bar, name) || ansi.StringWidth(bar) > w {
					t.Errorf("%d wide: %s is not named in %q", w, s.name(), bar)
				}
				for _, other := range e.screens {
					if with.Keys == nil && !strings.Contains(bar, strings.ToLower(other.name())) {
						t.Errorf("%d wide, on %s: %s is not in %q", w, s.name(), other.name(), bar)
					}
				}
			}
		}
	}
}
