package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"coilwalk/view/settings"
	"coilwalk/view/tour"
)

// configured points the binary to a folder of settings with these files.
func configured(t *testing.T, texts map[string]string) (folder string) {
	t.Helper()
	folder = t.TempDir()
	for name, text := range texts {
		if err := os.WriteFile(filepath.Join(folder, name), []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	if err := settings.Folder(folder).See(tour.Seen); err != nil { // tests begin without the walk-through
		t.Fatal(err)
	}
	t.Setenv("COILWALK_CONFIG", folder)
	return folder
}

// What is listed is a file of keys itself: read again it lists the same.
func TestKeysAreListedAsAFile(t *testing.T) {
	t.Setenv("COILWALK_CONFIG", "settings") // there is none; its name stands in the answer
	listed := call(t, "", "keys")
	golden(t, "keys.txt", listed.out)
	asJSON := call(t, "", "keys", "--json")
	golden(t, "keys.json", asJSON.out)
	if listed.status != 0 || asJSON.status != 0 || listed.errs+asJSON.errs != "" {
		t.Errorf("status %d, %d: %s%s", listed.status, asJSON.status, listed.errs, asJSON.errs)
	}
	if again := call(t, listed.out, "keys", "-"); again.out != listed.out || again.status != 0 {
		t.Errorf("read again it is\n%s\n%s", again.out, again.errs)
	}
	if r := call(t, listed.out, "keys", "--check", "-"); r.status != 0 || !strings.Contains(r.out, "every line") {
		t.Errorf("checked: %d, %s%s", r.status, r.out, r.errs)
	}
	other := strings.Replace(listed.out, `rewind = ["backspace", "u"]`, `rewind = ["\\", "ctrl+n"]`, 1)
	if r := call(t, other, "keys", "-"); !strings.Contains(r.out, `rewind = ["\\", "ctrl+n"] `) {
		t.Errorf("a changed line is not listed:\n%s", r.out)
	}
}

func TestKeysFileOfTheFolder(t *testing.T) {
	folder := configured(t, nil)
	if r := call(t, "", "keys", "--check"); r.status != 0 || !strings.Contains(r.out, "no file of keys") {
		t.Errorf("without a file: %d, %q %q", r.status, r.out, r.errs)
	}
	file := filepath.Join(folder, "keys.toml")
	for _, c := range []struct{ text, want string }{
		{"[walk]\nnext = \"n\"\nnexxt = \"m\"\n", file + `:3:1: there is no "nexxt" in walk; did you mean "next"?`},
		{"[walk]\nnext = \"m\"\n", file + `:2:1: next: the key "m" is also that of mode; give one of the two another`},
		{"[walk]\nrun = \"space\"\n", file + `:2:1: run: the key "space" is not free; space always stops`},
		{"[walk]\nrun = \"ctrl+c\"\n", "always leaves"},
		{strings.Repeat("#", 70000), "longer than"},
	} {
		if err := os.WriteFile(file, []byte(c.text), 0o600); err != nil {
			t.Fatal(err)
		}
		call(t, "", "keys").complains(t, c.want)
		call(t, "", "keys", "--check").complains(t, c.want)
	}
	call(t, "", "keys", "nowhere.toml").complains(t, "nowhere.toml: there is no such file")
	call(t, "", "keys", "a", "b").complains(t, "at most")
}

// The examples of the README are such files.
func TestFilesOfTheREADME(t *testing.T) {
	text, err := os.ReadFile(filepath.Join("..", "..", "README.md"))
	if err != nil {
		t.Fatal(err)
	}
	found := 0
	for _, block := range strings.Split(string(text), "```toml\n")[1:] {
		block, _, _ = strings.Cut(block, "```")
		switch {
		case strings.HasPrefix(block, "[walk]"):
			found++
			if r := call(t, block, "keys", "-"); r.status != 0 || !strings.Contains(r.out, `next = ["n", "right"]`) || !strings.Contains(r.out, `help = "f1"`) {
				t.Errorf("the README's file of keys: %d, %s\n%s", r.status, r.errs, r.out)
			}
		case strings.HasPrefix(block, "theme"):
			found++
			if look, err := settings.ParseLook("README", []byte(block)); err != nil || look.Theme != "light" || look.Color != "never" || look.ASCII == nil || look.Animation == nil {
				t.Errorf("the README's settings: %+v, %v", look, err)
			}
		}
	}
	if found != 2 {
		t.Errorf("%d of the two files were found", found)
	}
}
