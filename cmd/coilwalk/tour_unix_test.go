//go:build linux || darwin

package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// The walk-through comes at the first start and at no other, and i asks for it
// again.
func TestTheFirstStart(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "none yet")
	t.Setenv("COILWALK_CONFIG", folder)
	x := open(t, binary, 80, 24)
	x.shows("first steps, 1 of 8", "row  1 of 8")
	x.press(right)
	x.shows("first steps, 2 of 8", "row  2 of 8")
	x.press("q")
	x.ends()
	if text, err := os.ReadFile(filepath.Join(folder, "seen")); err != nil || string(text) != "tour\n" {
		t.Errorf("kept as seen: %q, %v", text, err)
	}
	y := open(t, binary, 80, 24)
	y.shows("row  1 of 8", "→ next")
	if strings.Contains(string(y.sent()), "first steps") {
		t.Error("it comes a second time by itself")
	}
	y.press("i")
	y.shows("first steps, 1 of 8")
	y.press("q")
	y.ends()
}

// With a file there is something else to see, and where nothing can be kept it
// would come each time.
func TestNoWalkThroughUnasked(t *testing.T) {
	folder := t.TempDir()
	file := filepath.Join(folder, "table.txt")
	if err := os.WriteFile(file, []byte("1010\n0110\n0101\n1001\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		config string
		args   []string
	}{{t.TempDir(), []string{file}}, {"/dev/null/settings", nil}} {
		t.Setenv("COILWALK_CONFIG", c.config)
		x := open(t, binary, 80, 24, c.args...)
		x.shows("row  1 of", "→ next")
		if strings.Contains(string(x.sent()), "first steps") {
			t.Errorf("%v: the walk-through comes", c)
		}
		x.press("q")
		x.ends()
		if _, err := os.Stat(filepath.Join(c.config, "seen")); err == nil {
			t.Errorf("%v: it counts as seen", c)
		}
	}
}

// In the line mode its notes come one by one as they are done, and practice is
// answered by a number.
func TestLearningInPlainWords(t *testing.T) {
	answer := call(t, "tour\nnext\nback\nmode wave\nnext 2\nmode full\nnext 2\nmode half\nnext 2\nrun\nswap 2 3\nnext 8\nrewire\ntour\n7\npractice seed 1\n9\n2\n3\npractice\npractice end\n1\n", "--plain")
	from := 0
	for _, part := range []string{"1 of 8", "Say back", "Say mode wave", "Say next 2", "Say mode full", "Say mode half", "Say run", "Say swap 2 3", "Say next 8", "Say rewire", "8 of 8",
		"begins again", "say practice", "Which way will", "2: counter-clockwise", "from 1 to 3", "Right: counter-clockwise", "wave 1 of 1", "That was answered",
		"full step: step", "Score: wave 1 of 1; full 0 of 0; half 0 of 0", "say practice"} {
		at := strings.Index(answer.out[from:], part)
		if at < 0 {
			t.Fatalf("%q does not come in its place:\n%s", part, answer.out)
		}
		from += at + len(part)
	}
	if answer.status != 0 || strings.Contains(answer.out, "{") {
		t.Errorf("status %d, or a key is named where there is none:\n%s", answer.status, answer.out)
	}
}
