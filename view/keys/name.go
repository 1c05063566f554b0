package keys

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/charmbracelet/x/ansi"
)

// Space always stops, whatever else is on the screen, and ctrl+c always leaves:
// a frightened hand finds them. Neither can be given to anything else.
const Space = "space"

// taken are the keys that are not free, and why.
var taken = map[string]string{
	Space:    "space always stops, and only that",
	"ctrl+c": "ctrl+c always leaves",
	"ctrl+z": "ctrl+z switches a real motor off",
}

// same are keys for which a terminal sends what it sends for another.
var same = map[string]string{"ctrl+i": "tab", "ctrl+m": "enter", "ctrl+[": "esc"}

// others are further names of keys: as the screen draws them, and as people write
// them.
var others = map[string]string{
	"→": "right", "←": "left", "↑": "up", "↓": "down", "⌫": "backspace", "bksp": "backspace",
	"pgdn": "pgdown", "pagedown": "pgdown", "pageup": "pgup", "return": "enter", "escape": "esc", "del": "delete", "ins": "insert",
	" ": Space,
}

// named are the keys that are no letters, as the terminal library names them.
var named = func() map[string]bool {
	all := map[string]bool{Space: true}
	for _, name := range strings.Fields("up down left right enter tab shift+tab backspace delete insert home end pgup pgdown esc " +
		"shift+up shift+down shift+left shift+right shift+home shift+end " +
		"ctrl+up ctrl+down ctrl+left ctrl+right ctrl+home ctrl+end ctrl+pgup ctrl+pgdown " +
		"f1 f2 f3 f4 f5 f6 f7 f8 f9 f10 f11 f12 ctrl+\\ ctrl+] ctrl+^ ctrl+_") {
		all[name] = true
	}
	for letter := 'a'; letter <= 'z'; letter++ {
		all["ctrl+"+string(letter)] = true
	}
	return all
}()

// Of gives the name of a key from what the terminal library calls it.
func Of(event string) string {
	if event == " " {
		return Space
	}
	return event
}

// parse reads the name of a key; ok says that there is such a key.
func parse(text string) (name string, ok bool) {
	if utf8.RuneCountInString(text) == 1 && text != " " {
		if other := others[text]; other != "" {
			return other, true
		}
		return text, single(text)
	}
	lower := strings.ToLower(text)
	if other := others[lower]; other != "" {
		return other, true
	}
	if letter, alt := strings.CutPrefix(lower, "alt+"); alt && letter != "" {
		letter = text[len("alt+"):] // alt+R is not alt+r
		return "alt+" + letter, single(letter)
	}
	return lower, named[lower] || same[lower] != ""
}

// single says whether a text is one mark that is seen, and takes one cell.
func single(text string) bool {
	r, size := utf8.DecodeRuneInString(text)
	return size == len(text) && r != utf8.RuneError && r != ' ' && unicode.IsPrint(r) && ansi.StringWidth(text) == 1
}

// Mark gives a key as the screen shows it; ascii has words for arrows.
func Mark(name string, ascii bool) string {
	switch {
	case name == "pgdown":
		return "pgdn"
	case name == "backspace" && ascii:
		return "bksp"
	case ascii:
		return name
	}
	switch name {
	case "right":
		return "→"
	case "left":
		return "←"
	case "up":
		return "↑"
	case "down":
		return "↓"
	case "backspace":
		return "⌫"
	}
	return name
}

// Marks gives keys that do one thing between them, as "↑↓", "+ -" or "pgup/pgdn".
func Marks(names []string, ascii bool) string {
	if ascii && slices.Equal(names, []string{"left", "up", "down", "right"}) {
		return "arrows"
	}
	var marks []string
	joint := ""
	for _, name := range names {
		mark := Mark(name, ascii)
		switch {
		case utf8.RuneCountInString(mark) > 1:
			joint = "/"
		case mark == name && joint == "": // no arrow
			joint = " "
		}
		marks = append(marks, mark)
	}
	return strings.Join(marks, joint)
}
