package motor

import (
	"strings"
	"testing"
)

// harder are bad files whose place or advice takes more than the TOML library
// gives. "…" stands for words of the program's choice.
var harder = map[string]string{
	// The place of a value that is no text.
	"no-unit-number": ":10:11: …12 has no unit; write V, mV or kV, as in 12 V",
	"bare-second":    ":11:11: …80 has no unit; write A, mA or uA, as in 80 A",
	"bare-inline":    ":4:23: …12 has no unit; write V, mV or kV, as in 12 V",
	"bare-true":      ":10:11: …",
	"bare-ratio":     ":10:9: …is no ratio; turns of the rotor to one of the shaft are wanted, as 64:1",
	"bare-meshes":    ":10:10: …is no mesh; the teeth of the driving and the driven gear are wanted, as 9:32",
	// Columns are counted in characters, as editors do, not in bytes.
	"lead-accent":         `:4:19: …the lead name "a b" holds ' '; letters, digits and / + - _ . are wanted`,
	"syntax-after-accent": ":2:27: …",
	// Fields given otherwise than below a [table] line. The place is that of the
	// field, or of one of those that can not stand together.
	"unknown-inline":         `:2:46: there is no field "…comon"; did you mean "common"?`,
	"common-and-taps-dotted": ":…:1: more than one of common, taps and inner is given; common is for 5 leads, taps for 6, inner for 8, none for 4",
	// The line that is wrong, not the head of its table.
	"friction-negative": ":11:1: …negative…",
	// The advice must not be cut off with the long text before it.
	"lead-long":  ":4:27: …is longer than 16 characters; a shorter one is wanted",
	"train-long": ":10:10: …is no mesh; …are wanted, as 9:32",
	"ratio-long": ":10:9: …is no ratio; …are wanted, as 64:1",
	// The person knows TOML, if that; not the program's types.
	"wrong-type-text":     ":7:14: …pole_pairs…",
	"wrong-type-fraction": ":7:14: …pole_pairs…",
	"wrong-type-list":     ":10:11: …outputs…",
	"wrong-type-name":     ":1:8: …name…",
	"array-table":         ":9:3: …figures…",
}

func TestHarderBadFiles(t *testing.T) {
	t.Chdir(corpus + "bad")
	for name, want := range harder {
		t.Run(name, func(t *testing.T) {
			got := told(t, name+".toml")
			if !fits(got, want) {
				t.Errorf("got  %s\nwant %s", got, want)
			}
			for _, inner := range []string{"struct", "motor.", "quantity.", "type int", "type string", "Part", "leadText"} {
				if strings.Contains(got, inner) {
					t.Errorf("the message speaks of the program's inside, %q: %s", inner, got)
				}
			}
		})
	}
}

// A message that only says what is wrong leaves the person to guess.
func TestWrongTypeSaysWhatIsRight(t *testing.T) {
	t.Chdir(corpus + "bad")
	for _, name := range []string{"wrong-type-text", "wrong-type-fraction", "wrong-type-list", "wrong-type-name"} {
		if got := told(t, name+".toml"); !strings.Contains(got, "; ") {
			t.Errorf("%s has no advice: %s", name, got)
		}
	}
}
