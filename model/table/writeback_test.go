package table

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"coilwalk/sequence"
)

// mendedLines gives the lines that the first cure of the first table makes of a file.
func mendedLines(t interface{ Fatal(...any) }, name, text string, q Question) (string, Written, bool) {
	s, err := Read(name, []byte(text), Options{})
	if err != nil {
		t.Fatal(err)
	}
	v := Judge(&s.Tables[0], q)
	if len(v.Cures) == 0 {
		t.Fatal(text, v.Faults)
	}
	w, ok := v.Written(v.Cures[0])
	return strings.Join(w.Lines, "\n"), w, ok
}

// A table put right is given back in the words of its file: base, width, brackets,
// marks, comments and the order of its columns stay.
func TestATableIsWrittenBack(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"a.c", "// flap\nint f[] = {0b1000, 0b1100, 0b0100, 0b0110, 0b0010, 0b0011, 0b0001, 0b1011}; // rows",
			"int f[] = {0b1000, 0b1100, 0b0100, 0b0110, 0b0010, 0b0011, 0b0001, 0b1001}; // rows"},
		{"a.c", "int f[] = {\n  0x08u, // one\n  0x0Cu,\n  0x04u, // three\n  /* half */\n  0x02u,\n  0x03u,\n  0x01u,\n  0x09u // last\n};",
			"  0x08u, // one\n  0x0Cu,\n  0x04u, // three\n  /* half */\n  0x06u,\n  0x02u,\n  0x03u,\n  0x01u,\n  0x09u // last"},
		{"a.c", "int f[] = {\n  8, // one\n  12,\n  4,\n  6,\n  2,\n  3,\n  1 // seven\n};", "  8, // one\n  12,\n  4,\n  6,\n  2,\n  3,\n  1, // seven\n  9"},
		{"a.c", "int f[8][4] = {\n\t{1,0,0,0},\n\t{1,1,0,0},\n\t{0,1,0,0},\n\t{0,1,1,0},\n\t{0,1,1,0},\n\t{0,0,1,0},\n\t{0,0,1,1},\n\t{0,0,0,1},\n\t{1,0,0,1}};",
			"\t{1,0,0,0},\n\t{1,1,0,0},\n\t{0,1,0,0},\n\t{0,1,1,0},\n\t{0,0,1,0},\n\t{0,0,1,1},\n\t{0,0,0,1},\n\t{1,0,0,1}};"},
		{"a.ino", "bool f[4][4] = { { HIGH, LOW, LOW, LOW }, { LOW, HIGH, LOW, LOW }, { LOW, LOW, HIGH, LOW }, { LOW, LOW, LOW, LOW } };",
			"bool f[4][4] = { { HIGH, LOW, LOW, LOW }, { LOW, HIGH, LOW, LOW }, { LOW, LOW, HIGH, LOW }, { LOW, LOW, LOW, HIGH } };"},
		{"a.rs", "const F: [u8; 8] = [\n    0b0000_1000,\n    0b0000_1100,\n    0b0000_0100,\n    0b0000_0110,\n    0b0000_0010,\n    0b0000_0011,\n    0b0000_0001,\n    0b0000_0001,\n];",
			"    0b0000_1000,\n    0b0000_1100,\n    0b0000_0100,\n    0b0000_0110,\n    0b0000_0010,\n    0b0000_0011,\n    0b0000_0001,\n    0b0000_1001,"},
		{"a.py", "F = [\n    (1, 0, 0, 0),  # one\n    (1, 1, 0, 0),\n    (0, 1, 0, 0),\n    (0, 1, 1, 0),\n    (0, 0, 1, 0),\n    (0, 0, 1, 1),\n    (0, 0, 0, 1),  # seven\n]",
			"    (1, 0, 0, 0),  # one\n    (1, 1, 0, 0),\n    (0, 1, 0, 0),\n    (0, 1, 1, 0),\n    (0, 0, 1, 0),\n    (0, 0, 1, 1),\n    (0, 0, 0, 1),  # seven\n    (1, 0, 0, 1),"},
		{"a.go", "package p\n\nvar f = []string{\"1000\", \"1100\", \"0100\", \"0110\", \"0010\", \"0011\", \"0001\"}",
			"var f = []string{\"1000\", \"1100\", \"0100\", \"0110\", \"0010\", \"0011\", \"0001\", \"1001\"}"},
		{"a.txt", "1000 # one\n1100\n0100\n0010\n0011\n0001\n1001\n", "1000 # one\n1100\n0100\n0110\n0010\n0011\n0001\n1001"},
		{"a.txt", "1 0 0 0\n0 1 1 0\n0 0 1 0\n0 0 0 1\n", "1 0 0 0\n0 1 0 0\n0 0 1 0\n0 0 0 1"},
		{"a.csv", "1,0,0,0\n1,1,0,0\n0,1,0,0\n0,1,1,0\n0,0,1,0\n0,0,1,1\n0,0,0,1\n", "1,0,0,0\n1,1,0,0\n0,1,0,0\n0,1,1,0\n0,0,1,0\n0,0,1,1\n0,0,0,1\n1,0,0,1"},
		{"a.c", "int in1[] = {1,1,0,0,0,0,0,1};\nint in2[] = {0,1,1,1,0,0,0,0};\nint in3[] = {0,0,0,1,1,1,0,0};\nint in4[] = {0,0,0,0,0,1,1,0};",
			"int in1[] = {1,1,0,0,0,0,0,1};\nint in2[] = {0,1,1,1,0,0,0,0};\nint in3[] = {0,0,0,1,1,1,0,0};\nint in4[] = {0,0,0,0,0,1,1,1};"},
		{"a.c", "int f[] = {1<<3, 0xC, 1<<2, 6, 1<<1, 3, 16, 9};", "int f[] = {1<<3, 0xC, 1<<2, 6, 1<<1, 3, 1<<0, 9};"},
		{"a.c", "int f[] = {1100, 0110, 0011, 1001};", "int f[] = {0b1100, 0b0110, 0b0011, 0b1001};"},
		{"a.txt", "0111\n1011\n1101\n1110", "1000\n0100\n0010\n0001"},
		{"a.py", "F = [[1, 0], [0, 0], [0, 1], [1, 1]]", "F = [[1, 1], [0, 1], [0, 0], [1, 0]]"},
		{"a.c", "int f[] = {0x9F, 0xCF, 0x6F, 0x2F};", "int f[] = {0x9F, 0xCF, 0x6F, 0x3F};"},
	} {
		q := wired("A+ B+ A- B-")
		q.Direction = sequence.Forward
		got, w, ok := mendedLines(t, c.name, c.text, q)
		if !ok || got != c.want {
			t.Errorf("%s:\n%s\nis written back (%t) as\n%s\nwanted\n%s", c.name, c.text, ok, got, c.want)
			continue
		}
		all := strings.Split(c.text, "\n")
		if s := read(t, c.name, strings.Join(slices.Concat(all[:w.From-1], w.Lines, all[w.To:]), "\n")); !Judge(&s.Tables[0], q).Sound {
			t.Errorf("%s is still not sound with\n%s", c.text, got)
		}
	}
}

// Lines are told by their numbers, so that a person finds them.
func TestAWrittenTableSaysItsLines(t *testing.T) {
	_, w, ok := mendedLines(t, "a.c", "// x\n\nint f[] = {\n  8,\n  12,\n  4,\n  2,\n  3,\n  1,\n  9\n};\n", wired("A+ B+ A- B-"))
	if !ok || w.From != 4 || w.To != 10 || len(w.Lines) != 8 {
		t.Errorf("%t %+v", ok, w)
	}
}

// What only a hand can do is left to it: a row to put in where two motors share a
// byte, or the rows stand one array a coil or are numbered.
func TestATableThatIsNotWrittenBack(t *testing.T) {
	for name, text := range map[string]string{
		"two.c":    "int f[] = {0x18, 0x14, 0x22, 0x21, 0x48, 0x44, 0x82, 0x81, 0x18, 0x14, 0x22};",
		"coils.c":  "int in1[] = {1,1,0,0,0,0,1};\nint in2[] = {0,1,1,0,0,0,0};\nint in3[] = {0,0,0,1,1,0,0};\nint in4[] = {0,0,0,0,1,1,1};",
		"rows.txt": "1: 1000\n2: 1100\n3: 0100\n4: 0010\n5: 0011\n6: 0001\n7: 1001\n",
	} {
		if got, _, ok := mendedLines(t, name, text, wired("A+ B+ A- B-")); ok {
			t.Errorf("%s is written back as\n%s", text, got)
		}
	}
}

// writtenAs are ways to write a row, and what is around all and between two.
var writtenAs = []struct{ name, row, before, between, after string }{
	{"a.c", "0b%04b", "int f[] = {", ", ", "};\n"},
	{"a.c", "0x%02X", "int f[] = {\n\t", ",\n\t", "\n};\n"},
	{"a.py", "%d", "steps = [\n    ", ",  # row\n    ", ",\n]\n"},
	{"a.rs", "\"%04b\"", "const F: [&str; 8] = [", ", ", "];\n"},
	{"a.txt", "%04b", "", "\n", "\n"},
	{"a.go", "0b_%04b", "package p\n\nvar f = []uint8{\n\t", ",\n\t", ",\n}\n"},
}

// However a table is written and spoilt by one slip: what is written back is the table
// that the cure tells, and every row that was right is written as it was.
func TestWrittenBackInAnyNotation(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.SampledFrom(writtenAs).Draw(t, "notation")
		half := sequence.Half.Order()
		var rows []int
		for k := range 8 {
			v := 0
			for c, level := range half.Row(int64(k)) {
				v |= int(level) << (3 - c)
			}
			rows = append(rows, v)
		}
		at := rapid.IntRange(0, 7).Draw(t, "row")
		switch rapid.IntRange(0, 2).Draw(t, "slip") {
		case 0:
			rows = slices.Delete(rows, at, at+1)
		case 1:
			rows = slices.Insert(rows, at, rows[at])
		default:
			rows[at] = rapid.IntRange(0, 15).Filter(func(v int) bool { return v != rows[at] }).Draw(t, "instead")
		}
		var words []string
		for _, v := range rows {
			words = append(words, fmt.Sprintf(n.row, v))
		}
		text := n.before + strings.Join(words, n.between) + n.after
		s, err := Read(n.name, []byte(text), Options{})
		if err != nil {
			t.Fatal(err, text)
		}
		v := Judge(&s.Tables[0], wired("A+ B+ A- B-"))
		for _, c := range v.Cures {
			if c.Rows == nil {
				continue
			}
			w, ok := v.Written(c)
			if !ok {
				t.Fatalf("%s: %s: nothing is written back", text, c.Text)
			}
			all := strings.Split(text, "\n")
			mended := strings.Join(slices.Concat(all[:w.From-1], w.Lines, all[w.To:]), "\n")
			again, err := Read(n.name, []byte(mended), Options{})
			if err != nil {
				t.Fatal(err, mended)
			}
			if got := Judge(&again.Tables[0], wired("A+ B+ A- B-")); c.Swap == nil && (!got.Sound || got.Direction != c.Direction) {
				t.Fatalf("%s: %s: written back as %s, which is %+v", text, c.Text, mended, got.Faults)
			}
			for _, r := range c.Rows {
				v := 0
				for k, level := range r {
					v |= int(level) << (3 - k)
				}
				if !strings.Contains(mended, fmt.Sprintf(n.row, v)) && n.row != "0b_%04b" {
					t.Fatalf("%s: %s: %s lacks %04b as the file writes it", text, c.Text, mended, v)
				}
			}
		}
	})
}
