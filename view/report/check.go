package report

import (
	"fmt"
	"strconv"
	"strings"

	"coilwalk/model/table"
	"coilwalk/sequence"
)

// Check is the answer of the command "check".
type Check struct {
	Coilwalk int          `json:"coilwalk"`
	File     string       `json:"file"`
	Language string       `json:"language"`
	Sound    bool         `json:"sound"`
	Tables   []CheckTable `json:"tables"`
	Skipped  []Skip       `json:"skipped"`
	verdicts []table.Verdict
}

// CheckTable is the verdict on one table.
type CheckTable struct {
	Name      string        `json:"name"`
	Line      int           `json:"line"`
	Motor     *int          `json:"motor"`
	Columns   []string      `json:"columns"`
	Pins      string        `json:"pins"`
	Wirings   []CheckWiring `json:"wirings"`
	Wiring    []string      `json:"wiring"`
	Taken     []string      `json:"taken"`
	Sound     bool          `json:"sound"`
	Mode      string        `json:"mode"`
	Direction string        `json:"direction"`
	Rows      []CheckRow    `json:"rows"`
	Faults    []CheckFault  `json:"faults"`
	Cures     []CheckCure   `json:"cures"`
	Notes     []string      `json:"notes"`
}

// CheckWiring is one pairing of columns into coils.
type CheckWiring struct {
	Coils [2][2]int `json:"coils"`
	Sound bool      `json:"sound"`
	Mode  string    `json:"mode"`
}

// CheckRow is a row with its field.
type CheckRow struct {
	Outputs  string   `json:"outputs"`
	FieldDeg *float64 `json:"field_deg"`
	StepDeg  *float64 `json:"step_deg"`
}

// CheckFault is something wrong.
type CheckFault struct {
	Kind string `json:"kind"`
	Row  *int   `json:"row"`
	Text string `json:"text"`
}

// CheckCure is one change that cures it.
type CheckCure struct {
	Order     [4]int      `json:"order"`
	Swap      *[2]int     `json:"swap"`
	Direction string      `json:"direction"`
	Text      string      `json:"text"`
	Rows      []string    `json:"rows"`  // the table put right; null where only columns change
	Lines     *CheckLines `json:"lines"` // the same, as the file has it; null where only a hand can write it so
}

// Skip is an array that was not read as a step table.
type Skip struct {
	Name string `json:"name"`
	Line int    `json:"line"`
	Why  string `json:"why"`
}

// NewCheck gathers the verdicts on the tables of a file.
func NewCheck(file string, source *table.Source, verdicts []table.Verdict) Check {
	c := Check{Coilwalk: Version, File: file, Language: source.Language.String(), Sound: true,
		Tables: []CheckTable{}, Skipped: []Skip{}, verdicts: verdicts}
	for _, v := range verdicts {
		c.Sound = c.Sound && v.Sound
		c.Tables = append(c.Tables, checkTable(v))
	}
	for _, s := range source.Skipped {
		c.Skipped = append(c.Skipped, Skip(s))
	}
	return c
}

func checkTable(v table.Verdict) CheckTable {
	t := CheckTable{Name: v.Table.Name, Line: v.Table.Line, Columns: v.Table.Columns, Pins: v.Pins.String(),
		Wirings: []CheckWiring{}, Taken: ends(v.Taken), Sound: v.Sound, Mode: v.Mode, Direction: v.Direction.String(),
		Rows: []CheckRow{}, Faults: []CheckFault{}, Cures: []CheckCure{}, Notes: append(append([]string{}, v.Table.Notes...), v.Notes...)}
	if v.Table.Motor > 0 {
		t.Motor = &v.Table.Motor
	}
	if v.Wiring != nil {
		t.Wiring = ends(*v.Wiring)
	}
	for _, p := range v.Pairings {
		t.Wirings = append(t.Wirings, CheckWiring(p))
	}
	for _, r := range v.Rows {
		row := CheckRow{Outputs: r.Outputs}
		if r.HasField {
			f := degrees(r.FieldDeg)
			row.FieldDeg = &f
		}
		if r.HasStep {
			s := degrees(r.StepDeg)
			row.StepDeg = &s
		}
		t.Rows = append(t.Rows, row)
	}
	for _, f := range v.Faults {
		fault := CheckFault{Kind: f.Kind, Text: f.Text}
		if f.Row > 0 {
			row := f.Row
			fault.Row = &row
		}
		t.Faults = append(t.Faults, fault)
	}
	for _, c := range v.Cures {
		t.Cures = append(t.Cures, CheckCure{c.Order, c.Swap, c.Direction.String(), c.Text, rowsText(v, c.Rows), linesOf(v, c)})
	}
	return t
}

func ends(p sequence.Permutation) []string {
	names := make([]string, len(p))
	for k, e := range p {
		names[k] = e.String()
	}
	return names
}

// Text writes the answer in plain words.
func (c Check) Text() string {
	var b strings.Builder
	for i, v := range c.verdicts {
		if i > 0 {
			b.WriteByte('\n')
		}
		b.WriteString(VerdictText(c.File, v))
	}
	if len(c.Skipped) > 0 {
		b.WriteString("\nNot read as step tables:\n")
	}
	for _, s := range c.Skipped {
		fmt.Fprintf(&b, "  %s, line %d: %s.\n", s.Name, s.Line, strings.TrimSuffix(s.Why, "."))
	}
	return b.String()
}

// VerdictText writes one verdict in plain words: what it is, whether it is
// sound, the rows, what is wrong and what cures it.
func VerdictText(file string, v table.Verdict) string { return verdictText(file, v, false) }

// VerdictSpoken is VerdictText as it is read aloud: rows by the outputs that are on,
// and without the lines of the file.
func VerdictSpoken(file string, v table.Verdict) string { return verdictText(file, v, true) }

func verdictText(file string, v table.Verdict, spoken bool) string {
	var b strings.Builder
	said := func(text string) string { return text }
	if spoken {
		said = func(text string) string { return aloud(text, onOf(v)) }
	}
	fmt.Fprintf(&b, "%s:%d: %s", file, v.Table.Line, v.Table.Name)
	if v.Table.Motor > 0 {
		fmt.Fprintf(&b, ", motor %d", v.Table.Motor)
	}
	fmt.Fprintf(&b, ": %s\n", Judgement(v))
	for _, n := range v.Table.Notes { // all that follows hangs on them
		fmt.Fprintf(&b, "  note: %s\n", n)
	}
	for i, f := range v.Faults {
		if i > 0 && v.Faults[0].Kind == "outputs-permuted" && f.Kind == "both-ends-on" {
			continue // that follows from the order; the rows below are marked
		}
		where := ""
		if f.Row > 0 {
			where = "row " + strconv.Itoa(f.Row) + ", "
		}
		text := f.Text
		if f.Kind != "literal-base" { // it speaks of digits, and not of a row
			text = said(text)
		}
		fmt.Fprintf(&b, "  fault: %s%s: %s\n", where, f.Kind, text)
	}
	for i, c := range v.Cures {
		fmt.Fprintf(&b, "  cure %d: %s.\n", i+1, said(c.Text))
		if !spoken {
			putRight(&b, v, c)
		}
	}
	for _, n := range v.Notes {
		fmt.Fprintf(&b, "  note: %s\n", n)
	}
	if v.Wiring == nil && len(v.Pairings) > 0 {
		b.WriteString("  wirings of the columns into two coils:\n")
		for _, p := range v.Pairings {
			word := "not sound"
			switch {
			case p.Sound:
				word = "sound, " + p.Mode
			case curedAs(v, p):
				word = "sound with cure 1"
			}
			fmt.Fprintf(&b, "    %d-%d and %d-%d: %s\n", p.Coils[0][0], p.Coils[0][1], p.Coils[1][0], p.Coils[1][1], word)
		}
	}
	fmt.Fprintf(&b, "  taken as: %s\n", taken(v))
	if !spoken {
		b.WriteString("   row  outputs    field     step\n")
	}
	for i, r := range v.Rows {
		if spoken {
			fmt.Fprintln(&b, spokenRow(v, i))
			continue
		}
		fmt.Fprintf(&b, "  %4d  %-7s %8s %8s%s\n", i+1, r.Outputs, fieldWords(r), stepWords(r), mark(v, i+1))
	}
	if !spoken {
		toPaste(&b, v)
	}
	return b.String()
}

// curedAs says whether the first cure makes a table sound for a pairing by its rows alone.
func curedAs(v table.Verdict, p table.Pairing) bool {
	if len(v.Cures) == 0 || v.Cures[0].Rows == nil || v.Cures[0].Swap != nil || v.Pins != table.CoilEnds {
		return false
	}
	one := p.Coils[0]
	return v.Taken[one[0]-1].Opposite() == v.Taken[one[1]-1]
}

// taken says what the columns were taken for.
func taken(v table.Verdict) string {
	switch v.Pins {
	case table.TwoLine:
		return "two lines, the polarity of phase A and of phase B"
	case table.PhaseEnable:
		return "polarity and enable lines; rows are shown as the coil ends A+ B+ A- B- that they feed"
	}
	return "columns drive " + strings.Join(ends(v.Taken), " ")
}

// Judgement says a verdict in one clause.
func Judgement(v table.Verdict) string {
	if v.Sound {
		if v.Wiring == nil {
			return fmt.Sprintf("sound for one wiring: %s, %d rows", modeTitle(v.Mode), len(v.Rows))
		}
		return fmt.Sprintf("sound: %s, %s, %d rows", modeTitle(v.Mode), v.Direction, len(v.Rows))
	}
	if len(v.Faults) == 0 {
		return "not sound"
	}
	first := v.Faults[0]
	words := faultWords[first.Kind]
	if words == "" {
		words = first.Kind
	}
	if more := len(v.Faults) - 1; more > 0 && first.Kind != "outputs-permuted" {
		words += fmt.Sprintf(", and %d more", more)
	}
	return "not sound: " + words
}

// faultWords say the kinds of fault in plain words.
var faultWords = map[string]string{
	"outputs-permuted": "the columns stand in another order than the wiring needs", "direction-reversed": "it goes the other way",
	"both-ends-on": "a row has both ends of a coil on", "no-field": "a row holds nothing", "skipped-row": "a row is missing",
	"repeated-row": "a row stands twice", "rows-exchanged": "two rows are exchanged", "wrong-row": "a row is wrong",
	"reversal": "it turns round half way", "open-wrap": "its last row does not lead to its first", "literal-base": "numbers are not the bits that they look like",
	"stuck-low": "a column is never on", "stuck-high": "a column is always on", "no-order": "no order can be seen in it", "inverted": "on and off are exchanged",
}

func modeTitle(name string) string {
	if m, err := sequence.ModeNamed(name, 2, 0); err == nil && name != "micro" {
		return m.Title
	}
	return name
}

func fieldWords(r table.JudgedRow) string {
	if !r.HasField {
		return "none"
	}
	return Angle(r.FieldDeg, 1)
}

func stepWords(r table.JudgedRow) string {
	if !r.HasStep {
		return ""
	}
	return Signed(r.StepDeg, 0) + "°"
}

func mark(v table.Verdict, row int) string {
	for _, f := range v.Faults {
		if f.Row == row {
			return "  < " + f.Kind
		}
	}
	return ""
}
