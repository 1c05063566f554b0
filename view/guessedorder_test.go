package view

import (
	"strings"
	"testing"

	"coilwalk/model/bench"
	"coilwalk/model/motor"
)

// A motor made of readings alone has its leads in a guessed order. That is said by its
// file and on the screens that go by the order, also when the file is opened again,
// until the shaft has told it.
func TestGuessedOrderIsToldUntilTheShaftTells(t *testing.T) {
	t.Chdir(t.TempDir())
	e, _ := withReadings(t, sixReadings, Settings{}, Opened{})
	press(e, "m", "48", "enter", "enter")
	shows(t, e, "The bench has this motor, and the", "order of its leads is a guess")
	m, err := motor.Open("mine.toml", nil)
	if err != nil || !m.OrderGuessed {
		t.Fatalf("the file says that its order is known (%v):\n%s", err, m.Text())
	}
	const onWalk = "The order is a guess:"
	again := New(bench.New(m), Settings{}, Opened{})
	sized(again, 80, 24)
	for _, e := range []*Explorer{e, again} {
		press(e, "W")
		shows(t, e, onWalk, "L, then a asks the")
		press(e, "A")
		shows(t, e, "The order of its leads is a guess")
	}

	press(e, "L", "a")
	for range 4 { // each cw and ccw in turn: some two of them fit
		if !strings.Contains(shownWords(e), "Found: A+ B+ A- B- are") {
			press(e, "1", "2")
		}
	}
	shows(t, e, "Walk and Take Along still")
	press(e, "m", "48", "enter", "enter", "W")
	if told, err := motor.Open("mine-2.toml", nil); err != nil || told.OrderGuessed {
		t.Errorf("the shaft has told the order (%v), and the file has\n%s", err, told.Text())
	}
	if words := shownWords(e); strings.Contains(words, onWalk) || !strings.Contains(words, "mine-2") {
		t.Errorf("the shaft has told the order, and Walk says\n%s", words)
	}
}
