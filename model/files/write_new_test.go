package files

import (
	"errors"
	"io/fs"
	"os"
	"strings"
	"sync"
	"testing"
)

// A new file is whole, and what is there stays, a link that leads nowhere too.
func TestWriteNew(t *testing.T) {
	t.Chdir(t.TempDir())
	if err := WriteNew("new", []byte("x")); err != nil {
		t.Fatal(err)
	}
	reads(t, "new", "x")
	put(t, "kept", "mine", 0o600)
	if err := os.Symlink("nowhere", "dangling"); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"new", "kept", "dangling"} {
		refused(t, WriteNew(name, []byte("y")), name+": this file is there already; choose another name")
	}
	reads(t, "new", "x")
	reads(t, "kept", "mine")
	holds(t, ".", "dangling", "kept", "new")
	if err := WriteNew("gone/file", []byte("x")); err == nil || errors.Is(err, fs.ErrExist) || !strings.Contains(err.Error(), "could not be written") {
		t.Errorf("into no folder: %v", err)
	}
}

// Of many that write a new file at once one does, and the others are told: looking
// first and renaming later would lose all but the last.
func TestNewFileIsWrittenOnce(t *testing.T) {
	t.Chdir(t.TempDir())
	for range 20 {
		var wrote []string
		var lock sync.Mutex
		var all sync.WaitGroup
		start := make(chan struct{})
		for _, text := range strings.Split("abcdefgh", "") {
			all.Go(func() {
				<-start
				if err := write("once", []byte(text), linkNew); err == nil {
					lock.Lock()
					wrote = append(wrote, text)
					lock.Unlock()
				} else if !errors.Is(err, fs.ErrExist) {
					t.Errorf("%s: %v", text, err)
				}
			})
		}
		close(start)
		all.Wait()
		if len(wrote) != 1 {
			t.Fatalf("%v wrote it", wrote)
		}
		reads(t, "once", wrote[0])
		holds(t, ".", "once")
		if err := os.Remove("once"); err != nil {
			t.Fatal(err)
		}
	}
}
