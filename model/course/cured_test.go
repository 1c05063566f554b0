package course

import (
	"slices"
	"strings"
	"testing"

	"coilwalk/sequence"
)

// A slip that comes in every cycle is one of the program's table, and the cure says which
// row of it to change; one that came once is not.
func TestTheRowOfTheTableIsTold(t *testing.T) {
	cycle := func(rows string) string { return strings.Repeat(rows+" ", 8) }
	for _, c := range []struct{ what, rows, want string }{
		{"both ends on", cycle("1000 1100 0100 0110 0010 1010 0001 1001"), "In the program's table make the row 1010 that comes after 0010 into 0011: counted from the first row that was recorded it is row 6 of 8. In a unipolar"},
		{"a row of zeros", cycle("1100 0110 0000 1001"), "In the program's table make the row 0000 that comes after 0110 into 0011: counted from the first row that was recorded it is row 3 of 4. If it is"},
		{"exchanged", cycle("1000 1100 0110 0100 0010 0011 0001 1001"), "In the program's table exchange the two rows that come after 1100: counted from the first row that was recorded the first of them is row 3 of 8."},
		{"wrong", cycle("1000 0001 0100 0110 0010 0011 0001 1001"), "In the program's table make the row 0001 that comes after 1000 into 1100: counted from the first row that was recorded it is row 2 of 8. If it is right there"},
		{"once", cycle("1000 1100 0100 0110 0010 0011 0001 1001") + "1000 1010 0100 0110 0010 0011 0001 1001 " + cycle("1000 1100 0100 0110 0010 0011 0001 1001"), "Correct the row."},
	} {
		v := Judge(writtenCourse(t, 1000, c.rows), [4]string{"IN1", "IN2", "IN3", "IN4"}, Question{})
		if len(v.Faults) != 1 || !strings.HasPrefix(v.Faults[0].Cure, c.want) {
			t.Errorf("%s: %+v, wanted %q", c.what, v.Faults, c.want)
		}
	}
}

// With two leads exchanged as a cure says, the recording is in order, goes the way that
// was told, and the rows that are given are those that were sent.
func TestASwapCuresARecording(t *testing.T) {
	straight := sequence.Straight
	for _, c := range []struct {
		what, rows string
		q          Question
		kind       string
	}{
		{"full step, 2 and 3", strings.Repeat("1010 0110 0101 1001 ", 8), Question{Wiring: &straight}, "outputs-permuted"},
		{"half step, 2 and 3", strings.Repeat("1000 1010 0010 0110 0100 0101 0001 1001 ", 8), Question{Wiring: &straight}, "outputs-permuted"},
		{"wave drive the other way", strings.Repeat("1000 0100 0010 0001 ", 8), Question{Wiring: &straight, Direction: sequence.Reverse}, "direction-reversed"},
	} {
		channels := [4]string{"IN1", "IN2", "IN3", "IN4"}
		course := writtenCourse(t, 1000, c.rows)
		v := Judge(course, channels, c.q)
		swaps := v.Swaps()
		if len(swaps) != 2 || v.Faults[0].Kind != c.kind {
			t.Fatalf("%s: %+v", c.what, v.Faults)
		}
		for _, s := range swaps {
			rows, wiring, ok := v.Cured(s)
			q := c.q
			q.Wiring = &wiring
			again := Judge(course, channels, q)
			if !ok || !again.Sound || again.Runs[0].Direction != s.Direction || len(again.Swaps()) != 0 {
				t.Errorf("%s, %v: %t, faults %+v, runs %+v", c.what, s.Outputs, ok, again.Faults, again.Runs)
			}
			sent := strings.Fields(c.rows)
			at := slices.Index(sent, rows[0].Bits())
			for k, r := range rows {
				if at < 0 || r.Bits() != sent[(at+k)%len(sent)] {
					t.Errorf("%s, %v: row %d of those given is %s; sent were %s", c.what, s.Outputs, k+1, r.Bits(), c.rows[:50])
					break
				}
			}
		}
	}
	sound := Judge(writtenCourse(t, 1000, strings.Repeat(fulls, 6)), [4]string{}, Question{Wiring: &straight})
	if s := sound.Swaps(); s != nil {
		t.Errorf("what is sound has the cures %v", s)
	}
}
