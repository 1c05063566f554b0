package wiring

import (
	"errors"
	"strings"
	"testing"

	"coilwalk/model/files"
	"coilwalk/testdata/bounds"
)

func TestReadingsAsPeopleWriteThem(t *testing.T) {
	r, err := ReadReadings("r.csv", []byte("lead, lead, ohm\n# a comment\nBN, VT, 52\nbrown;white;104,5 ohm\nGN\tGY\t1.2k\nred blue OL\nBK, case, open # none\n1 2 0.3 ohm\n"))
	if err != nil {
		t.Fatal(err)
	}
	want := []Reading{{A: "BN", B: "VT", Ohm: 52, Line: 3}, {A: "BN", B: "WH", Ohm: 104.5, Line: 4}, {A: "GN", B: "GY", Ohm: 1200, Line: 5},
		{A: "RD", B: "BU", Open: true, Line: 6}, {A: "BK", B: Case, Open: true, Line: 7}, {A: "1", B: "2", Ohm: 0.3, Line: 8}}
	for i := range want {
		if i >= len(r) || r[i] != want[i] {
			t.Fatalf("read %+v, want %+v", r, want)
		}
	}
}

func TestBadReadings(t *testing.T) {
	for _, c := range []struct {
		text string
		line int
		part string
	}{
		{"", 0, "no reading stands here"},
		{"lead, lead, ohm\n", 1, "taken for a heading"},
		{"BN, VT\n", 1, "2 values stand here"},
		{"BN, VT, 52\nBN, BN, 3\n", 2, "both probes are on BN"},
		{"BN, VT, 52\nBN, WH, twelve\n", 2, "twelve"},
		{"BN, VT, 5 V\n", 1, "voltage"},
		{"BN, VT, nan\n", 1, "nan"},
		{"BN, VT, -5\n", 1, "no resistance of a winding"},
		{"RDWH, VT, 5\n", 1, "which colour is the base"},
		{strings.Repeat("a,b,1\n", mostReadings+1), mostReadings + 1, "at most 400"},
		{"a,b,1\nc,d,1\ne,f,1\ng,h,1\ni,j,1\nk,l,1\nm,n,1\n", 7, "at most 400 of 12"},
	} {
		_, err := ReadReadings("r.csv", []byte(c.text))
		var complaint *files.Complaint
		if !errors.As(err, &complaint) || complaint.Line != c.line || !strings.Contains(err.Error(), c.part) {
			t.Errorf("%.40q: %v, want line %d and %q", c.text, err, c.line, c.part)
		}
	}
}

// Whatever is read, an answer comes: odds that add to one, and no reading asked
// for between leads that there are not.
func FuzzReadings(f *testing.F) {
	f.Add("BN,VT,52\nWH,VT,51\nBN,WH,104")
	f.Add("a b open\nb c 0\nc case 1M")
	f.Add("lead;lead;ohm\n1;2;1,5\n")
	f.Add("a,b,0\nb,c,0\nc,a,0\na,b,1e8")
	f.Fuzz(func(t *testing.T, text string) {
		var readings []Reading
		var err error
		bounds.Hold(t, len(text), 4<<20, 4000, func() { readings, err = ReadReadings("x", []byte(text)) })
		if err != nil {
			var c *files.Complaint
			if !errors.As(err, &c) || strings.ContainsAny(c.Error(), "\n\r\x1b") {
				t.Fatalf("an error that is no one line of ours: %q", err)
			}
			return
		}
		if len(readings) > 40 {
			return
		}
		a := Identify(readings)
		sum := 0.0
		for _, k := range a.Kinds {
			if !(k.Odds >= 0 && k.Odds <= 1+1e-9) {
				t.Fatalf("odds %v", a.Kinds)
			}
			sum += k.Odds
		}
		if sum < 1-1e-6 || sum > 1+1e-6 {
			t.Fatalf("odds add to %v", sum)
		}
		if a.Next != nil && a.Next.A == a.Next.B {
			t.Fatalf("next %+v", a.Next)
		}
	})
}
