package view

import (
	"fmt"
	"slices"
	"strings"

	"github.com/charmbracelet/bubbles/textinput"
	tea "github.com/charmbracelet/bubbletea"

	"coilwalk/model/files"
	"coilwalk/view/action"
	"coilwalk/view/picture"
)

// prompt is a question at the foot of the screen.
type prompt struct {
	question string
	line     textinput.Model
	live     func(text string)       // told at each letter; nil when nobody cares
	typed    bool                    // what is pasted does not count
	offered  bool                    // the text is a proposal yet: a letter begins another in its place
	above    []string                // words that stand above it, over the screen
	done     func(text string) error // an error keeps the question open, with what was typed
}

// longestAnswer bounds what can be typed at a prompt.
const longestAnswer = 200

// asks opens a question, with the text that it starts from.
func (e *Explorer) asks(question, text string, done func(text string) error) *prompt {
	p := &prompt{question: question, line: textinput.New(), done: done}
	p.line.CharLimit = longestAnswer
	p.line.SetValue(text)
	p.line.Focus()
	e.notice, e.ask = notice{}, p
	return p
}

// offers opens a question with a proposal for its answer.
func (e *Explorer) offers(question, text string, done func(text string) error) {
	e.asks(question, text, done).offered = true
}

// askFor opens the question of an action.
func (e *Explorer) askFor(a action.Action) {
	e.asks(a.Ask, "", func(text string) error {
		args := strings.FieldsFunc(text, func(r rune) bool { return r == ' ' || r == ',' })
		return e.try(a, args)
	})
}

// answer hands a key to the open question.
func (e *Explorer) answer(msg tea.KeyMsg) {
	p := e.ask
	switch msg.String() {
	case "esc":
		e.ask, e.notice = nil, notice{}
		if p.live != nil {
			p.live("")
		}
		return
	case "enter":
		e.ask = nil // before done, which may ask the next
		if err := p.done(p.line.Value()); err != nil {
			e.ask, e.notice = p, alarm(err.Error())
		}
		return
	}
	if p.typed && msg.Paste {
		e.notice = alarm("this has to be typed: a paste does not count")
		return
	}
	before := p.line.Value()
	if p.offered && (msg.Type == tea.KeyRunes || msg.Type == tea.KeySpace) {
		p.line.SetValue("")
	}
	p.offered = false
	p.line, _ = p.line.Update(msg)
	if now := p.line.Value(); now != before && p.live != nil {
		p.live(now)
	}
}

// drawAsk draws the question over the lines before the last, or what was wrong with
// the answer, and below it the answer so far and the cursor, the end of a long
// answer when there is no room for all.
func (e *Explorer) drawAsk(g *picture.Grid) {
	hint := "enter does it, esc leaves"
	if e.ask.offered {
		hint = "enter takes it, or type another; esc leaves"
	}
	if len(e.ask.above) > 0 {
		e.drawAbove(g)
	}
	words, style := e.ask.question, picture.Loud(picture.Strong)
	if e.notice.words != "" {
		words, style = e.said(), picture.Loud(e.notice.ink)
	}
	lines := wrap(words, max(20, g.W-2))
	for i, line := range lines {
		if y := g.H - 1 - len(lines) + i; y > 0 {
			g.Line(0, y, g.W, ' ', picture.Style{})
			g.WriteWithin(1, y, g.W-2, line, style)
		}
	}
	y := g.H - 1
	g.Line(0, y, g.W, ' ', picture.Style{})
	x := g.Write(1, y, "›", picture.Loud(picture.Current)) + 1
	room := g.W - x - len(hint) - 4
	at := e.ask.line.Position()
	shown := []rune(e.ask.line.Value())
	cursor := '▁' // told by its shape: a colour alone is not seen by everybody
	if at < len(shown) {
		cursor = '▏'
	}
	for i, mark := range shown {
		if !picture.Single(mark) { // it would push the others aside
			shown[i] = '?'
		}
	}
	shown = slices.Insert(shown, at, cursor)
	from := max(0, at-room)
	for i := from; i < len(shown) && i-from <= room; i++ {
		style := picture.In(picture.Current)
		if i == at {
			style = picture.Style{Fore: picture.Current, Back: picture.Band, Bold: true}
		}
		mark := shown[i]
		if !picture.Single(mark) { // it would push the others aside
			mark = '?'
		}
		g.Set(x+i-from, y, mark, style)
	}
	g.WriteEnd(g.W-1, y, hint, picture.In(picture.Faint))
}

// drawAbove draws the words of a question over the screen.
func (e *Explorer) drawAbove(g *picture.Grid) {
	lines := e.ask.above
	top := max(2, g.H-3-len(lines))
	for y := top - 1; y < g.H-2; y++ {
		g.Line(0, y, g.W, ' ', picture.Style{})
	}
	g.Line(0, top-1, g.W, '─', picture.In(picture.Faint))
	for k, line := range lines {
		style := picture.In(picture.Text)
		if line[0] == '!' || k == 0 {
			style = picture.Loud(picture.Alert)
		}
		if y := top + k; y < g.H-2 {
			g.WriteWithin(1, y, g.W-2, line, style)
		}
	}
}

// writeNew writes a file that is not there yet: what is there is never lost.
func writeNew(name string, text []byte) error {
	name = strings.TrimSpace(name)
	if name == "" {
		return fmt.Errorf("the name of a file is wanted")
	}
	return files.WriteNew(name, text)
}
