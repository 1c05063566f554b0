package plain

import (
	"bytes"
	"errors"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"coilwalk/model/bench"
	"coilwalk/model/motor"
	"coilwalk/testdata/bounds"
)

// What a sitting of words may cost: each word may walk rows and settle a rotor.
const (
	wordsBase    = 256 << 20
	wordsPerByte = 1 << 20
	mostWords    = 400 // bytes of one sitting, so that the rows that it runs stay few
)

// slow are the words that run a motor in time for many rows, or judge one by that:
// they are right or wrong, and tested, elsewhere.
var slow = []string{"run", "faults", "does", "go", "rates", "ramp", "trouble"}

// FuzzWords types anything into the line mode: it never fails, says only plain
// lines, and goes on to the end.
func FuzzWords(f *testing.F) {
	names := motor.Names()
	for i, text := range []string{"next 3\nback\nrewind\nmode full\nswap 2 3\nrewire\ndrive\nwhere\nnxet\nwiring", "mode micro 16\nreverse\nmode sine\nback x\nrewind 99", "reading BN VT 52\nreading BN WH\nleads",
		"ask\nanswer cw\nanswer kick BN GN cw\nask geared\ntakeback 1\ntakeback 9", "power darlington usb\npower steam", "fault swap 2 3\nfault open BN\nfault smoke\nnext 2", "help\ncheck\nquit", "run 600 20\nrun x", "\x1b[2J\x9b\u202e", "answer \xff\nfault \x1b"} {
		f.Add(uint8(i%len(names)), text)
	}
	f.Fuzz(func(t *testing.T, which uint8, text string) {
		if len(text) > mostWords || strings.ContainsAny(text, `/\`) {
			return // files are only named in a folder of its own
		}
		t.Chdir(t.TempDir())
		for line := range strings.Lines(text) {
			words := strings.Fields(strings.ToLower(line))
			for _, word := range slow {
				if len(words) > 0 && words[0] == word && word != "run" && word != "go" {
					return
				}
				if len(words) > 1 && words[0] == word && len(strings.Join(words[1:], "")) > 4 {
					return
				}
			}
		}
		mo, _ := motor.BuiltIn(names[int(which)%len(names)])
		var out bytes.Buffer
		bounds.Hold(t, len(text), wordsBase, wordsPerByte, func() {
			nothing := func(string) (Sitting, error) { return Sitting{}, errors.New("there is no such file") }
			m := Mode{Sitting: Sitting{Bench: bench.New(mo)}, Open: nothing}
			if err := m.Run(strings.NewReader(text), &out); err != nil {
				t.Fatal(err)
			}
		})
		if !utf8.Valid(out.Bytes()) {
			t.Fatalf("%q is answered %q", text, out.String())
		}
		for _, r := range out.String() {
			if r != '\n' && unicode.In(r, unicode.Cc, unicode.Cf, unicode.Zl, unicode.Zp) {
				t.Fatalf("%q is answered with %U: %q", text, r, out.String())
			}
		}
		if strings.Contains(out.String(), "strconv") || strings.Contains(out.String(), "%!") {
			t.Fatalf("%q is answered %q", text, out.String())
		}
	})
}
