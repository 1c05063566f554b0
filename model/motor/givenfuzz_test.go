package motor

import (
	"strings"
	"testing"
	"unicode/utf8"

	"coilwalk/testdata/bounds"
)

// What each of these texts may cost: they are typed, and a motor file has several.
const (
	typedBase    = 4 << 20
	typedPerByte = 4000
)

// heard wants an error to be one plain sentence, not much longer than what it is
// about may be shown.
func heard(t *testing.T, text string, err error) {
	t.Helper()
	if r := unsafe(err.Error()); r != "" || err.Error() == "" || !utf8.ValidString(err.Error()) || len([]rune(err.Error())) > 1000 {
		t.Fatalf("%.100q is told %.1000q", text, err)
	}
}

// FuzzTrains gives any text to what reads trains, ratios, plays and counts: what is
// taken is within its bounds, and is read again from how it is written.
func FuzzTrains(f *testing.F) {
	for _, text := range []string{"9:32,11:22,9:26,10:31", "64", "64:1", "1:64", "283712/4455:1", "0.5/3", "8deg", "1.2deg,1deg", "4x8", "50 teeth", "4x8, 7.5deg", ":", ",", "9:32,", "1:1000,1:1000,1:1000", "1e9:1", "-1:2", "4x", "x", "0/0"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		bounds.Hold(t, len(text), typedBase, typedPerByte, func() {
			if train, err := ParseTrain(text); err != nil {
				heard(t, text, err)
			} else {
				again, err := ParseTrain(train.String())
				if err != nil || again.String() != train.String() || len(train.Meshes) > mostMeshes {
					t.Fatalf("%q reads %v, and that %v, %v", text, train, again, err)
				}
			}
			if ratio, err := ParseRatio(text); err != nil {
				heard(t, text, err)
			} else if n, _ := ratio.Ratio().Float64(); !(n >= 1 && n <= mostRatio) {
				t.Fatalf("%q reads a ratio of %g", text, n)
			}
			if play, err := ParseBacklash(text); err != nil {
				heard(t, text, err)
			} else if again, err := ParseBacklash(play.String()); err != nil || again.String() != play.String() {
				t.Fatalf("%q reads %v, and that %v, %v", text, play, again, err)
			}
			if counted, err := ParseCounted(text); err != nil {
				heard(t, text, err)
			} else if again, err := ParseCounted(counted.String()); err != nil || again != counted {
				t.Fatalf("%q reads %+v, and that %+v, %v", text, counted, again, err)
			} else if _, err := counted.Counts(); err != nil {
				heard(t, text, err)
			}
		})
	})
}

// FuzzLeads gives any text to what reads the names of leads: a name that is taken
// is printable, short, and read again as itself.
func FuzzLeads(f *testing.F) {
	for _, text := range []string{"BN", "brown", "WH/RD", "RDWH", "GNYE", "red/white", "coil-a", "case", "", "/", "a b", "\x9b31m", "B\u202eN", "\u200b", "\xff", "ﬀ", "ı", "İ"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		bounds.Hold(t, len(text), typedBase, typedPerByte, func() {
			lead, err := ParseLead(text)
			if err != nil {
				heard(t, text, err)
				return
			}
			if r := unsafe(string(lead)); r != "" || !utf8.ValidString(string(lead)) || len([]rune(string(lead))) > longestLead || strings.ContainsAny(string(lead), " ,;") {
				t.Fatalf("%q reads %q", text, lead)
			}
			if again, err := ParseLead(string(lead)); err != nil || again != lead {
				t.Fatalf("%q reads %q, and that %q, %v", text, lead, again, err)
			}
			if lead.Words() == "" {
				t.Fatalf("%q has no words", lead)
			}
			if found, err := Find([]Lead{"BN", lead}, text); err != nil || folded(found) != folded(lead) {
				t.Fatalf("%q is not found as %q: %q, %v", text, lead, found, err)
			}
		})
	})
}
