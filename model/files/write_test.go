package files

import (
	"os"
	"slices"
	"strings"
	"testing"
)

// holds wants the folder to have these names, and no other.
func holds(t *testing.T, dir string, want ...string) {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, e := range entries {
		got = append(got, e.Name())
	}
	slices.Sort(want)
	if !slices.Equal(got, want) {
		t.Errorf("the folder holds %q, want %q", got, want)
	}
}

func reads(t *testing.T, name, want string) {
	t.Helper()
	if got, err := os.ReadFile(name); err != nil || string(got) != want {
		t.Errorf("%s holds %.40q, %v; want %.40q", name, got, err, want)
	}
}

func put(t *testing.T, name, text string, mode os.FileMode) {
	t.Helper()
	if err := os.WriteFile(name, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Chmod(name, mode); err != nil { // past the umask
		t.Fatal(err)
	}
}

func TestWriteANewFile(t *testing.T) {
	t.Chdir(t.TempDir())
	for _, text := range []string{"", "x\n", "\x00\xff\r\n", strings.Repeat("long ", 100_000)} {
		if err := os.RemoveAll("file"); err != nil {
			t.Fatal(err)
		}
		if err := Write("file", []byte(text)); err != nil {
			t.Fatal(err)
		}
		reads(t, "file", text)
		holds(t, ".", "file")
	}
	info, err := os.Stat("file")
	if err != nil || info.Mode().Perm()&0o400 == 0 || info.Mode().Perm()&^0o644 != 0 {
		t.Errorf("a new file has the mode %v, %v", info.Mode(), err)
	}
}

func TestWriteOverAFile(t *testing.T) {
	t.Chdir(t.TempDir())
	put(t, "file", "a long text that was there before", 0o644)
	put(t, "other", "another's", 0o600)
	for _, text := range []string{"short", strings.Repeat("long ", 1000), ""} {
		if err := Write("file", []byte(text)); err != nil {
			t.Fatal(err)
		}
		reads(t, "file", text)
	}
	reads(t, "other", "another's")
	holds(t, ".", "file", "other")
}

func TestWriteKeepsTheMode(t *testing.T) {
	t.Chdir(t.TempDir())
	for _, mode := range []os.FileMode{0o400, 0o444, 0o600, 0o640, 0o644, 0o664, 0o666, 0o755} {
		name := mode.String()
		put(t, name, "old", mode)
		if err := Write(name, []byte("new")); err != nil {
			t.Fatal(err)
		}
		if info, err := os.Stat(name); err != nil || info.Mode() != mode {
			t.Errorf("the mode %v has become %v, %v", mode, info.Mode(), err)
		}
		reads(t, name, "new")
	}
}

// Names that mean something in the pattern of a temporary file, or in a shell.
func TestWriteOddNames(t *testing.T) {
	t.Chdir(t.TempDir())
	names := []string{"a*b", "*", "-", "a b", ".hidden", "grün", "a%sb"}
	for _, name := range names {
		if err := Write(name, []byte(name)); err != nil {
			t.Error(err)
			continue
		}
		reads(t, name, name)
	}
	holds(t, ".", names...)
}
