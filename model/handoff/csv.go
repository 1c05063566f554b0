package handoff

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"strconv"
	"strings"

	"coilwalk/sequence"
)

// The columns of the rows, and of the intervals below them.
var (
	rowColumns      = []string{"direction", "row", "output1", "output2", "output3", "output4", "port", "coils", "field_deg"}
	intervalColumns = []string{"interval", "ticks", "seconds"}
)

// writeCSV writes rows as levels of the pins; in microstepping, as shares of the
// current of one phase on.
func writeCSV(w *Walk) []byte {
	var b bytes.Buffer
	b.WriteString(comment("#", w.Head()))
	out := csv.NewWriter(&b)
	out.Write(rowColumns)
	for _, name := range w.named() {
		for k, row := range w.tables()[name] {
			line := []string{name, strconv.Itoa(w.number(name, k))}
			for _, v := range w.shown(row) {
				line = append(line, share(v))
			}
			port := ""
			if w.whole() {
				port = w.hex(w.Board.Word(row))
			}
			out.Write(append(line, port, w.ends(row), w.field(row)))
		}
	}
	if w.whole() {
		out.Write(intervalColumns)
		for k, ticks := range w.Pace.Intervals {
			out.Write([]string{strconv.Itoa(k + 1), strconv.FormatInt(ticks, 10), strconv.FormatFloat(w.Pace.seconds(ticks), 'g', 9, 64)})
		}
	}
	out.Flush()
	return b.Bytes()
}

// number gives the number in its mode, from 1, of a table's row.
func (w *Walk) number(name string, k int) int {
	if name == reverseName {
		k = -k
	}
	return w.Mode.Order().Index(int64(k)) + 1
}

// shown gives what a table shows of a row on the outputs: levels of the pins, or
// shares of current where there are any between off and on.
func (w *Walk) shown(row sequence.Row) (shown sequence.Row) {
	if !w.whole() {
		return row
	}
	for k, level := range w.Board.Levels(row) {
		shown[k] = float64(level)
	}
	return shown
}

// meant undoes shown.
func (w *Walk) meant(shown sequence.Row) sequence.Row {
	if w.whole() && w.Board.ActiveLow {
		for k, v := range shown {
			shown[k] = 1 - v
		}
	}
	return shown
}

// share writes a level, or a share of current to the digits that it is held to.
func share(v float64) string {
	s := strconv.FormatFloat(v, 'f', shareDigits, 64)
	return strings.TrimSuffix(strings.TrimRight(s, "0"), ".")
}

const shareDigits = 4

// field gives the field angle of a row on the outputs, in electrical degrees.
func (w *Walk) field(row sequence.Row) string {
	deg, _ := row.Through(w.Motor.Wiring).Field().Degrees()
	return strings.TrimSuffix(strings.TrimRight(strconv.FormatFloat(deg, 'f', 3, 64), "0"), ".")
}

func readCSV(w *Walk, text []byte) (contents, error) {
	in := csv.NewReader(bytes.NewReader(text))
	in.Comment, in.FieldsPerRecord = '#', -1
	lines, err := in.ReadAll()
	if err != nil {
		return contents{}, err
	}
	c := contents{tables: map[string][]sequence.Row{}}
	for _, line := range lines {
		switch {
		case line[0] == rowColumns[0] || line[0] == intervalColumns[0]:
		case len(line) == len(rowColumns):
			row, err := rowOf(line[2:6])
			if err != nil {
				return c, err
			}
			if row = w.meant(row); w.whole() && line[6] != w.hex(w.Board.Word(row)) {
				return c, fmt.Errorf("the port %s is not that of its levels", line[6])
			}
			c.tables[line[0]] = append(c.tables[line[0]], row)
		case len(line) == len(intervalColumns):
			ticks, err := strconv.ParseInt(line[1], 10, 64)
			if err != nil {
				return c, err
			}
			c.intervals = append(c.intervals, ticks)
		}
	}
	return c, nil
}

// rowOf reads four levels or shares.
func rowOf(words []string) (row sequence.Row, err error) {
	for k, word := range words {
		if row[k], err = strconv.ParseFloat(strings.TrimSpace(word), 64); err != nil {
			return row, err
		}
	}
	return row, nil
}
