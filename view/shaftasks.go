package view

import (
	"fmt"
	"slices"
	"strings"

	"coilwalk/model/files"
	"coilwalk/model/motor"
	"coilwalk/model/wiring"
	"coilwalk/view/hold"
	"coilwalk/view/picture"
	"coilwalk/view/report"
)

// shaftAsks is the other half of the Leads screen: what the shaft does when leads
// are energised, one question at a time.
type shaftAsks struct {
	sitting    *wiring.Sitting
	now        [4]motor.Lead // on outputs 1 to 4, where the motor is the bench's
	of         string        // whose leads are asked about
	at         int           // the answer at the cursor
	shown      *report.Answers
	live       bool // bound to a real motor
	performing *hold.Test
}

// newShaftAsks begins with what the readings told, or else with the motor on the
// bench.
func newShaftAsks(answer *wiring.Answer, m motor.Motor) (*shaftAsks, error) {
	a := &shaftAsks{of: "your motor"}
	t := wiring.OfMotor(m)
	if answer != nil {
		found, ok := wiring.OfAnswer(*answer)
		if !ok {
			return nil, fmt.Errorf("the readings do not settle yet what the leads are; the shaft is asked after that")
		}
		t = found
	} else {
		a.of = m.Title
		for k := range a.now {
			a.now[k] = m.Output(m.Wiring, k)
		}
	}
	a.sitting = wiring.Sit(t)
	return a, nil
}

// words are the answers to the question that is asked.
func (a *shaftAsks) words() []string {
	next, ok := a.sitting.Next()
	if !ok {
		return nil
	}
	return a.sitting.Topology().Words(next.Test)
}

// askPlace is the keys of the half of Leads that asks the shaft.
func (l *leadsScreen) askPlace() *place {
	p := newPlace("ask", "on Leads, where the shaft is asked",
		deed{"perform", "p", "perform", "do the test on the real motor, part by part; you only answer", func(e *Explorer) {
			if err := l.asks.perform(e); err != nil {
				e.notice = alarm(err.Error())
			}
		}},
		deed{"readings", "a esc", "readings", "back to the ohmmeter readings", l.turn},
		deed{"own-test", "e", "own test", "type a test and its answer of your own, as kick BN WH cw; lamp 1 3 too", func(e *Explorer) { l.asks.ownTest(e) }},
		deed{"up", "up k", "choose", "choose an answer", func(*Explorer) { l.asks.move(-1) }},
		deed{"down", "down j", "choose", "choose an answer", func(*Explorer) { l.asks.move(1) }},
		deed{"take-back", "backspace delete", "take back", "take the chosen answer back", func(*Explorer) { l.asks.takeBack() }},
		deed{"save", "s", "save", "save the answers to a file", func(e *Explorer) { l.asks.askFile(e) }},
		deed{"motor", "m", "motor", "make a motor file of what was found, and put that motor on the bench", l.askMotor},
		deed{"geared", "g", "geared", "say whether gears hide a single tick of the rotor", func(*Explorer) { l.asks.turnGeared() }})
	p.Typed, p.typed = "123456789", func(e *Explorer, key string) { l.asks.choose(e, int(key[0]-'1')) }
	p.first = func() []hint {
		n := len(l.asks.words())
		if n == 0 { // no question is left
			return nil
		}
		return []hint{{fmt.Sprintf("1…%d", n), "answer", "answer the question with the word of that number"}}
	}
	p.when = func() bool { return l.asking }
	p.drops = func(word string) bool { return word == "perform" && !l.asks.live }
	return p
}

func (a *shaftAsks) move(by int) {
	a.at = min(max(a.at+by, 0), max(len(a.sitting.Replies())-1, 0))
}

func (a *shaftAsks) takeBack() {
	if replies := a.sitting.Replies(); a.at < len(replies) {
		a.answer(slices.Delete(slices.Clone(replies), a.at, a.at+1))
	}
}

// turnGeared says the other of geared and not geared.
func (a *shaftAsks) turnGeared() {
	t := *a.sitting.Topology()
	t.Geared = !t.Geared
	replies := a.sitting.Replies()
	a.sitting = wiring.Sit(&t)
	a.answer(replies)
}

// ownTest asks for a test that is not the one asked for, and its answer.
func (a *shaftAsks) ownTest(e *Explorer) {
	e.asks("test and answer:", "", func(text string) error {
		r, err := a.sitting.Topology().ParseReply(text)
		if err == nil {
			a.add(r)
			a.answered(e, r)
		}
		return err
	})
}

// choose answers the question with one of its words, by its number from 0.
func (a *shaftAsks) choose(e *Explorer, number int) {
	words := a.words()
	if number >= len(words) {
		return
	}
	next, _ := a.sitting.Next()
	reply := wiring.Reply{Question: next.Question, Word: words[number]}
	a.add(reply)
	a.answered(e, reply)
}

// askFile saves the answers, as the command reads them.
func (a *shaftAsks) askFile(e *Explorer) {
	replies := a.sitting.Replies()
	if len(replies) == 0 {
		e.notice = alarm("there is no answer to save yet")
		return
	}
	e.offers("save the answers to which file?", "answers.txt", func(text string) error {
		var lines strings.Builder
		for _, r := range replies {
			lines.WriteString(r.String() + "\n")
		}
		if err := writeNew(text, []byte(lines.String())); err != nil {
			return err
		}
		e.notice = advice("saved; coilwalk leads READINGS --answers " + files.Shown(text) + " reads it")
		return nil
	})
}

func (a *shaftAsks) add(r wiring.Reply) {
	a.answer(append(slices.Clone(a.sitting.Replies()), r))
	a.at = len(a.sitting.Replies()) - 1
}

func (a *shaftAsks) answer(replies []wiring.Reply) {
	a.sitting.Answer(replies)
	a.at = min(a.at, max(len(replies)-1, 0))
	a.shown = nil
}

// draw lays out what is asked, down to the line end; closing stands below what was
// found.
func (a *shaftAsks) draw(e *Explorer, g *picture.Grid, end int, closing string) {
	if a.shown == nil {
		shown := report.NewAnswers(a.sitting, a.now)
		a.shown = &shown
	}
	left := max(g.W*11/20, 44)
	t := a.sitting.Topology()
	head := a.of + ", " + t.Kind()
	if t.Common != "" {
		head += ", common " + string(t.Common)
	}
	if t.Geared {
		head += e.keyed(", geared ({ask.geared})")
	} else {
		head += e.keyed(", no gears ({ask.geared})")
	}
	g.WriteWithin(1, 2, left-2, head, picture.In(picture.Faint))
	y := a.drawQuestion(g, 1, 4, left-3, end-5, closing)
	a.drawReplies(g, 1, y+1, left-3, end-y-1)
	a.drawOdds(g, left, 2, g.W-left-1, end-3)
}

// drawQuestion draws what to do next, or what was found; it gives the line after.
func (a *shaftAsks) drawQuestion(g *picture.Grid, x, y, w, h int, closing string) int {
	end := y + h
	say := func(words string, style picture.Style) {
		for _, line := range wrap(words, w) {
			if y < end {
				g.Write(x, y, line, style)
				y++
			}
		}
	}
	if n := a.shown.Next; n != nil {
		say("? "+n.Test+" "+strings.Join(n.Leads, " "), picture.Loud(picture.Strong))
		say(n.How+".", picture.In(picture.Text))
		say("Here "+a.shown.Meant+".", picture.In(picture.Text))
		y++
		at := x
		for i, word := range a.words() {
			mark := fmt.Sprint(i + 1)
			if at+len(mark)+len(word)+3 > x+w {
				at, y = x, y+1
			}
			at = g.Write(at, y, mark, picture.Loud(picture.Current)) + 1
			at = g.Write(at, y, word, picture.In(picture.Text)) + 3
		}
		y++
		if len(a.sitting.Replies()) > 0 { // the answers are below, the last one at least
			end -= 2
		}
		say(n.Why, picture.In(picture.Faint))
		return y
	}
	say("Found: A+ B+ A- B- are "+strings.Join(a.shown.Mappings[0].Order, " "), picture.Loud(picture.Good))
	for _, line := range a.shown.Lines() {
		say("· "+line, picture.In(picture.Text))
	}
	if closing != "" {
		say("· "+closing, picture.In(picture.Text))
	}
	return y
}

// drawReplies lists the answers; one that does not fit is marked.
func (a *shaftAsks) drawReplies(g *picture.Grid, x, y, w, h int) {
	replies := a.sitting.Replies()
	if len(replies) == 0 || h < 2 {
		return
	}
	g.Write(x, y, "answers", picture.In(picture.Faint))
	rows := h - 1
	from := min(max(0, a.at-rows+1), len(replies))
	for i := from; i < min(len(replies), from+rows); i++ {
		at := y + 1 + i - from
		style := picture.In(picture.Text)
		words := replies[i].String()
		for _, c := range a.shown.Contradictions {
			if c.Answer == words {
				words, style = words+"  ! does not fit the others", picture.Loud(picture.Alert)
				break
			}
		}
		if i == a.at {
			g.Set(x-1, at, '›', picture.Loud(picture.Current))
			g.Back(x, at, w, 1, picture.Band)
			style.Back = picture.Band
		}
		g.WriteWithin(x, at, w, words, style)
	}
}

// drawOdds draws the mappings with their odds as bars.
func (a *shaftAsks) drawOdds(g *picture.Grid, x, y, w, h int) {
	g.Write(x, y, "A+ B+ A- B- may be", picture.In(picture.Faint))
	wide := 0
	for _, m := range a.shown.Mappings {
		wide = max(wide, picture.Width(strings.Join(m.Order, " ")))
	}
	room := max(w-wide-9, 4)
	for i, m := range a.shown.Mappings {
		if i+1 >= h {
			g.Write(x, y+i+1, fmt.Sprintf("and %d more", len(a.shown.Mappings)-i), picture.In(picture.Faint))
			return
		}
		at := x
		style := picture.Style{Bold: i == 0}
		for _, lead := range m.Order {
			base, _ := motor.Lead(lead).Colours()
			style.Fore = picture.LeadInk(base.Code)
			at = g.Write(at, y+i+1, lead, style) + 1
		}
		g.Line(x+wide+1, y+i+1, int(m.Odds*float64(room)+0.5), '━', picture.Loud(picture.Current))
		g.Write(x+wide+1+room+1, y+i+1, shortPercent(m.Odds), picture.In(picture.Text))
	}
}
