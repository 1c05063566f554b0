//go:build linux || darwin

package main

import (
	"strings"
	"testing"
	"time"
)

// A paste whose end is lost keeps no key for good, and a very long one keeps the
// next key no longer than a short one.
func TestPastesHoldNoKey(t *testing.T) {
	t.Parallel()
	x := open(t, binary, 80, 24)
	x.shows("row  1 of 8")
	x.press("\x1b[200~1010\n")
	time.Sleep(2200 * time.Millisecond)
	x.press(right)
	x.shows("row  2 of 8")
	for range 100 { // in parts, as a terminal's driver holds some 4 kB
		x.press("\x1b[200~" + strings.Repeat("1010\n", 6000) + "\x1b[201~")
	}
	pressed := time.Now()
	x.press(right)
	x.shows("row  3 of 8")
	if took := time.Since(pressed); took > slow(3*time.Second) {
		t.Errorf("after 3 MB of paste a key took %v", took)
	}
	x.press("q")
	if status := x.ends(); status != 0 {
		t.Errorf("status %d", status)
	}
	x.isRestored()
}
