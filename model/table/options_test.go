package table

import (
	"reflect"
	"strings"
	"testing"
)

// The options decide where the text leaves it open.
func TestOptions(t *testing.T) {
	const flat = "int t[] = {1,1, 0,1, 0,0, 1,0};"
	for _, c := range []struct {
		text    string
		options Options
		columns string
		rows    string
		note    string
	}{
		{flat, Options{}, "column 1|column 2|column 3|column 4", "1101 0010", "rows of four levels, laid end to end"},
		{flat, Options{Pins: TwoLine}, "column 1|column 2", "11 01 00 10", "rows of two levels, laid end to end"},
		{"int t[] = {3, 1, 0, 2};", Options{}, "bit 3|bit 2|bit 1|bit 0", "0011 0001 0000 0010", "--pins two-line takes them so"},
		{"int t[] = {3, 1, 0, 2};", Options{Pins: TwoLine}, "bit 1|bit 0", "11 01 00 10", "column 1 is taken for bit 1, column 2 for bit 0"},
		{"int t[] = {3, 1, 0, 2};", Options{Pins: TwoLine, Bits: LSBFirst}, "bit 0|bit 1", "11 10 00 01", "Column 1 is bit 0, column 2 is bit 1; --bits msb"},
		{"int t[] = {0x90, 0x10, 0x00, 0x80};", Options{Pins: TwoLine}, "bit 7|bit 4", "11 01 00 10", "do not stand together"},
		{"int t[] = {0x3, 0x1, 0x3, 0x1};", Options{Pins: TwoLine}, "bit 1|bit 0", "11 01 11 01", "Of these, bit 0 never moves."},
		{"int t[] = {8, 4, 2, 1};", Options{Bits: LSBFirst}, "bit 0|bit 1|bit 2|bit 3", "0001 0010 0100 1000", "Column 1 is bit 0, column 4 is bit 3; --bits msb turns that round."},
		{"int t[] = {1000, 0100, 0010, 0001};", Options{Bits: LSBFirst}, "column 1|column 2|column 3|column 4", "0001 0000 0001 1000", ""},
		{"int a1[] = {1,0,0,1}, a2[] = {1,1,0,0};", Options{}, "a1|a2", "11 01 00 10", "one array a coil: a1, a2."},
		{"int t[2][4] = {{1,0,0,1}, {1,1,0,0}};", Options{Pins: CoilEnds}, "column 1|column 2|column 3|column 4", "1001 1100", ""},
		{"1000\n0100\n", Options{Bits: LSBFirst}, "column 1|column 2|column 3|column 4", "1000 0100", "--bits does not turn that round"},
	} {
		s, err := Read("-", []byte(c.text), c.options)
		if err != nil {
			t.Errorf("%s: %v", c.text, err)
			continue
		}
		tab := s.Tables[0]
		if got := strings.Join(patterns(tab.Rows), " "); got != c.rows || strings.Join(tab.Columns, "|") != c.columns || !strings.Contains(strings.Join(tab.Notes, " "), c.note) {
			t.Errorf("%s with %+v: %s", c.text, c.options, told(s, nil))
		}
	}
}

// As bits, digits are turned as bits are: the pattern 1000 is 0b1000.
func TestDigitsLowestFirst(t *testing.T) {
	s, err := Read("a.c", []byte("int t[] = {1000, 0100, 0010, 0001};"), Options{Bits: LSBFirst})
	if err != nil || !reflect.DeepEqual(patterns(s.Tables[0].Digits), []string{"0001", "0010", "0100", "1000"}) {
		t.Errorf("%s", told(s, err))
	}
}

func TestPinsWords(t *testing.T) {
	for _, p := range []Pins{CoilEnds, TwoLine, PhaseEnable} {
		if got, err := ParsePins(p.String()); got != p || err != nil {
			t.Errorf("%s: %v %v", p, got, err)
		}
	}
	for _, text := range []string{"", "auto", "two_line", "Two-Line"} {
		if _, err := ParsePins(text); err == nil || !strings.Contains(err.Error(), "coil-ends, two-line or phase-enable") {
			t.Errorf("%q: %v", text, err)
		}
	}
}

// All off between rows is only so when every second row is, and no other.
func TestOffBetweenInColumns(t *testing.T) {
	for text, want := range map[string]bool{
		"int t[] = {8, 0, 4, 0, 2, 0, 1, 0};":                                            true,
		"int t[] = {8, 4, 2, 0, 1, 0};":                                                  false,
		"int t[4][2] = {{1,1},{0,0},{1,0},{0,0}};":                                       false, // polarity: 0 0 is a field
		"int t[4][4] = {{1,0,0,0},{0,0,0,0},{0,1,0,0},{0,0,0,0}};":                       true,
		"int t[] = {0x81, 0x01, 0x41, 0x01, 0x21, 0x01, 0x11, 0x01};":                    true, // the lamp stays on
		"int t[] = {0x18, 0, 0x24, 0, 0x42, 0, 0x81, 0};":                                true, // both motors
		"int t[] = {0b1000, 0b0000, 0b0100, 0b0000, 0b0010, 0b0000, 0b0001, 0b0000, 3};": false,
	} {
		s := read(t, "a.c", text)
		for i := range s.Tables {
			if s.Tables[i].OffBetween != want {
				t.Errorf("%s, table %d: %v", text, i, !want)
			}
		}
	}
}
