package motor

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/iotest"

	"coilwalk/model/files"
)

const smallest = "name = \"mine\"\n[winding]\nends = [\"a\", \"b\", \"c\", \"d\"]\n[rotor]\npole_pairs = 8\n"

func put(t *testing.T, name, text string) {
	t.Helper()
	if err := os.WriteFile(name, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
}

func TestOpenGivesTheRightMotor(t *testing.T) {
	t.Chdir(t.TempDir())
	put(t, "mine.toml", smallest)
	put(t, "windmill", strings.Replace(smallest, "mine", "bare", 1))
	put(t, "hybrid-4", strings.Replace(smallest, "mine", "shadow", 1))
	stdin := strings.NewReader(strings.Replace(smallest, "mine", "piped", 1))
	for name, want := range map[string]string{
		"hybrid-4": "hybrid-4", Default: Default, // a built-in motor goes before a file
		"./hybrid-4": "shadow", "mine.toml": "mine", "windmill": "bare", "-": "piped",
	} {
		if m, err := Open(name, stdin); err != nil || m.Name != want {
			t.Errorf("Open(%q) gives %q, %v; want %s", name, m.Name, err, want)
		}
	}
}

func TestOpenOfWhatIsNotThere(t *testing.T) {
	t.Chdir(t.TempDir())
	const known = "; built in are vent-flap, geared-can, can-48, hybrid-4, hybrid-6, hybrid-8"
	for name, want := range map[string]string{
		"ventflap":      "ventflap: neither a built-in motor nor a file; did you mean the built-in motor vent-flap?",
		"vent-falp":     "vent-falp: neither a built-in motor nor a file; did you mean the built-in motor vent-flap?",
		"Hybrid-8":      "Hybrid-8: neither a built-in motor nor a file; did you mean the built-in motor hybrid-8?",
		"can48":         "can48: neither a built-in motor nor a file; did you mean the built-in motor can-48?",
		"windmill":      "windmill: neither a built-in motor nor a file" + known,
		"mine.toml":     "mine.toml: there is no such file",
		"./windmill":    "./windmill: there is no such file",
		"motors/a.toml": "motors/a.toml: there is no such file",
		"\x1b[2J.toml":  `\u001b[2J.toml: there is no such file`,
	} {
		m, err := Open(name, nil)
		var c *files.Complaint
		if !errors.As(err, &c) || err.Error() != want || !sameMotor(m, Motor{}) {
			t.Errorf("Open(%q): %v\nwant %s", name, err, want)
		}
	}
}

func TestOpenIsBounded(t *testing.T) {
	t.Chdir(t.TempDir())
	fill := func(size int) string { return smallest + "#" + strings.Repeat("x", size-len(smallest)-1) }
	put(t, "full.toml", fill(64<<10))
	put(t, "over.toml", fill(64<<10+1))
	if m, err := Open("full.toml", nil); err != nil || m.Name != "mine" {
		t.Errorf("a file of 64 KiB: %v", err)
	}
	const want = ": longer than 65536 bytes; a file of this kind is short; is it the right one?"
	if _, err := Open("over.toml", nil); err == nil || err.Error() != "over.toml"+want {
		t.Errorf("a file of 64 KiB and a byte: %v", err)
	}
	if _, err := Open("-", strings.NewReader(fill(64<<10+1))); err == nil || err.Error() != "standard input"+want {
		t.Errorf("64 KiB and a byte on standard input: %v", err)
	}
}

// A file that is there is not "neither a built-in motor nor a file", whatever
// its name looks like.
func TestOpenOfAFileThatCanNotBeUsed(t *testing.T) {
	t.Chdir(t.TempDir())
	for _, name := range []string{"windmill", "hybrid-5"} {
		put(t, name, smallest+"#"+strings.Repeat("x", 64<<10))
		if _, err := Open(name, nil); err == nil || !strings.Contains(err.Error(), "longer than 65536 bytes") {
			t.Errorf("the file %s is too long, but the message is: %v", name, err)
		}
	}
}

func TestOpenOfAFolder(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "motors.d")
	if err := os.Mkdir(dir, 0o700); err != nil {
		t.Fatal(err)
	}
	if _, err := Open(dir, nil); err == nil || err.Error() != dir+": this is a folder; a file is wanted" {
		t.Errorf("a folder: %v", err)
	}
}

func TestOpenOfBadStandardInput(t *testing.T) {
	_, err := Open("-", strings.NewReader("name = \"x\"\nteeth = 8\n"))
	var c *files.Complaint
	if !errors.As(err, &c) || c.Line != 2 || c.Column != 1 || !strings.Contains(c.What, `no field "teeth"`) {
		t.Errorf("a bad motor on standard input: %v", err)
	}
	_, err = Open("-", iotest.ErrReader(errors.New("the line is dead")))
	if !errors.As(err, &c) || err.Error() != "standard input: could not be read: the line is dead" {
		t.Errorf("a standard input that fails: %v", err)
	}
	if m, err := Open("-", iotest.OneByteReader(bytes.NewReader([]byte(smallest)))); err != nil || m.Name != "mine" {
		t.Errorf("a standard input that comes by the byte: %v", err)
	}
}

// The name in a complaint is the same for what is read and what is parsed.
func TestStandardInputHasOneName(t *testing.T) {
	_, err := Open("-", strings.NewReader("name = \"x\"\nteeth = 8\n"))
	if err == nil || !strings.HasPrefix(err.Error(), "standard input:2:1: ") {
		t.Errorf("got %v; a standard input that is too long is called standard input", err)
	}
}
