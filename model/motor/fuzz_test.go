package motor

import (
	"errors"
	"testing"

	"coilwalk/model/files"
	"coilwalk/testdata/bounds"
)

// FuzzParse: whatever bytes come, Parse does not panic; what it refuses is a
// complaint on one line; what it takes, it takes again from Text, the same.
func FuzzParse(f *testing.F) {
	for _, part := range []string{"good", "bad"} {
		each(f, part, func(_ string, text []byte) { f.Add(text) })
	}
	for _, name := range Names() {
		m, _ := BuiltIn(name)
		f.Add(m.Text())
	}
	f.Add([]byte("name = \"x\"\n\"\".\"\" = 1\n[[winding]]\n[winding.ends]\n"))
	f.Fuzz(func(t *testing.T, text []byte) {
		if len(text) > longestFile {
			return // Read refuses it
		}
		var m Motor
		var err error
		bounds.Hold(t, len(text), 4<<20, 20_000, func() { m, err = Parse("f", text) })
		if err != nil {
			var c *files.Complaint
			if !errors.As(err, &c) {
				t.Fatalf("error %v of type %T, want a complaint", err, err)
			}
			if r := unsafe(err.Error()); r != "" || c.What == "" || c.Line < 0 || c.Column < 0 {
				t.Fatalf("message %q, at %d:%d", err, c.Line, c.Column)
			}
			return
		}
		again, err := Parse("f", m.Text())
		if err != nil || !sameMotor(m, again) {
			t.Fatalf("comes back as %+v, %v; was\n%+v\nwritten\n%s", again, err, m, m.Text())
		}
	})
}
