package view

import (
	"strings"
	"testing"

	"coilwalk/model/table"
)

// Whatever is wrong with a table, what cures it is put in by its number: the bench then
// walks it, and the lines to be pasted into the file stand below.
func TestEveryCureIsPutIn(t *testing.T) {
	for _, c := range []struct{ what, file, text, lines string }{
		{"a column that is never on", "a.txt", "1000\n0100\n0010\n0000\n", "in place of lines 1 to 4 of the file:\n    1000\n    0100\n    0010\n    0001"},
		{"levels the wrong way round", "a.txt", "0111\n1011\n1101\n1110\n", "    1000\n    0100\n    0010\n    0001"},
		{"digits that are no bits", "a.c", "int s[] = {1000, 1100, 0100, 0110, 0010, 0011, 0001, 1001};\n", "    int s[] = {0b1000, 0b1100, 0b0100, 0b0110, 0b0010, 0b0011, 0b0001, 0b1001};"},
		{"a row that is missing", "a.c", "int s[] = {8, 12, 4, 2, 3, 1, 9};\n", "in place of line 1 of the file:\n    int s[] = {8, 12, 4, 6, 2, 3, 1, 9};"},
	} {
		e, o := onRows(t, c.file, c.text)
		if text := o.Text(e.bench); !strings.Contains(text, c.lines+"\n") {
			t.Errorf("%s: wanted %q in\n%s", c.what, c.lines, text)
		}
		press(e, "T", "1")
		order := e.bench.Read().Order
		if v := e.View(); !strings.Contains(v, "rows put right here, not in your file") || !o.Mended(e.bench) {
			t.Errorf("%s: not put in:\n%s", c.what, v)
		}
		var rows []string
		for k := range order.Len() {
			rows = append(rows, order.Row(int64(k)).Bits())
		}
		source, err := table.Read("a.txt", []byte(strings.Join(rows, "\n")), table.Options{})
		if err != nil {
			t.Fatal(err)
		}
		if v := table.Judge(&source.Tables[0], o.Question); !v.Sound {
			t.Errorf("%s: the bench walks %s, which is not sound", c.what, strings.Join(rows, " "))
		}
	}
}

// Polarity lines that go the wrong way are walked from their other end.
func TestPolarityLinesAreWalkedBack(t *testing.T) {
	e, o := onRows(t, "a.txt", "0 0\n1 0\n1 1\n0 1\n")
	o.Question.Direction = -o.Verdict().Direction
	o.Verdicts, _ = o.Again(table.AsSaid)
	if v := o.Verdict(); len(v.Cures) != 1 || v.Faults[0].Kind != "direction-reversed" {
		t.Fatalf("%+v", v)
	}
	first := e.bench.Read().Order.Row(0)
	press(e, "T", "1")
	if order := e.bench.Read().Order; order.Row(3) != first || order.Row(0) == first {
		t.Errorf("it is not walked from its other end: %v\n%s", order.Row(0), e.View())
	}
}

// What is wrong with a number may not reach the outputs: then nothing was put right yet.
func TestNothingIsMendedByItself(t *testing.T) {
	e, o := onRows(t, "a.ino", "byte s[] = {0b1000, 0b1100, 0b0100, 0b0110, 0b0010, 0b0011, 0b0001, 1001};\n")
	if len(o.Verdict().Cures) == 0 || o.Verdict().Sound {
		t.Fatalf("%+v", o.Verdict())
	}
	if strings.Contains(o.Text(e.bench), "rows put right") {
		t.Error("the bench walks the file's own rows, and they are told as mended")
	}
}
