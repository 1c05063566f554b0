package view

import (
	"fmt"
	"slices"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"coilwalk/model/bench"
	"coilwalk/model/live"
	"coilwalk/model/wiring"
	"coilwalk/view/action"
	"coilwalk/view/hold"
	"coilwalk/view/keys"
	"coilwalk/view/opened"
	"coilwalk/view/picture"
	"coilwalk/view/report"
	"coilwalk/view/sheet"
)

// screen is one side from which the bench is shown.
type screen interface {
	name() string
	// places are the places of its keys; they are asked for once.
	places() []*place
	draw(e *Explorer, g *picture.Grid)
}

// notice is a sentence that stands in place of what happened last: what went
// wrong, or what helps on. Keys stand in it by what they do: {walk.next}.
type notice struct {
	words string
	ink   picture.Ink
}

func alarm(words string) notice  { return notice{words, picture.Alert} }
func advice(words string) notice { return notice{words, picture.Good} }

// Explorer is the whole program on the screen: a Bubble Tea model.
type Explorer struct {
	Settings
	bench    *bench.Bench
	screens  []screen
	places   [][]*place // of each screen
	every    []*place   // all of them, and those of everywhere
	at       int
	help     bool
	helpPage int       // from 0
	page     *wordPage // a word that is explained; nil for none
	ask      *prompt
	notice   notice
	driven   sheet.Shared // by what the motor is: once for Rates and Power
	details  []string     // of the motor, for the head

	pending   []tea.Cmd // to be run beside the screen
	leaving   bool      // a key that leaves was pressed
	hinted    []hint    // the keys of the screen that is shown; nil when they are to be found anew
	generally []hint    // the keys that work on every screen

	slowed slowed
	live   *grip // of a real motor; nil without one

	turn  turning
	last  time.Time // when time was last handed to the bench
	frame int       // the picture that is waited for; others are stale
	wait  bool      // one is waited for

	held  bool      // the last picture stays as it is: nothing is to move
	drawn time.Time // when it was drawn

	grid  picture.Grid
	shown string // the last picture
}

// Opened is what was opened with the explorer, besides a motor.
type Opened struct {
	Checked  *opened.Table // a table, which has a screen of its own
	Readings []wiring.Reading
	Recorded *opened.Recording // a recording, likewise
	Live     *Live             // a real motor
}

// Live is a real motor that the explorer is bound to.
type Live struct {
	Motor  *live.Motor
	Record hold.Record // of the sitting; nil without one
}

// New makes an explorer on a bench.
func New(b *bench.Bench, s Settings, is Opened) *Explorer {
	if s.Now == nil {
		s.Now = time.Now
	}
	if s.Theme == nil {
		s.Theme = picture.Dark
	}
	e := &Explorer{Settings: s, bench: b}
	e.screens = standing(b.Motor())
	w := screenOf[*walk](e)
	w.live = is.Live != nil
	e.notice = advice("press {walk.next} for the next row, {walk.back} to go back, {anywhere.help} for all keys; in trouble, {anywhere.trouble}")
	if is.Checked != nil {
		e.screens = append(e.screens, &tableScreen{Table: is.Checked})
		e.notice = tableNotice(is.Checked)
	}
	if is.Readings != nil {
		leads := screenOf[*leadsScreen](e)
		leads.open(is.Readings)
		e.at, e.notice = e.screenAt(way(leads)), notice{}
	}
	if is.Recorded != nil {
		r := newRecordingScreen(*is.Recorded)
		e.screens = append(e.screens, r)
		e.at, e.notice = len(e.screens)-1, notice{}
		r.begin(e)
	}
	if is.Live != nil {
		e.live = newGrip(e, *is.Live)
		e.notice = advice("nothing is on: {live.arm} arms it, {anywhere.help} shows all keys")
	}
	e.grid.ASCII = s.ASCII
	e.takeKeys()
	if s.Tour {
		w.beginTour(e)
	}
	if s.Notice != "" {
		e.notice = alarm(s.Notice)
	}
	e.describe()
	return e
}

// describe puts the motor into a few words for the head.
func (e *Explorer) describe() {
	m := e.bench.Motor()
	e.details = []string{fmt.Sprintf("%d leads", len(m.Leads())), fmt.Sprintf("%d steps a turn", 4*m.PolePairs)}
	if m.Train.Geared() {
		e.details = append(e.details, "train "+report.Ratio(m.Train))
	}
}

// Init starts what is to be read beside the screen; nothing moves until a key is
// pressed.
func (e *Explorer) Init() tea.Cmd { return e.next() }

// Update takes one message and says what to wait for next.
func (e *Explorer) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	var hinted []hint
	e.held = false
	switch msg := msg.(type) {
	case tea.WindowSizeMsg:
		e.grid.Resize(msg.Width, msg.Height)
	case tea.KeyMsg:
		for _, key := range typed(msg) {
			if quit := e.press(key); quit {
				e.bench.Stop()
				if e.live != nil {
					e.live.Off()
				}
				return e, tea.Quit
			}
		}
	case Stirred:
		if e.live != nil {
			e.live.Sync()
			e.hold(e.live.State.Running)
		}
	case late:
		msg.arrive(e)
	case frameMsg:
		if !e.busy() {
			hinted = e.hinted // a picture of what moves changes no key
		}
		e.wait = e.wait && int(msg) != e.frame
		if int(msg) == e.frame {
			e.pass()
		}
		e.hold(e.bench.Running())
	}
	if s, ok := e.screens[e.at].(interface{ watch(e *Explorer) }); ok {
		s.watch(e)
	}
	e.hinted = hinted
	return e, e.next()
}

// typed parts letters that came at once, as from a quick hand or a script, into
// the keys that they are. A paste stays whole.
func typed(msg tea.KeyMsg) []tea.KeyMsg {
	if msg.Type != tea.KeyRunes || msg.Paste || len(msg.Runes) < 2 {
		return []tea.KeyMsg{msg}
	}
	keys := make([]tea.KeyMsg, len(msg.Runes))
	for i, r := range msg.Runes {
		keys[i] = tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{r}, Alt: msg.Alt}
	}
	return keys
}

// press takes a key, and says whether to leave.
func (e *Explorer) press(msg tea.KeyMsg) (quit bool) {
	key := keys.Of(msg.String())
	if key == "ctrl+c" {
		return true
	}
	if e.bench.Timed() && e.bench.Running() {
		defer e.tellRun(e.bench.Read())
	}
	if e.live != nil {
		if key == keys.Space || key == "ctrl+z" {
			e.live.Off()
		}
		e.live.Motor.Touch()
	}
	if key == keys.Space { // whatever else is on the screen: a frightened hand may press it twice
		before := e.bench.Read()
		e.bench.Stop()
		if before.Timed {
			e.follow(before)
		}
	}
	switch {
	case e.ask != nil:
		e.answer(msg)
	case (e.help || e.page != nil) && slices.Contains(e.anywhere().Of("explain"), key):
		e.askWord()
	case e.page != nil:
		e.page = nil
	case e.help && e.turnsHelp(key):
	case e.help:
		e.help = false
	case msg.Paste:
		e.notice = alarm("a table comes in by file: coilwalk FILE")
	case e.anywhere().press(e, key):
	default:
		for _, p := range e.atWork() {
			if p.press(e, key) {
				break
			}
		}
	}
	return e.leaving
}

// tellRun says what a run lost, once it has been stopped: at rest nothing shows
// of it.
func (e *Explorer) tellRun(before bench.Reading) {
	if e.bench.Running() || before.InTime.Lost == 0 || e.ask != nil {
		return
	}
	says := "; {anywhere.rates} tells rates"
	if before.Rewired || len(before.Faults) > 0 { // no rate is to blame for that
		says = ", wired as it is; {anywhere.faults} tells what a fault does"
	}
	e.notice = alarm(report.Ran(before) + says)
}

// show goes to a screen.
func (e *Explorer) show(at int) {
	e.hinted = nil
	if e.live != nil && e.at != at {
		e.live.EndTest()
	}
	if e.at != at {
		if s, ok := e.screens[e.at].(interface{ leave(e *Explorer) }); ok {
			s.leave(e)
		}
		e.at, e.notice = at, notice{}
	}
	if s, ok := e.screens[at].(interface{ enter(e *Explorer) }); ok {
		s.enter(e)
	}
}

func (e *Explorer) otherTheme() {
	if e.Theme == picture.Dark {
		e.Theme = picture.Light
	} else {
		e.Theme = picture.Dark
	}
}

// act carries out an action, and says so when it could not.
func (e *Explorer) act(a action.Action, args []string) {
	if err := e.try(a, args); err != nil {
		e.notice = alarm(err.Error())
	}
}

func (e *Explorer) try(a action.Action, args []string) error {
	if e.live != nil && a.Word == "stop" {
		return nil // the space bar has done it, and what it said stays
	}
	e.notice = notice{}
	if e.live != nil {
		return e.live.Try(a, args)
	}
	before := e.bench.Read()
	if err := a.Do(e.bench, args); err != nil {
		return err
	}
	if a.Word == "run" && e.bench.Running() {
		e.last = e.Now()
		if why := e.bench.Read().Untimed; why != nil {
			e.notice = advice("from rest to rest: " + why.Error())
		}
	}
	if words := report.Changed(e.bench); a.Word == "mode" && words != "" && !e.bench.Running() {
		e.notice = advice(words)
	}
	e.follow(before)
	return nil
}

// follow sets the picture turning from where the rotor was to where it is.
func (e *Explorer) follow(before bench.Reading) {
	now := e.bench.Read()
	if now.Timed { // it is where it moves to by itself
		e.turn = turning{}
		return
	}
	from, wasKnown := before.Where.Known()
	to, isKnown := now.Where.Known()
	if !wasKnown || !isKnown || e.Still {
		e.turn = turning{}
		return
	}
	if e.play(before, now) {
		return
	}
	e.turn.add(to.From(from), e.Now(), e.easeTime())
}

func (e *Explorer) easeTime() time.Duration {
	if !e.bench.Running() {
		return easeTime
	}
	return min(easeTime, time.Duration(easeShare/e.bench.Rate()*float64(time.Second)))
}

// View draws the whole screen: as many lines as it has, none too many. While the
// terminal has not got all of the last picture there is no other; Sent asks again.
func (e *Explorer) View() string {
	if out, ok := e.Terminal.(interface{ Behind() bool }); (!ok || e.shown == "" || !out.Behind()) && !e.held {
		e.shown, e.drawn = e.picture(), e.Now()
	}
	return e.shown
}

func (e *Explorer) picture() string {
	g := &e.grid
	if g.W == 0 || g.H == 0 {
		return ""
	}
	g.Resize(g.W, g.H)
	switch {
	case g.W < minWidth || g.H < minHeight:
		e.drawTooSmall(g)
	case e.page != nil || e.help:
		if e.page != nil {
			e.drawPage(g)
		} else {
			e.drawHelp(g)
		}
		if e.ask != nil {
			e.drawAsk(g)
		}
	default:
		e.drawHead(g)
		e.screens[e.at].draw(e, g)
		e.drawFoot(g)
	}
	return g.Text(e.Theme, e.Depth)
}

func (e *Explorer) drawTooSmall(g *picture.Grid) {
	for y, words := range []string{"coilwalk needs", fmt.Sprintf("%d x %d cells;", minWidth, minHeight),
		fmt.Sprintf("here are %d x %d", g.W, g.H), e.keyed("{anywhere.quit} leaves")} {
		g.WriteWithin(0, y, g.W, words, picture.In(picture.Text))
	}
}
