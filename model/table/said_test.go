package table

import (
	"slices"
	"strings"
	"testing"
)

// Where a file says which bit each output has, its columns are the outputs in their
// order; unless one is told otherwise, or what it says is not of these bits.
func TestBitsAsTheFileSays(t *testing.T) {
	const said = "// Output 1: lead BN, PORTD bit 7.\n// Output 2: bit 5\n// output 3 on PORTD, bit 6\n// OUTPUT 4: bit 3\n"
	const rows = "int t[] = {0x80, 0x20, 0x40, 0x08};"
	for _, c := range []struct {
		text string
		bits BitOrder
		want []int
		note string
	}{
		{said + rows, AsSaid, []int{7, 5, 6, 3}, "are bits 7, 5, 6 and 3, as the file says"},
		{said + rows, MSBFirst, []int{7, 6, 5, 3}, "--bits lsb turns that round"},
		{said + rows, LSBFirst, []int{3, 5, 6, 7}, "--bits msb turns that round"},
		{rows, AsSaid, []int{7, 6, 5, 3}, "hang on that; --bits lsb turns it round"},
		{said + "int t[] = {1, 2, 4, 8};", AsSaid, []int{3, 2, 1, 0}, "hang on that; --bits lsb turns it round"},
		{said + "// output 4: bit 2\n" + rows, AsSaid, []int{7, 6, 5, 3}, ""},
		{"// output 1: bit 7\n" + rows, AsSaid, []int{7, 6, 5, 3}, ""},
	} {
		s, err := Read("a.c", []byte(c.text), Options{Bits: c.bits})
		if err != nil {
			t.Fatal(err)
		}
		got := s.Tables[0]
		if !slices.Equal(got.Bits, c.want) || !strings.Contains(strings.Join(got.Notes, " "), c.note) {
			t.Errorf("%q: bits %v, want %v; %q", c.text, got.Bits, c.want, got.Notes)
		}
	}
}
