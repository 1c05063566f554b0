package table

import "fmt"

// fromLists makes tables of a list of lists: rows of levels, one list a coil,
// or several tables of a number a row.
func (r *reader) fromLists(a *array, name string) error {
	if r.signed(a, name) {
		return nil
	}
	levels := 0
	for i := range a.arrays {
		if a.arrays[i].isLevels() {
			levels++
		}
	}
	if levels < len(a.arrays) {
		if 2*levels > len(a.arrays) {
			return r.oneSlip(a, name)
		}
		if w := commonWidth(a.arrays); (w == 4 || w == 2) && notByName(name) == "" {
			r.skip(name, a.line, "its rows hold more than 0 and 1: duties or currents, which are not read")
			return nil
		}
		return r.eachList(a, name)
	}
	wide := commonWidth(a.arrays)
	for i := range a.arrays {
		row := &a.arrays[i]
		n := len(row.literals)
		if n == wide {
			continue
		}
		if wide != 4 && wide != 2 {
			r.skip(name, a.line, "its rows have different numbers of columns")
			return nil
		}
		return r.complaint(row.line, row.column, fmt.Sprintf("row %d of %s has %d columns, others have %d", i+1, r.called(name), n, wide), "all rows need the same number")
	}
	return r.matrix(a.arrays, name, a.line)
}

// signed takes rows of two currents, each +1, 0 or -1: those of the two phases.
// They are told as the four coil ends.
func (r *reader) signed(a *array, name string) (taken bool) {
	below := false
	for i := range a.arrays {
		if len(a.arrays[i].literals) != 2 {
			return false
		}
		for _, l := range a.arrays[i].literals {
			if !l.valued || l.value < -1 || l.value > 1 {
				return false
			}
			below = below || l.value < 0
		}
	}
	if !below {
		return false
	}
	t := Table{Name: name, Line: a.line, Columns: []string{"column 1 above 0", "column 2 above 0", "column 1 below 0", "column 2 below 0"},
		Notes: []string{"Read as the signed currents of two phases: column 1 is one coil, column 2 the other."}}
	for i := range a.arrays {
		row := levelRow(a.arrays[i].literals, a.arrays[i].opening, a.arrays[i].span)
		x, y := a.arrays[i].literals[0].value, a.arrays[i].literals[1].value
		row.Levels = []int{int(max(x, 0)), int(max(y, 0)), int(max(-x, 0)), int(max(-y, 0))}
		t.Rows = append(t.Rows, row)
	}
	r.out.Tables = append(r.out.Tables, t)
	return true
}

// commonWidth gives the number of literals that most lists have; of equals the
// first.
func commonWidth(rows []array) int {
	count, wide := map[int]int{}, 0
	for i := range rows {
		count[len(rows[i].literals)]++
	}
	for i := range rows {
		if n := len(rows[i].literals); count[n] > count[wide] {
			wide = n
		}
	}
	return wide
}

// oneSlip is the complaint about a table of levels in which something else
// stands.
func (r *reader) oneSlip(a *array, name string) error {
	for i := range a.arrays {
		for _, l := range a.arrays[i].literals {
			if !l.isLevel() {
				return r.complaint(l.line, l.column, fmt.Sprintf("%s in row %d of %s is no level", shortened(l.text), i+1, r.called(name)), "0 or 1 is wanted in each column")
			}
		}
	}
	return nil
}

// eachList makes a table of each list; when none is one, the whole is told once.
func (r *reader) eachList(a *array, name string) error {
	tables, skipped := len(r.out.Tables), len(r.out.Skipped)
	for i := range a.arrays {
		if err := r.fromList(&a.arrays[i], indexed(name, i)); err != nil {
			return err
		}
	}
	if len(r.out.Tables) == tables && len(r.out.Skipped) > skipped {
		why := "of its lists the first is left out because " + r.out.Skipped[skipped].Why
		r.out.Skipped = r.out.Skipped[:skipped]
		r.skip(name, a.line, why)
	}
	return nil
}

// matrix makes tables of even lists of levels.
func (r *reader) matrix(rows []array, name string, line int) error {
	tall, wide := len(rows), len(rows[0].literals)
	if wide > mostColumns && tall != 4 && tall != 2 {
		return r.complaint(line, 0, fmt.Sprintf("the rows of %s have %d columns", r.called(name), wide), fmt.Sprintf("at most %d are read", mostColumns))
	}
	t := Table{Name: name, Line: line}
	switch {
	case tall == 2 && wide == 4 && r.options.Pins != CoilEnds && r.options.Pins != PhaseEnable && halfOn(rows),
		(tall == 4 || tall == 2) && wide > 6: // five or six columns are rather a row with something beside it
		return r.add(transposed(name, rows, numbered(tall), fmt.Sprintf("Read as one list a coil: %d lists of %d rows.", tall, wide)))
	case tall == 4 && wide == 4:
		t.Notes = append(t.Notes, "Four lists of four levels: read as one list a row.")
	case wide == 8:
		return r.twoMotorColumns(rows, t)
	case wide != 4 && wide != 2:
		r.skip(name, line, fmt.Sprintf("its rows have %d columns; four, or two, are wanted", wide))
		return nil
	}
	t.Columns = numbered(wide)
	for i := range rows {
		t.Rows = append(t.Rows, levelRow(rows[i].literals, rows[i].opening, rows[i].span))
	}
	return r.add(t)
}

// halfOn says whether each of two lists is 1 in half its places: so it is for
// two polarity lines, while two rows alone are no order.
func halfOn(rows []array) bool {
	for i := range rows {
		on := 0
		for _, l := range rows[i].literals {
			on += int(l.value)
		}
		if 2*on != len(rows[i].literals) {
			return false
		}
	}
	return true
}

// twoMotorColumns makes two tables of rows of eight levels; one, when only four
// of the columns ever change.
func (r *reader) twoMotorColumns(rows []array, t Table) error {
	halves := [2]bool{}
	for i := range rows {
		for c, l := range rows[i].literals {
			if l.value != rows[0].literals[c].value {
				halves[c/4] = true
			}
		}
	}
	note := "Rows of eight levels: two motors, motor 1 in columns 1 to 4, motor 2 in columns 5 to 8."
	if halves[0] != halves[1] {
		note = "Rows of eight levels of which only one half changes: columns 1 to 4."
		if halves[1] {
			note = "Rows of eight levels of which only one half changes: columns 5 to 8."
		}
	}
	name := r.called(t.Name)
	for half := range halves {
		one := Table{Name: name, Line: t.Line, Columns: numbered(8)[4*half : 4*half+4], Notes: []string{note}}
		if halves[0] == halves[1] {
			one.Motor = half + 1
		} else if !halves[half] {
			continue
		}
		for i := range rows {
			one.Rows = append(one.Rows, levelRow(rows[i].literals[4*half:4*half+4], 0, span{}))
		}
		if err := r.add(one); err != nil {
			return err
		}
	}
	return nil
}

// transposed makes a table of lists that stand one a coil.
func transposed(name string, coils []array, columns []string, note string) Table {
	t := Table{Name: name, Line: coils[0].line, Columns: columns, Notes: []string{note}}
	for i := range coils[0].literals {
		row := Row{Line: coils[0].literals[i].line}
		for c := range coils {
			row.Levels = append(row.Levels, int(coils[c].literals[i].value))
			row.literals = append(row.literals, coils[c].literals[i])
		}
		row.Text = bitText(row.Levels)
		t.Rows = append(t.Rows, row)
	}
	return t
}
