package view

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"

	"coilwalk/view/action"
	"coilwalk/view/keys"
)

// Every key means one thing at a time, as keys come: reading a file that changes
// nothing finds no clash. And every word is said.
func TestKeysAreUnique(t *testing.T) {
	groups, err := keys.Read("no file", nil, Keys())
	if err != nil {
		t.Error(err)
	}
	count := 0
	for _, g := range groups {
		if g.Where == "" || g.Name == "" {
			t.Errorf("%+v has no name", g)
		}
		words := map[string]bool{}
		for _, b := range g.Bindings {
			count++
			if words[b.Word] || b.Says == "" || len(b.Keys) == 0 {
				t.Errorf("%s of %s: twice, or without a key or words: %+v", b.Word, g.Name, b)
			}
			words[b.Word] = true
		}
	}
	if count < 80 {
		t.Errorf("only %d keys are listed", count)
	}
	for _, a := range action.All() {
		if !slices.ContainsFunc(groups, func(g keys.Group) bool { return g.Name == "walk" && g.Of(a.Word) != nil }) {
			t.Errorf("%s has no key on Walk", a.Word)
		}
	}
}

// otherKeys gives every word a key that no screen has: what then still shows, or
// does, what a key was by itself, has it by heart.
func otherKeys(t *testing.T) ([]keys.Group, map[string]string) {
	t.Helper()
	var file strings.Builder
	now := map[string]string{} // by place and word
	next := map[string]rune{}
	for _, g := range Keys() {
		from := '\u0430' // small Cyrillic letters: they stand nowhere else; capitals for keys of everywhere
		if g.Name == keys.Anywhere {
			from = '\u0410'
		}
		if g.Name == "lines" || g.Name == "live" || g.Name == "tour" {
			from += 24 // at work beside others
		}
		fmt.Fprintf(&file, "[%s]\n", g.Name)
		for _, b := range g.Bindings {
			if b.Fixed {
				continue
			}
			letter := string(from + next[g.Name])
			next[g.Name]++
			fmt.Fprintf(&file, "%s = %q\n", b.Word, letter)
			now[g.Name+"."+b.Word] = letter
		}
	}
	groups, err := keys.Read("other keys", []byte(file.String()), Keys())
	if err != nil {
		t.Fatalf("%v\n%s", err, file.String())
	}
	return groups, now
}

// With other keys for everything, each screen is reached, walked and left by
// them, help and foot show them, and the old keys do nothing.
func TestOtherKeys(t *testing.T) {
	groups, now := otherKeys(t)
	e, _ := explorer(t, "vent-flap", Settings{Keys: groups})
	sized(e, 120, 40)
	for _, old := range []string{"right", "l", "enter", "m", "W", "q", "?", "tab", "L", "x", "backspace"} {
		press(e, old)
	}
	if e.at != 0 || e.help || e.leaving || e.ask != nil || e.bench.Read().Step != 0 {
		t.Errorf("an old key did something: screen %d, %+v", e.at, e.bench.Read())
	}
	press(e, now["walk.next"], now["walk.next"], now["walk.back"])
	if got := e.bench.Read().Step; got != 1 {
		t.Errorf("after two rows on and one back it is at step %d", got)
	}
	press(e, now["walk.run"])
	if !e.bench.Running() {
		t.Error("it does not run")
	}
	if press(e, "space"); e.bench.Running() {
		t.Error("space does not stop")
	}
	// Each screen draws its own foot and help: no old key among the keys there.
	old := regexp.MustCompile(`^(enter|tab|pgup|pgdn|home|end|esc|[a-z?+.,=⌫→←↑↓-]|[A-Z])$`)
	for i, s := range e.screens {
		press(e, now["anywhere."+way(s)])
		if e.at != i {
			t.Fatalf("%s does not lead to %s", now["anywhere."+way(s)], s.name())
		}
		if head := strings.Split(ansi.Strip(e.View()), "\n")[1]; !strings.Contains(head, now["anywhere."+way(s)]+" "+s.name()) {
			t.Errorf("the head does not show the way to %s: %s", s.name(), head)
		}
		for _, h := range slices.Concat(e.hints(), e.general()) {
			for _, mark := range strings.Split(h.key, "/") {
				if old.MatchString(mark) {
					t.Errorf("%s still shows %q: %s", s.name(), mark, h.long)
				}
			}
		}
		press(e, now["anywhere.help"])
		if v := ansi.Strip(e.View()); !strings.Contains(v, now["anywhere.quit"]+"   leave") {
			t.Errorf("help of %s:\n%s", s.name(), v)
		}
		press(e, "space")
	}
	press(e, now["anywhere.quit"])
	if !e.leaving {
		t.Error("the new key does not leave")
	}
}

// Words name keys by what they do; each of these is there, and the key that
// stands for it.
func TestWordsNameKeysThatThereAre(t *testing.T) {
	named := regexp.MustCompile(`\{([a-z-]+\.[a-z-]+)\}`)
	known := map[string]bool{}
	for _, g := range Keys() {
		for _, b := range g.Bindings {
			known[g.Name+"."+b.Word] = true
		}
	}
	found := 0
	for file, text := range sources(t) {
		for _, m := range named.FindAllStringSubmatch(text, -1) {
			found++
			if !known[m[1]] {
				t.Errorf("%s speaks of {%s}, which no key does", file, m[1])
			}
		}
	}
	if found < 25 {
		t.Errorf("only %d keys are named: the search went astray", found)
	}
	e, _ := explorer(t, "vent-flap", Settings{})
	for words, want := range map[string]string{
		"{walk.next} goes on, {anywhere.help} helps": "→ goes on, ? helps", "{walk.nothing} {stays {walk.run}": "{walk.nothing} {stays enter", "{": "{", "}{": "}{"} {
		if got := e.keyed(words); got != want {
			t.Errorf("%q became %q, want %q", words, got, want)
		}
	}
}

// Help shows every key of every screen, and the words behind them, on as many pages
// as it says that there are: at 80x24; the caution stands on each.
func TestHelpShowsEveryKey(t *testing.T) {
	for _, s := range everyState() {
		if s.waits { // those are of screens that others show as well
			continue
		}
		e, _ := s.at(t, Settings{}, 80, 24)
		e.ask, e.page, e.help = nil, nil, true
		var lines []string
		for more := true; more && len(lines) < 500; {
			page := strings.Split(ansi.Strip(e.View()), "\n")
			lines = append(lines, page[2:]...)
			if more = strings.Contains(page[0], "? more"); !strings.Contains(strings.Join(page, "\n"), caution) {
				t.Errorf("%s: a page of help without the caution:\n%s", s.name, strings.Join(page, "\n"))
			}
			press(e, "?")
		}
		if e.help {
			t.Errorf("%s: after the last page help stays", s.name)
		}
		for _, h := range slices.Concat(e.hints(), e.general()) {
			if !slices.ContainsFunc(lines, func(line string) bool {
				return strings.HasPrefix(strings.TrimSpace(line), h.key+"   "+h.long[:min(20, len(h.long))])
			}) {
				t.Errorf("%s: help does not show %s: %s", s.name, h.key, h.long)
			}
		}
		for _, words := range helpWords {
			if !slices.ContainsFunc(lines, func(line string) bool { return strings.TrimSpace(line) == words }) {
				t.Errorf("%s: help does not say %s", s.name, words)
			}
		}
	}
}
