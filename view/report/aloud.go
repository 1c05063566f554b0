package report

import (
	"fmt"
	"regexp"
	"strings"

	"coilwalk/model/course"
	"coilwalk/model/files"
	"coilwalk/model/table"
	"coilwalk/sequence"
)

// OutputsOn says which outputs a row has on, as it is read aloud: a string of bits is
// heard as a number.
func OutputsOn(row sequence.Row) string {
	var on []string
	for k, v := range row {
		if v != 0 {
			on = append(on, fmt.Sprint(k+1))
		}
	}
	switch len(on) {
	case 0:
		return "all outputs off"
	case 1:
		return "output " + on[0] + " on"
	}
	return "outputs " + enumerated(on) + " on"
}

// NamesOn says the same by what the outputs are called.
func NamesOn(bits string, names []string) string {
	var on []string
	for k, c := range bits {
		if c == '1' && k < len(names) {
			on = append(on, names[k])
		}
	}
	if len(on) == 0 {
		return "all off"
	}
	return enumerated(on) + " on"
}

// enumerated writes words as people do: one, two and three.
func enumerated(words []string) string {
	if n := len(words); n > 1 {
		return strings.Join(words[:n-1], ", ") + " and " + words[n-1]
	}
	return strings.Join(words, "")
}

// The places at which sentences of verdicts have a row in bits. Numbers of rows, and
// literals that are no row, stand elsewhere.
var (
	bitsInBrackets = regexp.MustCompile(`\(([01]{4})\)`)
	bitsOfMissing  = regexp.MustCompile(`\bRow ([01]{4}) is missing`)
	bitsOfARow     = regexp.MustCompile(`(put in |make row \d+ | is |^)([01]{4})( after| before| where| is wanted| was never|[,;.]|$)`)
	bitsWanted     = regexp.MustCompile(`(where |; |\. | )([01]{4})( is wanted)`)
	bitsOfTheRow   = regexp.MustCompile(`(the row |after | into )([01]{4})( that|:|,|$| into)`)
)

// aloud puts the outputs that are on in the place of rows in bits.
func aloud(text string, on func(bits string) string) string {
	text = bitsInBrackets.ReplaceAllStringFunc(text, func(found string) string { return "(" + on(found[1:5]) + ")" })
	text = bitsOfMissing.ReplaceAllStringFunc(text, func(found string) string { return "A row with " + on(found[4:8]) + " is missing" })
	for _, place := range []*regexp.Regexp{bitsOfARow, bitsWanted, bitsOfTheRow, bitsOfTheRow} { // one may end where the next begins
		text = place.ReplaceAllStringFunc(text, func(found string) string {
			part := place.FindStringSubmatch(found)
			row := "a row with "
			if part[1] == "the row " {
				row = "with "
			}
			if part[1] == "" || part[1] == ". " {
				row = "A row with "
			}
			return part[1] + row + on(part[2]) + part[3]
		})
	}
	return text
}

// Aloud says what is told of a recording by the names of the channels that are on.
func (r Read) Aloud(text string) string {
	return aloud(text, func(bits string) string {
		if r.Active == levelWords[course.Low] {
			bits = strings.NewReplacer("0", "1", "1", "0").Replace(bits)
		}
		return NamesOn(bits, r.Outputs)
	})
}

// onOf says which columns of a table a row has on: by their names, where the file has
// such; else by the outputs that they are.
func onOf(v table.Verdict) func(bits string) string {
	names := v.Table.Columns
	if v.Pins == table.PhaseEnable { // told by the coil ends that they feed
		names = []string{"A+", "B+", "A-", "B-"}
	} else if v.Table.Bits != nil || plainColumns(names) {
		return func(bits string) string {
			var row sequence.Row
			for k, c := range bits {
				row[k] = float64(c - '0')
			}
			return OutputsOn(row)
		}
	}
	return func(bits string) string { return NamesOn(bits, names) }
}

// plainColumns says whether columns have their numbers for names.
func plainColumns(names []string) bool {
	for _, name := range names {
		if !strings.HasPrefix(name, "column ") && !strings.HasPrefix(name, "output") {
			return false
		}
	}
	return true
}

// spokenRow says a row of a table: what is on, and once how the file has it.
func spokenRow(v table.Verdict, i int) string {
	r := v.Rows[i]
	parts := []string{fmt.Sprintf("row %d: %s", i+1, r.Outputs)}
	if len(r.Outputs) == 4 {
		parts[0] = fmt.Sprintf("row %d: %s", i+1, onOf(v)(r.Outputs))
	}
	if r.Text != "" {
		parts = append(parts, "written "+files.Shown(r.Text))
	}
	parts = append(parts, "field "+fieldWords(r))
	if step := stepWords(r); step != "" {
		parts = append(parts, "step "+step)
	}
	if kind, ok := strings.CutPrefix(mark(v, i+1), "  < "); ok {
		parts = append(parts, "fault: "+kind)
	}
	return strings.Join(parts, ", ")
}
