package view

import (
	"errors"
	"fmt"
	"strings"

	"coilwalk/model/handoff"
	"coilwalk/view/picture"
	"coilwalk/view/report"
	"coilwalk/view/sheet"
)

// takeScreen is where what was walked is taken along: a kind of file and how the
// person's board has it, what would be written, and the way to a file or the
// clipboard. Motor, drive and wiring are those of the bench.
type takeScreen struct {
	form[sheet.Take]
	sheet sheet.Take
	walk  *handoff.Walk
	text  []byte // what is written; nil where err says why not
	err   error

	preview preview
}

func newTakeScreen() *takeScreen {
	t := &takeScreen{}
	t.changed, t.fields = t.follow, sheet.TakeLines()
	return t
}

func (t *takeScreen) name() string { return "Take Along" }

// letter is the key that leads here: T leads to Table.
func (t *takeScreen) letter() string { return "A" }

func (t *takeScreen) places() []*place {
	own := newPlace("take-along", "on Take Along", append(t.turns(func(_ *Explorer, line string) []string { return sheet.TakeWords(line) }),
		deed{"save", "s", "save", "save the file under a name; one that is there is not replaced", t.askFile},
		deed{"copy", "c", "copy", "hand the file to the terminal's clipboard; it may refuse that", t.copy},
		deed{"page-up", "pgup", "", "a screenful back or on in the file", func(*Explorer) { t.preview.page(-1) }},
		deed{"page-down", "pgdown", "", "a screenful back or on in the file", func(*Explorer) { t.preview.page(1) }},
		deed{"top", "home", "", "to the ends of the file", func(*Explorer) { t.preview.top = 0 }},
		deed{"bottom", "end", "", "to the ends of the file", func(*Explorer) { t.preview.bottom() }})...)
	own.With = []string{"lines"}
	return []*place{own, t.form.place()}
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
	next, err := sheet.Read(t.fields, sheet.NewTake(e.walked(), e.opened()))
	if err != nil {
		return err
	}
	m := e.bench.Motor()
	m.Drive, m.Wiring = r.Drive, r.Wiring
	walk, err := next.Walk(m)
	if err != nil {
		return err
	}
	if driven, err := e.driven.Drives(m); err == nil { // else it is told where it is set
		walk.Driven = &driven
	}
	before := t.sheet.Kind.Name
	t.sheet, t.walk = next, walk
	t.hints(e)
	t.make()
	if before != next.Kind.Name {
		t.preview.top = 0
	}
	return nil
}

// hints says what counts for lines that are empty.
func (t *takeScreen) hints(e *Explorer) {
	t.unset("step mode", sheet.WalkedHere(e.bench))
	for name, words := range map[string]string{"kind": "c", "holds": "tables", "port": "not said", "bits": sheet.BitsWords(e.opened()), "active": sheet.ActiveWord(e.opened()), "at rest": "held"} {
		t.unset(name, words)
	}
	t.unset("pins", "not said")
	t.unset("rate", report.Fixed(handoff.UsualRate, 0)+" rows a second")
	if t.sheet.Ticks != nil {
		t.unset("rate", "as the ramp ends")
	}
	t.unset("ramp", "none; all rows alike")
	t.unset("clock", "16MHz 8")
	t.unset("rows", fmt.Sprintf("%d each way, in vcd", t.walk.Rows))
	if t.sheet.Kind.Name != handoff.Bench {
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
	t.text, t.err = nil, t.sheet.Misses()
	if t.err == nil {
		t.text, t.err = report.Made(t.sheet.Kind, t.walk, "")
	}
	switch {
	case t.err != nil:
		t.preview.show("", "")
	case report.Drawn(t.sheet.Kind):
		t.preview.showCard(report.NewCard(t.walk))
	default:
		t.preview.show(string(t.text), t.sheet.Kind.Name)
	}
}

// askFile asks for a name, and writes the file there.
func (t *takeScreen) askFile(e *Explorer) {
	if t.err != nil {
		e.notice = alarm("there is no file to save: " + t.err.Error())
		return
	}
	kind, walk := t.sheet.Kind, t.walk
	asks := "save it to which file?"
	if report.Drawn(kind) {
		asks = "save it to which file? " + strings.Join(picture.CardEndings, ", ") + " say how it is drawn"
	}
	e.offers(asks, fileName(walk.Motor.Name, kind.Ending), func(name string) error {
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
