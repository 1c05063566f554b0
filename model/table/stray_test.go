package table

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"coilwalk/sequence"
)

// One row of many that moves bits of its own is a wrong row, and its cure is
// written as the other rows are.
func TestStrayRows(t *testing.T) {
	const mirrored = "0001 0011 0010 0110 0100 1100 1000 1001"
	const half = "1000 1100 0100 0110 0010 0011 0001 1001"
	for _, c := range []struct{ file, text, kind, part, cure, right string }{
		{"a.c", "int steps[] = {0x01, 0x03, 0x02, 0x06, 0x04, 0x0C, 0x80, 0x09};", "wrong-row",
			"Row 7 (line 1) is 0x80, which moves bit 7; the other rows move bits 0 to 3 only. 0x08 (1000) is wanted here, as a half order has it.", "make row 7 0x08 (1000); it then turns in reverse", mirrored},
		{"a.c", "int steps[] = {0x10, 0x30, 0x20, 0x60, 0x40, 0xC0,\n 0x08, 0x90};", "wrong-row", "Row 7 (line 2) is 0x08, which moves bit 3; the other rows move bits 4 to 7 only. 0x80 (1000)", "make row 7 0x80 (1000);", mirrored},
		{"a.c", "int motor[] = {1,3,2,6,4,12,80,9};", "wrong-row", "is 80, which moves bits 6 and 4;", "make row 7 8 (1000);", mirrored},
		{"a.c", "int hh[] = {8,12,4,6,2,3,1,0x90};", "wrong-row", "is 0x90, which moves bits 7 and 4;", "make row 8 9 (1001);", half},
		{"a.c", "int t[] = {8,12,4,6,2,3,1,0x19};", "wrong-row", "is 0x19, which moves bit 4;", "make row 8 9 (1001);", half}, // what reaches the outputs is right
		{"a.c", "int t[] = {8,12,4,6,2,3,1,0x90000};", "wrong-row", "which moves bits 19 and 16;", "make row 8 9 (1001);", half},
		{"a.c", "int t[] = {0b1000,0b1100,0b0100,0b0110,0b0010,0b0011,0b0001,1001};", "literal-base", "1001 in line 1 is not the pattern of bits that it looks like", "make row 8 0b1001 (1001);", half},
		{"a.c", "int t[] = {0b1000,0b1100,0b0100,0110,0b0010,0b0011,0b0001,0b1001};", "literal-base", "Write 0b0110 or 0x6.", "make row 4 0b0110 (0110);", half},
		{"a.c", "int t[] = {B1000,B1100,B0100,B0110,B0010,B0011,B0001,B10010};", "wrong-row", "is B10010,", "make row 8 B1001 (1001);", half},
		{"a.c", "int t[] = {1<<3,0xC,1<<2,6,1<<1,3,1<<9,9};", "wrong-row", "is 1<<9,", "make row 7 1<<0 (0001);", half},
		{"a.c", "int t[] = {010,014,04,06,02,03,0100,011};", "wrong-row", "is 0100,", "make row 7 01 (0001);", half},
		{"a.rs", "let t = [0b_1000u8,12,4,6,2,3,64,9];", "wrong-row", "is 64,", "make row 7 0b0001u8 (0001);", half},
		{"a.c", "int t[] = {0x81,0xC1,0x41,0x61,0x21,0x31,0x11,0x90};", "wrong-row", "is 0x90, which moves bit 0; the other rows move bits 4 to 7 only. 0x91 (1001)", "make row 8 0x91 (1001);", half}, // a lamp goes out
		{"a.c", "int steps[] = {0xA, 0x6, 0x5, 0x90};", "wrong-row", "0x9 (1001) is wanted here, as a full order has it.", "make row 4 0x9 (1001);", "1010 0110 0101 1001"},
		{"a.c", "int t[] = {3,0,6,0,0xC,0,0x90,0};", "wrong-row", "Row 4 (line 1) is 0x90", "make row 4 9 (1001);", "0011 0110 1100 1001"},
		{"-", "0x1\n0x3\n0x2\n0x6\n0x4\n0xC\n0x80\n0x9\n", "wrong-row", "Row 7 (line 7) is 0x80", "make row 7 0x8 (1000);", mirrored},
		{"a.c", "int t[] = {8,12,4,6,2,3,1,9,0x40};", "wrong-row", "is 0x40, which moves bit 6; the other rows move bits 0 to 3 only. It has no place in the order: leave it out.", "leave out row 9;", half},
	} {
		s, err := Read(c.file, []byte(c.text), Options{})
		if err != nil {
			t.Errorf("%s: %v", c.text, err)
			continue
		}
		v := Judge(&s.Tables[0], bare())
		if v.Sound || len(v.Faults) != 1 || v.Faults[0].Kind != c.kind || !strings.Contains(v.Faults[0].Text, c.part) {
			t.Errorf("%s: %+v, want %s with %q", c.text, v.Faults, c.kind, c.part)
		}
		if len(v.Cures) != 1 || !strings.HasPrefix(v.Cures[0].Text, c.cure) || written(v.Cures[0].Rows) != c.right {
			t.Errorf("%s: %+v, want %q", c.text, v.Cures, c.cure)
		}
	}
}

// Two slips of either kind are told beside each other; and what is wrong with all
// of the rows is told first.
func TestStrayRowsBesideOtherFaults(t *testing.T) {
	low := bare()
	low.ActiveLow = true
	for _, c := range []struct {
		rows  string
		q     Question
		kinds string
		cure  string
	}{
		{"8,12,4,6,2,3,0x10,0x90", bare(), "wrong-row 7, wrong-row 8", "make row 7 1 (0001), make row 8 9 (1001);"},
		{"8,12,4,6,2,3,15,0x90", bare(), "both-ends-on 7, wrong-row 8", "make row 7 0001, make row 8 9 (1001);"},
		{"8,12,4,6,2,3,1,0x90", wired("A+ A- B+ B-"), "outputs-permuted 2, wrong-row 8", "exchange columns"},
		{"8,12,4,6,2,3,1,0x90", wired("A+ B+ A- B-"), "wrong-row 8", "make row 8 9 (1001); it then turns forward"},
		{"7,3,11,9,0xD0,12,14,6", low, "wrong-row 5", "make row 5 13; it then turns forward"},
		{"7,3,11,9,0xD0,12,14,6", bare(), "inverted 0, wrong-row 5", ""},
	} {
		v := Judge(&read(t, "a.c", "int t[] = {"+c.rows+"};").Tables[0], c.q)
		var kinds []string
		for _, f := range v.Faults {
			kinds = append(kinds, fmt.Sprint(f.Kind, " ", f.Row))
		}
		if got := strings.Join(kinds, ", "); got != c.kinds || v.Sound {
			t.Errorf("%s: %s, want %s", c.rows, got, c.kinds)
		}
		if c.cure != "" && (len(v.Cures) == 0 || !strings.HasPrefix(v.Cures[0].Text, c.cure)) {
			t.Errorf("%s: %+v, want %s", c.rows, v.Cures, c.cure)
		}
	}
}

// Where two rows may be the wrong one, one is named, and the other in a note.
func TestEitherRowMayStray(t *testing.T) {
	v := Judge(&read(t, "a.c", "int steps[] = {0x3, 0x6, 0xC, 0x18};").Tables[0], bare())
	if len(v.Faults) != 1 || v.Faults[0].Row != 4 || !strings.Contains(strings.Join(v.Table.Notes, " "), "It may be row 1 that is wrong instead; then the columns are bits 4, 3, 2 and 1.") {
		t.Errorf("%+v, %q", v.Faults, v.Table.Notes)
	}
}

// Two lines with a slip, where it is said that they are two lines.
func TestStrayRowOfTwoLines(t *testing.T) {
	s, err := Read("a.c", []byte("int steps[] = {3, 1, 0, 0x20};"), Options{Pins: TwoLine})
	if err != nil {
		t.Fatal(err)
	}
	q := bare()
	q.Pins = TwoLine
	v := Judge(&s.Tables[0], q)
	if len(v.Faults) != 1 || !strings.Contains(v.Faults[0].Text, "the other rows move bits 1 and 0 only. 2 (10) is wanted here") {
		t.Errorf("%+v", v.Faults)
	}
}

// Lists of other things do not become tables by one number that is far off.
func TestOtherListsStayLeftOut(t *testing.T) {
	for _, text := range []string{
		"int a[] = {3, 6, 12, 24};", "int masks[] = {0x03, 0x06, 0x0C, 0x18};", "int masks[] = {0x1, 0x2, 0x4, 0x8, 0x10, 0x20}; ",
		"int steps[] = {10, 20, 50, 100};", "int c[] = {0, 300, 511, 300};", "int c[] = {0, 70000, 0, 70000};", "int t[] = {8, 12, 4, 6, 0x20, 0x300, 0x10, 0x90};",
		"int font[] = {0x13c, 0x42, 0x42, 0x42, 0x42, 0x42, 0x42, 0x13c};", "int t[] = {8, 12, 5, 15, 2, 0, 1, 0x90};", "int primes[] = {2, 3, 5, 7, 11, 13, 2, 17};",
		"int t[] = {0xff, 0x3f, 0x06, 0x5b, 0x4f, 0x66, 0x6d, 0x7d, 0x07, 0x7f, 0x6f};",
	} {
		if s, err := Read("a.c", []byte(text), Options{}); err == nil {
			t.Errorf("%s: %s", text, told(s, nil))
		}
	}
}

// However a sound table is written, a row that is changed to a number with bits
// outside is found as that row, with the row that stood there as its cure.
func TestOneStrayRowIsFound(t *testing.T) {
	forms := []struct{ file, head, form, between, tail string }{
		{"a.c", "int steps[] = {", "0x%02X", ", ", "};"}, {"a.cpp", "int steps[]{", "0b%08b", ", ", "};"}, {"a.c", "int steps[] = {", "%d", ",\n", "};"},
		{"a.c", "int steps[] = {", "0%o", ", ", "};"}, {"a.go", "package a\n\nvar steps = []int{", "0o%o", ", ", "}"}, {"a.rs", "let steps = [", "0b%04b_u8", ", ", "];"},
		{"a.py", "steps = (", "0x%x", ", ", ")"}, {"a.txt", "", "0x%X", "\n", ""}, {"-", "", "0b%b", " ", ""},
	}
	rapid.Check(t, func(t *rapid.T) {
		order := rapid.SampledFrom(sequence.WholeModes()).Draw(t, "mode").Order()
		wiring := rapid.SampledFrom(sequence.Permutations()).Draw(t, "wiring")
		way := int64(rapid.SampledFrom([]int{1, -1}).Draw(t, "way"))
		start := rapid.Int64Range(0, 7).Draw(t, "start")
		shift := rapid.IntRange(0, 12).Draw(t, "shift")
		n := order.Len() * rapid.IntRange(1, 3).Draw(t, "cycles")
		outside := ^(15 << shift)
		rest := rapid.IntRange(0, 1<<16-1).Draw(t, "rest") & outside & rapid.SampledFrom([]int{0, 0, 1 << 15}).Draw(t, "lamp")
		four := n == 4 && order.Row(0) == sequence.Wave.Order().Row(0)
		if four {
			rest = 0 // beside three rows of one bit a lamp may be the fourth
		}
		var rows, numbers []string
		f := rapid.SampledFrom(forms).Draw(t, "form")
		i := rapid.IntRange(0, n-1).Draw(t, "row")
		moved := rapid.IntRange(1, 1<<16-1).Filter(func(v int) bool { return v&outside != 0 }).Draw(t, "moved")
		all, common := 0, -1
		for k := range n {
			bits := order.Row(start + way*int64(k)).Onto(wiring).Bits()
			rows = append(rows, bits)
			v := patternValue(bits)<<shift | rest
			if k == i {
				v ^= moved
			}
			all, common = all|v, common&v
			numbers = append(numbers, fmt.Sprintf(f.form, v))
		}
		text := f.head + strings.Join(numbers, f.between) + f.tail
		s, err := Read(f.file, []byte(text), Options{})
		if err != nil {
			t.Fatalf("%s: %v", text, err)
		}
		if four && len(bitsOf(uint64(all&^common))) <= 4 {
			return // four other bits that are on one after another
		}
		v := Judge(&s.Tables[0], bare())
		if v.Sound || len(s.Tables) != 1 {
			t.Fatalf("%s: %d tables, sound %t", text, len(s.Tables), v.Sound)
		}
		if len(v.Faults) == 1 && v.Faults[0].Row == i+1 && len(v.Cures) == 1 && written(v.Cures[0].Rows) == strings.Join(rows, " ") {
			return
		}
		if four && len(v.Faults) == 1 && v.Faults[0].Row == i+1 {
			return // three rows of one bit: the fourth bit may be on either side
		}
		if strings.Contains(strings.Join(v.Table.Notes, " "), fmt.Sprintf("It may be row %d that is wrong instead", i+1)) {
			return
		}
		t.Fatalf("%s: row %d of %s is wrong: %+v %+v %q", text, i+1, rows, v.Faults, v.Cures, v.Table.Notes)
	})
}
