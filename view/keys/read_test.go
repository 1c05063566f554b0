package keys

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"coilwalk/model/files"
)

// places are groups as the explorer has them, made small.
func places() []Group {
	return []Group{
		{Name: Anywhere, Bindings: []Binding{{Word: "help", Keys: []string{"?"}}, {Word: "quit", Keys: []string{"q"}}, {Word: "walk", Keys: []string{"W"}}}},
		{Name: "walk", Bindings: []Binding{{Word: "next", Keys: []string{"right", "l"}}, {Word: "mode", Keys: []string{"m"}}, {Word: "stop", Keys: []string{Space}, Fixed: true}}},
		{Name: "lines", Bindings: []Binding{{Word: "edit", Keys: []string{"enter"}}}},
		{Name: "rates", With: []string{"lines"}, Bindings: []Binding{{Word: "cancel", Keys: []string{"c"}}}},
		{Name: "leads", Typed: "0123456789.", Bindings: []Binding{{Word: "open", Keys: []string{"o"}}}},
	}
}

func TestReadGivesKeys(t *testing.T) {
	was := places()
	got, err := Read("keys.toml", []byte(`
[walk]
next = ["→", "Ctrl+N", "é"]
mode = "alt+R"      # and R itself stays free
[anywhere]
quit = "\\"
[rates]
cancel = "m"        # not at work with walk
`), was)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		group, word string
		want        []string
	}{
		{"walk", "next", []string{"right", "ctrl+n", "é"}}, {"walk", "mode", []string{"alt+R"}}, {Anywhere, "quit", []string{`\`}},
		{"rates", "cancel", []string{"m"}}, {"leads", "open", []string{"o"}},
	} {
		if keys := find(got, c.group).Of(c.word); !slices.Equal(keys, c.want) {
			t.Errorf("%s of %s: %q, want %q", c.word, c.group, keys, c.want)
		}
	}
	if !slices.Equal(was[1].Bindings[0].Keys, []string{"right", "l"}) {
		t.Error("the keys that were handed in have changed")
	}
}

// Each complaint says where and what would be right.
func TestReadComplains(t *testing.T) {
	for _, c := range []struct{ text, where, want string }{
		{"[walk]\nnexxt = \"n\"", "2:1", `did you mean "next"?`},
		{"[wlak]\nnext = \"n\"", "1:2", `did you mean "walk"?`},
		{"next = \"n\"", "1:1", "it goes under [walk]"},
		{"walk = \"n\"", "1:1", "stands in brackets"},
		{"[walk]\nnext = 5", "2:1", "a key is wanted"},
		{"[walk]\nnext = []", "2:1", "a key is wanted"},
		{"[walk]\nnext = [\"a\", 5]", "2:1", "a key is wanted"},
		{"[walk]\nnext = \"rihgt\"", "2:1", `did you mean "right"?`},
		{"[walk]\nnext = \"\"", "2:1", "a letter, or a name"},
		{"[walk]\nnext = \"ab\"", "2:1", "there is no key"},
		{"[walk]\nnext = \"漢\"", "2:1", "there is no key"},
		{"[walk]\n\nnext = \"space\"", "3:1", "space always stops"},
		{"[walk]\nnext = \" \"", "2:1", "space always stops"},
		{"[walk]\nnext = \"CTRL+C\"", "2:1", "always leaves"},
		{"[walk]\nnext = \"ctrl+i\"", "2:1", `write "tab"`},
		{"[walk]\nstop = \"x\"", "2:1", "can be given no other key"},
		{"[walk]\nnext = [\"x\", \"x\"]", "2:1", "stands twice"},
		{"[walk]\nnext = \"m\"", "2:1", "also that of mode"},
		{"[walk]\nnext = \"q\"", "2:1", "also that of quit of anywhere"},
		{"[anywhere]\nhelp = \"m\"", "2:1", "also that of mode of walk"},
		{"[lines]\nedit = \"c\"", "2:1", "also that of cancel of rates"},
		{"[rates]\ncancel = \"enter\"", "2:1", "also that of edit of lines"},
		{"[leads]\nopen = \"5\"", "2:1", "is typed on leads"},
		{"[anywhere]\nhelp = \"5\"", "2:1", "is typed on leads"},
		{"[walk]\nmode = \"x\"\nnext = \"x\"", "", "the key \"x\" is also that of"},
		{"[walk\n", "1:6", ""},
		{"[[walk]]\nnext = \"n\"", " walk", "stands in brackets"},
		{"key right", "1", ""},
	} {
		_, err := Read("keys.toml", []byte(c.text), places())
		var complaint *files.Complaint
		if !errors.As(err, &complaint) || !strings.HasPrefix(err.Error(), "keys.toml:"+c.where) || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%q: %v; want a complaint at %s with %q", c.text, err, c.where, c.want)
		}
	}
}

// FuzzRead: whatever bytes come, Read does not panic; what it refuses is a
// complaint on one line; of what it takes no key does two things, and none is one
// that is not free.
func FuzzRead(f *testing.F) {
	for _, text := range []string{"[walk]\nnext = [\"right\", \"l\"]\n", "[anywhere]\nquit = \"ctrl+q\"", "walk.next = 'n'", "[leads]\nopen = \"alt+o\"", "[[walk]]", "walk = {next = \"m\", mode = \"l\"}"} {
		f.Add([]byte(text))
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		groups, err := Read("f", text, places())
		if err != nil {
			var c *files.Complaint
			if !errors.As(err, &c) || c.What == "" || strings.ContainsAny(err.Error(), "\n\x1b") {
				t.Fatalf("error %v of type %T, want a complaint on one line", err, err)
			}
			return
		}
		if found := clashes(groups); found != nil {
			t.Fatalf("%q is taken: %v", text, found)
		}
		for _, g := range groups {
			for _, b := range g.Bindings {
				if len(b.Keys) == 0 {
					t.Fatalf("%q leaves %s without a key", text, b.Word)
				}
				for _, key := range b.Keys {
					if again, ok := parse(key); again != key || !ok || taken[key] != "" && !b.Fixed || same[key] != "" {
						t.Fatalf("%q gives %s the key %q", text, b.Word, key)
					}
				}
			}
		}
	})
}
