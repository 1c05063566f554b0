package picture

import (
	"fmt"
	"strings"
	"testing"
)

// The card in cells says what the paper says, at any width, and its blocks stand
// under the rows for which an output is on.
func TestCardInCells(t *testing.T) {
	c := hostile()
	c.Title, c.Supply = "flap", "common to the supply"
	for _, wide := range []int{40, 76, 96} {
		g := c.Cells(wide, false)
		text := g.Text(Dark, NoColour)
		for _, words := range []string{"flap", "common to the supply", "Order, forward", "<name>", "! "} {
			if !strings.Contains(text, words) {
				t.Errorf("%d cells: %q is not there:\n%s", wide, words, text)
			}
		}
		lines := strings.Split(text, "\n")
		if len(lines) != g.H || !strings.Contains(lines[g.H-1], "└") {
			t.Errorf("%d cells: %d lines of %d, the last is %q", wide, len(lines), g.H, lines[len(lines)-1])
		}
		for _, line := range lines {
			if Width(line) != wide {
				t.Errorf("a line is %d wide, want %d: %q", Width(line), wide, line)
			}
		}
	}
	for _, n := range []int{4, 8, 64, 1024} {
		one := &Card{}
		for k := range n {
			row := CardRow{Number: k + 1}
			if k < n/2 {
				row.Levels[0] = 1
			}
			one.Rows = append(one.Rows, row)
		}
		g := one.Cells(76, false)
		text := g.Text(Dark, NoColour)
		y := 0
		for !strings.Contains(strings.Split(text, "\n")[y], "Order, forward") {
			y++
		}
		for y++; !strings.Contains(strings.Split(text, "\n")[y], "▁"); y++ {
		}
		line := strings.Split(text, "\n")[y]
		if on, off := strings.Count(line, "█"), strings.Count(line, "▁"); on == 0 || on != off {
			t.Errorf("%d rows: half of them on are %d cells of %d:\n%s", n, on, on+off, line)
		}
		if n > 60 && !strings.Contains(text, fmt.Sprintf("%d rows to a cycle", n)) {
			t.Errorf("%d rows: it is not said how many there are", n)
		}
	}
	if g := (&Card{}).Cells(40, true); g.H == 0 {
		t.Error("an empty card is nothing")
	}
}

// Without colours a line below is what tells; it ends where it should.
func TestUnderlined(t *testing.T) {
	g := &Grid{}
	g.Resize(6, 1)
	g.Write(0, 0, "a b", Style{Under: true})
	g.Write(3, 0, "c", Loud(Text))
	if got, want := g.Text(Dark, NoColour), "\x1b[4ma b\x1b[0;1mc\x1b[m"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}
