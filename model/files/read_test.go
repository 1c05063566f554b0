package files

import (
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/iotest"
)

// refused wants a complaint with exactly this message.
func refused(t *testing.T, err error, want string) {
	t.Helper()
	var c *Complaint
	if !errors.As(err, &c) || err.Error() != want {
		t.Errorf("got %v of type %T\nwant the complaint %s", err, err, want)
	}
}

func TestReadGivesTheWholeFile(t *testing.T) {
	for _, text := range []string{"", "x", "a\r\n\x00\xff\x1b", strings.Repeat("line\n", 20_000)} {
		name := filepath.Join(t.TempDir(), "file")
		if err := os.WriteFile(name, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		if got, err := Read(name, 1<<20, strings.NewReader("not this")); err != nil || string(got) != text {
			t.Errorf("%d bytes come as %d, %v", len(text), len(got), err)
		}
		// By the byte: a pipe gives its text in pieces.
		if got, err := Read("-", 1<<20, iotest.OneByteReader(strings.NewReader(text))); err != nil || string(got) != text {
			t.Errorf("%d bytes of standard input come as %d, %v", len(text), len(got), err)
		}
	}
}

func TestReadLimit(t *testing.T) {
	t.Chdir(t.TempDir())
	const wrong = ": longer than 100 bytes; a file of this kind is short; is it the right one?"
	for size, fits := range map[int]bool{0: true, 99: true, 100: true, 101: false, 100_000: false} {
		text := strings.Repeat("x", size)
		if err := os.WriteFile("file", []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		got, err := Read("file", 100, nil)
		piped, pipedErr := Read("-", 100, strings.NewReader(text))
		if fits {
			if err != nil || pipedErr != nil || string(got) != text || string(piped) != text {
				t.Errorf("%d bytes of 100: %v, %v", size, err, pipedErr)
			}
			continue
		}
		refused(t, err, "file"+wrong)
		refused(t, pipedErr, "standard input"+wrong)
		if got != nil || piped != nil {
			t.Errorf("%d bytes of 100: some come back", size)
		}
	}
}

// counter counts what is taken from it. It ends, though late, so that a Read
// without bound fails its test and not the machine.
type counter struct{ taken int }

func (c *counter) Read(p []byte) (int, error) {
	if c.taken > 1<<20 {
		return 0, io.EOF
	}
	c.taken += len(p)
	return len(p), nil
}

func TestReadTakesNoMoreThanItNeeds(t *testing.T) {
	var c counter
	_, err := Read("-", 5000, &c)
	refused(t, err, "standard input: longer than 5000 bytes; a file of this kind is short; is it the right one?")
	if c.taken > 5001 {
		t.Fatalf("%d bytes were taken of a long text", c.taken)
	}
}

func TestReadOfWhatIsNoFile(t *testing.T) {
	t.Chdir(t.TempDir())
	if err := os.Mkdir("folder", 0o700); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile("plain", nil, 0o600); err != nil {
		t.Fatal(err)
	}
	for name, want := range map[string]string{
		"missing":        "missing: there is no such file",
		"folder/missing": "folder/missing: there is no such file",
		"a\x1b[2J\nb":    `a\u001b[2J\u000ab: there is no such file`,
		"folder":         "folder: this is a folder; a file is wanted",
		".":              ".: this is a folder; a file is wanted",
		"plain/x":        "plain/x: could not be opened: not a directory",
		"nul\x00":        `nul\u0000: could not be opened: invalid argument`,
	} {
		text, err := Read(name, 100, strings.NewReader("stdin"))
		refused(t, err, want)
		if text != nil {
			t.Errorf("%q: %q comes back", name, text)
		}
	}
}

func TestReadOfStandardInputThatFails(t *testing.T) {
	_, err := Read("-", 100, iotest.ErrReader(errors.New("the line is dead")))
	refused(t, err, "standard input: could not be read: the line is dead")
	// What came before the failure is not half a file to go on with.
	text, err := Read("-", 100, iotest.TimeoutReader(iotest.OneByteReader(strings.NewReader("xyz"))))
	refused(t, err, "standard input: could not be read: timeout")
	if text != nil {
		t.Errorf("%q comes back", text)
	}
}
