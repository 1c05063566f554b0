package view

import (
	"fmt"
	"slices"
	"strings"

	"coilwalk/model/motor"
	"coilwalk/model/wiring"
	"coilwalk/view/picture"
)

// faultScreen is the fault bench: faults to put in, what the motor does with
// them, what one's own motor does, and what explains that.
type faultScreen struct {
	faults   []wiring.Fault
	trials   []wiring.Trial
	at, from int  // the fault at the cursor, and the first that is shown
	mine     bool // the cursor is among the trials
	trial    int
	symptoms []wiring.Symptom

	slowly   *wiring.Slowly     // of the motor in its present drive
	suspects *wiring.Suspects   // likewise; nil until it was made once
	does     []wiring.Behaviour // with what is put in; nil while that is run
	put      string             // what is put in, as does has it or will have it
	takes    bool               // does is taken over when it comes
	judged   *wiring.Judged
	asked    int // how often it was judged: an answer to an older question is dropped
	waits    bool
}

// faultsMsg is what was judged beside the screen.
type faultsMsg struct {
	screen   *faultScreen
	asked    int
	judged   wiring.Judged
	suspects *wiring.Suspects
}

func (msg faultsMsg) arrive(*Explorer) {
	f := msg.screen
	if msg.asked == f.asked {
		f.judged, f.waits, f.suspects = &msg.judged, false, msg.suspects
	}
}

// doesMsg is what a motor does with some faults, run beside the screen.
type doesMsg struct {
	screen *faultScreen
	put    string
	does   []wiring.Behaviour
}

func (msg doesMsg) arrive(e *Explorer) {
	f := msg.screen
	if msg.put != f.put {
		return
	}
	if f.does = msg.does; f.takes {
		f.takes = false
		f.takeOver(e)
	}
}

// judge weighs the symptoms beside the screen: a rate is run in time, and that
// takes a while.
func (f *faultScreen) judge(e *Explorer) {
	f.judged, f.waits = nil, len(f.symptoms) > 0
	f.asked++
	if !f.waits {
		return
	}
	asked, symptoms, m, known := f.asked, slices.Clone(f.symptoms), driven(e), f.suspects
	e.later(func() late {
		if known == nil {
			known = wiring.NewSuspects(m)
		}
		return faultsMsg{f, asked, known.Judge(symptoms), known}
	})
}

// driven gives the motor in the drive that the bench has.
func driven(e *Explorer) motor.Motor {
	m := e.bench.Motor()
	m.Drive = e.bench.Read().Drive
	return m
}

// busy says whether something is run or weighed beside the screen.
func (f *faultScreen) busy() bool { return f.waits || f.does == nil }

// enter runs what the motor does as it is on the bench now.
func (f *faultScreen) enter(e *Explorer) { f.look(e) }

func newFaultScreen() *faultScreen { return &faultScreen{trials: wiring.Trials()} }

func (f *faultScreen) name() string { return "Faults" }

func (f *faultScreen) keys() []hint {
	if f.mine {
		return []hint{
			{"↑↓", "choose", "choose a trial"},
			{"←", "faults", "go to the list of faults"},
			{"enter", "does", "tell what yours does: cw, ccw, skips, buzz 2, still, weak, reverses; at 600"},
			{"⌫", "clear", "take that back"},
			{"m", "mine does this", "take what the model does with the faults put in for what yours does"},
			{"x", "take out", "take out every fault"},
			{"space", "", "stop; always, and only that"},
		}
	}
	return []hint{
		{"↑↓", "choose", "choose a fault"},
		{"→", "trials", "go to what your motor does"},
		{"enter", "put in", "put the fault in, or take it out; W shows what it looks like"},
		{"m", "mine does this", "take what the model does with the faults put in for what yours does"},
		{"x", "take out", "take out every fault"},
		{"space", "", "stop; always, and only that"},
	}
}

func (f *faultScreen) key(e *Explorer, key string) bool {
	defer f.look(e)
	switch key {
	case "up", "k":
		f.move(-1)
	case "down", "j":
		f.move(1)
	case "right", "l":
		f.mine = true
	case "left", "h":
		f.mine = false
	case "enter":
		if f.mine {
			f.ask(e)
		} else {
			e.bench.ToggleFault(f.faults[f.at])
			e.turn = turning{}
		}
	case "backspace", "delete":
		if f.mine {
			f.forget(f.trials[f.trial])
			f.judge(e)
		}
	case "m":
		f.takeOver(e)
	case "x":
		e.bench.Rewire()
		e.turn = turning{}
	default:
		return false
	}
	return true
}

func (f *faultScreen) move(by int) {
	if f.mine {
		f.trial = min(max(f.trial+by, 0), len(f.trials)-1)
		return
	}
	f.at = min(max(f.at+by, 0), len(f.faults)-1)
}

// ask asks what the person's own motor does in the chosen trial.
func (f *faultScreen) ask(e *Explorer) {
	t := f.trials[f.trial]
	e.asks(fmt.Sprintf("%s: cw ccw skips buzz still weak reverses unsure (at 600):", t), "", func(text string) error {
		if strings.TrimSpace(text) == "" {
			f.forget(t)
			f.judge(e)
			return nil
		}
		s, err := wiring.ParseSymptom(t.String() + " " + text)
		if err != nil {
			return err
		}
		f.forget(t)
		f.symptoms = append(f.symptoms, s)
		f.trial = min(f.trial+1, len(f.trials)-1)
		f.judge(e)
		return nil
	})
}

// forget takes back what was told of a trial.
func (f *faultScreen) forget(t wiring.Trial) {
	f.symptoms = slices.DeleteFunc(slices.Clone(f.symptoms), func(s wiring.Symptom) bool { return sameTrial(s.Trial, t) })
}

// sameTrial compares trials but for their rate.
func sameTrial(a, b wiring.Trial) bool { return a.Mode.Name == b.Mode.Name && a.Way == b.Way }

// takeOver takes what the model does for what one's own motor does.
func (f *faultScreen) takeOver(e *Explorer) {
	if f.does == nil {
		f.takes = true
		return
	}
	f.symptoms = nil
	for i, t := range f.trials {
		s := wiring.Symptom{Trial: t, Seen: wiring.Seen(f.does[i].SeenIn(i, len(f.trials)))}
		if s.Seen == wiring.Seen(wiring.Buzzes) && !e.bench.Motor().Train.Geared() {
			s.Places = f.does[i].Places
		}
		f.symptoms = append(f.symptoms, s)
	}
	f.judge(e)
}

// seen gives what was told of a trial.
func (f *faultScreen) seen(t wiring.Trial) (s wiring.Symptom, ok bool) {
	i := slices.IndexFunc(f.symptoms, func(s wiring.Symptom) bool { return sameTrial(s.Trial, t) })
	if i < 0 {
		return s, false
	}
	return f.symptoms[i], true
}

// look runs what is not up to date beside the screen. Leads that were swapped on
// Walk are swapped here too.
func (f *faultScreen) look(e *Explorer) {
	m, r := driven(e), e.bench.Read()
	if f.slowly == nil || f.slowly.Motor().Drive != m.Drive {
		f.slowly, f.suspects, f.put = wiring.NewSlowly(m), nil, ""
		f.faults = wiring.Faults(m)
		f.at = min(f.at, len(f.faults)-1)
	}
	put := fmt.Sprint(m.Drive, r.Wiring, r.Faults)
	if put == f.put {
		return
	}
	f.put, f.does = put, nil
	slowly := f.slowly
	e.later(func() late {
		msg := doesMsg{screen: f, put: put}
		for _, t := range f.trials {
			msg.does = append(msg.does, slowly.Behave(r.Wiring, r.Faults, t))
		}
		return msg
	})
}

func (f *faultScreen) draw(e *Explorer, g *picture.Grid) {
	left := min(max(g.W*2/5, 34), 62)
	f.drawFaults(e, g, 1, 2, left-2, g.H-4)
	y := f.drawTrials(e, g, left+1, 2, g.W-left-2)
	f.drawRanked(g, left+1, y+1, g.W-left-2, g.H-2-y-1)
	words, style := "Slowly (20 rows/s), without load. Supply off before you touch a lead.", picture.In(picture.Faint)
	if e.notice.words != "" {
		words, style = e.notice.words, picture.Loud(e.notice.ink)
	}
	g.WriteWithin(1, g.H-2, g.W-2, words, style)
}

// drawFaults lists every fault with a mark at those that are put in.
func (f *faultScreen) drawFaults(e *Explorer, g *picture.Grid, x, y, w, h int) {
	g.Write(x, y, "put in a fault", picture.In(picture.Faint))
	in := e.bench.Read().Faults
	m := e.bench.Motor()
	rows := h - 1
	f.from = min(max(f.from, f.at-rows+1), f.at)
	for i := f.from; i < min(len(f.faults), f.from+rows); i++ {
		at := y + 1 + i - f.from
		mark, style := '○', picture.In(picture.Text)
		if slices.Contains(in, f.faults[i]) {
			mark, style = '●', picture.Loud(picture.Alert)
		}
		if i == f.at {
			if !f.mine {
				g.Set(x-1, at, '›', picture.Loud(picture.Current))
			}
			g.Back(x, at, w, 1, picture.Band)
			style.Back = picture.Band
		}
		g.Set(x, at, mark, style)
		g.WriteWithin(x+2, at, w-2, f.faults[i].Text(m), style)
	}
	if more := len(f.faults) - f.from - rows; more > 0 {
		g.WriteEnd(x+w, y, fmt.Sprintf("%d more below", more), picture.In(picture.Faint))
	}
}

// drawTrials draws what the model does in each trial, and what was told of one's
// own motor; it gives the line after them.
func (f *faultScreen) drawTrials(e *Explorer, g *picture.Grid, x, y, w int) int {
	g.Write(x, y, "sent", picture.In(picture.Faint))
	g.Write(x+14, y, "mine does", picture.In(picture.Faint))
	g.Write(x+26, y, "the model does", picture.In(picture.Faint))
	for i, t := range f.trials {
		y++
		style := picture.In(picture.Text)
		if f.mine && i == f.trial {
			g.Set(x-1, y, '›', picture.Loud(picture.Current))
			g.Back(x, y, 25, 1, picture.Band)
			style = picture.Style{Fore: picture.Strong, Back: picture.Band, Bold: true}
		}
		g.Write(x, y, t.String(), style)
		words := "·"
		if s, ok := f.seen(t); ok {
			words = string(s.Seen)
			if s.Places > 0 {
				words += fmt.Sprintf(" %d", s.Places)
			}
			if s.Rate > 0 {
				words += fmt.Sprintf(" @%g", s.Rate)
			}
		}
		g.Write(x+14, y, words, style)
		does := "running …"
		if f.does != nil {
			does = f.does[i].Text()
		}
		g.WriteWithin(x+26, y, w-26, does, picture.In(picture.Faint))
	}
	return y + 1
}

// drawRanked draws what explains what was told.
func (f *faultScreen) drawRanked(g *picture.Grid, x, y, w, h int) {
	end := y + h
	say := func(indent int, words string, style picture.Style) {
		for _, line := range wrap(words, w-indent) {
			if y < end {
				g.Write(x+indent, y, line, style)
			}
			y++
		}
	}
	if f.waits {
		say(0, "weighing every fault …", picture.In(picture.Faint))
		return
	}
	if f.judged == nil {
		say(0, "Put a fault in and look at it on Walk (W). Or tell what your own motor does: → and enter; m takes it from the model.", picture.In(picture.Text))
		return
	}
	say(0, "what explains it", picture.In(picture.Faint))
	for i, d := range f.judged.Ranked {
		if d.Odds < 0.02 && i > 0 || y >= end-2 {
			break
		}
		style := picture.In(picture.Text)
		if i == 0 {
			style = picture.Loud(picture.Strong)
		}
		g.Write(x, y, shortPercent(d.Odds), style)
		say(8, d.Text, style)
		if i == 0 && d.Cure != "" {
			say(8, "cure: "+d.Cure, picture.In(picture.Good))
		}
	}
	if n := f.judged.Next; n != nil && y < end {
		words := "to decide: " + n.Why
		if !n.ByHand {
			words = "try next, slowly: " + n.Trial.String()
		}
		say(0, words, picture.Loud(picture.Good))
	}
}
