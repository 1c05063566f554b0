package files

import (
	"os"
	"path/filepath"
	"testing"
)

func link(t *testing.T, to, name string) {
	t.Helper()
	if err := os.Symlink(to, name); err != nil {
		t.Fatal(err)
	}
}

func isLink(t *testing.T, name string) {
	t.Helper()
	if info, err := os.Lstat(name); err != nil || info.Mode()&os.ModeSymlink == 0 {
		t.Errorf("%s is no link any more, %v", name, err)
	}
}

func TestWriteFollowsALink(t *testing.T) {
	t.Chdir(t.TempDir())
	for _, dir := range []string{"here", "there"} {
		if err := os.Mkdir(dir, 0o700); err != nil {
			t.Fatal(err)
		}
	}
	put(t, "there/file", "old", 0o640)
	link(t, "../there/file", "here/link")
	link(t, "link", "here/second")
	for _, name := range []string{"here/link", "here/second"} { // a link, and a link to it
		if err := Write(name, []byte("through "+name)); err != nil {
			t.Fatal(err)
		}
		reads(t, "there/file", "through "+name)
		isLink(t, name)
	}
	if info, err := os.Stat("there/file"); err != nil || info.Mode().Perm() != 0o640 {
		t.Errorf("the file behind the link has the mode %v, %v", info.Mode(), err)
	}
	holds(t, "here", "link", "second")
	holds(t, "there", "file")
}

func TestWriteFollowsAWholePath(t *testing.T) {
	dir := t.TempDir()
	t.Chdir(dir)
	put(t, "file", "old", 0o600)
	link(t, filepath.Join(dir, "file"), "link")
	if err := Write("link", []byte("new")); err != nil {
		t.Fatal(err)
	}
	reads(t, "file", "new")
	isLink(t, "link")
	holds(t, ".", "file", "link")
}

// A link says where to go from the folder it lies in, not from the folder by
// whose name it was reached: ".." of a folder that is a link leads elsewhere.
func TestWriteFollowsALinkInALinkedFolder(t *testing.T) {
	t.Chdir(t.TempDir())
	if err := os.MkdirAll("real/deep", 0o700); err != nil {
		t.Fatal(err)
	}
	put(t, "real/file", "old", 0o600)
	link(t, "../file", "real/deep/link")
	link(t, "real/deep", "alias")
	if err := Write("alias/link", []byte("new")); err != nil {
		t.Fatal(err)
	}
	reads(t, "real/file", "new")
	holds(t, ".", "real", "alias")
	holds(t, "real", "file", "deep")
	isLink(t, "real/deep/link")
}

// A link whose file is not there yet is a link all the same.
func TestWriteThroughALinkToNothing(t *testing.T) {
	t.Chdir(t.TempDir())
	link(t, "target", "link")
	if err := Write("link", []byte("new")); err != nil {
		return // refused: nothing is lost
	}
	isLink(t, "link")
	reads(t, "target", "new")
	holds(t, ".", "link", "target")
}

func TestWriteThroughLinksInARing(t *testing.T) {
	t.Chdir(t.TempDir())
	link(t, "b", "a")
	link(t, "a", "b")
	link(t, "self", "self")
	for _, name := range []string{"a", "self"} {
		if err := Write(name, []byte("x")); err == nil {
			t.Errorf("%s leads nowhere, and is written", name)
		}
	}
	for _, name := range []string{"a", "b", "self"} {
		isLink(t, name)
	}
	holds(t, ".", "a", "b", "self")
}
