package view

import (
	"fmt"

	"coilwalk/view/keys"
	"coilwalk/view/picture"
	"coilwalk/view/report"
	"coilwalk/view/trouble"
)

// troubleScreen starts from what goes wrong: the troubles, what to look at first
// in each, and the questions, each of which leads to the screen that answers it.
type troubleScreen struct {
	all    []trouble.Trouble
	at     int
	asking bool // the cursor is among the questions
	ask    int

	model map[string][]string // what the model says to a question, by of; nil while it runs
}

// modelMsg is what the model of the motor said to a question, beside the screen.
type modelMsg struct {
	screen *troubleScreen
	of     string
	lines  []string
}

func (msg modelMsg) arrive(*Explorer) { msg.screen.model[msg.of] = msg.lines }

func newTroubleScreen() *troubleScreen {
	return &troubleScreen{all: trouble.All(), model: map[string][]string{}}
}

func (s *troubleScreen) name() string   { return "Trouble" }
func (s *troubleScreen) letter() string { return "U" }

func (s *troubleScreen) places() []*place {
	p := newPlace("trouble", "on Trouble",
		deed{"up", "up k", "choose", "choose what yours does, or a question", func(*Explorer) { s.move(-1) }},
		deed{"down", "down j", "choose", "choose what yours does, or a question", func(*Explorer) { s.move(1) }},
		deed{"into", "enter right l", "questions", "go to its questions; a digit goes straight to the answer of one", s.into},
		deed{"back", "left h esc", "troubles", "go back to the troubles", func(*Explorer) { s.asking = false }},
		deed{"say", "s", "say it", "say it in your own words, as: it hums", s.say})
	p.Typed = "123456789"
	p.typed = func(e *Explorer, key string) {
		if n := int(key[0] - '1'); n < len(s.chosen().Asks) {
			s.asking, s.ask = true, n
			s.lead(e, n)
		}
	}
	for i, do := range p.do {
		p.do[i] = func(e *Explorer) {
			do(e)
			s.askModel(e)
		}
	}
	p.drops = func(word string) bool { return word == "back" && !s.asking }
	p.tells = func(b keys.Binding) keys.Binding {
		if s.asking && b.Word == "into" {
			b.Short, b.Says = "go there", "go to the screen that answers it, with the question asked"
		}
		return b
	}
	return []*place{p}
}

// into goes to the questions, and from one of them to where it is answered.
func (s *troubleScreen) into(e *Explorer) {
	if s.asking {
		s.lead(e, s.ask)
	}
	s.asking = true
}

// enter asks the model of the motor as it is on the bench now.
func (s *troubleScreen) enter(e *Explorer) { s.askModel(e) }

func (s *troubleScreen) chosen() trouble.Trouble { return s.all[s.at] }

func (s *troubleScreen) move(by int) {
	if s.asking {
		s.ask = min(max(s.ask+by, 0), len(s.chosen().Asks)-1)
		return
	}
	s.at, s.ask = min(max(s.at+by, 0), len(s.all)-1), 0
}

// say takes free words for a trouble.
func (s *troubleScreen) say(e *Explorer) {
	e.asks("what does yours do, in your own words?", "", func(text string) error {
		found, err := trouble.Match(text)
		if err != nil {
			return fmt.Errorf("no trouble here is like that; choose one by {trouble.up} and {trouble.down}")
		}
		s.choose(found[0].Word)
		s.askModel(e)
		if len(found) > 1 {
			e.notice = advice("or did you mean: " + found[1].Says + "?")
		}
		return nil
	})
}

func (s *troubleScreen) choose(word string) {
	for i, t := range s.all {
		if t.Word == word {
			s.at, s.ask, s.asking = i, 0, true
		}
	}
}

// of names the question at the cursor, for the motor as it is on the bench.
func (s *troubleScreen) of(e *Explorer) string {
	m := driven(e)
	return fmt.Sprint(s.chosen().Word, s.ask, m.Drive, m.Train)
}

// askModel asks the model the question at the cursor, where there is room to tell
// what it says, unless that was done.
func (s *troubleScreen) askModel(e *Explorer) {
	if !s.asking { // who only goes down the troubles starts nothing
		return
	}
	a, of := s.chosen().Asks[s.ask], s.of(e)
	if _, begun := s.model[of]; begun || a.Engine == trouble.NoEngine || e.grid.H < commandsFrom {
		return
	}
	s.model[of] = nil
	m := driven(e)
	e.later(func() late {
		found, err := a.Ask(m)
		if err != nil {
			return modelMsg{s, of, []string{err.Error()}}
		}
		return modelMsg{s, of, report.FoundLines(m, found)}
	})
}

// lead goes to the screen that answers a question, with the question asked there.
func (s *troubleScreen) lead(e *Explorer, n int) {
	a := s.chosen().Asks[n]
	for i, other := range e.screens {
		if other.name() != a.Screen {
			continue
		}
		e.show(i)
		if to, ok := other.(asked); ok {
			if err := to.takeUp(e, a); err != nil {
				e.notice = alarm(err.Error())
				return
			}
		}
		if e.notice.words == "" {
			e.notice = advice(a.Text + " {anywhere.trouble} leads back.")
		}
		return
	}
	e.notice = advice("in a terminal, type: " + a.Types(trouble.Motor, e.bench.Read().Drive))
}

// commandsFrom is the height from which every question has its command beside it.
const commandsFrom = 34

func (s *troubleScreen) draw(e *Explorer, g *picture.Grid) {
	left := 37
	if g.W >= 110 {
		left = 42
	}
	g.Write(2, 2, "what does yours do?", picture.In(picture.Faint))
	for i, t := range s.all {
		style := picture.In(picture.Text)
		if i == s.at {
			if !s.asking {
				g.Set(1, 3+i, '›', picture.Loud(picture.Current))
			}
			g.Back(2, 3+i, left-3, 1, picture.Band)
			style = picture.Style{Fore: picture.Strong, Back: picture.Band, Bold: true}
		}
		g.WriteWithin(2, 3+i, left-3, t.Says, style)
	}
	s.drawChosen(e, g, left, 2, g.W-left-1)
	t := s.chosen()
	if g.H < commandsFrom {
		lines := wrap("type: "+t.Asks[s.ask].Types(trouble.Motor, e.bench.Read().Drive), g.W-2)
		for i, line := range lines {
			g.Write(1, g.H-2-len(lines)+i, line, picture.In(picture.Text))
		}
	}
	words, style := t.Care, picture.In(picture.Alert)
	if e.notice.words != "" {
		words, style = e.said(), picture.Loud(e.notice.ink)
	}
	g.WriteWithin(1, g.H-2, g.W-2, words, style)
}

// drawChosen says what to look at first, and lists the questions.
func (s *troubleScreen) drawChosen(e *Explorer, g *picture.Grid, x, y, w int) {
	t := s.chosen()
	w = min(w, 90)
	g.Write(x, y, "look first", picture.In(picture.Faint))
	y++
	for _, line := range wrap(t.First, w) {
		g.Write(x, y, line, picture.In(picture.Text))
		y++
	}
	if g.H >= 30 {
		y++
	}
	g.Write(x, y, "then ask", picture.In(picture.Faint))
	y++
	for i, a := range t.Asks {
		style := picture.In(picture.Text)
		if s.asking && i == s.ask {
			g.Set(x-1, y, '›', picture.Loud(picture.Current))
			style = picture.Loud(picture.Strong)
		}
		g.Write(x, y, fmt.Sprint(i+1), picture.Loud(picture.Current))
		lines := wrap(a.Text+" "+s.place(e, a), w-2)
		for _, line := range lines {
			if y >= g.H-3 {
				return
			}
			g.Write(x+2, y, line, style)
			y++
		}
		if g.H >= commandsFrom {
			for _, line := range wrap(a.Types(trouble.Motor, e.bench.Read().Drive), w-2) {
				g.Write(x+2, y, line, picture.In(picture.Faint))
				y++
			}
			y++
		}
	}
	s.drawModel(e, g, x, y, w)
}

// drawModel tells what the model says to the question at the cursor, where there
// is room.
func (s *troubleScreen) drawModel(e *Explorer, g *picture.Grid, x, y, w int) {
	if !s.asking || g.H < commandsFrom || s.chosen().Asks[s.ask].Engine == trouble.NoEngine {
		return
	}
	list := facts{g, x - 1, y, g.H - 3, w, 0}
	list.say("", fmt.Sprintf("to %d the model of %s says", s.ask+1, e.bench.Motor().Name), picture.Faint)
	lines := s.model[s.of(e)]
	if lines == nil {
		list.say("", "running …", picture.Faint)
	}
	for _, line := range lines {
		list.say("", line, picture.Good)
	}
}

// place says where a question leads: a screen, or a command.
func (s *troubleScreen) place(e *Explorer, a trouble.Ask) string {
	for _, other := range e.screens {
		if other.name() == a.Screen {
			return "[" + a.Screen + "]"
		}
	}
	return "[command]"
}
