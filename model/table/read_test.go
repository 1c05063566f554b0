package table

import (
	"fmt"
	"reflect"
	"strings"
	"testing"
)

// halfRows is half step in field order, the usual way to print it (common
// practice, no source).
var halfRows = []string{"1000", "1100", "0100", "0110", "0010", "0011", "0001", "1001"}

func patterns(rows []Row) []string {
	var out []string
	for _, r := range rows {
		out = append(out, bitText(r.Levels))
	}
	return out
}

// All these say the same half step order.
func TestOneOrderInManyTongues(t *testing.T) {
	for _, c := range []struct{ file, text, name string }{
		{"a.c", "const int seq[8][4] = {{1,0,0,0},{1,1,0,0},{0,1,0,0},{0,1,1,0},{0,0,1,0},{0,0,1,1},{0,0,0,1},{1,0,0,1}};", "seq"},
		{"a.c", "static const uint8_t steps[] PROGMEM = { 0x08, 0x0C, 0x04, 0x06, 0x02, 0x03, 0x01, 0x09 };", "steps"},
		{"a.c", "int lut[8]={8,12,4,6,2,3,1,9}; // {1,2,3}\n/* {9,9} */", "lut"},
		{"a.c", "byte t[] = {B1000, B1100, B0100, B0110, B0010, B0011, B0001, B1001};", "t"},
		{"a.c", "int t[]={1,0,0,0, 1,1,0,0, 0,1,0,0, 0,1,1,0, 0,0,1,0, 0,0,1,1, 0,0,0,1, 1,0,0,1};", "t"},
		{"a.c", "bool s[8][4] = {[0] = {HIGH,LOW,LOW,LOW}, {true,true,false,false}, {0,1,0,0},{0,1,1,0},{0,0,1,0},{0,0,1,1},{0,0,0,1},{1,0,0,1},};", "s"},
		{"a.c", "int c1[]={1,1,0,0,0,0,0,1}, c2[]={0,1,1,1,0,0,0,0};\nint c3[]={0,0,0,1,1,1,0,0};\nint c4[]={0,0,0,0,0,1,1,1};", "c1"},
		{"a.c", "int byCoil[4][8]={{1,1,0,0,0,0,0,1},{0,1,1,1,0,0,0,0},{0,0,0,1,1,1,0,0},{0,0,0,0,0,1,1,1}};", "byCoil"},
		{"a.c", "char *x = \"{1,2,3}\"; char q = '{'; unsigned p[] = {0x80u, 0xC0UL, 0x40, 0x60, 0x20, 0x30, 0x10, 0x90};", "p"},
		{"a.cpp", "constexpr std::uint8_t tab[]{0b1000, 0b11'00, 0b0100, 0b0110, 0b0010, 0b0011, 0b0001, 0b1001};", "tab"},
		{"a.cpp", "namespace flap { class M { static const int r[8]; }; const int M::r[8] = {010, 014, 4, 6, 2, 3, 1, 011}; }", "r"},
		{"a.rs", "const ROWS: [[u8; 4]; 8] = [[1,0,0,0],[1,1,0,0],[0,1,0,0],[0,1,1,0],[0,0,1,0],[0,0,1,1],[0,0,0,1],[1,0,0,1]];", "ROWS"},
		{"a.rs", "static SEQ: [u8; 8] = [0b1000_u8, 0b1100, 0b0100, 0x6u8, 2, 3, 1, 9]; fn f<'a>(x: &'a str) {}", "SEQ"},
		{"a.py", "\"\"\" {1} [2,3] \"\"\"\nSEQ = [\n    [1,0,0,0], [1,1,0,0],  # two on\n [0,1,0,0],[0,1,1,0],[0,0,1,0],[0,0,1,1],[0,0,0,1],[1,0,0,1]]", "SEQ"},
		{"a.py", "seq = ((1,0,0,0),(1,1,0,0),(0,1,0,0),(0,1,1,0),(0,0,1,0),(0,0,1,1),(0,0,0,1),(1,0,0,1))\ntime.sleep(1)", "seq"},
		{"a.go", "package main\n\nvar order = [8][4]int{{1, 0, 0, 0}, {1, 1, 0, 0}, {0, 1, 0, 0}, {0, 1, 1, 0}, {0, 0, 1, 0}, {0, 0, 1, 1}, {0, 0, 0, 1}, {1, 0, 0, 1}}", "order"},
		{"a.go", "rows := []byte{0b1000, 0xc, 0o4, 06, 2, 3, 1, 9}", "rows"},
		{"a.txt", "1000\n1100\n0100\n0110\n0010\n0011\n0001\n1001\n", "table"},
		{"a.txt", "# a comment\nIN1 IN2 IN3 IN4\n1 0 0 0\n1,1,0,0 # two\nrow 3: 0 1 0 0\n4) 0 1 1 0\n0;0;1;0\n0\t0\t1\t1\n0 0 0 1\n1 0 0 1", "table"},
		{"-", "0x8\n0xC\n4\n6\n2\n3\n1\n9\n", "table"},
		{"-", "1000 1100 0100 0110 0010 0011 0001 1001", "table"},
	} {
		s, err := Read(c.file, []byte(c.text), Options{})
		if err != nil {
			t.Errorf("%s: %v", c.text, err)
			continue
		}
		if len(s.Tables) != 1 || !reflect.DeepEqual(patterns(s.Tables[0].Rows), halfRows) || s.Tables[0].Name != c.name {
			t.Errorf("%s\ngives %q %v", c.text, s.Tables[0].Name, patterns(s.Tables[0].Rows))
		}
	}
}

func read(t *testing.T, file, text string) *Source {
	t.Helper()
	s, err := Read(file, []byte(text), Options{})
	if err != nil {
		t.Fatalf("%s: %v", text, err)
	}
	return s
}

func TestPortBytes(t *testing.T) {
	s := read(t, "a.c", "int p[] = {0x91, 0xC1, 0x61, 0x31};")
	tab := s.Tables[0]
	if got := patterns(tab.Rows); !reflect.DeepEqual(got, []string{"1001", "1100", "0110", "0011"}) {
		t.Errorf("rows %v", got)
	}
	notes := strings.Join(tab.Notes, " ")
	for _, want := range []string{"shift 4", "bit 0 is on in every row (0x01)", "column 1 is taken for bit 7"} {
		if !strings.Contains(notes, want) {
			t.Errorf("want %q in %q", want, notes)
		}
	}
	lsb, err := Read("a.c", []byte("int p[] = {1,3,2,6,4,12,8,9};"), Options{Bits: LSBFirst})
	if err != nil || !reflect.DeepEqual(patterns(lsb.Tables[0].Rows), halfRows) {
		t.Errorf("lowest bit first: %v %v", err, lsb)
	}
	apart := read(t, "a.c", "int p[] = {0x81, 0x84, 0x24, 0x21};").Tables[0]
	if !reflect.DeepEqual(apart.Bits, []int{7, 5, 2, 0}) {
		t.Errorf("bits %v", apart.Bits)
	}
}

func TestTwoMotorsInAByte(t *testing.T) {
	s := read(t, "a.c", "int both[] = {0x18, 0x3C, 0x24, 0x66, 0x42, 0xC3, 0x81, 0x99};")
	if len(s.Tables) != 2 || s.Tables[0].Motor != 1 || s.Tables[1].Motor != 2 {
		t.Fatalf("%+v", s.Tables)
	}
	if got := patterns(s.Tables[0].Rows); !reflect.DeepEqual(got, halfRows) {
		t.Errorf("motor 1: %v", got)
	}
	if got := patterns(s.Tables[1].Rows); !reflect.DeepEqual(got, []string{"0001", "0011", "0010", "0110", "0100", "1100", "1000", "1001"}) {
		t.Errorf("motor 2: %v", got)
	}
}

// The value of a literal is what its language gives it (sources: literal.go).
func TestLiteralsHaveTheirLanguagesValue(t *testing.T) {
	for _, c := range []struct {
		text     string
		language Language
		value    int64
		valued   bool
	}{
		{"0110", C, 72, true}, {"0110", CPP, 72, true}, {"0110", Go, 72, true}, {"0110", Rust, 110, true}, {"0110", Python, 0, false},
		{"0o110", Python, 72, true}, {"0o110", Go, 72, true}, {"0o110", Rust, 72, true}, {"0o110", C, 0, false},
		{"0b1001", C, 9, true}, {"0x1F", Rust, 31, true}, {"089", C, 0, false}, {"0", Python, 0, true}, {"00", Python, 0, true},
		{"10UL", C, 10, true}, {"7u8", Rust, 7, true}, {"0xFFu8", Rust, 255, true}, {"1_000", Go, 1000, true}, {"1'0", CPP, 10, true},
		{"0O7", Go, 7, true}, {"0O7", Rust, 0, false}, {"0X1f", C, 31, true}, {"0X1f", Rust, 0, false}, {"0B11", Go, 3, true}, {"0B11", Rust, 0, false},
		{"0b1000'0000", CPP, 128, true}, {"0b1000'0000", C, 128, true}, {"0b1000_0000", Rust, 128, true}, {"0b1000_0000", Go, 128, true}, {"0b1000_0000", Python, 128, true},
		{"0b1000_0000", C, 0, false}, {"1'0", Go, 0, false}, {"0x8u8", Rust, 8, true}, {"3usize", Rust, 3, true}, {"9z", CPP, 9, true}, {"12uLL", C, 12, true},
		{"017", Plain, 17, true}, {"0x", C, 0, false}, {"0b", Python, 0, false}, {"0b2", C, 0, false}, {"0xg", C, 0, false}, {"1i", Go, 0, false}, {"1j", Python, 0, false},
		{"0_7", Go, 7, true}, {"00", C, 0, true}, {"000", Rust, 0, true}, {"001", Python, 0, false}, {"07", C, 7, true}, {"08", Go, 0, false},
		{"1.5", C, 0, false}, {"1e3", C, 0, false}, {"99999999999999999999", C, 0, false},
	} {
		if l := readNumber(c.text, c.language); l.valued != c.valued || l.valued && l.value != c.value {
			t.Errorf("%s in %s: %d %v, want %d %v", c.text, c.language, l.value, l.valued, c.value, c.valued)
		}
	}
}

func TestPatternsThatTheLanguageTakesOtherwise(t *testing.T) {
	for _, file := range []string{"a.c", "a.go", "a.rs", "a.py"} {
		text := "x = [1000, 1100, 0100, 0110]"
		if file == "a.c" || file == "a.go" {
			text = "var x = []int {1000, 1100, 0100, 0110};"
		}
		s := read(t, file, text)
		if got := patterns(s.Tables[0].Digits); !reflect.DeepEqual(got, halfRows[:4]) {
			t.Errorf("%s: digits %v", file, got)
		}
	}
	if s := read(t, "a.c", "int x[] = {0b1000, 0b0100, 0b0010, 0b0001};"); s.Tables[0].Digits != nil {
		t.Error("binary literals are what they look like")
	}
}

func TestSeveralArrays(t *testing.T) {
	s := read(t, "a.c", `int pins[] = {8, 9, 10, 11};
int wave[] = {8,4,2,1};
int stepDelay[] = {10, 20, 40};
double sine[] = {0.1, 0.2};
int three[2][4][4] = {{{1,0,0,0},{0,1,0,0},{0,0,1,0},{0,0,0,1}},{{1,1,0,0},{0,1,1,0},{0,0,1,1},{1,0,0,1}}};
void f(void) { int local[] = {1,3,2,6,4,12,8,9}; g(1, 2); local[3] = 4; }`)
	var names []string
	for _, x := range s.Tables {
		names = append(names, fmt.Sprintf("%s:%d", x.Name, x.Line))
	}
	if want := []string{"wave:2", "three[0]:5", "three[1]:5", "local:6"}; !reflect.DeepEqual(names, want) {
		t.Errorf("tables %v, want %v", names, want)
	}
	if len(s.Skipped) != 3 || s.Skipped[0].Name != "pins" || !strings.Contains(s.Skipped[1].Why, "times") {
		t.Errorf("skipped %+v", s.Skipped)
	}
}

func TestOffBetween(t *testing.T) {
	for text, want := range map[string]bool{
		"1000\n0000\n0100\n0000\n0010\n0000\n0001\n0000": true,
		"0000\n1000\n0000\n0100\n0000\n0010\n0000\n0001": true,
		"1000\n0100\n0010\n0001":                         false,
		"1000\n0000\n0100\n0010":                         false,
		"0000\n0000\n0000\n0000":                         false,
	} {
		if got := read(t, "-", text).Tables[0].OffBetween; got != want {
			t.Errorf("%q: %v", text, got)
		}
	}
}
