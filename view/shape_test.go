package view

import (
	"strings"
	"testing"
	"time"

	"github.com/charmbracelet/x/ansi"

	"coilwalk/view/picture"
)

// How every screen looks: each state is opened once, and drawn in many ways.
func TestLookOfEveryScreen(t *testing.T) {
	var states []shown
	for i, s := range everyState() {
		if raced && i%4 != 0 { // the detector makes it slow
			continue
		}
		e, _ := s.at(t, Settings{}, 120, 36)
		states = append(states, shown{s.name, e})
	}
	t.Run("contrast", func(t *testing.T) { contrastOf(t, states) })
	t.Run("ASCII", func(t *testing.T) { asciiOf(t, states) })
	t.Run("no colour", func(t *testing.T) { noColourOf(t, states) })
	t.Run("sixteen colours", func(t *testing.T) { sixteenOf(t, states) })
	if !raced {
		t.Run("whole", func(t *testing.T) { allOf(t, states) })
	}
}

// shown is a state that was brought about.
type shown struct {
	name string
	e    *Explorer
}

// look draws it in another way.
func (s shown) look(theme *picture.Theme, depth picture.Depth, ascii bool, w, h int) string {
	e := s.e
	e.Theme, e.Depth, e.ASCII, e.grid.ASCII = theme, depth, ascii, ascii
	e.hinted, e.generally = nil, nil
	if t, ok := e.screens[e.at].(*takeScreen); ok {
		t.preview.cells = nil // a card is drawn once for a width
	}
	sized(e, w, h)
	return e.View()
}

// sizes at which every state is looked at.
var shapeSizes = [][2]int{{80, 24}, {120, 36}}

// asciiOf holds that with --ascii nothing is sent but ASCII, and that there is a
// stand-in for each mark.
func asciiOf(t *testing.T, states []shown) {
	for _, s := range states {
		for _, size := range shapeSizes {
			plain := s.look(picture.Dark, picture.NoColour, true, size[0], size[1])
			if strings.ContainsFunc(strings.ReplaceAll(sgrAnywhere.ReplaceAllString(plain, ""), "\n", ""), func(r rune) bool { return r < 0x20 || r > 0x7e }) {
				t.Errorf("%s, %v: something that is no ASCII:\n%s", s.name, size, plain)
			}
			drawn := s.look(picture.Dark, picture.NoColour, false, size[0], size[1])
			if was, is := strings.Count(drawn, "?"), strings.Count(plain, "?"); is > was {
				t.Errorf("%s, %v: %d marks have no stand-in:\n%s", s.name, size, is-was, plain)
			}
		}
	}
}

// noColourOf holds that without colour none is sent: bold and a line below are all
// that is left.
func noColourOf(t *testing.T, states []shown) {
	for _, s := range states {
		for _, ascii := range []bool{false, true} {
			for _, m := range sgrAnywhere.FindAllStringSubmatch(s.look(picture.Dark, picture.NoColour, ascii, 120, 36), -1) {
				for _, part := range strings.Split(m[1], ";") {
					if part != "" && part != "0" && part != "1" && part != "4" {
						t.Errorf("%s: %q is sent without colour", s.name, m[0])
					}
				}
			}
		}
	}
}

// sixteenOf holds that in 16 colours, which nobody knows, whatever is read keeps the
// terminal's own colour, but for a letter upon a pole.
func sixteenOf(t *testing.T, states []shown) {
	for _, s := range states {
		for _, line := range strings.Split(s.look(picture.Dark, picture.Colours16, false, 120, 36), "\n") {
			fore, back := "", ""
			for line != "" {
				if m := sgrFirst.FindStringSubmatch(line); m != nil {
					line = line[len(m[0]):]
					for _, part := range strings.Split(m[1], ";") {
						switch {
						case part == "" || part == "0":
							fore, back = "", ""
						case part == "39":
							fore = ""
						case part == "49":
							back = ""
						case strings.HasPrefix(part, "3"), strings.HasPrefix(part, "9"):
							fore = part
						case strings.HasPrefix(part, "4") && len(part) > 1, strings.HasPrefix(part, "10"):
							back = part
						}
					}
					continue
				}
				r := []rune(line[:min(4, len(line))])[0]
				line = line[len(string(r)):]
				if r != ' ' && picture.Read(r) && fore != "" && back == "" {
					t.Fatalf("%s: %q is sent in the colour %s", s.name, r, fore)
				}
			}
		}
	}
}

// Whatever a key changes on a screen shows by shape, letter or place: with colour,
// bold and lines below taken away, before and after are still not the same.
func TestStatesDifferByShape(t *testing.T) {
	pressed := 0
	for i, s := range everyState() {
		if raced && i%4 != 0 { // the detector makes it slow
			continue
		}
		for _, ascii := range []bool{false, true} {
			e, c := s.at(t, Settings{Depth: picture.Colours256, ASCII: ascii}, 80, 24)
			at, before := e.at, e.View()
			for _, key := range meant(e) {
				press(e, key)
				c.pass(time.Second)
				after := e.View()
				if before != after {
					pressed++
					if ansi.Strip(before) == ansi.Strip(after) {
						t.Errorf("%s: what %q changes is told by colour alone:\n%s", s.name, key, after)
					}
				}
				if len(s.keys) > 0 && s.keys[0] == "w" {
					before = after // a question stays open
					continue
				}
				if e.ask != nil || e.help {
					press(e, "esc")
				}
				if e.at != at {
					e.show(at)
				}
				c.pass(time.Second)
				before = e.View()
			}
		}
	}
	if pressed < 500 && !raced {
		t.Errorf("only %d keys changed something", pressed)
	}
}

// meant are the keys that mean something on the screen that is shown.
func meant(e *Explorer) (names []string) {
	if e.ask != nil {
		return []string{"left", "left", "x", "left", "backspace", "esc"}
	}
	for _, p := range append(e.atWork(), e.anywhere()) {
		for _, b := range p.Bindings {
			if b.Word != "theme" && b.Word != "copy" { // the one changes colours, and nothing else; the other starts what is none of the screen's
				names = append(names, b.Keys[0])
			}
		}
		for _, letter := range p.Typed {
			names = append(names, string(letter))
		}
	}
	return names
}
