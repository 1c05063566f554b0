package view

import (
	"strings"
	"testing"

	"coilwalk/model/handoff"
	"coilwalk/testdata/bounds"
	"coilwalk/view/report"
)

// Each text stands above what its letters are: c comment, k keyword, n number,
// s string, and a blank for what is none of them.
func TestSyntax(t *testing.T) {
	for _, one := range []struct{ kind, text, want string }{
		{"c", `#include <stdint.h> /* a "b" */ x`, `kkkkkkkk            ccccccccccc  `},
		{"c", "static const uint8_t a[2] = {0x0c, 16u}; // 3", "kkkkkk kkkkk kkkkkkk   n     nnnn  nnn   cccc"},
		{"c", "/* one\n * if 2 */ if", "ccccccccccccccccc kk"},
		{"c", `x1 = "a\"1" + '"';`, `     ssssss   sss `},
		{"c", "#ifndef INT #intern", "kkkkkkk            "},
		{"cpp", "constexpr uint16_t ramp[1]", "kkkkkkkkk kkkkkkkk      n "},
		{"rust", "//! It's 5\npub const A: [u8; 8]", "cccccccccc kkk kkkkk     kk  n "},
		{"python", "def a(b): # 1", "kkk       ccc"},
		{"python", "\"\"\"It's\n2\"\"\" + 'x' if", "cccccccccccc   sss kk"},
		{"micropython", "from machine import Pin", "kkkk         kkkkkk    "},
		{"csv", "# 1\nforward,2,\"A+ (BN)\",0.5", "ccc         n sssssssss nnn"},
		{"json", `{"a": ["b", 1.5, true]}`, ` kkk   sss  nnn  kkkk  `},
		{"vcd", "$comment\n 1 $end\n$var wire 1 $ o $end\n#40\n1$\n", "cccccccccccccccc kkkk      n     kkkk nnn n  "},
		{"markdown", "# 1 two\n| 1 | A # |", "kkkkkkk   n        "},
		{"text", "if 1 \"a\"", "   n    "},
		{"c", `"open`, "sssss"}, {"c", "/* open", "ccccccc"}, {"python", `"""open`, "ccccccc"}, {"c", `"\`, "ss"}, {"c", "µ 1", "   n"},
	} {
		var got strings.Builder
		for _, c := range languages[one.kind].classes(one.text) {
			got.WriteByte([...]byte{plainly: ' ', commented: 'c', keyword: 'k', numeral: 'n', quoted: 's'}[c])
		}
		if got.String() != one.want {
			t.Errorf("%s\n%q is\n%q, want\n%q", one.kind, one.text, got.String(), one.want)
		}
	}
}

// Whatever stands in a file, each of its bytes has one class.
func FuzzSyntax(f *testing.F) {
	for _, k := range report.Kinds {
		f.Add(k.Name, "a \"b\" /* 1 */ # $comment \"\"\" '\\")
	}
	f.Fuzz(func(t *testing.T, kind, text string) {
		bounds.Hold(t, len(text), 4<<20, 1000, func() {
			if got := languages[kind].classes(text); len(got) != len(text) {
				t.Errorf("%d classes of %d bytes", len(got), len(text))
			}
		})
		at := 0
		for at < len(text) {
			end, _ := languages[kind].token(text, at)
			if end <= at || end > len(text) {
				t.Fatalf("from %d to %d of %d", at, end, len(text))
			}
			at = end
		}
	})
}

// Every kind of file has its colours, but one that is plain text; and every entry is
// that of a kind.
func TestEveryKindHasItsColours(t *testing.T) {
	for _, k := range handoff.Kinds {
		if _, ok := languages[k.Name]; !ok && k.Name != "text" {
			t.Errorf("the kind %q: say in languages (view/syntax.go) what is coloured in it, or here that nothing is", k.Name)
		}
	}
	for name := range languages {
		if _, ok := handoff.KindNamed(name); !ok {
			t.Errorf("languages (view/syntax.go) has %q, and no kind is called so", name)
		}
	}
}
