package view

import (
	"bytes"
	"os"
	"testing"

	"coilwalk/model/bench"
	"coilwalk/model/motor"
)

// The train that was typed on Shaft is kept in a motor file by a key there, with all
// else that the bench's motor is, under the file's name; a file that is there stays.
func TestShaftKeepsItsTrain(t *testing.T) {
	t.Chdir(t.TempDir())
	mine, err := motor.Parse("loom", []byte("name = \"loom\"\ntitle = \"the loom\"\norigin = \"mine\"\n[winding]\nends = [\"BK\", \"RD\", \"GN\", \"BU\"]\n[rotor]\npole_pairs = 12\n[figures]\nresistance = \"30 ohm\"\n"))
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile("mine.toml", []byte("# there"), 0o644); err != nil {
		t.Fatal(err)
	}
	builtIn, _ := motor.BuiltIn("hybrid-4")
	for _, c := range []struct {
		on    motor.Motor
		title string
	}{{mine, "the loom"}, {builtIn, "kept"}} {
		e := New(bench.New(c.on), Settings{}, Opened{})
		sized(e, 80, 24)
		press(e, "S", "enter", "9:32,11:22", "enter", "down", "enter", "8deg", "enter")
		shows(t, e, "Walk goes by this train too; s keeps it in a motor file.")
		press(e, "s")
		shows(t, e, "which file?", "mine-2.toml")
		press(e, "mine.toml", "enter")
		if text, _ := os.ReadFile("mine.toml"); string(text) != "# there" {
			t.Fatalf("a file that was there has now\n%s", text)
		}
		for range "mine.toml" {
			press(e, "backspace")
		}
		press(e, "kept", "enter")
		shows(t, e, "written; coilwalk --motor kept.toml opens it")
		m, err := motor.Open("kept.toml", nil)
		if err != nil {
			t.Fatal(err)
		}
		want := c.on
		want.Train, want.Name, want.Title, want.Origin = e.bench.Motor().Train, "kept", c.title, want.Origin+"; train as typed on Shaft"
		if m.Train.String() != "9:32,11:22" || len(m.Train.Backlash) != 1 || !bytes.Equal(m.Text(), want.Text()) {
			t.Errorf("the file has\n%s\nand not\n%s", m.Text(), want.Text())
		}
		if err := os.Remove("kept.toml"); err != nil {
			t.Fatal(err)
		}
	}
}
