package files

import (
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"
)

// Whoever reads while the file is written over sees one whole text or the
// other, and never none.
func TestReadersSeeOnlyWholeTexts(t *testing.T) {
	dir := t.TempDir()
	name := filepath.Join(dir, "file")
	texts := []string{strings.Repeat("one ", 60_000), strings.Repeat("another ", 90_000)}
	if err := Write(name, []byte(texts[0])); err != nil {
		t.Fatal(err)
	}
	done := make(chan struct{})
	var wait sync.WaitGroup
	for range 4 {
		wait.Add(1)
		go func() {
			defer wait.Done()
			for {
				got, err := os.ReadFile(name)
				if err != nil || string(got) != texts[0] && string(got) != texts[1] {
					t.Errorf("a reader sees %d bytes, %v", len(got), err)
					return
				}
				select {
				case <-done:
					return
				default:
				}
			}
		}()
	}
	for start, n := time.Now(), 0; n < 20 || n < 200 && time.Since(start) < 500*time.Millisecond; n++ {
		if err := Write(name, []byte(texts[n%2])); err != nil {
			t.Error(err)
			break
		}
	}
	close(done)
	wait.Wait()
	holds(t, dir, "file")
}

// Several writers at once: the last one wins whole, and none spoils another's
// temporary file.
func TestWritersAtOnce(t *testing.T) {
	dir := t.TempDir()
	name := filepath.Join(dir, "file")
	var wait sync.WaitGroup
	whole := map[string]bool{}
	for _, letter := range "abcdefgh" {
		text := strings.Repeat(string(letter), 100_000)
		whole[text] = true
		wait.Add(1)
		go func() {
			defer wait.Done()
			for range 5 {
				if err := Write(name, []byte(text)); err != nil {
					t.Error(err)
				}
			}
		}()
	}
	wait.Wait()
	if got, err := os.ReadFile(name); err != nil || !whole[string(got)] {
		t.Errorf("the file holds %d bytes of several writers, %v", len(got), err)
	}
	holds(t, dir, "file")
}
