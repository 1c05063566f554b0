package table

import (
	"errors"
	"strings"
	"testing"

	"coilwalk/model/files"
)

// Tables as a first user wrote them, each of which was once misread.
func TestTablesOfAFirstUser(t *testing.T) {
	for _, c := range []struct{ file, text, want string }{
		{"a.rs", "let seq = vec![vec![1,0,0,0],vec![1,1,0,0],vec![0,1,0,0],vec![0,1,1,0],vec![0,0,1,0],vec![0,0,1,1],vec![0,0,0,1],vec![1,0,0,1]];", "half"},
		{"a.cpp", "std::array<std::array<int,4>,4> s = {{ {{1,0,0,0}}, {{0,1,0,0}}, {{0,0,1,0}}, {{0,0,0,1}} }};", "wave"},
		{"a.c", "int cur[8][2]={{1,0},{1,1},{0,1},{-1,1},{-1,0},{-1,-1},{0,-1},{1,-1}};", "half"},
		{"a.c", "#if 0\nint bad[]={1,5,9,2,4};\n#endif\nint ok[]={8,4,2,1};", "wave"},
		{"a.c", "#if 0\nint bad[]={1,5,9,2,4};\n#else\nint ok[]={8,4,2,1};\n#endif", "wave"},
		{"a.py", "SEQ = np.array([[1,0,0,0],[0,1,0,0],[0,0,1,0],[0,0,0,1]])", "wave"},
		{"a.py", `SEQ = ["1000","0100","0010","0001"]`, "wave"},
		{"a.py", "SEQ = (1,0,0,0),(0,1,0,0),(0,0,1,0),(0,0,0,1)", "wave"},
		{"a.c", "int s[] = {1<<0,1<<1,1<<2,1<<3};", "wave"},
		{"-", "1010 0110 0101 1001", "full"},
		{"-", "0b1000, 0b0100, 0b0010, 0b0001", "wave"},
	} {
		s, err := Read(c.file, []byte(c.text), Options{})
		if err != nil {
			t.Errorf("%s: %v", c.text, err)
			continue
		}
		if v := s.Judge(bare()); len(v) != 1 || !v[0].Sound || v[0].Mode != c.want {
			t.Errorf("%s: %d tables, %s %+v", c.text, len(v), v[0].Mode, v[0].Faults)
		}
	}
	for _, c := range []struct{ text, part string }{
		{"int s[4][4] = {{1,0,0,0},{0,1,0,0},{0,0,2,0},{0,0,0,1}};", "2 in row 3 of s is no level"},
		{"int s[4][4] = {{1,0,0,0},{0,l,0,0},{0,0,1,0},{0,0,0,1}};", "it holds the name l"},
		{"int w[4][4]={{1,0,0,0},{0,1,0,0},{0,0,1,0},{0,0,0,1};", "not closed"},
		{"int w[4][4]={{1,0,0,0},{0,1,0,0},{0,0,1,0}{0,0,0,1}};", "a comma is missing"},
		{"int d[4][4]={{255,0,0,0},{180,180,0,0},{0,255,0,0},{0,180,180,0}};", "duties or currents"},
		{"int hh[]={8,12,5,15,2,0,1,0x90};", "0x90 moves bits that no other row moves"},
		{"int f[4][5]={{1,0,0,0,1},{0,1,0,0,1},{0,0,1,0,1},{0,0,0,1,1}};", "5 columns"},
	} {
		_, err := Read("a.c", []byte(c.text), Options{})
		var complaint *files.Complaint
		if !errors.As(err, &complaint) || !strings.Contains(err.Error(), c.part) {
			t.Errorf("%s: %v, want %q", c.text, err, c.part)
		}
	}
}

// Arrays that are something else do not make a sound table's file unsound.
func TestOtherArraysAreSetAside(t *testing.T) {
	s := read(t, "a.c", "int fib[]={1,2,3,5,8,13};\nunsigned char font[]={0x18,0x24,0x42,0x42,0x7e,0x42,0x42,0x42};\nint seq[]={8,12,4,6,2,3,1,9};")
	v := s.Judge(bare())
	if len(v) != 1 || !v[0].Sound || v[0].Table.Name != "seq" {
		t.Errorf("%d tables", len(v))
	}
	if len(s.Skipped) < 2 {
		t.Errorf("skipped %+v", s.Skipped)
	}
	s = read(t, "a.c", "unsigned char font[]={0x18,0x24,0x42,0x42,0x7e,0x42,0x42,0x42};\nint seq[]={8,12,4,6,2,3,1,9};")
	if err := s.Only("a.c", "sec"); err == nil || !strings.Contains(err.Error(), "seq") {
		t.Errorf("%v", err)
	}
	if err := s.Only("a.c", "seq"); err != nil || len(s.Tables) != 1 {
		t.Errorf("%v, %d tables", err, len(s.Tables))
	}
}

// Outputs that a 0 switches on.
func TestActiveLow(t *testing.T) {
	rows := "0111 1011 1101 1110"
	if v := judged(t, rows, bare()); v.Sound || v.Faults[0].Kind != "inverted" {
		t.Errorf("%+v", v.Faults)
	}
	q := bare()
	q.ActiveLow = true
	if v := judged(t, rows, q); !v.Sound || v.Mode != "wave" {
		t.Errorf("%+v", v.Faults)
	}
}

// A pause between rows is all off, which is 1 where a 0 switches on.
func TestPausesActiveLow(t *testing.T) {
	q := bare()
	q.ActiveLow = true
	if v := judged(t, "0111 1111 1011 1111 1101 1111 1110 1111", q); !v.Sound || v.Mode != "wave" || len(v.Rows) != 4 || v.Rows[2].Line != 5 {
		t.Errorf("%d rows, %+v", len(v.Rows), v.Faults)
	}
	if v := judged(t, "1000 0000 0100 0000 0010 0000 0001 0000", q); v.Sound || len(v.Rows) != 8 || v.Rows[7].Line != 8 {
		t.Errorf("all on between the rows: %d rows, %+v", len(v.Rows), v.Faults)
	}
}
