package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// A file made of readings alone says that the order of its leads is a guess, and so do
// the commands that show it; the shaft's answers, or a person's own order, end that.
func TestMotorsSayThatAnOrderIsGuessed(t *testing.T) {
	readings := filepath.Join("..", "..", "testdata", "readings", "flap.csv")
	dir := t.TempDir()
	shaft := filepath.Join(dir, "answers.txt")
	if err := os.WriteFile(shaft, []byte("kick BN GY cw\nkick BN WH slack\nkick BN GN ccw\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	for name, c := range map[string]struct {
		ends    string
		more    []string
		guessed bool
	}{
		"guessed": {"", nil, true}, "told": {"", []string{"--answers", shaft}, false}, "own": {"GN BN WH GY", nil, false},
	} {
		file := filepath.Join(dir, name+".toml")
		answers := "\n\n\n\n" + c.ends + "\n\n32\n\n\n\n\n\n\n\n"
		if r := call(t, answers, append([]string{"motors", "new", file, "--readings", readings}, c.more...)...); r.status != 0 {
			t.Fatalf("%s: status %d, said %q after\n%s", name, r.status, r.errs, r.out)
		}
		const words = "he order of its leads is a guess"
		for what, out := range map[string]string{"check": call(t, "", "motors", "check", file).out, "show": call(t, "", "motors", "show", file).out,
			"the line mode": call(t, "quit\n", "--plain", "--motor", file).out, "a table": call(t, "", "write", "c", "--motor", file).out} {
			if strings.Contains(strings.Join(strings.Fields(out), " "), words) != c.guessed {
				t.Errorf("%s of %s, guessed is %v:\n%s", what, name, c.guessed, out)
			}
		}
		if out := call(t, "", "motors", "show", file, "--json").out; strings.Contains(out, `"order_guessed": true`) != c.guessed {
			t.Errorf("%s, guessed is %v:\n%s", name, c.guessed, out)
		}
	}
}
