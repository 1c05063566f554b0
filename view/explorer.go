package view

import (
	"fmt"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"coilwalk/model/bench"
	"coilwalk/model/live"
	"coilwalk/model/wiring"
	"coilwalk/view/action"
	"coilwalk/view/picture"
	"coilwalk/view/report"
)

// screen is one side from which the bench is shown.
type screen interface {
	// name is also the way there: its first letter, a capital.
	name() string
	// key is called for a key that is no general one; true says that it meant
	// something here.
	key(e *Explorer, key string) bool
	draw(e *Explorer, g *picture.Grid)
	// keys lists what can be pressed here, the most needed first.
	keys() []hint
}

// notice is a sentence that stands in place of what happened last: what went
// wrong, or what helps on.
type notice struct {
	words string
	ink   picture.Ink
}

func alarm(words string) notice  { return notice{words, picture.Alert} }
func advice(words string) notice { return notice{words, picture.Good} }

// hint is a key and what it does.
type hint struct{ key, says, long string }

// Explorer is the whole program on the screen: a Bubble Tea model.
type Explorer struct {
	Settings
	bench   *bench.Bench
	actions []action.Action
	screens []screen
	at      int
	help    bool
	ask     *prompt
	notice  notice
	details []string // of the motor, for the head

	everywhere []hint    // the keys that work on every screen
	pending    []tea.Cmd // to be run beside the screen

	slowed slowed
	live   *grip // of a real motor; nil without one

	turn  turning
	last  time.Time // when time was last handed to the bench
	frame int       // the picture that is waited for; others are stale
	wait  bool      // one is waited for

	grid picture.Grid
}

// Opened is what was opened with the explorer, besides a motor.
type Opened struct {
	Checked  *Checked // a table, which has a screen of its own
	Readings []wiring.Reading
	Recorded *Recorded // a recording, likewise
	Live     *Live     // a real motor
}

// Live is a real motor that the explorer is bound to.
type Live struct {
	Motor *live.Motor
	Note  func(string) // puts a word into the record of the sitting; nil without one
}

// New makes an explorer on a bench.
func New(b *bench.Bench, s Settings, opened Opened) *Explorer {
	if s.Now == nil {
		s.Now = time.Now
	}
	if s.Theme == nil {
		s.Theme = picture.Dark
	}
	e := &Explorer{Settings: s, bench: b, actions: action.All()}
	leads := newLeadsScreen(b.Motor())
	e.screens = []screen{&walk{live: opened.Live != nil}, leads, newFaultScreen(), newShaftScreen(b.Motor()), newRatesScreen(b.Motor()), newPowerScreen(b.Motor()), newTakeScreen()}
	e.notice = advice("press → for the next row, ← for the one before, ? for all keys")
	if s.ASCII {
		e.notice = advice("press right for the next row, left for the one before, ? for all keys")
	}
	if opened.Checked != nil {
		e.screens = append(e.screens, &tableScreen{Checked: *opened.Checked})
		e.notice = opened.Checked.notice()
	}
	if opened.Readings != nil {
		leads.open(opened.Readings)
		e.at, e.notice = 1, notice{}
	}
	if opened.Recorded != nil {
		r := newRecordingScreen(*opened.Recorded)
		e.screens = append(e.screens, r)
		e.at, e.notice = len(e.screens)-1, notice{}
		r.begin(e)
	}
	if opened.Live != nil {
		e.live = newGrip(e, *opened.Live)
		e.notice = advice("nothing is on: a arms it, ? shows all keys")
	}
	e.grid.ASCII = s.ASCII
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
	switch msg := msg.(type) {
	case tea.WindowSizeMsg:
		e.grid.Resize(msg.Width, msg.Height)
	case tea.KeyMsg:
		for _, key := range typed(msg) {
			if quit := e.press(key); quit {
				e.bench.Stop()
				if e.live != nil {
					e.live.off(e)
				}
				return e, tea.Quit
			}
		}
	case Stirred:
		if e.live != nil {
			e.live.sync(e)
		}
	case late:
		msg.arrive(e)
	case frameMsg:
		e.wait = e.wait && int(msg) != e.frame
		if int(msg) == e.frame {
			e.pass()
		}
	}
	return e, e.next()
}

// late is what something that ran beside the screen came to.
type late interface{ arrive(e *Explorer) }

// later runs something beside the screen; its message is a late one. A fault of
// ours in it is brought here, where the terminal is put back for it.
func (e *Explorer) later(run func() late) {
	e.pending = append(e.pending, func() (msg tea.Msg) {
		defer func() {
			if r := recover(); r != nil {
				msg = broken{r}
			}
		}()
		return run()
	})
}

// broken is a fault of ours beside the screen.
type broken struct{ what any }

func (b broken) arrive(*Explorer) { panic(b.what) }

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
	key := msg.String()
	if key == "ctrl+c" {
		return true
	}
	if e.bench.Timed() && e.bench.Running() {
		defer e.tellRun(e.bench.Read())
	}
	if e.live != nil {
		if key == " " || key == "ctrl+z" {
			e.live.off(e)
		}
		e.live.motor.Touch()
	}
	if key == " " { // whatever else is on the screen: a frightened hand may press it twice
		before := e.bench.Read()
		e.bench.Stop()
		if before.Timed {
			e.follow(before)
		}
	}
	switch {
	case e.ask != nil:
		e.answer(msg)
	case e.help:
		e.help = false
	case msg.Paste:
		e.notice = alarm("a table comes in by file: coilwalk FILE")
	case key == "q":
		return true
	case key == "?":
		e.help = true
	case key == "tab":
		e.show((e.at + 1) % len(e.screens))
	case key == "shift+tab":
		e.show((e.at + len(e.screens) - 1) % len(e.screens))
	case key == "t":
		e.otherTheme()
	default:
		for i, s := range e.screens {
			if key == initial(s) {
				e.show(i)
				return false
			}
		}
		e.screens[e.at].key(e, key)
	}
	return false
}

// tellRun says what a run lost, once it has been stopped: at rest nothing shows
// of it.
func (e *Explorer) tellRun(before bench.Reading) {
	if e.bench.Running() || before.InTime.Lost == 0 || e.ask != nil {
		return
	}
	e.notice = alarm(report.Ran(before))
}

// show goes to a screen.
func (e *Explorer) show(at int) {
	if e.at != at {
		e.at, e.notice = at, notice{}
	}
	if s, ok := e.screens[at].(interface{ enter(e *Explorer) }); ok {
		s.enter(e)
	}
}

// initial is the key that leads to a screen from any other: the capital of its
// name, or of a letter within it.
func initial(s screen) string {
	if l, ok := s.(interface{ letter() string }); ok {
		return l.letter()
	}
	return s.name()[:1]
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
		return e.live.try(e, a, args)
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

// View draws the whole screen: as many lines as it has, none too many.
func (e *Explorer) View() string {
	g := &e.grid
	if g.W == 0 || g.H == 0 {
		return ""
	}
	g.Resize(g.W, g.H)
	switch {
	case g.W < minWidth || g.H < minHeight:
		e.drawTooSmall(g)
	case e.help:
		e.drawHelp(g)
	default:
		e.drawHead(g)
		e.screens[e.at].draw(e, g)
		e.drawFoot(g)
	}
	return g.Text(e.Theme, e.Depth)
}

func (e *Explorer) drawTooSmall(g *picture.Grid) {
	for y, words := range []string{"coilwalk needs", fmt.Sprintf("%d x %d cells;", minWidth, minHeight),
		fmt.Sprintf("here are %d x %d", g.W, g.H), "q leaves"} {
		g.WriteWithin(0, y, g.W, words, picture.In(picture.Text))
	}
}
