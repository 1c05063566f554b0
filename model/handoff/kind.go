package handoff

import (
	"fmt"
	"slices"
	"strings"

	"coilwalk/model/files"
	"coilwalk/sequence"
)

// Kind is one kind of file.
type Kind struct {
	Name    string // the word of the command
	Title   string // what it is, in a few words
	Ending  string // of a file's name
	Micro   bool   // whether it can hold currents between off and on
	Stepper bool   // whether it can hold a stepping source
	Numbers bool   // whether it sets pins by their numbers, which it then needs
	Moves   bool   // whether it holds moves of so many rows, not one cycle

	write func(*Walk) []byte
	read  func(*Walk, []byte) (contents, error)
	same  func(*Walk, contents) error // what was read as what was walked; else why not
}

// Kinds lists what can be written.
var Kinds = []Kind{
	{Name: "c", Title: "C99 tables, or a stepping source", Ending: ".c", Stepper: true, write: writeC, read: readSource(".c"), same: (*Walk).proveTables},
	{Name: "cpp", Title: "C++11 tables, or a stepping source", Ending: ".hpp", Stepper: true, write: writeCPP, read: readSource(".cpp"), same: (*Walk).proveTables},
	{Name: "rust", Title: "Rust tables", Ending: ".rs", write: writeRust, read: readSource(".rs"), same: (*Walk).proveTables},
	{Name: "python", Title: "Python tables, and a move as moments", Ending: ".py", write: writePython, read: readSource(".py"), same: (*Walk).proveTables},
	{Name: "micropython", Title: "the same with pins that step", Ending: ".py", Numbers: true, write: writeMicroPython, read: readSource(".py"), same: (*Walk).proveTables},
	{Name: "csv", Title: "a row a line, for a spreadsheet", Ending: ".csv", Micro: true, write: writeCSV, read: readCSV, same: (*Walk).proveTables},
	{Name: "json", Title: "one object", Ending: ".json", Micro: true, write: writeJSON, read: readJSON, same: (*Walk).proveTables},
	{Name: "vcd", Title: "the walk as a recording of the pins", Ending: ".vcd", Moves: true, write: writeVCD, read: readVCD, same: (*Walk).proveMoments},
	{Name: "markdown", Title: "a table for notes", Ending: ".md", Micro: true, write: writeMarkdown, read: readMarkdown, same: (*Walk).proveTables},
	{Name: "text", Title: "a table in plain text", Ending: ".txt", Micro: true, write: writeText, read: readText, same: (*Walk).proveTables},
	{Name: Bench, Title: "bench firmware for a board with an AVR chip, in C", Ending: ".c", write: writeFirmware, read: readFirmware, same: (*Walk).proveBoard},
}

// KindNamed finds a kind by its word.
func KindNamed(name string) (Kind, bool) {
	k := slices.IndexFunc(Kinds, func(k Kind) bool { return k.Name == name })
	if k < 0 {
		return Kind{}, false
	}
	return Kinds[k], true
}

// namesOf lists the words of the kinds that are so.
func namesOf(so func(Kind) bool) (names []string) {
	for _, k := range Kinds {
		if so(k) {
			names = append(names, k.Name)
		}
	}
	return names
}

// Allows says whether a walk can be written so, and if not, why.
func (k Kind) Allows(w *Walk) error {
	switch {
	case !w.whole() && !k.Micro && k.Name != Bench:
		return fmt.Errorf("%s needs currents between off and on, which %s can not hold as bits of a port; take %s step, or write %s", w.Mode.Title, k.Name,
			files.Either(sequence.WholeNames()), files.Either(namesOf(func(k Kind) bool { return k.Micro })))
	case w.Stepper && !k.Stepper:
		return fmt.Errorf("there is a stepping source in %s only, not in %s", strings.Join(namesOf(func(k Kind) bool { return k.Stepper }), " and "), k.Name)
	case k.Name == Bench:
		return w.benchable()
	}
	return nil
}

// contents is what a file holds of a walk, as its reader finds it.
type contents struct {
	tables    map[string][]sequence.Row // rows on the outputs, by the name of the table
	moments   []Moment                  // of a recording
	until     int64                     // ticks at which it ends
	intervals []int64                   // nil where the file holds none

	board         *Board // of the bench firmware, with what follows
	direction     string // the register that makes the pins outputs
	baud, clockHz int64
}

// Names of the tables.
const (
	forwardName = "forward"
	reverseName = "reverse"
	halfName    = "half" // the half-step cycle of a stepping source
)

// tables gives the tables that a walk's file holds.
func (w *Walk) tables() map[string][]sequence.Row {
	if w.Stepper {
		return map[string][]sequence.Row{halfName: w.eight()}
	}
	return map[string][]sequence.Row{forwardName: w.Cycle(sequence.Forward), reverseName: w.Cycle(sequence.Reverse)}
}

// named lists the tables in the order in which they are written.
func (w *Walk) named() []string {
	if w.Stepper {
		return []string{halfName}
	}
	return []string{forwardName, reverseName}
}

// ends says which coil ends a row on the outputs puts on, with their leads:
// "A+ (BN), B+ (WH)".
func (w *Walk) ends(row sequence.Row) string {
	var parts []string
	for k, e := range w.Motor.Wiring {
		if row[k] > 0 {
			parts = append(parts, fmt.Sprintf("%s (%s)", e, w.Motor.Output(w.Motor.Wiring, k)))
		}
	}
	if parts == nil {
		return "nothing"
	}
	return Safe(strings.Join(parts, ", "))
}

// comment puts lines into a comment, each after its mark.
func comment(mark string, lines []string) string {
	var b strings.Builder
	for _, line := range lines {
		b.WriteString(strings.TrimRight(mark+" "+line, " ") + "\n")
	}
	return b.String()
}
