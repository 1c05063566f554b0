package report

import (
	"strings"
	"testing"

	"coilwalk/model/table"
	"coilwalk/sequence"
)

// Rows in bits are said by the outputs that are on; numbers of rows, and digits of a
// file, are not taken for them.
func TestRowsAreSaidByTheirOutputs(t *testing.T) {
	on := func(bits string) string { return NamesOn(bits, []string{"IN1", "IN2", "IN3", "IN4"}) }
	for text, want := range map[string]string{
		"Row 3 (0111) sets up no field: nothing holds the rotor. 0110 is wanted here.": "Row 3 (IN2, IN3 and IN4 on) sets up no field: nothing holds the rotor. A row with IN2 and IN3 on is wanted here.",
		"Row 0100 is missing after row 2: the field jumps over it.":                    "A row with IN2 on is missing after row 2: the field jumps over it.",
		"Row 4 is 1111 where 0001 is wanted.":                                          "Row 4 is a row with IN1, IN2, IN3 and IN4 on where a row with IN4 on is wanted.",
		"put in 0001 after row 3, make row 8 1001; it then turns forward, clockwise":   "put in a row with IN4 on after row 3, make row 8 a row with IN1 and IN4 on; it then turns forward, clockwise",
		"make row 7 0x08 (0001)":                                                       "make row 7 0x08 (IN4 on)",
		"0011 was never sent before row 1001: a row beside it":                         "A row with IN3 and IN4 on was never sent before row 1001: a row beside it",
		"Row 1001 (0000) is all off; 1000 is wanted. It comes 12 times, every 8 rows.": "Row 1001 (all off) is all off; a row with IN1 on is wanted. It comes 12 times, every 8 rows.",
		"A row is missing before row 1001: the field jumps by 2 steps at once.":        "A row is missing before row 1001: the field jumps by 2 steps at once.",
	} {
		if got := aloud(text, on); got != want {
			t.Errorf("%q is said as\n%q, wanted\n%q", text, got, want)
		}
	}
}

// A verdict that is read aloud has no row of bits, but for how the file writes it.
func TestAVerdictIsReadAloud(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"int s[] = {0b1000, 0b1100, 0b0110, 0b0010, 0b0011, 0b0001, 0b1001};", "row 2: outputs 1 and 2 on, written 0b1100, field 45°, step +45°, fault: skipped-row"},
		{"int left[] = {1,1,0,0,0,0,0,1};\nint up[] = {0,1,1,1,0,0,0,0};\nint right[] = {0,0,0,1,1,1,0,0};\nint down[] = {0,0,0,0,0,0,1,1};", "row 8: left and down on, written 1001, field 315°, step +45°"},
	} {
		s, err := table.Read("a.c", []byte(c.text), table.Options{})
		if err != nil {
			t.Fatal(err)
		}
		straight := sequence.Straight
		v := table.Judge(&s.Tables[0], table.Question{Wiring: &straight})
		said := VerdictSpoken("a.c", v)
		if !strings.Contains(said, c.want) {
			t.Errorf("wanted %q in\n%s", c.want, said)
		}
		for _, line := range strings.Split(said, "\n") {
			if before, _, _ := strings.Cut(line, ", written "); bitsInBrackets.MatchString(before) || strings.Contains(before, "0100") {
				t.Errorf("bits are said: %q", line)
			}
		}
	}
}
