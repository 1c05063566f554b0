package plain

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"coilwalk/model/files"
)

// word is one word that can be said, and what comes of it.
type word struct {
	name, takes string
	says        string
	do          func(m *Mode, args []string)
}

// theme is words that belong together.
type theme struct {
	name, says string
	words      func() []word
}

// themes lists all that the line mode has, in the order in which a newcomer
// meets it.
func themes() []theme {
	return []theme{
		{"walking", "step the motor on the bench, forward and back", walkWords},
		{"learning", "the first steps, and questions before the row", learnWords},
		{"trouble-shooting", "put faults in, and tell what your motor does", faultWords},
		{"meter", "what an ohmmeter tells of the leads", leadWords},
		{"asking", "which lead goes where, by what the shaft does", askWords},
		{"tables", "a step table out of your firmware", tableWords},
		{"recordings", "what the pins really did", recordingWords},
		{"numbers", "shaft, rates, ramps, and what it all costs", sheetWords},
		{"taking", "files to take along", takeWords},
		{"live", "a real motor on a board", realWords},
		{"sitting", "motors, files, and this sitting", sittingWords},
	}
}

// words lists every word.
func words() (all []word) {
	for _, t := range themes() {
		all = append(all, t.words()...)
	}
	return all
}

// Words lists every word that can be said.
func Words() (names []string) {
	for _, w := range words() {
		names = append(names, w.name)
	}
	return names
}

// answer does what a word says; one that is none is answered with the nearest,
// and changes nothing.
func (m *Mode) answer(name string, args []string) {
	all := words()
	if k := slices.IndexFunc(all, func(w word) bool { return w.name == name }); k >= 0 {
		if name != "more" {
			m.rest = nil
		}
		if m.real != nil && m.real.hold.State.Armed && slices.Contains(lengthy, name) {
			m.say("That takes a while, and a real motor is armed. Say off first.")
			return
		}
		all[k].do(m, args)
		return
	}
	if choice, err := strconv.Atoi(name); err == nil && len(args) == 0 {
		m.foresee(choice)
		return
	}
	message := fmt.Sprintf("there is no word %s", files.Quoted(name))
	if near := files.Nearest(name, Words()); near != "" {
		m.say("%s; did you mean %q?", message, near)
		return
	}
	m.say(`%s; "help" lists them.`, message)
}

// lengthy words keep from hearing what a real motor says.
var lengthy = []string{"rates", "curve", "ramp", "power", "trials", "mine", "does", "forget", "faults", "trouble", "slowly", "newmotor"}

// help says what can be said: by theme, of one theme, or of one word.
func (m *Mode) help(args []string) {
	if len(args) == 0 {
		for _, t := range themes() {
			var names []string
			for _, w := range t.words() {
				names = append(names, w.name)
			}
			m.say("%s, %s: %s.", t.name, t.says, strings.Join(names, ", "))
		}
		m.say("Say help and a word, or help and a theme, for more.")
		return
	}
	name := strings.ToLower(strings.Join(args, " "))
	var known []string
	for _, t := range themes() {
		known = append(known, t.name)
		if t.name == name || name == "all" {
			for _, w := range t.words() {
				m.say("%s", w.line())
			}
			if name != "all" {
				return
			}
		}
		for _, w := range t.words() {
			known = append(known, w.name)
			if w.name == name {
				m.say("%s", w.line())
				return
			}
		}
	}
	switch near := files.Nearest(name, known); {
	case name == "all":
	case near != "":
		m.say("there is no word and no theme %q; did you mean %q?", files.Shown(name), near)
	default:
		m.say(`there is no word and no theme %q; "help" lists them.`, files.Shown(name))
	}
}

// line says what a word does.
func (w word) line() string {
	if w.takes == "" {
		return fmt.Sprintf("%s: %s.", w.name, w.says)
	}
	return fmt.Sprintf("%s %s: %s.", w.name, w.takes, w.says)
}
