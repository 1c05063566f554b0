package handoff

import (
	"fmt"
	"strconv"
	"strings"

	"coilwalk/model/table"
	"coilwalk/sequence"
)

// readSource reads tables of a language out of source text, as check does with
// what a person wrote.
func readSource(ending string) func(*Walk, []byte) (contents, error) {
	return func(w *Walk, text []byte) (contents, error) {
		c := contents{tables: map[string][]sequence.Row{}}
		source, err := table.Read("written"+ending, text, table.Options{Pins: table.CoilEnds})
		if err != nil {
			return c, err
		}
		for i := range source.Tables {
			t := &source.Tables[i]
			name, ok := plainName(t.Name, w)
			if !ok {
				continue
			}
			for _, row := range t.Rows {
				c.tables[name] = append(c.tables[name], w.rowIn(t, row))
			}
			if err := w.sound(t, name); err != nil {
				return c, err
			}
		}
		c.intervals, err = intervalsIn(string(text))
		return c, err
	}
}

// plainName gives a table's name without what the language puts before it.
func plainName(name string, w *Walk) (string, bool) {
	name = strings.ToLower(name)
	name = name[strings.LastIndexAny(name, "_:")+1:]
	_, ok := w.tables()[name]
	return name, ok
}

// rowIn gives a row of a table, on the outputs: a column is a bit of the port
// where rows are packed, else an output.
func (w *Walk) rowIn(t *table.Table, read table.Row) (row sequence.Row) {
	for column, level := range read.Levels {
		if level == 1 != w.Board.ActiveLow {
			row[w.output(t, column)] = 1
		}
	}
	return row
}

// output gives the output, from 0, that a column of a table drives.
func (w *Walk) output(t *table.Table, column int) int {
	if t.Bits == nil {
		return column
	}
	for k, bit := range w.Board.Bits {
		if bit == t.Bits[column] {
			return k
		}
	}
	return column
}

// sound asks check's judge whether a table is sound under the wiring.
func (w *Walk) sound(t *table.Table, name string) error {
	var wiring sequence.Permutation
	for column := range wiring {
		wiring[column] = w.Motor.Wiring[w.output(t, column)]
	}
	v := table.Judge(t, table.Question{Wiring: &wiring, Drive: w.Motor.Drive, Pins: table.CoilEnds, ActiveLow: w.Board.ActiveLow})
	mode, way := w.Mode.Name, sequence.Forward
	switch name {
	case halfName:
		mode = sequence.Half.Name
	case reverseName:
		way = sequence.Reverse
	}
	if !v.Sound || v.Mode != mode || v.Direction != way {
		return fmt.Errorf("the table %s is read as %s, %s, sound: %t", t.Name, v.Mode, v.Direction, v.Sound)
	}
	return nil
}

// intervalsIn reads the numbers of the ramp, between its brackets.
func intervalsIn(text string) (intervals []int64, err error) {
	lower := strings.ToLower(text)
	for {
		at := strings.Index(lower, "ramp")
		if at < 0 {
			return nil, fmt.Errorf("there is no ramp")
		}
		lower = lower[at+len("ramp"):]
		_, list, ok := strings.Cut(firstLine(lower), "=")
		if !ok || strings.Trim(list, " ({[") != "" {
			continue
		}
		list = lower[strings.Index(lower, "=")+1:]
		list = strings.TrimLeft(list, " ({[\n")
		end := strings.IndexAny(list, ")}]")
		if end < 0 {
			return nil, fmt.Errorf("the ramp has no end")
		}
		for word := range strings.FieldsFuncSeq(list[:end], func(r rune) bool { return r < '0' || r > '9' }) {
			ticks, err := strconv.ParseInt(word, 10, 64)
			if err != nil {
				return nil, err
			}
			intervals = append(intervals, ticks)
		}
		return intervals, nil
	}
}

func firstLine(text string) string {
	line, _, _ := strings.Cut(text, "\n")
	return line
}
