package view

import (
	"fmt"
	"slices"
	"strings"

	"coilwalk/model/motor"
	"coilwalk/model/wiring"
	"coilwalk/view/keys"
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

func (f *faultScreen) places() []*place {
	p := newPlace("faults", "on Faults",
		deed{"up", "up k", "choose", "choose a fault, or a trial", func(*Explorer) { f.move(-1) }},
		deed{"down", "down j", "choose", "choose a fault, or a trial", func(*Explorer) { f.move(1) }},
		deed{"trials", "right l", "trials", "go to what your motor does", func(*Explorer) { f.mine = true }},
		deed{"list", "left h", "faults", "go to the list of faults", func(*Explorer) { f.mine = false }},
		deed{"do", "enter", "put in", "put the fault in, or take it out; {anywhere.walk} shows what it looks like", f.enterKey},
		deed{"clear", "backspace delete", "clear", "take back what was told of the trial", func(e *Explorer) {
			f.forget(f.trials[f.trial])
			f.judge(e)
		}},
		deed{"mine", "m", "mine does this", "take what the model does with the faults put in for what yours does", f.takeOver},
		deed{"take-out", "x", "take out", "take out every fault", func(e *Explorer) {
			e.bench.Rewire()
			e.turn = turning{}
		}})
	for i, do := range p.do {
		p.do[i] = func(e *Explorer) {
			do(e)
			f.look(e)
		}
	}
	p.drops = func(word string) bool {
		return f.mine && word == "trials" || !f.mine && (word == "list" || word == "clear")
	}
	p.tells = func(b keys.Binding) keys.Binding {
		if f.mine && b.Word == "do" {
			b.Short, b.Says = "does", "tell what yours does: cw, ccw, skips, buzz 2, still, weak, reverses; at 600"
		}
		return b
	}
	return []*place{p}
}

// enterKey puts the chosen fault in or takes it out, or asks what one's own motor
// does in the chosen trial.
func (f *faultScreen) enterKey(e *Explorer) {
	if f.mine {
		f.ask(e)
		return
	}
	e.bench.ToggleFault(f.faults[f.at])
	e.turn = turning{}
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
	f.symptoms = wiring.SymptomsOf(e.bench.Motor(), f.does)
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
	f.drawFaults(e, g, 1, 2, left-1, g.H-4)
	y := f.drawTrials(e, g, left+1, 2, g.W-left-2)
	f.drawRanked(e, g, left+1, y+1, g.W-left-2, g.H-2-y-1)
	words, style := "Slowly (20 rows/s), without load. Supply off before you touch a lead.", picture.In(picture.Faint)
	if g.W >= 110 {
		words += " Per cent: of the places where it may start."
	}
	if e.notice.words != "" {
		words, style = e.said(), picture.Loud(e.notice.ink)
	}
	g.WriteWithin(1, g.H-2, g.W-2, words, style)
}

// drawFaults lists every fault with a mark at those that are put in.
func (f *faultScreen) drawFaults(e *Explorer, g *picture.Grid, x, y, w, h int) {
	g.Write(x, y, "put in a fault", picture.In(picture.Faint))
	m := e.bench.Motor()
	rows := h - 1
	f.from = min(max(f.from, f.at-rows+1), f.at)
	for i := f.from; i < min(len(f.faults), f.from+rows); i++ {
		at := y + 1 + i - f.from
		mark, style := '○', picture.In(picture.Text)
		if e.bench.HasFault(f.faults[i]) {
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
		g.WriteWithin(x+2, at, w-2, brief(f.faults[i].Text(m), w-2), style)
	}
	if more := len(f.faults) - f.from - rows; more > 0 {
		g.WriteEnd(x+w-2, y, fmt.Sprintf("%d more below", more), picture.In(picture.Faint))
	}
}

// drawTrials draws what the model does in each trial, and what was told of one's
// own motor; it gives the line after them.
func (f *faultScreen) drawTrials(e *Explorer, g *picture.Grid, x, y, w int) int {
	g.Write(x, y, "sent", picture.In(picture.Faint))
	mine, model := 14, 26
	if w < 50 { // then a turn is told by its way alone
		mine, model = 13, 23
	}
	g.Write(x+mine, y, "mine does", picture.In(picture.Faint))
	g.Write(x+model, y, "the model does", picture.In(picture.Faint))
	for i, t := range f.trials {
		y++
		style := picture.In(picture.Text)
		if f.mine && i == f.trial {
			g.Set(x-1, y, '›', picture.Loud(picture.Current))
			g.Back(x, y, model-1, 1, picture.Band)
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
		g.WriteWithin(x+mine, y, model-mine-1, words, style)
		does := "running …"
		if f.does != nil {
			does = f.does[i].Text()
		}
		if picture.Width(does) > w-model {
			does = strings.TrimPrefix(does, "turns ")
		}
		g.WriteWithin(x+model, y, w-model, likeliest(does, w-model), picture.In(picture.Faint))
	}
	return y + 1
}
