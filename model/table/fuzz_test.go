package table

import (
	"errors"
	"strings"
	"testing"

	"coilwalk/model/files"
	"coilwalk/sequence"
	"coilwalk/testdata/bounds"
)

// FuzzRead: whatever text comes, Read does not panic; what it refuses is a
// complaint on one line; what it takes is whole, and can be judged.
func FuzzRead(f *testing.F) {
	names := []string{"a.c", "a.cpp", "a.go", "a.rs", "a.py", "a.txt", "-"}
	for _, part := range []string{"good", "bad"} {
		each(f, part, func(name string, text []byte) {
			f.Add(name, string(text), 0)
			f.Add("-", string(text), 1)
		})
	}
	for _, text := range []string{"1000\n0100", "int t[]={1,2,4,8};", "x = [[1,0],[0,1]]", "let a: [u8;4] = [0x8,4,2,1];", "{{{{", "/* \"", "'''", "a[1]={[2]={1,0,0,1}}",
		"row 1: 1 0 0 0", "0b1'0", "package x\nvar a = []int{010}", "\xff\xfe{1,2,4,8}", "[((1,),)]", "1;0;0;1\n0|1|1|0", "R\"", "r#\"", "#define \\\n{1,2}", "1:\n2)", "x=[(1)],(2)"} {
		for _, name := range names {
			f.Add(name, text, 0)
		}
	}
	f.Fuzz(func(t *testing.T, name, text string, how int) {
		options := Options{Bits: BitOrder(how & 1), Pins: Pins(how >> 1 & 3)}
		var s *Source
		var err error
		bounds.Hold(t, len(text), 16<<20, 20_000, func() { s, err = Read(name, []byte(text), options) })
		if err != nil {
			var c *files.Complaint
			if !errors.As(err, &c) || c.What == "" || c.Line < 0 || c.Column < 0 || c.Line > 1+strings.Count(text, "\n")+strings.Count(text, "\r") {
				t.Fatalf("error %v of type %T, want a complaint", err, err)
			}
			if strings.ContainsAny(c.Error(), "\n\r\x1b") {
				t.Fatalf("more than one line: %q", err)
			}
			return
		}
		if len(s.Tables) == 0 {
			t.Fatal("neither a table nor an error")
		}
		for i := range s.Tables {
			tab := &s.Tables[i]
			whole(t, tab)
			if i < 2 && len(tab.Rows) <= 16 { // judging takes far longer than reading
				straight := wiringOf(pairings[0])
				for _, q := range []Question{{AnyDrive: true}, {Wiring: &straight}, {Wiring: &straight, ActiveLow: true, Direction: sequence.Reverse}} {
					v := Judge(tab, q)
					for _, c := range v.Cures {
						if w, ok := v.Written(c); ok && (c.Rows == nil || len(w.Lines) == 0 || w.From < 1 || w.To < w.From) {
							t.Fatalf("%s is written back as %+v", c.Text, w)
						}
					}
				}
			}
		}
	})
}

// whole wants every row of a table to have a level for each column.
func whole(t *testing.T, tab *Table) {
	t.Helper()
	if n := len(tab.Columns); n != 2 && n != 4 || len(tab.Rows) == 0 || len(tab.Rows) > mostRows || tab.Name == "" || tab.Line < 1 {
		t.Fatalf("%d columns, %d rows, named %q in line %d", n, len(tab.Rows), tab.Name, tab.Line)
	}
	if tab.Bits != nil && len(tab.Bits) != len(tab.Columns) || tab.Digits != nil && len(tab.Digits) != len(tab.Rows) {
		t.Fatalf("%d bits of %d columns, %d digits of %d rows", len(tab.Bits), len(tab.Columns), len(tab.Digits), len(tab.Rows))
	}
	for _, r := range append(append([]Row(nil), tab.Rows...), tab.Digits...) {
		if len(r.Levels) != len(tab.Columns) || r.Line < 1 || r.Text == "" {
			t.Fatalf("row %+v of %d columns", r, len(tab.Columns))
		}
		for _, l := range r.Levels {
			if l != 0 && l != 1 {
				t.Fatalf("level %d", l)
			}
		}
	}
}
