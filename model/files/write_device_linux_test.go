package files

import (
	"os"
	"path/filepath"
	"syscall"
	"testing"
)

// A rename would put a plain file in the place of a pipe or a device. The ones
// here lie in a folder of their own: root would really lose /dev/full to a
// Write that is wrong.
func TestWriteOverAPipeOrADevice(t *testing.T) {
	dir := t.TempDir()
	pipe, full := filepath.Join(dir, "pipe"), filepath.Join(dir, "full")
	if err := syscall.Mkfifo(pipe, 0o600); err != nil {
		t.Fatal(err)
	}
	names := map[string]string{pipe: "a pipe"}
	if err := syscall.Mknod(full, syscall.S_IFCHR|0o600, 1<<8|7); err == nil { // as /dev/full is
		names[full] = "a device"
	} else if os.Getuid() != 0 {
		names["/dev/full"] = "a device" // anyone but root may ask for it: it can not be replaced
	}
	for name, is := range names {
		before, err := os.Lstat(name)
		if err != nil {
			t.Fatal(err)
		}
		for _, err := range []error{Write(name, []byte("x")), WriteNew(name, []byte("x")), CanWrite(name)} {
			refused(t, err, name+": this is "+is+", not a plain file; it can not be replaced whole; name a file")
		}
		if after, err := os.Lstat(name); err != nil || !os.SameFile(before, after) || after.Mode() != before.Mode() {
			t.Errorf("%s was %v and is %v, %v", name, before.Mode(), after.Mode(), err)
		}
	}
	entries, err := os.ReadDir(dir)
	if err != nil || len(entries) > 2 {
		t.Errorf("the folder holds %v, %v", entries, err)
	}
}
