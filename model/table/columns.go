package table

import (
	"fmt"
	"math/bits"
	"strings"
)

// fromArray makes tables of an array.
func (r *reader) fromArray(a *array, name string) error {
	switch a.depth() {
	case 1:
		return r.fromList(a, name)
	case 2:
		return r.fromLists(a, name)
	}
	if a.depth() > 4 {
		r.skip(name, a.line, "it is nested deeper than tables are")
		return nil
	}
	for i := range a.arrays {
		if err := r.fromArray(&a.arrays[i], fmt.Sprintf("%s[%d]", name, i)); err != nil {
			return err
		}
	}
	return nil
}

// fromLists makes tables of a list of lists: rows of levels, one list a coil,
// or several tables of packed rows.
func (r *reader) fromLists(a *array, name string) error {
	wide, even, levels := 0, true, true
	for i := range a.arrays {
		row := &a.arrays[i]
		if i == 0 {
			wide = len(row.literals)
		}
		even = even && len(row.literals) == wide
		levels = levels && row.isLevels()
	}
	switch {
	case !levels:
		for i := range a.arrays {
			if err := r.fromList(&a.arrays[i], fmt.Sprintf("%s[%d]", name, i)); err != nil {
				return err
			}
		}
		return nil
	case !even:
		for i := range a.arrays {
			if row := &a.arrays[i]; len(row.literals) != wide {
				return r.complaint(row.line, 0, fmt.Sprintf("row %d of %s has %d columns, the first has %d", i+1, name, len(row.literals), wide),
					"all rows need the same number")
			}
		}
	case wide == 4 || wide == 2:
		t := Table{Name: name, Line: a.line, Columns: numbered(wide)}
		for i := range a.arrays {
			t.Rows = append(t.Rows, levelRow(a.arrays[i].literals))
		}
		return r.add(t)
	case len(a.arrays) == 4 || len(a.arrays) == 2:
		return r.add(transposed(name, a.arrays, numbered(len(a.arrays)),
			fmt.Sprintf("Read as one list a coil: %d lists of %d rows.", len(a.arrays), wide)))
	}
	r.skip(name, a.line, fmt.Sprintf("its rows have %d columns; four, or two, are wanted", wide))
	return nil
}

// perCoil makes one table of arrays that stand one after another, one a coil.
// It gives how many arrays it took; 0 for none.
func (r *reader) perCoil(found []array) (int, error) {
	first := &found[0]
	if first.depth() != 1 || !first.isLevels() || looksLike(first.name, "pin") {
		return 0, nil
	}
	n := 1
	for n < len(found) && n < 4 && found[n].depth() == 1 && found[n].isLevels() && len(found[n].literals) == len(first.literals) {
		n++
	}
	if n != 4 && (n != 2 || len(first.literals)%4 == 0 && len(first.literals) > 4 && !pairNames(found[:2])) {
		return 0, nil
	}
	if n == 4 && len(first.literals) == 4 && countedNames(found[:4]) {
		t := Table{Name: first.name, Line: first.line, Columns: numbered(4),
			Notes: []string{"Read as one array a row, by the arrays' names."}}
		for i := range 4 {
			t.Rows = append(t.Rows, levelRow(found[i].literals))
		}
		return 4, r.add(t)
	}
	columns := make([]string, n)
	for i := range columns {
		columns[i] = found[i].name
	}
	return n, r.add(transposed(first.name, found[:n], columns, "Read as one array a coil: "+strings.Join(columns, ", ")+"."))
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

// countedNames says whether arrays are named as rows, counted: step1, step2, …
func countedNames(four []array) bool {
	for i := range four {
		stem := strings.TrimRight(four[i].name, "0123456789")
		if stem == four[i].name || !looksLike(stem, "step", "row", "phase", "state", "seq") {
			return false
		}
	}
	return true
}

func (a *array) isLevels() bool {
	for _, l := range a.literals {
		if !l.valued || l.value != 0 && l.value != 1 {
			return false
		}
	}
	return len(a.literals) > 0
}

func numbered(n int) []string {
	columns := make([]string, n)
	for i := range columns {
		columns[i] = fmt.Sprintf("column %d", i+1)
	}
	return columns
}

func levelRow(literals []literal) Row {
	row := Row{Line: literals[0].line}
	texts := make([]string, len(literals))
	for i, l := range literals {
		row.Levels = append(row.Levels, int(l.value))
		texts[i] = l.text
	}
	row.Text = strings.Join(texts, ",")
	return row
}

func transposed(name string, coils []array, columns []string, note string) Table {
	t := Table{Name: name, Line: coils[0].line, Columns: columns, Notes: []string{note}}
	for i := range coils[0].literals {
		row := Row{Line: coils[0].literals[i].line}
		for c := range coils {
			row.Levels = append(row.Levels, int(coils[c].literals[i].value))
		}
		row.Text = bitText(row.Levels)
		t.Rows = append(t.Rows, row)
	}
	return t
}

// fromList makes tables of a flat list.
func (r *reader) fromList(a *array, name string) error {
	n := len(a.literals)
	if looksLike(name, "pin") && n <= 8 || consecutive(a.literals) {
		r.skip(name, a.line, "it looks like the numbers of pins")
		return nil
	}
	if looksLike(name, "delay", "speed", "rpm", "wait") {
		r.skip(name, a.line, "by its name it holds times, not rows")
		return nil
	}
	if digits := a.asDigits(); digits != nil {
		t := Table{Name: name, Line: a.line, Columns: numbered(4), Digits: digits}
		for i, l := range a.literals {
			v := 0
			if l.valued {
				v = int(l.value & 15)
			}
			t.Rows = append(t.Rows, Row{Line: l.line, Text: l.text, Levels: unpack(v, []int{3, 2, 1, 0})})
			if !l.valued {
				t.Rows[i].Levels = []int{0, 0, 0, 0}
			}
		}
		return r.add(t)
	}
	for _, l := range a.literals {
		if !l.valued {
			return r.complaint(l.line, l.column, fmt.Sprintf("%s is no number in %s", l.text, r.language), "write 0b1010 or 0xA")
		}
	}
	if a.isLevels() {
		if n%4 != 0 || n < 8 {
			r.skip(name, a.line, fmt.Sprintf("%d levels make no rows of four", n))
			return nil
		}
		t := Table{Name: name, Line: a.line, Columns: numbered(4), Notes: []string{"Read as rows of four levels, laid end to end."}}
		for i := 0; i < n; i += 4 {
			t.Rows = append(t.Rows, levelRow(a.literals[i:i+4]))
		}
		return r.add(t)
	}
	return r.packed(a.literals, name, a.line)
}

// asDigits gives the rows that literals look like, when all are four zeros and
// ones but the language gives some of them another value.
func (a *array) asDigits() (rows []Row) {
	if len(a.literals) < 2 {
		return nil
	}
	other := false
	for _, l := range a.literals {
		if len(l.digits) != 4 {
			return nil
		}
		levels := make([]int, 4)
		for i := range levels {
			levels[i] = int(l.digits[i] - '0')
		}
		row := Row{Line: l.line, Text: l.text, Levels: levels, other: !l.valued || l.value != int64(bitValue(levels))}
		other = other || row.other
		rows = append(rows, row)
	}
	if !other {
		return nil
	}
	return rows
}

// consecutive says whether numbers count up or down by one, as pins do.
func consecutive(literals []literal) bool {
	if len(literals) < 2 || literals[0].value == 0 && literals[1].value == 1 && len(literals) == 2 {
		return false
	}
	for i := 1; i < len(literals); i++ {
		if d := literals[i].value - literals[i-1].value; d != literals[1].value-literals[0].value || d != 1 && d != -1 {
			return false
		}
	}
	return true
}

// packed makes tables of rows that are packed into numbers: finds the bits that
// move, and with eight of them two motors.
func (r *reader) packed(literals []literal, name string, line int) error {
	all, common := uint64(0), ^uint64(0)
	for _, l := range literals {
		if l.value < 0 || l.value > 0xffff {
			r.skip(name, line, fmt.Sprintf("%s is beyond a port of 16 bits", l.text))
			return nil
		}
		all, common = all|uint64(l.value), common&uint64(l.value)
	}
	moving := all &^ common
	switch count := bits.OnesCount64(moving); {
	case len(literals) < 3:
		r.skip(name, line, "two numbers are no order")
	case count == 0:
		r.skip(name, line, "all its numbers are the same")
	case count > 4 && moving <= 0xff && moving&0x0f != 0 && moving&0xf0 != 0:
		for motor, shift := range []int{0, 4} {
			t := r.packedTable(literals, name, line, []int{shift + 3, shift + 2, shift + 1, shift})
			t.Motor = motor + 1
			t.Notes = append(t.Notes, "Eight bits move: two motors in one byte, motor 1 in bits 0 to 3, motor 2 in bits 4 to 7.")
			if err := r.add(t); err != nil {
				return err
			}
		}
	case count > 4:
		r.skip(name, line, fmt.Sprintf("its numbers move %d bits; the rows of a motor move four", count))
	default:
		where := fourBits(moving)
		t := r.packedTable(literals, name, line, where)
		if shift := where[3]; shift > 0 && where[0] == shift+3 {
			t.Notes = append(t.Notes, fmt.Sprintf("The table moves bits %d to %d: shift %d.", shift, where[0], shift))
		} else if where[0] != where[3]+3 {
			t.Notes = append(t.Notes, fmt.Sprintf("The bits that move do not stand together: %d, %d, %d and %d.", where[0], where[1], where[2], where[3]))
		}
		if still := common; still != 0 {
			t.Notes = append(t.Notes, fmt.Sprintf("Other bits never change: 0x%X stays on.", still))
		}
		return r.add(t)
	}
	return nil
}

// fourBits gives the four bits, highest first, of which some move: the moving
// ones, or the half byte that holds them, or four from the lowest on.
func fourBits(moving uint64) []int {
	if bits.OnesCount64(moving) == 4 {
		var where []int
		for b := 15; b >= 0; b-- {
			if moving>>b&1 == 1 {
				where = append(where, b)
			}
		}
		return where
	}
	low := bits.TrailingZeros64(moving) / 4 * 4
	if moving>>low > 0xf {
		low = bits.TrailingZeros64(moving)
	}
	return []int{low + 3, low + 2, low + 1, low}
}

func (r *reader) packedTable(literals []literal, name string, line int, where []int) Table {
	if r.options.Bits == LSBFirst {
		where = []int{where[3], where[2], where[1], where[0]}
	}
	t := Table{Name: name, Line: line, Bits: where}
	for _, b := range where {
		t.Columns = append(t.Columns, fmt.Sprintf("bit %d", b))
	}
	other := "lsb"
	if r.options.Bits == LSBFirst {
		other = "msb"
	}
	t.Notes = append(t.Notes, fmt.Sprintf("Column 1 is bit %d, column 4 is bit %d; --bits %s turns that round.", where[0], where[3], other))
	for _, l := range literals {
		t.Rows = append(t.Rows, Row{Line: l.line, Text: l.text, Levels: unpack(int(l.value), where)})
	}
	return t
}

func unpack(value int, where []int) []int {
	levels := make([]int, len(where))
	for i, b := range where {
		levels[i] = value >> b & 1
	}
	return levels
}
