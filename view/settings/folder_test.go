package settings

import (
	"os"
	"path/filepath"
	"testing"
)

func TestWhereTheFolderIs(t *testing.T) {
	here := t.TempDir()
	t.Setenv("HOME", here)
	t.Setenv("AppData", here)
	for _, c := range []struct {
		own, xdg, want string
	}{
		{filepath.Join(here, "mine"), filepath.Join(here, "xdg"), filepath.Join(here, "mine")},
		{"", filepath.Join(here, "xdg"), filepath.Join(here, "xdg", "coilwalk")},
	} {
		t.Setenv("COILWALK_CONFIG", c.own)
		t.Setenv("XDG_CONFIG_HOME", c.xdg)
		if got := Find(); string(got) != c.want {
			t.Errorf("with %q and %q it is %q, want %q", c.own, c.xdg, got, c.want)
		}
	}
	t.Setenv("COILWALK_CONFIG", "")
	t.Setenv("XDG_CONFIG_HOME", "relative") // by the standard not to be regarded
	if got := string(Find()); got != "" && (!filepath.IsAbs(got) || filepath.Base(got) != "coilwalk") {
		t.Errorf("a relative XDG_CONFIG_HOME gives %q", got)
	}
}

func TestSeenIsKept(t *testing.T) {
	f := Folder(filepath.Join(t.TempDir(), "not", "there", "yet"))
	if f.Seen("tour") {
		t.Error("seen in a folder that is not there")
	}
	for _, what := range []string{"tour", "other", "tour"} {
		if err := f.See(what); err != nil {
			t.Fatal(err)
		}
	}
	if !f.Seen("tour") || !f.Seen("other") || f.Seen("to") {
		t.Errorf("seen: %v", f.seen())
	}
	if err := f.Forget("tour"); err != nil || f.Seen("tour") || !f.Seen("other") {
		t.Errorf("after it was forgotten: %v, %v", f.seen(), err)
	}
}

// Where nothing can be kept, nothing else comes of it than a sentence.
func TestNoFolderIsHarmless(t *testing.T) {
	file := filepath.Join(t.TempDir(), "file")
	if err := os.WriteFile(file, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	for _, f := range []Folder{"", Folder(file), Folder(filepath.Join(file, "within"))} {
		if f.Seen("tour") {
			t.Errorf("%q: seen", f)
		}
		if err := f.See("tour"); err == nil {
			t.Errorf("%q: kept", f)
		}
	}
}
