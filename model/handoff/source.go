package handoff

import (
	"bytes"
	"embed"
	"fmt"
	"strconv"
	"strings"
	"text/template"

	"coilwalk/sequence"
)

//go:embed firmware
var firmware embed.FS

var templates = template.Must(template.ParseFS(firmware, "firmware/*.tmpl"))

// language is what the templates need to know of the language they are filled
// for, and of the walk.
type language struct {
	Head      string
	CPP       bool
	Prefix    string // of names; in C++ there is a namespace instead
	Upper     string // the same of constants
	Shared    string // what a table is that other files see
	Const     string // what one is that they do not
	Within    string // what begins a function that they do not see
	Outward   string // what begins one that they do
	Word      string // the type of a row
	Ticks     string // the type of an interval
	Rows      int    // to a cycle
	Mask, Off string
	Port      string
	Direction string // the register that makes pins outputs, where the port tells it
	Tables    map[string]string
	Ramp      string
	Intervals int
	Mode      string // "HALF"
	IdleOff   bool
	Pins      string
	Levels    string // of the pins with nothing on
	TickTimes int64  // a tick is so many microseconds, over TickOver
	TickOver  int64
}

// fill fills a template.
func (w *Walk) fill(name string, l language) []byte {
	l.Rows, l.Intervals, l.IdleOff = w.Mode.Rows(), len(w.Pace.Intervals), w.IdleOff
	l.Mode, l.Port = strings.ToUpper(w.Mode.Name), w.Board.Port
	l.Mask, l.Off = w.hex(w.Board.Mask()), w.hex(w.Board.Word(off))
	if rest, ok := strings.CutPrefix(w.Board.Port, "PORT"); ok && len(rest) == 1 {
		l.Direction = "DDR" + rest
	}
	us := w.Pace.Tick()
	l.TickTimes, l.TickOver = us.Num().Int64()*1_000_000, us.Denom().Int64()
	for d := int64(2); d <= 5; d += 3 { // in lowest terms: a million has no other divisors
		for l.TickTimes%d == 0 && l.TickOver%d == 0 {
			l.TickTimes, l.TickOver = l.TickTimes/d, l.TickOver/d
		}
	}
	var b bytes.Buffer
	if err := templates.ExecuteTemplate(&b, name, l); err != nil {
		panic(err) // a template of ours that does not fit its data
	}
	return b.Bytes()
}

// hex writes a word as wide as the port.
func (w *Walk) hex(word uint16) string {
	return fmt.Sprintf("0x%0*x", w.Board.wide()/4, word)
}

func writeC(w *Walk) []byte {
	return w.fill("stepper.tmpl", language{Head: block(w.Head()), Prefix: "coil_", Upper: "COIL_", Shared: "const", Const: "static const", Within: "static ",
		Word:  fmt.Sprintf("uint%d_t", w.Board.wide()),
		Ticks: fmt.Sprintf("uint%d_t", w.Pace.wide()), Tables: w.words("/* %s */"), Ramp: w.ramp()})
}

func writeCPP(w *Walk) []byte {
	return w.fill("stepper.tmpl", language{Head: comment("//", w.Head()), CPP: true, Shared: "constexpr", Const: "constexpr", Within: "inline ", Outward: "inline ",
		Word:  fmt.Sprintf("uint%d_t", w.Board.wide()),
		Ticks: fmt.Sprintf("uint%d_t", w.Pace.wide()), Tables: w.words("// %s"), Ramp: w.ramp()})
}

func writeRust(w *Walk) []byte {
	return w.fill("table.rs.tmpl", language{Head: comment("//!", w.Head()), Word: fmt.Sprintf("u%d", w.Board.wide()),
		Ticks: fmt.Sprintf("u%d", w.Pace.wide()), Tables: w.words("// %s"), Ramp: w.ramp()})
}

func writePython(w *Walk) []byte {
	return w.fill("table.py.tmpl", language{Head: comment("#", w.Head()), Tables: w.tuples(), Ramp: w.ramp()})
}

func writeMicroPython(w *Walk) []byte {
	return w.fill("pins.py.tmpl", language{Head: comment("#", w.Head()), Tables: w.tuples(), Ramp: w.ramp(),
		Pins: tuple(w.Board.Pins), Levels: tuple(w.Board.Levels(off))})
}

// block makes a comment of C99.
func block(lines []string) string {
	return "/*\n" + comment(" *", lines) + " */\n"
}

// words writes each table as words of the port, a row a line with what it puts
// on.
func (w *Walk) words(mark string) map[string]string {
	return w.each(func(row sequence.Row) string { return w.hex(w.Board.Word(row)) }, mark)
}

// tuples writes each table as levels of the pins.
func (w *Walk) tuples() map[string]string {
	return w.each(func(row sequence.Row) string { return tuple(w.Board.Levels(row)) }, "# %s")
}

func (w *Walk) each(one func(sequence.Row) string, mark string) map[string]string {
	texts := map[string]string{}
	for name, rows := range w.tables() {
		var b strings.Builder
		for k, row := range rows {
			fmt.Fprintf(&b, "    %s, %s\n", one(row), fmt.Sprintf(mark, strconv.Itoa(w.number(name, k))+": "+w.ends(row)))
		}
		texts[name] = b.String()
	}
	return texts
}

func tuple(n [4]int) string { return fmt.Sprintf("(%d, %d, %d, %d)", n[0], n[1], n[2], n[3]) }

// ramp writes the intervals, some a line.
func (w *Walk) ramp() string {
	const each = 10
	var b strings.Builder
	for k, ticks := range w.Pace.Intervals {
		switch {
		case k == 0:
			b.WriteString("    ")
		case k%each == 0:
			b.WriteString("\n    ")
		default:
			b.WriteString(" ")
		}
		fmt.Fprintf(&b, "%d,", ticks)
	}
	b.WriteString("\n")
	return b.String()
}
