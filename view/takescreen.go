package view

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"coilwalk/model/handoff"
	"coilwalk/view/picture"
	"coilwalk/view/report"
)

// takeScreen is where what was walked is taken along: a kind of file and how the
// person's board has it, what would be written, and the way to a file or the
// clipboard. Motor, drive and wiring are those of the bench.
type takeScreen struct {
	form[takeSheet]
	sheet takeSheet
	walk  *handoff.Walk
	text  []byte // what is written; nil where err says why not
	err   error

	preview preview
}

func newTakeScreen() *takeScreen {
	t := &takeScreen{}
	t.changed = t.follow
	t.fields = []field[takeSheet]{
		{"kind", strings.Join(kindNames(), ", ") + ":", "c", (*takeSheet).setKind},
		{"step mode", "wave, full, half, or micro and a divisor:", "", (*takeSheet).setMode},
		{"holds", "tables of both directions, or a stepper, which steps by itself (c, cpp):", "tables", (*takeSheet).setHolds},
		{"port", "the register of the outputs as in source, as PORTB:", "", (*takeSheet).setPort},
		{"bits", "the bits of outputs 1 to 4 there, as 0,1,2,3:", "", (*takeSheet).setBits},
		{"pins", "the pin numbers of outputs 1 to 4, as 2,3,4,5:", "", (*takeSheet).setPins},
		{"active", "the level that switches an output on, high or low:", "high", (*takeSheet).setActive},
		{"at rest", "held, or all coils off:", "held", (*takeSheet).setRest},
		{"rate", "rows a second, as 250; with a ramp the rate that it leads to:", "", (*takeSheet).setRate},
		{"ramp", "start rate, and rows/s more each second: 300 2000; or ticks: 20000,15000:", "", (*takeSheet).setRamp},
		{"clock", "of the controller, and cycles to a tick of its timer, as 16MHz 8:", "", (*takeSheet).setClock},
		{"rows", "of a recording (vcd), each way:", "", (*takeSheet).setRows},
	}
	return t
}

// takeWords are what some lines can hold, to go through by a key; for others it
// takes letters.
var takeWords = map[string][]string{
	"kind": kindNames(), "step mode": {"", "wave", "full", "half", "micro 16"}, "holds": {"tables", "stepper"},
	"active": {"high", "low"}, "at rest": {"held", "off"},
}

func kindNames() (names []string) {
	for _, k := range report.Kinds {
		names = append(names, k.Name)
	}
	return names
}

func (t *takeScreen) name() string { return "Take Along" }

// letter is the key that leads here: T leads to Table.
func (t *takeScreen) letter() string { return "A" }

func (t *takeScreen) keys() []hint {
	edit := slices.Clone(formKeys[1:])
	edit[0].long = "edit it; the file follows at each letter"
	return slices.Concat(formKeys[:1], []hint{
		{"←→", "change", "go through the words that the line can hold"},
		{"s", "save", "save the file under a name; one that is there is not replaced"},
		{"c", "copy", "hand the file to the terminal's clipboard; it may refuse that"},
	}, edit, []hint{
		{"pgdn", "", "a screenful on in the file; pgup, one back; home, end: its ends"},
		{"space", "", "stop; always, and only that"},
	})
}

func (t *takeScreen) key(e *Explorer, key string) bool {
	switch key {
	case "right", "l":
		t.turn(e, 1)
	case "left", "h":
		t.turn(e, -1)
	case "s":
		t.askFile(e)
	case "c":
		t.copy(e)
	default:
		return t.preview.scroll(key) || t.form.key(e, key)
	}
	return true
}

// turn goes to the next word that the chosen line can hold, or the one before.
func (t *takeScreen) turn(e *Explorer, by int) {
	words := takeWords[t.fields[t.at].name]
	if words == nil {
		e.notice = advice("enter, and type it")
		return
	}
	n := len(words)
	next := 0
	if at := slices.Index(words, t.fields[t.at].value); at >= 0 {
		next = (at + by + n) % n
	}
	e.notice = notice{}
	if err := t.use(e, words[next]); err != nil {
		e.notice = alarm(err.Error())
	}
}

// enter takes motor, drive, wiring and step mode from the bench as they are now.
func (t *takeScreen) enter(e *Explorer) {
	if err := t.follow(e); err != nil {
		e.notice = alarm(err.Error())
	}
}

// follow reads the fields anew and makes the file that they ask for.
func (t *takeScreen) follow(e *Explorer) error {
	r := e.bench.Read()
	next, err := t.read(takeSheet{mode: e.walked(), board: handoff.Plain, rate: handoff.UsualRate, clockHz: handoff.UsualClock, prescale: handoff.UsualPrescale})
	if err != nil {
		return err
	}
	m := e.bench.Motor()
	m.Drive, m.Wiring = r.Drive, r.Wiring
	walk, err := next.walk(m)
	if err != nil {
		return err
	}
	before := t.sheet.kind.Name
	t.sheet, t.walk = next, walk
	t.hints(e, r.Table)
	t.make()
	if before != next.kind.Name {
		t.preview.top = 0
	}
	return nil
}

// hints says what counts for lines that are empty.
func (t *takeScreen) hints(e *Explorer, table bool) {
	t.unset("step mode", e.walked().Name+", as on Walk")
	if table {
		t.unset("step mode", e.walked().Name+"; a table has none")
	}
	for name, words := range map[string]string{"kind": "c", "holds": "tables", "port": "not said", "bits": "0,1,2,3", "active": "high", "at rest": "held"} {
		t.unset(name, words)
	}
	t.unset("pins", "not said")
	t.unset("rate", report.Fixed(handoff.UsualRate, 0)+" rows a second")
	if t.sheet.ticks != nil {
		t.unset("rate", "as the ramp ends")
	}
	t.unset("ramp", "none; all rows alike")
	t.unset("clock", "16MHz 8")
	t.unset("rows", fmt.Sprintf("%d each way, in vcd", t.walk.Rows))
	if t.sheet.kind.Name != handoff.Bench {
		return
	}
	for _, name := range []string{"step mode", "holds", "at rest", "rate", "ramp", "rows"} {
		t.unset(name, "told on the serial line")
	}
	if b, err := t.walk.Board.Bench(); err == nil {
		t.unset("port", b.Port)
		t.unset("pins", strings.Trim(strings.ReplaceAll(fmt.Sprint(b.Pins), " ", ","), "[]")+" as usual")
	}
}

// make makes the file and its preview.
func (t *takeScreen) make() {
	t.text, t.err = nil, t.sheet.misses()
	if t.err == nil {
		t.text, t.err = report.Made(t.sheet.kind, t.walk, "")
	}
	switch {
	case t.err != nil:
		t.preview.show("", "")
	case report.Drawn(t.sheet.kind):
		t.preview.showCard(report.NewCard(t.walk))
	default:
		t.preview.show(string(t.text), t.sheet.kind.Name)
	}
}

// askFile asks for a name, and writes the file there.
func (t *takeScreen) askFile(e *Explorer) {
	if t.err != nil {
		e.notice = alarm("there is no file to save: " + t.err.Error())
		return
	}
	kind, walk := t.sheet.kind, t.walk
	asks := "save it to which file?"
	if report.Drawn(kind) {
		asks = "save it to which file? " + strings.Join(picture.CardEndings, ", ") + " say how it is drawn"
	}
	e.asks(asks, fileName(walk.Motor.Name, kind.Ending), func(name string) error {
		name = strings.TrimSpace(name)
		if name == "" {
			return errors.New("the name of a file is wanted")
		}
		text, err := report.Made(kind, walk, name)
		if err != nil {
			return err
		}
		if err := writeNew(name, text); err != nil {
			return err
		}
		words, _, _ := strings.Cut(report.NewWritten(kind, walk, name, false, text).Text(), "\n")
		e.notice = advice(words)
		return nil
	})
}
