package table

import (
	"fmt"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// notation is a way to write rows of four levels.
type notation struct {
	name  string
	files []string // with the endings of the languages that have it
	write func(rows [][]int) string
}

// nested writes rows in brackets, a level as it is called.
func nested(head, open, between, end, tail, off, on string) func([][]int) string {
	return func(rows [][]int) string {
		var b strings.Builder
		b.WriteString(head)
		for _, row := range rows {
			b.WriteString(open)
			for c, l := range row {
				if c > 0 {
					b.WriteString(",")
				}
				b.WriteString([2]string{off, on}[l])
			}
			b.WriteString(end + between)
		}
		return b.String() + tail
	}
}

// numbers writes a number a row.
func numbers(head, form, between, tail string) func([][]int) string {
	return func(rows [][]int) string {
		var b strings.Builder
		b.WriteString(head)
		for _, row := range rows {
			fmt.Fprintf(&b, form+between, bitValue(row))
		}
		return b.String() + tail
	}
}

// coils writes an array a column.
func coils(head, open, tail string) func([][]int) string {
	return func(rows [][]int) string {
		var b strings.Builder
		for c := range 4 {
			fmt.Fprintf(&b, head+open, c+1)
			for _, row := range rows {
				fmt.Fprintf(&b, "%d, ", row[c])
			}
			b.WriteString(tail + "\n")
		}
		return b.String()
	}
}

var notations = []notation{
	{"nested", []string{"a.c", "a.cpp"}, nested("int t[][4] = {\n", "{", ",\n", "}", "};", "0", "1")},
	{"nested levels", []string{"a.c", "a.ino"}, nested("int t[][4] = {", "{", ", /* {1} */ ", "}", "};", "LOW", "HIGH")},
	{"nested in Go", []string{"a.go"}, nested("package a\n\nvar t = [][4]bool{\n", "\t{", ",\n", "}", "}\n", "false", "true")},
	{"nested in Rust", []string{"a.rs"}, nested("const T: [[u8; 4]; 9] = [", "[", ", // [1]\n", "]", "];", "0u8", "1")},
	{"nested in Python", []string{"a.py"}, nested("t = [", "(", ",  # [1]\n", ")", "]\n", "False", "True")},
	{"laid end to end", []string{"a.c", "a.cpp"}, nested("int t[] = {", "", ", ", "", "};", "0", "1")},
	{"hexadecimal", []string{"a.c", "a.cpp"}, numbers("unsigned t[] = {", "0x%X", "u, ", "};")},
	{"octal", []string{"a.c"}, numbers("unsigned t[] = {", "0%o", ", ", "};")},
	{"binary", []string{"a.c", "a.cpp"}, numbers("unsigned t[] = {", "0b%08b", ", ", "};")},
	{"binary constants", []string{"a.c", "a.ino"}, numbers("unsigned t[] = {", "B%04b", ", ", "};")},
	{"octal in Go", []string{"a.go"}, numbers("package a\n\nvar t = []int{", "0o%o", ", ", "}\n")},
	{"binary in Go", []string{"a.go"}, numbers("package a\n\nvar t = []int{", "0b%04b", ", ", "}\n")},
	{"binary in Rust", []string{"a.rs"}, numbers("let t = vec![", "0b%04b_u8", ", ", "];")},
	{"octal in Rust", []string{"a.rs"}, numbers("let t = [", "0o%o", ", ", "];")},
	{"hexadecimal in Python", []string{"a.py"}, numbers("t = [", "0x%x", ", ", "]\n")},
	{"octal in Python", []string{"a.py"}, numbers("t = (", "0o%o", ", ", ")\n")},
	{"an array a coil", []string{"a.c", "a.cpp"}, coils("int coil%d[] = ", "{", "};")},
	{"an array a coil in Python", []string{"a.py"}, coils("coil%d = ", "[", "]")},
	{"an array a coil in Rust", []string{"a.rs"}, coils("const COIL%d: [u8; 9] = ", "[", "];")},
	{"plain patterns", []string{"a.txt", "-", "rows.csv"}, numbers("# rows\n", "%04b", "\n", "")},
	{"plain columns", []string{"a.txt", "-"}, nested("A B C D\n", "", "\n", "", "", "0", "1")},
	{"plain numbers", []string{"a.txt", "-"}, numbers("", "0x%X", "\n", "")},
}

// Rows written out in any notation come back the same, in the same order.
func TestRowsComeBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		// Rows that move all four bits: else the bits that move say nothing of
		// which four are meant.
		rows := rapid.SliceOfN(rapid.SliceOfN(rapid.IntRange(0, 1), 4, 4), 5, 40).Filter(movesAll).Draw(t, "rows")
		for _, n := range notations {
			text := n.write(rows)
			for _, file := range n.files {
				s, err := Read(file, []byte(text), Options{})
				if err != nil {
					t.Fatalf("%s in %s: %v\n%s", n.name, file, err, text)
				}
				if len(s.Tables) != 1 || !reflect.DeepEqual(levelsOf(s.Tables[0].Rows), rows) {
					t.Fatalf("%s in %s: %s\nof %s", n.name, file, told(s, nil), text)
				}
			}
		}
	})
}

// The lowest bit first is the same as the columns in the other order.
func TestBitsTurnedRound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rows := rapid.SliceOfN(rapid.SliceOfN(rapid.IntRange(0, 1), 4, 4), 5, 40).Filter(movesAll).Draw(t, "rows")
		shift := rapid.IntRange(0, 12).Draw(t, "shift")
		var b strings.Builder
		for _, row := range rows {
			fmt.Fprintf(&b, "0x%x, ", bitValue(row)<<shift)
		}
		high, err := Read("a.c", []byte("int t[] = {"+b.String()+"};"), Options{})
		low, err2 := Read("a.c", []byte("int t[] = {"+b.String()+"};"), Options{Bits: LSBFirst})
		if err != nil || err2 != nil {
			t.Fatal(err, err2)
		}
		for i, row := range rows {
			h, l := high.Tables[0].Rows[i].Levels, low.Tables[0].Rows[i].Levels
			for c := range row {
				if h[c] != row[c] || l[3-c] != row[c] {
					t.Fatalf("row %d is %v, read %v and %v", i, row, h, l)
				}
			}
		}
		if b := low.Tables[0].Bits; b[0] != shift || b[3] != shift+3 {
			t.Fatalf("bits %v, shift %d", b, shift)
		}
	})
}

func movesAll(rows [][]int) bool {
	for c := range 4 {
		moves := false
		for _, row := range rows {
			moves = moves || row[c] != rows[0][c]
		}
		if !moves {
			return false
		}
	}
	return true
}

func levelsOf(rows []Row) [][]int {
	var out [][]int
	for _, r := range rows {
		out = append(out, r.Levels)
	}
	return out
}
