// Package table reads step tables out of source text, and holds them against a
// wiring: which mode they are, whether they are sound, which row or which
// columns are wrong, and what cures it.
package table

import (
	"bytes"
	"fmt"
	"strings"

	"coilwalk/model/files"
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
	return Auto, fmt.Errorf("there are no pins of the kind %q; coil-ends, two-line or phase-enable is wanted", text)
}

// BitOrder says which bit of a packed row is column 1.
type BitOrder int

const (
	MSBFirst BitOrder = iota // the highest of the bits that move
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

	other bool // of Digits: the language gives the literal another value
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
}

// Bounds, far above what firmware holds: a wrong file is told, not chewed.
const (
	longestSource = 1 << 20 // bytes
	mostRows      = 4096
	mostArrays    = 256
	deepest       = 64 // brackets within brackets
)

// Read finds the step tables in a source text. Its errors are *files.Complaint.
func Read(fileName string, text []byte, options Options) (*Source, error) {
	text = bytes.TrimPrefix(text, []byte("\ufeff")) // some editors put this mark before everything
	r := reader{file: fileName, options: options, language: LanguageOf(fileName, text)}
	if len(text) > longestSource {
		return nil, r.complaint(0, 0, fmt.Sprintf("longer than %d bytes", longestSource), "a file with a step table is short; is it the right one?")
	}
	if i := strings.IndexByte(string(text), 0); i >= 0 {
		return nil, r.complaint(1+strings.Count(string(text[:i]), "\n"), 0, "holds a zero byte", "source text or rows of 0 and 1 are wanted")
	}
	var err error
	if r.language == Plain {
		err = r.plain(string(text))
	} else {
		err = r.source(string(text))
	}
	if err != nil {
		return nil, err
	}
	if len(r.out.Tables) == 0 {
		return nil, r.nothing()
	}
	r.out.Language = r.language
	for i := range r.out.Tables {
		r.out.Tables[i].OffBetween = offBetween(r.out.Tables[i].Rows)
	}
	return &r.out, nil
}

// reader is a file on its way to tables.
type reader struct {
	file     string
	options  Options
	language Language
	out      Source
}

func (r *reader) complaint(line, column int, what, right string) error {
	return &files.Complaint{File: r.file, Line: line, Column: column, What: what, Right: right}
}

func (r *reader) nothing() error {
	right := "wanted is an array of rows of four 0s and 1s, of numbers that move four bits, or one array a coil; or plain rows as 1000"
	if len(r.out.Skipped) == 0 {
		return r.complaint(0, 0, "no step table was found", right)
	}
	var why []string
	for i, s := range r.out.Skipped {
		if i == 3 {
			why = append(why, "and so on")
			break
		}
		why = append(why, fmt.Sprintf("%s in line %d: %s", s.Name, s.Line, s.Why))
	}
	return r.complaint(r.out.Skipped[0].Line, 0, "no step table was found ("+strings.Join(why, "; ")+")", right)
}

func (r *reader) add(t Table) error {
	if len(t.Rows) > mostRows {
		return r.complaint(t.Line, 0, fmt.Sprintf("%s has %d rows", t.Name, len(t.Rows)), fmt.Sprintf("at most %d are read", mostRows))
	}
	if len(r.out.Tables) >= mostArrays {
		return r.complaint(t.Line, 0, fmt.Sprintf("more than %d tables", mostArrays), "a file with the tables of one program is wanted")
	}
	r.out.Tables = append(r.out.Tables, t)
	return nil
}

func (r *reader) skip(name string, line int, why string) {
	if len(r.out.Skipped) < mostArrays {
		r.out.Skipped = append(r.out.Skipped, Skipped{name, line, why})
	}
}

// offBetween says whether every second row is all off and no other is.
func offBetween(rows []Row) bool {
	if len(rows) < 4 || len(rows)%2 != 0 {
		return false
	}
	first := bitValue(rows[0].Levels) == 0
	for i, r := range rows {
		if (bitValue(r.Levels) == 0) != ((i%2 == 0) == first) {
			return false
		}
	}
	return true
}
