package table

import (
	"fmt"
	"strings"
	"testing"
)

// A sheet is read to its end: the rows of all its directions count, and one with more
// rows than a table may have is refused, not cut.
func TestSheetsAreReadWhole(t *testing.T) {
	sheet := func(rows int) string {
		var b strings.Builder
		b.WriteString("direction,output1,output2,output3,output4\n")
		for _, way := range []string{"forward", "reverse"} {
			for k := range rows {
				fmt.Fprintf(&b, "%s,%d,%d,%d,%d\n", way, (4-k%4)/4, (k%4)&1&^(k%4>>1), (k%4)>>1&^(k%4), (k%4)/3)
			}
		}
		return b.String()
	}
	s, err := Read("x.csv", []byte(sheet(3000)), Options{})
	if err != nil || len(s.Tables) != 2 || len(s.Tables[0].Rows) != 3000 || len(s.Tables[1].Rows) != 3000 {
		t.Fatalf("%v, %v", s, err)
	}
	if first := s.Tables[1].Rows[:4]; bitText(first[0].Levels) != "1000" || bitText(first[3].Levels) != "0001" {
		t.Errorf("rows of the second: %v", first)
	}
	if _, err := Read("x.csv", []byte(sheet(mostRows+1)), Options{}); err == nil || !strings.Contains(err.Error(), "at most 4096") {
		t.Errorf("of too many rows: %v", err)
	}
}
