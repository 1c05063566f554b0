package files

import (
	"errors"
	"os"
	"strings"
	"testing"
)

func TestWriteIntoAFolderThatVanished(t *testing.T) {
	t.Chdir(t.TempDir())
	refused(t, Write("gone/file", []byte("x")), "gone/file: could not be written: no such file or directory")
	holds(t, ".")
	put(t, "plain", "kept", 0o600)
	refused(t, Write("plain/file", []byte("x")), "plain/file: could not be written: not a directory")
	reads(t, "plain", "kept")
	holds(t, ".", "plain")
}

func TestWriteOverAFolder(t *testing.T) {
	t.Chdir(t.TempDir())
	if err := os.Mkdir("folder", 0o700); err != nil {
		t.Fatal(err)
	}
	put(t, "folder/file", "kept", 0o600)
	const wrong = ": this is not a plain file; it can not be replaced whole; name a file"
	for _, name := range []string{"folder", "folder/", "."} {
		err := Write(name, []byte("x"))
		var c *Complaint
		if !errors.As(err, &c) || !strings.HasSuffix(err.Error(), wrong) {
			t.Errorf("Write(%q): %v", name, err)
		}
	}
	reads(t, "folder/file", "kept")
	holds(t, ".", "folder")
	holds(t, "folder", "file")
}

// Complaint.File is the file "as the person named it", not where a link leads.
func TestWriteComplainsOfTheNameThatWasGiven(t *testing.T) {
	t.Chdir(t.TempDir())
	if err := os.Mkdir("folder", 0o700); err != nil {
		t.Fatal(err)
	}
	link(t, "folder", "link")
	refused(t, Write("link", []byte("x")), "link: this is not a plain file; it can not be replaced whole; name a file")
}

func TestWriteToNoName(t *testing.T) {
	t.Chdir(t.TempDir())
	err := Write("", []byte("x"))
	var c *Complaint
	if !errors.As(err, &c) {
		t.Errorf("got %v, want a complaint", err)
	}
	holds(t, ".")
}
