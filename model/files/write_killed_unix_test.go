//go:build unix

package files

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

const killed = "COILWALK_TEST_KILLED"

// A kill in the middle of writing, which nothing can act on: the file is one of
// the two that are written over each other again and again, whole, and a
// temporary file beside it is the most that is left.
func TestWriteKilledAtAnyMoment(t *testing.T) {
	texts := []string{strings.Repeat("one ", 500_000), strings.Repeat("another ", 400_000)}
	if name := os.Getenv(killed); name != "" {
		for n := 0; ; n++ {
			if err := Write(name, []byte(texts[n%2])); err != nil {
				t.Fatal(err)
			}
		}
	}
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	inside := 0 // kills that met it between the beginning and the rename
	for k := range 40 {
		folder := t.TempDir()
		name := filepath.Join(folder, "file")
		if err := os.WriteFile(name, []byte(texts[1]), 0o600); err != nil {
			t.Fatal(err)
		}
		c := exec.Command(self, "-test.run=^TestWriteKilledAtAnyMoment$", "-test.count=1")
		c.Env = append(os.Environ(), killed+"="+name)
		if err := c.Start(); err != nil {
			t.Fatal(err)
		}
		for end := time.Now().Add(10 * time.Second); written(t, folder) == 0; time.Sleep(time.Millisecond) { // until it has begun
			if time.Now().After(end) {
				t.Fatal("it does not begin to write")
			}
		}
		time.Sleep(time.Duration(k) * 300 * time.Microsecond)
		_ = c.Process.Kill()
		_ = c.Wait()
		got, err := os.ReadFile(name)
		if err != nil || string(got) != texts[0] && string(got) != texts[1] {
			t.Errorf("after kill %d the file holds %d bytes, %v", k, len(got), err)
		}
		inside += written(t, folder)
	}
	if inside < 10 {
		t.Errorf("only %d kills of 40 met it while it wrote", inside)
	}
}

// written counts what stands beside the file.
func written(t *testing.T, folder string) int {
	t.Helper()
	entries, err := os.ReadDir(folder)
	if err != nil {
		t.Fatal(err)
	}
	return len(entries) - 1
}
