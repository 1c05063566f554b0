package settings

import (
	"errors"
	"strings"
	"testing"

	"coilwalk/model/files"
)

func TestLookIsRead(t *testing.T) {
	look, err := ParseLook("f", []byte("theme = \"light\"\nanimation = false\nascii = true\n"))
	if err != nil || look.Theme != "light" || look.Color != "" || look.Animation == nil || *look.Animation || look.ASCII == nil || !*look.ASCII {
		t.Errorf("%+v, %v", look, err)
	}
	for _, c := range []struct{ text, want string }{
		{"them = \"light\"", `f:1:1: there is no field "them"; did you mean "theme"?`},
		{"\ntheme = \"bright\"", `f:2:1: theme: this is none of its values; one of "auto", "dark", "light"`},
		{"theme = true", "f:1:1: theme: this is none"},
		{"animation = \"no\"", "f:1:1: animation: this is none of its values; true or false"},
		{"[theme]\nx = 1", "f:1:2: theme: this is none"},
		{"[[theme]]\n[theme]", "f:"},
		{"theme = dark", "f:1:9"},
	} {
		if _, err := ParseLook("f", []byte(c.text)); err == nil || !strings.HasPrefix(err.Error(), c.want) {
			t.Errorf("%q: %v, want %s", c.text, err, c.want)
		}
	}
}

// FuzzParseLook: whatever bytes come, ParseLook does not panic; what it refuses is
// a complaint on one line; what it takes has words that there are.
func FuzzParseLook(f *testing.F) {
	f.Add([]byte("theme = \"light\"\ncolor = \"never\"\nanimation = false\nascii = true\n"))
	f.Add([]byte("[[theme]]\n[theme]\n"))
	f.Fuzz(func(t *testing.T, text []byte) {
		look, err := ParseLook("f", text)
		var c *files.Complaint
		if err != nil && (!errors.As(err, &c) || strings.ContainsAny(err.Error(), "\n\x1b")) {
			t.Fatalf("error %v of type %T, want a complaint on one line", err, err)
		}
		if !strings.Contains("auto dark light", look.Theme) || !strings.Contains("auto always never", look.Color) {
			t.Fatalf("%q gives %+v", text, look)
		}
	})
}
