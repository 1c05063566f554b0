package picture

import (
	"bytes"
	"encoding/xml"
	"errors"
	"image/png"
	"io"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// hostile is a card whose words would break out of markup, or off the page.
func hostile() *Card {
	long := strings.Repeat("a very long word ", 40)
	c := &Card{Title: `<script>&"flap"` + long, Under: long, Supply: long, Joined: true, Middle: [2]string{"<b>", "<b>"}, Source: long, Cautions: []string{long, "<i>"}}
	for k := range c.Outputs {
		c.Outputs[k] = CardLead{Lead: "</text>" + long, Words: long, Base: "WH", Stripe: "RD", End: "A+", Seat: long}
	}
	for k := range 8 {
		c.Rows = append(c.Rows, CardRow{Number: k + 1, Levels: [4]float64{1, 0, 0.5, 0}, On: "A+", Field: "45°"})
	}
	c.Facts = []CardFact{{"<name>", long}, {"b", "c"}, {"d", "e"}}
	return c
}

// The drawing is well formed whatever stands in it, and nothing of it lies off
// the page. (Extensible Markup Language 1.0, as encoding/xml reads it.)
func TestCardIsWellFormed(t *testing.T) {
	svg, err := hostile().Write("card.SVG")
	if err != nil {
		t.Fatal(err)
	}
	texts := 0
	d := xml.NewDecoder(bytes.NewReader(svg))
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		start, ok := token.(xml.StartElement)
		if !ok {
			continue
		}
		switch start.Name.Local {
		case "script", "b", "i", "name":
			t.Errorf("words became an element: %v", start)
		case "text":
			texts++
			if x, wide := number(t, start, "x"), number(t, start, "textLength"); x < 0 || x+wide > 595.3 {
				t.Errorf("words reach from %g to %g pt; the page is 595.28 wide", x, x+wide)
			}
		}
	}
	if texts < 40 {
		t.Errorf("only %d pieces of words were looked at", texts)
	}
}

func number(t *testing.T, e xml.StartElement, name string) (v float64) {
	t.Helper()
	for _, a := range e.Attr {
		if a.Name.Local == name {
			if err := xml.Unmarshal([]byte("<v>"+a.Value+"</v>"), &v); err != nil {
				t.Fatal(err)
			}
			return v
		}
	}
	t.Fatalf("%v has no %s", e, name)
	return 0
}

// The page of its own asks for nothing else, and the picture is A4 at 200 dots
// per inch (ISO 216: 210 mm by 297 mm).
func TestCardFormats(t *testing.T) {
	page, err := hostile().Write("card.html")
	if err != nil {
		t.Fatal(err)
	}
	for _, no := range []string{"<script", "src=", "href=\"http", "url(", "<link"} {
		if bytes.Contains(page, []byte(no)) {
			t.Errorf("the page has %s", no)
		}
	}
	if !bytes.HasPrefix(page, []byte("<!DOCTYPE html>")) || bytes.Contains(page, []byte("<?xml")) {
		t.Errorf("no page: %.80s", page)
	}
	picture, err := hostile().Write("card.png")
	if err != nil {
		t.Fatal(err)
	}
	size, err := png.DecodeConfig(bytes.NewReader(picture))
	if err != nil || size.Width < 1652 || size.Width > 1655 || size.Height < 2337 || size.Height > 2340 {
		t.Errorf("%d by %d dots, %v", size.Width, size.Height, err)
	}
	if _, err := hostile().Write("card.pdf"); err == nil {
		t.Error("pdf is taken")
	}
}

// The traces on paper stand where the levels say: what is on is a grey block, as
// wide as the rows for which it is on.
func TestCardTracesFollowTheLevels(t *testing.T) {
	for _, c := range []struct {
		rows []CardRow
		wide []float64 // parts of all the rows, output by output
	}{
		{[]CardRow{{Levels: [4]float64{1, 0, 0, 0}}, {}, {}, {}}, []float64{0.25}},
		{[]CardRow{{Levels: [4]float64{1, 0, 0, 0}}, {Levels: [4]float64{1, 0, 0, 1}}, {}, {}}, []float64{0.5, 0.25}},
		{[]CardRow{{Levels: [4]float64{0, 1, 0, 0}}, {}, {Levels: [4]float64{0, 0.5, 0, 0}}, {Levels: [4]float64{0, 1, 0, 0}}}, []float64{0.25, 0.5}},
	} {
		svg, err := (&Card{Rows: c.rows}).Write("card.svg")
		if err != nil {
			t.Fatal(err)
		}
		var got []float64
		for _, block := range greyBlock.FindAllSubmatch(svg, -1) {
			least, most := math.Inf(1), math.Inf(-1)
			for _, x := range corner.FindAllSubmatch(block[1], -1) {
				v, err := strconv.ParseFloat(string(x[1]), 64)
				if err != nil {
					t.Fatal(err)
				}
				least, most = min(least, v), max(most, v)
			}
			got = append(got, math.Round(1000*(most-least)/(154*72/25.4))/1000) // 154 mm are for all rows
		}
		if !slices.Equal(got, c.wide) {
			t.Errorf("blocks of what is on are %v of the rows wide, want %v", got, c.wide)
		}
	}
}

var (
	greyBlock = regexp.MustCompile(`<path d="([^"]*)" style="fill:#D8D8D8`)
	corner    = regexp.MustCompile(`[ML](-?[0-9.e-]+),`)
)
