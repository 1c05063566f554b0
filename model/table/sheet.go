package table

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
)

// sheetColumns are the columns of a sheet that hold the levels: coilwalk write csv
// makes such a sheet, and a spreadsheet keeps them as they are called.
var sheetColumns = []string{"output1", "output2", "output3", "output4"}

// IsSheet says whether a text is a sheet by its heading.
func IsSheet(text []byte) bool {
	_, places := sheetHeading(sheetReader(string(text)))
	return places != nil
}

func sheetReader(text string) *csv.Reader {
	c := csv.NewReader(strings.NewReader(text))
	c.Comment, c.FieldsPerRecord, c.LazyQuotes, c.TrimLeadingSpace = '#', -1, true, true
	return c
}

// sheetHeading reads the heading, and says where in it the outputs stand; nil where
// they do not.
func sheetHeading(c *csv.Reader) (heading []string, places []int) {
	heading, err := c.Read()
	if err != nil {
		return nil, nil
	}
	for i := range heading {
		heading[i] = strings.ToLower(strings.TrimSpace(heading[i]))
	}
	for _, name := range sheetColumns {
		at := slices.Index(heading, name)
		if at < 0 {
			return heading, nil
		}
		places = append(places, at)
	}
	return heading, places
}

// sheet reads a sheet whose heading names the outputs, a row a line, and gives each
// direction in it a table of its own; ok is false where there is no such heading.
func (r *reader) sheet(text string) (ok bool, err error) {
	c := sheetReader(text)
	heading, places := sheetHeading(c)
	if places == nil {
		return false, nil
	}
	named := slices.Index(heading, "direction")
	var tables []Table
	for { // to its end: a file is bounded, and so is each table
		fields, err := c.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		var bad *csv.ParseError
		if errors.As(err, &bad) {
			return true, r.complaint(bad.Line, bad.Column, "this line can not be parted into columns", "columns parted by commas are wanted, text with a comma in quotes")
		}
		line, _ := c.FieldPos(0)
		if len(fields) != len(heading) && !strings.ContainsAny(strings.Join(fields, ""), "0123456789") {
			break // another sheet begins: that of the ticks
		}
		if len(fields) < len(heading) {
			return true, r.complaint(line, 0, fmt.Sprintf("this row has %d columns, the heading has %d", len(fields), len(heading)), "all rows of a table need the same number")
		}
		row := Row{Line: line}
		for k, at := range places {
			level := strings.TrimSpace(fields[at])
			if level != "0" && level != "1" {
				_, column := c.FieldPos(at)
				return true, r.complaint(line, column, fmt.Sprintf("\"%s\" is no level of %s", shortened(level), sheetColumns[k]), "0 or 1 is wanted; shares of microsteps are not judged")
			}
			row.Levels = append(row.Levels, int(level[0]-'0'))
			row.Text += level
		}
		name := ""
		if named >= 0 {
			name = strings.TrimSpace(fields[named])
		}
		if last := len(tables) - 1; last < 0 || tables[last].Name != name {
			tables = append(tables, Table{Name: name, Line: line, Columns: numbered(len(sheetColumns))}.headed(sheetColumns))
		}
		t := &tables[len(tables)-1]
		t.Rows = append(t.Rows, row)
	}
	for _, t := range tables {
		if err := r.add(t); err != nil {
			return true, err
		}
	}
	return true, nil
}
