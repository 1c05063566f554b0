package files

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"os/signal"
	"strings"
	"syscall"
	"testing"
)

const fullDisk = "COILWALK_TEST_FULL_DISK"

// A disk that fills up in the middle of writing, played by the greatest file
// size that the system allows a process. It holds for a whole process, root's
// too, so the writing is done by another one: this test, started again.
func TestWriteWhenTheDiskIsFull(t *testing.T) {
	if name := os.Getenv(fullDisk); name != "" {
		writeOnAFullDisk(name)
		return
	}
	t.Chdir(t.TempDir())
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	old := strings.Repeat("old ", 500)
	put(t, "file", old, 0o640)
	for _, name := range []string{"file", "fresh"} {
		cmd := exec.Command(self, "-test.run=^TestWriteWhenTheDiskIsFull$", "-test.count=1")
		cmd.Env = append(os.Environ(), fullDisk+"="+name)
		out, err := cmd.CombinedOutput()
		if want := name + ": could not be written: file too large"; err != nil || !strings.Contains(string(out), "["+want+"]") {
			t.Errorf("Write says %s, %v; want %s", out, err, want)
		}
	}
	reads(t, "file", old)
	if info, err := os.Stat("file"); err != nil || info.Mode().Perm() != 0o640 {
		t.Errorf("the old file has the mode %v, %v", info.Mode(), err)
	}
	holds(t, ".", "file")
}

func writeOnAFullDisk(name string) {
	signal.Ignore(syscall.SIGXFSZ) // else the limit ends the process
	limit := syscall.Rlimit{Cur: 4096, Max: 4096}
	if err := syscall.Setrlimit(syscall.RLIMIT_FSIZE, &limit); err != nil {
		fmt.Println(err)
		return
	}
	err := Write(name, []byte(strings.Repeat("new ", 5000)))
	var c *Complaint
	fmt.Printf("[%v] a complaint: %v\n", err, errors.As(err, &c))
}
