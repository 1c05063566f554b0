package view

import (
	"slices"
	"strings"

	"coilwalk/model/motor"
	"coilwalk/view/keys"
)

// standing are the screens that are always there, in their order.
func standing(m motor.Motor) []screen {
	return []screen{&walk{}, newLeadsScreen(m), newFaultScreen(), newShaftScreen(m), newRatesScreen(m), newPowerScreen(m), newTakeScreen(), newTroubleScreen()}
}

// everyScreen are the screens that there can be: those, and behind them the ones
// of files that were opened.
func everyScreen() []screen {
	return append(standing(motor.Motor{}), &tableScreen{}, &recordingScreen{})
}

// screenOf gives the screen of a type, which has to be there.
func screenOf[S screen](e *Explorer) S {
	at := slices.IndexFunc(e.screens, func(s screen) bool { _, is := s.(S); return is })
	return e.screens[at].(S)
}

// everywhere is the place of the keys that work on every screen: a few, and the
// way to each.
func everywhere() *place {
	deeds := []deed{
		{"help", "?", "help", "show or leave this help", func(e *Explorer) { e.help, e.helpPage = true, 0 }},
		{"next-screen", "tab", "screen", "next screen", func(e *Explorer) { e.show((e.at + 1) % len(e.screens)) }},
		{"screen-before", "shift+tab", "", "the screen before", func(e *Explorer) { e.show((e.at + len(e.screens) - 1) % len(e.screens)) }},
		{"quit", "q", "quit", "leave; ctrl+c too", func(e *Explorer) { e.leaving = true }},
		{"explain", "/", "", "explain a word of the trade", (*Explorer).askWord},
		{"theme", "t", "", "change between dark and light colours", (*Explorer).otherTheme},
	}
	for _, s := range everyScreen() {
		deeds = append(deeds, deed{way(s), initial(s), "", "go to " + s.name(), func(e *Explorer) { e.show(e.screenAt(way(s))) }})
	}
	return newPlace(keys.Anywhere, "on every screen", deeds...)
}

// way is the word of the key that leads to a screen.
func way(s screen) string { return strings.ReplaceAll(strings.ToLower(s.name()), " ", "-") }

// initial is the key that leads to a screen, unless a person gave it another: the
// capital of its name, or of a letter within it.
func initial(s screen) string {
	if l, ok := s.(interface{ letter() string }); ok {
		return l.letter()
	}
	return s.name()[:1]
}

// screenAt gives the number of a screen that was opened; −1 where it was not.
func (e *Explorer) screenAt(word string) int {
	return slices.IndexFunc(e.screens, func(s screen) bool { return way(s) == word })
}

// takeKeys puts the places together and gives them the keys that a person chose.
func (e *Explorer) takeKeys() {
	general := everywhere()
	opened := map[string]bool{}
	for _, s := range e.screens {
		opened[way(s)] = true
		e.places = append(e.places, s.places())
	}
	ways := map[string]bool{}
	for _, s := range everyScreen() {
		ways[way(s)] = true
	}
	general.drops = func(word string) bool { return ways[word] && !opened[word] }
	e.every = everyPlace(general, e.places)
	for _, p := range e.every {
		p.Take(e.Settings.Keys)
	}
}

// anywhere is the place of the keys that work on every screen.
func (e *Explorer) anywhere() *place { return e.every[0] }

// everyPlace puts the places of screens behind those of everywhere.
func everyPlace(general *place, of [][]*place) []*place {
	return append([]*place{general}, slices.Concat(of...)...)
}

// Keys lists what keys there are, by place: for the file of keys, and for whoever
// wants to see them.
func Keys() (groups []keys.Group) {
	var of [][]*place
	for _, s := range everyScreen() {
		of = append(of, s.places())
	}
	for _, p := range everyPlace(everywhere(), of) {
		if !slices.ContainsFunc(groups, func(g keys.Group) bool { return g.Name == p.Name }) { // forms share one
			groups = append(groups, p.Group)
		}
	}
	return groups
}

// general lists the keys that work everywhere, for foot and help.
func (e *Explorer) general() []hint {
	if e.generally == nil {
		var initials []string
		for _, s := range e.screens {
			initials = append(initials, e.keyed("{anywhere."+way(s)+"}"))
		}
		for _, b := range e.anywhere().Bindings {
			long := b.Says
			switch b.Word {
			case "next-screen":
				long = "next screen; or straight to one: " + strings.Join(initials, " ")
			case "help", "quit", "theme":
			default:
				continue
			}
			e.generally = append(e.generally, hint{e.marks(b.Keys[:1]), b.Short, long})
		}
	}
	return e.generally
}
