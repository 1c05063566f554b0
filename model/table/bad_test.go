package table

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"coilwalk/model/files"
)

// What can not be read is told at its place.
func TestBadTables(t *testing.T) {
	row := "{1,0,0,1},"
	for _, c := range []struct {
		file, text   string
		line, column int
		part         string
	}{
		// plain rows
		{"a.txt", "1000\n1020\n", 2, 1, "1020 is no row of 0s and 1s"},
		{"a.txt", "1000\nabc\n", 2, 1, `"abc" is no part of a row`},
		{"a.txt", "1 0 0 0\n1 0 2 0\n", 2, 5, `"2" is no level`},
		{"a.txt", "1 0 0 0\n# ü\n3: 1 ü 2 0\n", 3, 6, `"ü" is no part of a row`},
		{"a.txt", "1 0 0 0\nrow 2: 1 0 2 0\n", 2, 12, `"2" is no level`},
		{"a.txt", "1 0 0 0\n2)1 0 x 0\n", 2, 7, `"x" is no part of a row`},
		{"a.txt", "1 0 0 0\n1 0 0\n", 2, 0, "3 columns, the first has 4"},
		{"a.txt", "1 0 0\n1 1 0\n", 1, 0, "rows of 3 columns"},
		{"a.txt", "+ - 0 +\n", 1, 1, `"+" is no part of a row`},
		{"a.txt", "1 0 0 0\n+ - 0 +\n", 2, 1, `"+" is no part of a row`},
		{"a.txt", "", 0, 0, "no step table was found; wanted is an array of rows"},
		{"a.txt", "A B C D\n", 0, 0, "no step table was found"},
		{"a.txt", "1000\n0100\x1b(J\n", 2, 1, `0100\u001b(J`},
		{"a.txt", strings.Repeat("1000\n", mostRows+1), 1, 0, "has 4097 rows; at most 4096 are read"},
		{"a.txt", strings.Repeat("#\n", 17*mostRows), 16*mostRows + 2, 0, "too many lines"},
		{"a.txt", strings.Repeat("1 ", 70) + "\n" + strings.Repeat("0 ", 70) + "\n1\n", 3, 0, "this row has 1 columns"},
		{"a.txt", strings.Repeat(strings.Repeat("1 ", 70)+"\n", 3), 1, 0, "have 70 columns; at most 64 are read"},
		// arrays
		{"a.c", "int main(void) { return 0; }", 0, 0, "no step table was found"},
		{"a.c", "int pins[] = {2,3,4,5};", 1, 0, "numbers of pins"},
		{"a.c", "\nint x[] = {9, 10, 8};\nint y[] = {7, 7, 7};\n", 2, 0, "(x in line 2: it holds each number from 8 to 10 once, as a list of pins does; y in line 3: all its numbers are the same)"},
		{"a.c", "int t[8][4] = {{1,0,0,0},\n{1,1,0}};", 2, 1, "row 2 of t has 3 columns, others have 4"},
		{"a.c", "int t[8][4] = {{1,0,0,0},\n  {1,1,0,0}, {1,3,0,0}};", 2, 17, "3 in row 3 of t is no level"},
		{"a.c", "int t[] = {8, 4,\n 098, 1};", 2, 2, "098 is no number in C"},
		{"a.c", "/* ü */ int t[] = {8, 4, 0o2, 1};", 1, 26, "0o2 is no number in C"},
		{"a.py", "t = [8, 4, 02, 1]", 1, 12, "02 is no number in Python"},
		{"a.rs", "let t = [8, 4, 0X2, 1];", 1, 16, "0X2 is no number in Rust"},
		{"a.go", "package a\nvar t = []int{8, 4, 08, 1}", 2, 21, "08 is no number in Go"},
		// brackets, comments and strings
		{"a.c", "int t[] = {8, 4, 2, 1];", 1, 22, "] closes the { of line 1; } is wanted"},
		{"a.c", "int t[] = {8, 4, 2, 1;\n", 1, 11, "this { is not closed before the ; of line 1"},
		{"a.c", "int t[] = {8, 4, 2, 1\n", 1, 11, "this { is never closed"},
		{"a.py", "t = [8, 4, 2, 1\n", 1, 5, "this [ is never closed"},
		{"a.c", "  f(8, 4", 1, 4, "this ( is never closed"},
		{"a.c", "x /* int t[] = {8, 4, 2, 1};", 1, 3, "this comment is never closed"},
		{"a.rs", "x /* /* */ let t = [8, 4, 2, 1];", 1, 3, "this comment is never closed"},
		{"a.py", "x = '''[8, 4, 2, 1]", 1, 5, "this string is never closed"},
		{"a.go", "x := `[8, 4, 2, 1]", 1, 6, "this string is never closed"},
		{"a.cpp", `x = R"no({8, 4, 2, 1})";`, 1, 5, "this string is never closed"},
		{"a.rs", `let x = r#"[8, 4, 2, 1]";`, 1, 9, "this string is never closed"},
		{"a.c", "}}])) ;", 0, 0, "no step table was found"},
		// bounds
		{"a.c", strings.Repeat("{", deepestCode+1), 1, deepestCode + 1, "more than 256 deep"},
		{"a.c", "int t = " + strings.Repeat("{", deepest+1) + "1,0" + strings.Repeat("}", deepest+1), 1, 9, "more than 8 deep in each other"},
		{"a.c", "int t[][4] = {" + strings.Repeat(row, mostRows+1) + "};", 1, 0, "t has 4097 rows; at most 4096 are read"},
		{"a.c", strings.Repeat(row+"\n", mostRows+1), mostRows + 1, 1, "more than 4096 rows"},
		{"a.c", "int t[3][65] = {" + strings.Repeat("{"+strings.Repeat("1,", 65)+"},", 3) + "};", 1, 0, "the rows of t have 65 columns; at most 64 are read"},
		{"a.c", strings.Repeat("int t[] = {8,4,2,1};\n", mostArrays+1), mostArrays + 1, 11, "more than 256 arrays"},
		{"a.c", strings.Repeat(" ", LongestFile+1), 0, 0, "longer than 1048576 bytes"},
		// what is no text
		{"a.c", "x\n ü\x00y", 2, 3, "a zero byte stands here"},
		{"a.c", "\xff\xfei\x00n\x00t\x00", 0, 0, "UTF-16 text; save the file as UTF-8"},
		{"a.c", "\xff\x80\xc0", 0, 0, "no step table was found"},
	} {
		_, err := Read(c.file, []byte(c.text), Options{})
		var complaint *files.Complaint
		if !errors.As(err, &complaint) {
			t.Errorf("%.60q: %v", c.text, err)
			continue
		}
		if complaint.Line != c.line || complaint.Column != c.column || !strings.Contains(complaint.Error(), c.part) || complaint.File != c.file {
			t.Errorf("%.60q: %v (line %d column %d), want line %d column %d and %q", c.text, complaint, complaint.Line, complaint.Column, c.line, c.column, c.part)
		}
	}
}

// At its bounds a table is still read.
func TestAtTheBounds(t *testing.T) {
	for _, text := range []string{
		"int t[][4] = {" + strings.Repeat("{1,0,0,1},", mostRows) + "};",
		strings.Repeat("{1,0,0,1},\n", mostRows),
		"int t[4][4096] = {" + strings.Repeat("{"+strings.Repeat("1,", mostRows)+"},", 4) + "};",
		strings.Repeat("int t[] = {8,4,2,1};\n", mostArrays),
		"int t = " + strings.Repeat("{", deepest) + "8,4,2,1" + strings.Repeat("}", deepest) + ";",
		strings.Repeat("{", deepestCode-1) + "int t[] = {8,4,2,1};" + strings.Repeat("}", deepestCode-1),
	} {
		if _, err := Read("a.c", []byte(text), Options{}); err != nil {
			t.Errorf("%.60q: %v", text, err)
		}
	}
}

// An array that is plainly no table is left out, and says why.
func TestLeftOut(t *testing.T) {
	for _, c := range []struct{ file, array, why string }{
		{"a.c", "int motor[] = {8, 9, 10, 11};", "each number from 8 to 11 once, as a list of pins does"},
		{"a.c", "int motor[] = {8, 10, 9, 11};", "each number from 8 to 11 once, as a list of pins does"},
		{"a.c", "int motor[] = {5, 4, 3, 2};", "each number from 2 to 5 once"},
		{"a.c", "int motorpins[] = {2, 7, 12, 4};", "numbers of pins"},
		{"a.c", "int coilPins[2][4] = {{2, 7, 12, 4}, {3, 5, 6, 9}};", "of its lists the first is left out because by its name it holds the numbers of pins"},
		{"a.c", "int GPIO_OUT[] = {2, 7, 12, 4};", "numbers of pins"},
		{"a.py", "motor = [17, 18, 27, 22]", "do not stand together, as in numbers of pins"},
		{"a.c", "int stepDelay[] = {8, 4, 2, 1};", "times or speeds"},
		{"a.c", "int SPEEDS[] = {8, 4, 2, 1};", "times or speeds"},
		{"a.c", "int sine[] = {8, 15, 8, 0};", "a curve"},
		{"a.c", "int c[] = {128, 176, 218, 245, 255, 245, 218, 176, 128, 80, 38, 11};", "its numbers move 8 bits; the rows of a motor move four"},
		{"a.c", "int c[] = {0, 300, 511, 300};", "its numbers move 9 bits"},
		{"a.c", "long c[] = {0, 70000, 0, 70000};", "70000 is beyond a port of 16 bits"},
		{"a.c", "int c[] = {10, 20, 50, 100};", "its numbers move 6 bits"},
		{"a.c", "int c[] = {2, 4, 6, 8};", "its numbers grow evenly, as settings do"},
		{"a.c", "int c[] = {1, 2, 4, 6, 9};", "only grow or only fall"},
		{"a.c", "int c[] = {7, 7, 7, 7};", "all its numbers are the same"},
		{"a.c", "int c[] = {0x8, 0x4};", "two numbers are no order"},
		{"a.c", "int c[] = {1, 0, 0, 1, 1};", "5 levels are less than two rows of four"},
		{"a.c", "int c[] = {1, 0, 0, 1, 1, 0, 1, 0, 1};", "9 levels make no rows of four"},
		{"a.c", "int c[3][3] = {{1,0,0},{0,1,0},{0,0,1}};", "its rows have 3 columns; four, or two, are wanted"},
		{"a.c", "int c[3][3] = {{1,0,0},{0,1},{0,0,1}};", "different numbers of columns"},
		{"a.c", "char *c[] = {\"100\", \"010\"};", "it holds text"},
		{"a.c", "int c[] = {STEP_A, STEP_B};", "it holds the name STEP_A, not a number"},
		{"a.c", "int c[] = {1 + 3, 1 + 2};", "it holds an expression"},
		{"a.c", "int c[] = {f(1), f(2)};", "it holds"},
		{"a.c", "int c[] = {1, -1, 1, -1};", "a number below 0"},
		{"a.c", "float c[] = {0.5, 1.5};", "the fraction 0.5"},
		{"a.c", "int c[4] = {[2] = 8, [0] = 4, [1] = 2, [3] = 1};", "places out of order, as [2] ="},
		{"a.c", "int x1[]={1,0,0,0,0}, x2[]={0,1,0,0,0}, x3[]={0,0,1,0,0};", "3 arrays of 5 levels stand together; one a coil, four or two are wanted"},
		{"a.c", "int c[] = {0b1000, 0b0100, 0b0010, 0110, 0011};", "0110 in line 1 is octal in C: 72"},
	} {
		sound := map[string]string{"a.c": "\nint ok[] = {0x8, 0x4, 0x2, 0x1};", "a.py": "\nok = [0x8, 0x4, 0x2, 0x1]"}[c.file]
		s, err := Read(c.file, []byte(c.array+sound), Options{})
		if err != nil {
			t.Errorf("%s: %v", c.array, err)
			continue
		}
		if len(s.Tables) != 1 || s.Tables[0].Name != "ok" || len(s.Skipped) == 0 || !strings.Contains(s.Skipped[0].Why, c.why) || s.Skipped[0].Line != 1 {
			t.Errorf("%s: %s, want %q", c.array, told(s, nil), c.why)
		}
	}
}

// What is much like a list of pins or times, but is a table.
func TestNotLeftOut(t *testing.T) {
	for _, text := range []string{
		"int motor[] = {8, 4, 2, 1};", "int spins[] = {8, 4, 2, 1};", "int singleStep[] = {8, 4, 2, 1};", "int pinStates[] = {8, 4, 2, 1};",
		"int t[] = {0, 1, 3, 2};", "int t[] = {3, 6, 12, 9};", "int t[] = {0x3, 0x6, 0x9, 0xC};", "int steps[] = {3, 6, 9, 12};", "int t[] = {144, 192, 96, 48};",
		"int t[] = {145, 193, 97, 49};", "int t[] = {0x100, 0x200, 0x400, 0x800};", "int t[] = {17, 34, 68, 136};",
	} {
		if _, err := Read("a.c", []byte(text), Options{}); err != nil {
			t.Errorf("%s: %v", text, err)
		}
	}
}

// A long way to a complaint is a short one to read.
func TestNothingNamesWhatItCan(t *testing.T) {
	var b strings.Builder
	for i := range 100 {
		fmt.Fprintf(&b, "int motor_number_%d_pins[] = {8, 9, 10, 11};\n", i)
	}
	_, err := Read("a.c", []byte(b.String()), Options{})
	if err == nil || len(err.Error()) > 700 || !strings.Contains(err.Error(), "motor_number_0_pins in line 1") || !strings.Contains(err.Error(), " more); wanted is") {
		t.Error(err)
	}
}
