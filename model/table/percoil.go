package table

import (
	"fmt"
	"strings"
)

// perCoil makes tables of arrays of levels that stand one after another, one a
// coil, or one a row. It gives how many arrays it took; 0 for none.
func (r *reader) perCoil(found []array) (int, error) {
	first, stem := &found[0], rowStem(found[0].name)
	n := 0
	for n < len(found) && rowStem(found[n].name) == stem && found[n].deep == 1 && found[n].odd == "" && found[n].isLevels() &&
		len(found[n].literals) == len(first.literals) && notByName(found[n].name) == "" {
		n++
	}
	run := found[:n]
	if n < 2 {
		return 0, nil
	}
	if long := len(first.literals); (long == 4 || long == 2) && n >= 4 && stem != "" {
		return n, r.add(oneARow(run))
	}
	switch long := len(first.literals); {
	case n%4 == 0:
		if long >= 16 && long%4 == 0 && flatLooksRight(run) {
			return 0, nil
		}
		return 4, r.add(oneACoil(run[:4]))
	case n == 2 && r.options.Pins != CoilEnds && r.options.Pins != PhaseEnable:
		if long%4 == 0 && long > 8 && !pairNames(run) && r.options.Pins != TwoLine {
			return 0, nil
		}
		return 2, r.add(oneACoil(run))
	case long%4 != 0 || long < 16:
		for i := range run {
			r.skip(run[i].name, run[i].line, fmt.Sprintf("%d arrays of %d levels stand together; one a coil, four or two are wanted", n, long))
		}
		return n, nil
	}
	return 0, nil
}

func oneACoil(run []array) Table {
	columns := make([]string, len(run))
	for i := range columns {
		columns[i] = run[i].name
		if columns[i] == "" {
			columns[i] = fmt.Sprintf("column %d", i+1)
		}
	}
	note := "Read as one array a coil: " + strings.Join(columns, ", ") + "."
	if len(run) == 4 && len(run[0].literals) == 4 {
		note = "Four arrays of four levels: read as one array a coil, not one a row: " + strings.Join(columns, ", ") + "."
	}
	return transposed(run[0].name, run, columns, note)
}

func oneARow(run []array) Table {
	t := Table{Name: run[0].name, Line: run[0].line, Columns: numbered(len(run[0].literals)),
		Notes: []string{fmt.Sprintf("Read as one array a row, not one a coil, by the names %s to %s.", run[0].name, run[len(run)-1].name)}}
	for i := range run {
		t.Rows = append(t.Rows, levelRow(run[i].literals, run[i].opening, run[i].span))
	}
	return t
}

// rowStem gives what is before the number in the name of a row, counted: step1,
// step2, …; "" for other names.
func rowStem(name string) string {
	stem := strings.TrimRight(name, "0123456789")
	if stem == name || !nameHas(stem, "step", "row", "phase", "state", "seq", "sequence", "position", "pos", "pattern") {
		return ""
	}
	return stem
}

// pairNames says whether two arrays are named as two of a kind: alike but for
// one letter.
func pairNames(pair []array) bool {
	a, b := pair[0].name, pair[1].name
	if len(a) != len(b) || a == b {
		return false
	}
	differ := 0
	for i := range a {
		if a[i] != b[i] {
			differ++
		}
	}
	return differ == 1
}

// flatLooksRight says whether arrays are better rows laid end to end than one a
// coil: a row of a table has one or two of its four outputs on.
func flatLooksRight(run []array) bool {
	coils, flat := true, true
	for k := 0; k < len(run); k += 4 {
		for i := range run[k].literals {
			on := 0
			for c := range 4 {
				on += int(run[k+c].literals[i].value)
			}
			coils = coils && on <= 2
		}
	}
	for k := range run {
		for i := 0; i < len(run[k].literals); i += 4 {
			on := 0
			for _, l := range run[k].literals[i : i+4] {
				on += int(l.value)
			}
			flat = flat && on <= 2
		}
	}
	return flat && !coils
}
