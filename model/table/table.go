// Package table reads step tables out of source text, and holds them against a
// wiring: which mode they are, whether they are sound, which row or which
// columns are wrong, and what cures it.
package table

import (
	"fmt"
	"strings"

	"coilwalk/model/files"
	"coilwalk/sequence"
)

// Pins says what the columns of a table are.
type Pins int

const (
	Auto        Pins = iota // to be found
	CoilEnds                // four columns, one an output
	TwoLine                 // two columns, each the polarity of a phase: 1 is +, 0 is -
	PhaseEnable             // four columns: polarity and enable of A, then of B
)

var pinsWords = [...]string{Auto: "auto", CoilEnds: "coil-ends", TwoLine: "two-line", PhaseEnable: "phase-enable"}

// String gives the word of the option.
func (p Pins) String() string { return pinsWords[p] }

// ParsePins reads the word of the option.
func ParsePins(text string) (Pins, error) {
	for p := CoilEnds; p <= PhaseEnable; p++ {
		if text == p.String() {
			return p, nil
		}
	}
	return Auto, fmt.Errorf("there are no pins of the kind %s; coil-ends, two-line or phase-enable is wanted", files.Quoted(text))
}

// BitOrder says which bit of a packed row is column 1.
type BitOrder int

const (
	AsSaid   BitOrder = iota // as the file says which bit each output has; else the highest of the bits that move
	MSBFirst                 // the highest
	LSBFirst                 // the lowest
)

// Options say how a file is to be read.
type Options struct {
	Bits BitOrder
	Pins Pins
}

// Row is one row of a table.
type Row struct {
	Line   int    // where it stands in the file, from 1
	Text   string // as written
	Levels []int  // 0 or 1 for each column

	other bool   // of Digits: the language gives the literal another value
	stray *stray // of a packed row: it moves bits that no other row moves

	span               // the whole of it in the text, with its brackets; none where it is in pieces
	literals []literal // one, or one a column; nil where what stands there is not its levels
}

// Table is one step table as it was read.
type Table struct {
	Name       string
	Line       int
	Motor      int      // 1 or 2 where two motors share a byte, else 0
	Columns    []string // what each column is
	Bits       []int    // of a packed row: the bit of each column; else nil
	Rows       []Row
	OffBetween bool     // every second row is all off
	Notes      []string // how it was read, in whole sentences
	Digits     []Row    // where the literals look like patterns of bits but their language takes them otherwise: the patterns

	origin origin // of the rows; none where they are not to be written back
}

// Skipped is an array that is no step table.
type Skipped struct {
	Name string
	Line int
	Why  string
}

// Source is a file with its tables.
type Source struct {
	Language Language
	Tables   []Table
	Skipped  []Skipped
	Ends     *sequence.Permutation // the coil ends that the file's own words give outputs 1 to 4; nil where it gives none
}

// LongestFile bounds, in bytes, a file that holds step tables.
const LongestFile = 1 << 20

// Bounds, far above what firmware holds: a wrong file is told, not chewed.
const (
	mostRows    = 4096 // of one table
	mostColumns = 64
	mostArrays  = 256 // in one file
	deepest     = 8   // arrays within arrays
	deepestCode = 256 // brackets of any kind within each other
)

// Read finds the step tables in a source text. Its errors are *files.Complaint.
func Read(fileName string, text []byte, options Options) (*Source, error) {
	r := reader{file: fileName, options: options}
	if len(text) > LongestFile {
		return nil, r.complaint(0, 0, fmt.Sprintf("longer than %d bytes", LongestFile), "a file with a step table is short; is it the right one?")
	}
	s := string(text)
	if strings.HasPrefix(s, "\xff\xfe") || strings.HasPrefix(s, "\xfe\xff") {
		return nil, r.complaint(0, 0, "this is UTF-16 text", "save the file as UTF-8")
	}
	s = strings.TrimPrefix(s, "\ufeff") // some editors put this mark before everything
	s = strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(s)
	if i := strings.IndexByte(s, 0); i >= 0 {
		line, column := placeOf(s, i)
		return nil, r.complaint(line, column, "a zero byte stands here", "source text or rows of 0 and 1 are wanted; is it the right file?")
	}
	if start := strings.TrimSpace(s[:min(len(s), 100)]); strings.HasPrefix(start, "{") && strings.Contains(start, `"coilwalk":`) {
		return nil, r.complaint(0, 0, "this is an answer of coilwalk in JSON", "source with a table is wanted, rows as 1000, or what coilwalk write csv made")
	}
	r.language, r.text = LanguageOf(fileName, []byte(s)), s
	r.out.Language = r.language
	r.out.Ends = saidEnds(s)
	if options.Bits == AsSaid {
		r.said = saidBits(s)
	}
	var err error
	if r.language == Plain {
		err = r.plain(s)
	} else {
		err = r.source(s)
	}
	if err == nil && len(r.out.Tables) == 0 {
		err = r.nothing()
	}
	if err != nil {
		return nil, err
	}
	for i := range r.out.Tables {
		r.out.Tables[i].OffBetween = offBetween(&r.out.Tables[i], 0)
	}
	return &r.out, nil
}

// placeOf gives the line and column of a byte, both from 1.
func placeOf(text string, at int) (line, column int) {
	before := text[:at]
	return 1 + strings.Count(before, "\n"), 1 + len([]rune(before[strings.LastIndexByte(before, '\n')+1:]))
}

// reader is a file on its way to tables.
type reader struct {
	file     string
	options  Options
	language Language
	out      Source
	said     []int        // the bits that the file says outputs 1 to 4 have; nil where it does not
	paired   []outputPair // what its comments say of outputs and bits
	text     string
	open     place // a bracket, comment or string that is never closed
}

// place is where something stands, and what it is.
type place struct {
	what         string
	line, column int
}

func (r *reader) complaint(line, column int, what, right string) error {
	return &files.Complaint{File: r.file, Line: line, Column: column, What: what, Right: right}
}

// nothing is the complaint about a file without tables: what was looked for,
// what is never closed, and why each array that is there was left out.
func (r *reader) nothing() error {
	const (
		wanted  = "wanted is an array of rows of four 0s and 1s, of numbers that move four bits, or one array a coil; or plain rows as 1000"
		longest = 320 // characters of reasons; a complaint is one line to read
	)
	if r.open.what != "" {
		return r.complaint(r.open.line, r.open.column, "no step table was found, and this "+r.open.what+" is never closed", wanted)
	}
	if len(r.out.Skipped) == 0 {
		return r.complaint(0, 0, "no step table was found", wanted)
	}
	var why strings.Builder
	for i, s := range r.out.Skipped {
		reason := fmt.Sprintf("%s in line %d: %s", s.Name, s.Line, s.Why)
		if i > 0 && why.Len()+len(reason) > longest {
			fmt.Fprintf(&why, "; and %d more", len(r.out.Skipped)-i)
			break
		}
		if i > 0 {
			why.WriteString("; ")
		}
		why.WriteString(reason)
	}
	return r.complaint(r.out.Skipped[0].Line, 0, "no step table was found ("+why.String()+")", wanted)
}

// add keeps a table; one without a name is numbered.
func (r *reader) add(t Table) error {
	t.Name = r.called(t.Name)
	if len(t.Rows) > mostRows {
		return r.complaint(t.Line, 0, fmt.Sprintf("%s has %d rows", t.Name, len(t.Rows)), fmt.Sprintf("at most %d are read", mostRows))
	}
	if len(r.out.Tables) >= mostArrays {
		return r.complaint(t.Line, 0, fmt.Sprintf("more than %d tables", mostArrays), "a file with the tables of one program is wanted")
	}
	t.origin = origin{r.file, r.text, r.options, len(r.out.Tables)}
	r.out.Tables = append(r.out.Tables, t)
	return nil
}

func (r *reader) called(name string) string {
	switch {
	case name != "":
		return name
	case len(r.out.Tables) == 0:
		return "table"
	}
	return fmt.Sprintf("table %d", len(r.out.Tables)+1)
}

func (r *reader) skip(name string, line int, why string) {
	if name == "" {
		name = "a list"
	}
	if len(r.out.Skipped) < mostArrays {
		r.out.Skipped = append(r.out.Skipped, Skipped{name, line, why})
	}
}

// offBetween says whether every second row is all off and no other is, off being
// a level. Two polarity lines that are both 0 are a field, not a pause.
func offBetween(t *Table, off int) bool {
	if len(t.Rows) < 4 || len(t.Rows)%2 != 0 || len(t.Columns) != 4 {
		return false
	}
	first := t.Rows[0].rests(off)
	for i, r := range t.Rows {
		if r.rests(off) != ((i%2 == 0) == first) {
			return false
		}
	}
	return true
}

// rests says whether all of a row is off.
func (r Row) rests(off int) bool {
	if r.stray != nil {
		return false
	}
	for _, l := range r.Levels {
		if l != off {
			return false
		}
	}
	return true
}
