package files

import (
	"errors"
	"os"
	"strings"
	"testing"
)

func TestWriteIntoAFolderThatVanished(t *testing.T) {
	t.Chdir(t.TempDir())
	if err := os.Symlink("away/file", "leads-away"); err != nil {
		t.Fatal(err)
	}
	for name, folder := range map[string]string{"gone/file": "gone", "gone/": "gone", "leads-away": "away"} {
		for _, err := range []error{Write(name, []byte("x")), CanWrite(name)} {
			refused(t, err, name+": could not be written: there is no folder "+folder+"; make it first, or choose another")
		}
	}
	if err := os.Remove("leads-away"); err != nil {
		t.Fatal(err)
	}
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
	const wrong = ": this is a folder, not a plain file; it can not be replaced whole; name a file"
	for _, name := range []string{"folder", "folder/", "."} {
		for _, err := range []error{Write(name, []byte("x")), WriteNew(name, []byte("x")), CanWrite(name)} {
			var c *Complaint
			if !errors.As(err, &c) || !strings.HasSuffix(err.Error(), wrong) {
				t.Errorf("%q: %v", name, err)
			}
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
	refused(t, Write("link", []byte("x")), "link: this is a folder, not a plain file; it can not be replaced whole; name a file")
}

func TestWriteToNoName(t *testing.T) {
	t.Chdir(t.TempDir())
	for _, err := range []error{Write("", []byte("x")), WriteNew("", []byte("x")), CanWrite("")} {
		refused(t, err, "the name of the file is empty")
	}
	holds(t, ".")
}

// What may be written is told so, and nothing is left behind by asking.
func TestCanWrite(t *testing.T) {
	t.Chdir(t.TempDir())
	put(t, "kept", "mine", 0o600)
	for _, name := range []string{"new", "kept", "./new"} {
		if err := CanWrite(name); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
	reads(t, "kept", "mine")
	holds(t, ".", "kept")
	refused(t, CanWrite("kept/file"), "kept/file: could not be written: not a directory")
}
