package view

import (
	"strings"
	"testing"

	"coilwalk/model/bench"
	"coilwalk/model/motor"
	"coilwalk/model/table"
	"coilwalk/view/opened"
)

// onRows opens a table from its text, held against the motor's own wiring.
func onRows(t *testing.T, file, text string) (*Explorer, *opened.Table) {
	t.Helper()
	m, _ := motor.BuiltIn("vent-flap")
	o := &opened.Table{File: file, Question: table.Question{Wiring: &m.Wiring}}
	o.Again = func(bits table.BitOrder) ([]table.Verdict, error) {
		source, err := table.Read(file, []byte(text), table.Options{Bits: bits})
		if err != nil {
			return nil, err
		}
		return source.Judge(o.Question), nil
	}
	var err error
	if o.Verdicts, err = o.Again(table.AsSaid); err != nil {
		t.Fatal(err)
	}
	b := bench.New(m)
	o.Walk(b)
	e := New(b, Settings{Now: newClock().Now}, Opened{Checked: o})
	sized(e, 80, 24)
	return e, o
}

const (
	exchanged = "1000\n1100\n0110\n0100\n0010\n0011\n0001\n1001\n"
	packed    = "const unsigned char flap[] = { 0x01, 0x03, 0x02, 0x06, 0x04, 0x0c, 0x0c, 0x08, 0x09 };\n"
)

// Each was looked at.
func TestGoldenTable(t *testing.T) {
	e, _ := onRows(t, "rows.txt", exchanged)
	press(e, "T")
	golden(t, "table-exchanged-80x24", e.View())
	e, _ = onRows(t, "flap.c", packed)
	sized(e, 120, 36)
	press(e, "T", "b")
	golden(t, "table-bits-120x36", e.View())
}

// Numbers that were read from the wrong end are turned round without leaving: the
// findings, the walk and the cure are those of the rows as they are read then.
func TestBitsAreTurnedRound(t *testing.T) {
	e, o := onRows(t, "flap.c", packed)
	first := func() string { return e.bench.Read().Outputs.Bits() }
	press(e, "right", "T")
	if first() == "1000" || !o.Packed() {
		t.Fatalf("0x01 is read as %s, packed %t", first(), o.Packed())
	}
	press(e, "b")
	if v := e.View(); first() != "1000" || !strings.Contains(v, "column 1 is the lowest bit now") || !strings.Contains(v, "leave out row") {
		t.Errorf("turned round, the first row is %s:\n%s", first(), v)
	}
	press(e, "1") // its cure is that of the rows as they are now
	if r := e.bench.Read(); r.Order.Len() != 8 || first() != "1000" {
		t.Errorf("put right it has %d rows, the first %s", r.Order.Len(), first())
	}
	press(e, "T")
	if v := e.View(); !strings.Contains(v, "The bench walks the rows put right. Your file is as it was:") {
		t.Errorf("the findings do not say that the bench is mended:\n%s", v)
	}
	press(e, "b")
	if first() != "0001" || !strings.Contains(e.View(), "the highest bit now") {
		t.Errorf("turned back, the first row is %s:\n%s", first(), e.View())
	}
	e, o = onRows(t, "rows.txt", exchanged)
	press(e, "T")
	if v := e.View(); o.Packed() || strings.Contains(v, "b bits") {
		t.Errorf("rows of 0 and 1 have no bits to turn:\n%s", v)
	}
}

// The fault bench runs the step modes, not an opened table: one that is not sound
// is not passed over in silence, until its rows are put right.
func TestFaultsPointToABadTable(t *testing.T) {
	const words = "The table that is open is not sound"
	e, _ := onRows(t, "rows.txt", exchanged)
	press(e, "F")
	if v := e.View(); !strings.Contains(v, words) {
		t.Errorf("nothing is said of the table:\n%s", v)
	}
	press(e, "T", "1", "F")
	if v := e.View(); strings.Contains(v, words) {
		t.Errorf("the rows are right by now:\n%s", v)
	}
}

// Two leads swapped on Walk are the fault of that name in the list, and enter there
// puts them back: there are not two faults where one was made.
func TestSwapIsTheFaultOfThatName(t *testing.T) {
	e, _ := explorer(t, "vent-flap", Settings{})
	sized(e, 120, 36)
	press(e, "w", "2 3", "enter", "F")
	v := e.View()
	if strings.Count(v, "●") != 1 || !strings.Contains(v, "● WH and GN swapped") {
		t.Errorf("the swap is not marked:\n%s", v)
	}
	press(e, "down", "down", "enter")
	r := e.bench.Read()
	if strings.Contains(e.View(), "●") || r.Rewired || len(r.Faults) > 0 {
		t.Errorf("it is not taken out: rewired %t, %v:\n%s", r.Rewired, r.Faults, e.View())
	}
}

// A table that was judged by itself is not judged again when leads are moved on the
// bench, and so says that they were; one that was judged with its wiring is.
func TestMovedLeadsAreTold(t *testing.T) {
	e, _ := onRows(t, "flap.txt", "1000\n1100\n0100\n0110\n0010\n0011\n0001\n1001\n")
	press(e, "w", "2 3", "enter", "T")
	if v := e.View(); strings.Contains(v, "leads were moved") || !strings.Contains(v, "not sound") {
		t.Errorf("it is not judged again:\n%s", v)
	}
	e, o := onRows(t, "flap.txt", "1000\n1100\n0100\n0110\n0010\n0011\n0001\n1001\n")
	o.Question.Wiring = nil
	o.Verdicts, _ = o.Again(table.AsSaid)
	if strings.Contains(o.Text(e.bench), "leads were moved") {
		t.Error("leads are told as moved that were not")
	}
	press(e, "w", "2 3", "enter", "T")
	if v := e.View(); !strings.Contains(v, "leads were moved since: WH and GN swapped") {
		t.Errorf("the leads that were moved are not told:\n%s", v)
	}
}

// A row that moves a bit which no other row moves is one more wrong row to put
// right, and the columns are the outputs that the file's comment names.
func TestAStrayRowIsPutRight(t *testing.T) {
	e, o := onRows(t, "flap.c", "/* low nibble of PORTB, pin 0 = IN1 */\nuint8_t steps[8] = { 0x01, 0x03, 0x02, 0x06, 0x04, 0x0C, 0x80, 0x09 };\n")
	press(e, "T")
	for _, part := range []string{"the comment in line 1 says that output 1 is bit 0", "Row 7 (line 2) is 0x80", "make row 7 0x08 (0001)"} {
		if text := strings.Join(strings.Fields(o.Text(e.bench)), " "); !strings.Contains(text, part) {
			t.Errorf("%q is not in\n%s", part, text)
		}
	}
	if row := e.bench.Read().Order.Row(6).Bits(); row != "0000" {
		t.Errorf("row 7 is walked as %s", row)
	}
	press(e, "1")
	if row := e.bench.Read().Order.Row(6).Bits(); row != "0001" || !o.Mended(e.bench) {
		t.Errorf("put right, row 7 is walked as %s", row)
	}
}
