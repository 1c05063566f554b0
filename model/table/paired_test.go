package table

import (
	"fmt"
	"slices"
	"strings"
	"testing"
)

// What a comment says plainly of outputs and bits is taken, and said with its line;
// what is not plain, or does not fit the bits of the table, says nothing.
func TestBitsAsCommentsPairThem(t *testing.T) {
	lsb, msb, none := []int{0, 1, 2, 3}, []int{3, 2, 1, 0}, []int(nil)
	for _, c := range []struct {
		comment string
		want    []int
	}{
		{"half step, low nibble of PORTB, pin 0 = IN1", lsb},
		{"pin 0 = IN1", lsb}, {"bit 0: IN1", lsb}, {"IN1 = bit 0", lsb}, {"PB0 = IN1", lsb}, {"IN1 on PB0", lsb}, {"IN1 -> PORTB0", lsb},
		{"out1 is on PORTB.0", lsb}, {"Output 1: PORTB bit 0", lsb}, {"coil 1 = bit 0 (LSB)", lsb}, {"A+ = PB0", lsb}, {"IN1 (A+) = PB0", lsb}, {"D0 drives IN1", lsb},
		{"PB0 (IN1)", lsb}, {"IN1 = bit 3", msb}, {"bit 3 -> IN1, active high", msb}, {"port B, pin 3 = IN1", msb}, {"A+ = PB3, A- = PB2, B+ = PB1, B- = PB0", msb},
		{"IN1 = PB0, IN2 = PB1, IN3 = PB2, IN4 = PB3", lsb}, {"IN1 PB3 IN2 PB2 IN3 PB1 IN4 PB0", msb}, {"pin 0 = IN1 ... pin 3 = IN4", lsb},
		{"IN1..IN4 on PB0..PB3", lsb}, {"bits 0-3 = IN1-IN4", lsb}, {"IN1-4 = PB3-0", msb}, {"IN4..IN1 = PB0..PB3", msb},
		{"IN1 = PB2, IN2 = PB0, IN3 = PB1, IN4 = PB3", []int{2, 0, 1, 3}}, {"IN1 = bit 0, bit 7 = lamp", lsb},
		{"bit 0: IN1\n * bit 1: IN2\n * bit 2: IN3\n * bit 3: IN4", lsb},
		// not plain, against each other, or of something else
		{"pin 8 = IN1", none}, {"pin 8 = IN1, pin 9 = IN2, pin 10 = IN3, pin 11 = IN4", none}, {"pin 2 = IN1, pin 3 = IN2, pin 4 = IN3, pin 5 = IN4", none},
		{"pin 3 = IN1", none}, {"D3 = IN1", none}, {"header pin 0 = IN1", none}, {"IN1 = pin 0 of J3", none}, {"IN1 = pin 1", none}, {"IN2 = bit 0", none},
		{"IN1 is not on PB0", none}, {"IN1 = PB0, IN2 = PB0", none}, {"IN1 = PB0, IN1 = PB3", none}, {"IN1 = PB0\nIN1 = PB3", none}, {"IN1 = PB0, IN2 = PB3", none},
		{"IN1 = PB0, IN2 = PD1", none}, {"IN1, IN2, IN3, IN4 = PB0, PB1, PB2, PB3", none}, {"IN1 and IN2 = PB0 and PB1", none}, {"bits 0 and 1 = coil 1", none},
		{"coil 1 = bits 0-1, coil 2 = bits 2-3", none}, {"IN1 on PB0..PB3", none}, {"IN1/IN2 on PB0/PB1", none}, {"IN1 = bit 0, 1", none},
		{"IN1 = PB0\nwhile IN2 is off bit 3 of the state counts", none}, {"in 1 step bit 0 moves", none}, {"IN5 = PB0", none}, {"A- = PB0", none}, {"IN1 IN2 IN3 IN4", none},
	} {
		for _, f := range []struct{ file, text string }{
			{"a.c", "int x;\n/* " + c.comment + " */\nint t[] = {1, 3, 2, 6, 4, 12, 8, 9};"},
			{"a.py", "x = 1\n# " + strings.ReplaceAll(c.comment, "\n", "\n# ") + "\nt = [1, 3, 2, 6, 4, 12, 8, 9]"},
			{"a.txt", "# rows\n# " + strings.ReplaceAll(c.comment, "\n", "\n# ") + "\n0x1\n3\n2\n6\n4\n12\n8\n9\n"},
		} {
			got := read(t, f.file, f.text).Tables[0]
			notes := strings.Join(got.Notes, " ")
			if c.want == nil {
				if !slices.Equal(got.Bits, msb) || !strings.Contains(notes, "Nothing says which output a bit is") {
					t.Errorf("%s, %q: %v, %q", f.file, c.comment, got.Bits, notes)
				}
				continue
			}
			name := "output 1"
			if strings.HasPrefix(c.comment, "A+") {
				name = "A+"
			}
			if part := fmt.Sprintf("the comment in line 2 says that %s is bit %d; --bits msb or lsb says otherwise", name, c.want[0]); !slices.Equal(got.Bits, c.want) || !strings.Contains(notes, part) {
				t.Errorf("%s, %q: %v, %q; want %v", f.file, c.comment, got.Bits, notes, c.want)
			}
			for bits, want := range map[BitOrder][]int{MSBFirst: msb, LSBFirst: lsb} {
				s, err := Read(f.file, []byte(f.text), Options{Bits: bits})
				if err != nil || !slices.Equal(s.Tables[0].Bits, want) || strings.Contains(strings.Join(s.Tables[0].Notes, " "), "comment") {
					t.Errorf("%q with --bits: %s", c.comment, told(s, err))
				}
			}
		}
	}
}

// Only comments are asked, and only of the table whose bits they name.
func TestPairsOfOtherText(t *testing.T) {
	for _, text := range []string{
		"int IN1 = 0; char *s = \"IN1 = PB0\";\nint t[] = {1, 3, 2, 6, 4, 12, 8, 9};",
		"#if 0\n// IN1 = PB0\n#endif\nint t[] = {1, 3, 2, 6, 4, 12, 8, 9};",
		"// IN1 = PB0\nint t[] = {0x10, 0x30, 0x20, 0x60, 0x40, 0xC0, 0x80, 0x90};",
	} {
		if got := read(t, "a.c", text).Tables[0]; got.Bits[0] < got.Bits[3] {
			t.Errorf("%s: %v", text, got.Bits)
		}
	}
	s := read(t, "a.c", "// PB4 = IN1\nint a[] = {0x10, 0x30, 0x20, 0x60, 0x40, 0xC0, 0x80, 0x90}, b[] = {1, 2, 4, 8};")
	if a, b := s.Tables[0].Bits, s.Tables[1].Bits; a[0] != 4 || b[0] != 3 {
		t.Errorf("%v and %v", a, b)
	}
}
