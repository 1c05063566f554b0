package view

import (
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"

	"coilwalk/model/wiring"
	"coilwalk/view/picture"
	"coilwalk/view/terms"
	"coilwalk/view/trouble"
)

// onceOpened are the screens that are there only once a file was opened.
var onceOpened = []string{"Table", "Recording"}

// Every question leads to a screen that is there, to a line that its sheet has,
// with symptoms that can be read; else it would lead nowhere without a word.
func TestEveryQuestionLeadsSomewhere(t *testing.T) {
	led := map[string]bool{}
	for i, one := range trouble.All() {
		for k, a := range one.Asks {
			e, _ := explorer(t, "vent-flap", Settings{})
			sized(e, 80, 24)
			press(e, "U")
			for range i {
				press(e, "down")
			}
			press(e, string(rune('1'+k)))
			at := e.screens[e.at]
			switch {
			case a.Screen == "" || a.Screen == onceOpened[0] || a.Screen == onceOpened[1]:
				if at.name() != "Trouble" || !strings.Contains(e.notice.words, a.Types(trouble.Motor, e.bench.Read().Drive)) {
					t.Errorf("%s %d: on %s, saying %q", one.Word, k+1, at.name(), e.notice.words)
				}
				continue
			case at.name() != a.Screen:
				t.Errorf("%s %d: leads to %s, not to %s", one.Word, k+1, at.name(), a.Screen)
				continue
			}
			led[a.Screen] = true
			if e.notice.ink == picture.Alert {
				t.Errorf("%s %d: %s", one.Word, k+1, e.notice.words)
			}
			var line string
			switch s := at.(type) {
			case *faultScreen:
				if len(s.symptoms) != len(a.Told) || !s.mine {
					t.Errorf("%s %d: told %v, taken %v", one.Word, k+1, a.Told, s.symptoms)
				}
				continue
			case *leadsScreen:
				if s.asking != a.Shaft {
					t.Errorf("%s %d: asks the shaft: %v", one.Word, k+1, s.asking)
				}
				continue
			case *ratesScreen:
				line = s.fields[s.at].Name
			case *powerScreen:
				line = s.fields[s.at].Name
			case *shaftScreen:
				line = s.fields[s.at].Name
			}
			if line != a.Line {
				t.Errorf("%s %d: the cursor is at %q, not at %q", one.Word, k+1, line, a.Line)
			}
		}
	}
	for _, name := range []string{"Faults", "Leads", "Rates", "Power", "Shaft"} {
		if !led[name] {
			t.Errorf("nothing leads to %s", name)
		}
	}
}

// Where a table was opened, the question about it leads there.
func TestAnOpenedTableIsAskedAbout(t *testing.T) {
	e, _ := onTable(t, Settings{})
	sized(e, 80, 24)
	press(e, "U", "3")
	if name := e.screens[e.at].name(); name != "Table" {
		t.Errorf("leads to %s:\n%s", name, e.View())
	}
}

// What Trouble takes to Faults is weighed there as if it had been told by hand.
func TestASymptomFromTroubleIsWeighed(t *testing.T) {
	e, _ := explorer(t, "hybrid-4", Settings{})
	sized(e, 80, 24)
	for _, k := range []string{"U", "s", "it only hums", "enter"} {
		press(e, k)
	}
	pressAndWait(e, "enter")
	f := e.screens[e.at].(*faultScreen)
	if f.judged == nil || len(f.judged.Ranked[0].Faults) == 0 || f.judged.Ranked[0].Faults[0].Kind != wiring.Swapped {
		t.Errorf("what explains it: %+v", f.judged)
	}
	press(e, "U")
	if s := e.screens[e.at].(*troubleScreen); s.chosen().Word != "buzzes" || !s.asking {
		t.Errorf("U leads back to %q", s.chosen().Word)
	}
}

// In 80 by 24 each trouble has all its questions, the command and the caution.
func TestTroubleFitsTheSmallScreen(t *testing.T) {
	e, _ := explorer(t, "vent-flap", Settings{})
	sized(e, 80, 24)
	press(e, "U")
	for i, one := range trouble.All() {
		if i > 0 {
			press(e, "left", "down")
		}
		press(e, "enter")
		for k, a := range one.Asks {
			if k > 0 {
				press(e, "down")
			}
			view := ansi.Strip(e.View())
			flat := strings.Join(strings.Fields(view), "")
			for _, words := range []string{one.Says, one.Care, a.Types(trouble.Motor, e.bench.Read().Drive)} {
				if !strings.Contains(flat, strings.Join(strings.Fields(words), "")) {
					t.Errorf("%s: %q is not on the screen:\n%s", one.Word, words, view)
				}
			}
		}
		last, column := one.Asks[len(one.Asks)-1], ""
		for _, line := range strings.Split(ansi.Strip(e.View()), "\n")[2:20] {
			if cells := []rune(line); len(cells) > 37 {
				column += string(cells[37:]) + " "
			}
		}
		if words := last.Text + " ["; !strings.Contains(strings.Join(strings.Fields(column), " "), words) {
			t.Errorf("%s: the last question is cut:\n%s", one.Word, e.View())
		}
	}
}

// Screens that entries name are there.
func TestWordsNameScreens(t *testing.T) {
	e, _ := explorer(t, "vent-flap", Settings{})
	names := map[string]bool{onceOpened[0]: true, onceOpened[1]: true}
	for _, s := range e.screens {
		names[s.name()] = true
	}
	for _, entry := range terms.All() {
		_, screens, _ := entry.Where()
		for _, s := range screens {
			if !names[s] {
				t.Errorf("%s: there is no screen %s", entry.Word, s)
			}
		}
	}
}

// A word can be asked for from any screen; all of an entry's text is shown in 80
// by 24, and its drawing, or that it needs more room.
func TestAWordIsExplainedOnTheScreen(t *testing.T) {
	for _, entry := range terms.All() {
		e, _ := explorer(t, "vent-flap", Settings{})
		sized(e, 80, 24)
		press(e, "R", "c", "/")
		press(e, entry.Word)
		pressAndWait(e, "enter")
		view := ansi.Strip(e.View())
		flat := strings.Join(strings.Fields(view), " ")
		if !strings.Contains(flat, entry.Text) {
			t.Errorf("%s is not told in full:\n%s", entry.Word, view)
		}
		if strings.Contains(view, "needs a taller window") {
			t.Errorf("%s: no room for the drawing:\n%s", entry.Word, view)
		}
		press(e, "x")
		if e.page != nil || e.screens[e.at].name() != "Rates" {
			t.Errorf("%s: a key does not lead back", entry.Word)
		}
	}
	e, _ := explorer(t, "vent-flap", Settings{})
	sized(e, 80, 24)
	press(e, "?", "/", "enter")
	if view := e.View(); !strings.Contains(view, terms.All()[0].Word) || !strings.Contains(view, terms.All()[len(terms.All())-1].Word) {
		t.Errorf("not all words are listed:\n%s", view)
	}
	press(e, "/", "baklash", "enter")
	if e.ask == nil || !strings.Contains(e.notice.words, "backlash") {
		t.Errorf("a mistyped word says %q", e.notice.words)
	}
}
