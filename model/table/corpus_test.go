package table

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

const corpus = "../../testdata/tables/"

// each runs a function over the files of a part of the corpus.
func each(t testing.TB, part string, do func(name string, text []byte)) {
	t.Helper()
	entries, err := os.ReadDir(corpus + part)
	if err != nil || len(entries) < 10 {
		t.Fatalf("%d files in %s, %v", len(entries), part, err)
	}
	for _, e := range entries {
		if filepath.Ext(e.Name()) == ".want" {
			continue
		}
		text, err := os.ReadFile(corpus + part + "/" + e.Name())
		if err != nil {
			t.Fatal(err)
		}
		if !strings.Contains(strings.ToLower(string(text)), "invented for this project") {
			t.Errorf("%s does not say where it is from", e.Name())
		}
		do(e.Name(), text)
	}
}

// told writes all that reading gave.
func told(s *Source, err error) string {
	if err != nil {
		return err.Error() + "\n"
	}
	var b strings.Builder
	fmt.Fprintf(&b, "language %s\n", s.Language)
	rows := func(title string, all []Row) {
		for _, r := range all {
			fmt.Fprintf(&b, "  %s line %d: %s is %s", title, r.Line, r.Text, bitText(r.Levels))
			if r.stray != nil {
				fmt.Fprintf(&b, ", and moves %s", bitWords(r.stray.beyond))
			}
			b.WriteByte('\n')
		}
	}
	for _, t := range s.Tables {
		fmt.Fprintf(&b, "table %s, line %d, motor %d, off between %v, bits %v, columns %s\n", t.Name, t.Line, t.Motor, t.OffBetween, t.Bits, strings.Join(t.Columns, " | "))
		for _, n := range t.Notes {
			fmt.Fprintf(&b, "  note: %s\n", n)
		}
		rows("row", t.Rows)
		rows("digits", t.Digits)
	}
	for _, k := range s.Skipped {
		fmt.Fprintf(&b, "skipped %s, line %d: %s\n", k.Name, k.Line, k.Why)
	}
	return b.String()
}

// Every file of the corpus is read as the file beside it says. COILWALK_RECORD=1
// writes those anew: then look at what changed.
func TestGoldenCorpus(t *testing.T) {
	for _, part := range []string{"good", "bad"} {
		each(t, part, func(name string, text []byte) {
			s, err := Read(name, text, Options{})
			if (err != nil) != (part == "bad") {
				t.Errorf("%s/%s: error %v", part, name, err)
			}
			got, beside := told(s, err), corpus+part+"/"+name+".want"
			if os.Getenv("COILWALK_RECORD") != "" {
				if err := os.WriteFile(beside, []byte(got), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			if want, err := os.ReadFile(beside); err != nil || got != string(want) {
				t.Errorf("%s/%s, %v: got\n%s\nwant\n%s", part, name, err, got, want)
			}
		})
	}
}

// A line's end of another system changes nothing: not a row, not a place.
func TestLineEndsOfOtherSystems(t *testing.T) {
	for _, part := range []string{"good", "bad"} {
		each(t, part, func(name string, text []byte) {
			want := told(Read(name, text, Options{}))
			for _, end := range []string{"\r\n", "\r"} {
				if got := told(Read(name, []byte("\ufeff"+strings.ReplaceAll(string(text), "\n", end)), Options{})); got != want {
					t.Errorf("%s with ends %q: got\n%s\nwant\n%s", name, end, got, want)
				}
			}
		})
	}
}
