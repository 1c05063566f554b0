package picture

import (
	"bytes"
	"fmt"
	"html"
	"image/color"
	"path/filepath"
	"strings"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/vgimg"
	"gonum.org/v1/plot/vg/vgsvg"

	"coilwalk/model/files"
)

// Card is a page to pin over the bench: what goes where, the order, and what the
// shaft does. It is black on white, and says every colour in words too.
type Card struct {
	Title, Under string
	Outputs      [4]CardLead
	Supply       string     // where the leads go that are on no output; "" for none
	Ends         [4]string  // the lead on A+ B+ A- B-
	Middle       [2]string  // the lead between the halves of A and of B; "" for none
	Joined       bool       // one middle for both
	Rows         []CardRow  // one cycle, forward
	Facts        []CardFact // of shaft and supply
	Cautions     []string
	Source       string // where the figures come from
}

// CardLead is an output with what it feeds.
type CardLead struct {
	Lead         string // its short name
	Words        string // in full
	Base, Stripe string // codes of IEC 60757; "" for a name that is no colour
	End          string // of the coil
	Seat         string // on the board
}

// CardRow is a row of the order.
type CardRow struct {
	Number int
	Levels [4]float64 // of outputs 1 to 4, 0 off … 1 on
	On     string     // coil ends
	Field  string
}

// CardFact is a figure and what it is of.
type CardFact struct{ Name, Value string }

// A4 (ISO 216), upright.
const (
	cardWide = 210.0 // mm
	cardTall = 297.0
	margin   = 16.0
)

// CardEndings are the formats that a card can be written in.
var CardEndings = []string{".svg", ".html", ".png"}

// Write gives the card in the format that a file's name asks for.
func (c *Card) Write(name string) ([]byte, error) {
	w, h := vg.Length(cardWide)*vg.Millimeter, vg.Length(cardTall)*vg.Millimeter
	var out bytes.Buffer
	switch ending := strings.ToLower(filepath.Ext(name)); ending {
	case ".svg", ".html":
		canvas := vgsvg.New(w, h)
		s := c.draw(canvas)
		if _, err := canvas.WriteTo(&out); err != nil {
			return nil, err
		}
		if ending == ".html" {
			return c.page(s.fitted(out.String())), nil
		}
		return []byte(s.fitted(out.String())), nil
	case ".png":
		canvas := vgimg.NewWith(vgimg.UseWH(w, h), vgimg.UseDPI(200), vgimg.UseBackgroundColor(color.White))
		c.draw(canvas)
		if _, err := (vgimg.PngCanvas{Canvas: canvas}).WriteTo(&out); err != nil {
			return nil, err
		}
	default:
		return nil, fmt.Errorf("%s is none of %s", files.Quoted(ending), strings.Join(CardEndings, ", "))
	}
	return out.Bytes(), nil
}

// page puts the drawing into a page of its own, that asks for nothing else.
func (c *Card) page(svg string) []byte {
	if at := strings.Index(svg, "<svg"); at >= 0 { // without the head of a file of its own
		svg = svg[at:]
	}
	return fmt.Appendf(nil, `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<title>%s: bench card</title>
<style>
@page { size: A4; margin: 0 }
body { margin: 0; background: white; color: black }
svg { display: block; width: 210mm; height: 297mm; margin: auto }
</style>
</head>
<body>
%s</body>
</html>
`, html.EscapeString(c.Title), svg)
}

// draw lays the card out from top to bottom.
func (c *Card) draw(canvas vg.Canvas) *sheet {
	s := &sheet{canvas: canvas, tall: cardTall}
	s.box(0, 0, cardWide, cardTall, color.White, 0)
	y := margin + 7
	s.write(margin, y, titleSize, true, within(titleSize, cardWide-2*margin, true, c.Title))
	y += 7
	s.write(margin, y, headSize, false, within(headSize, cardWide-2*margin, false, c.Under))
	y += 4
	s.line(0.6, color.Black, [2]float64{margin, y}, [2]float64{cardWide - margin, y})
	y = c.wiring(s, y+9)
	y = c.order(s, y+10)
	y = c.facts(s, y+10)
	y = c.cautions(s, y+8)
	c.notes(s, y+8)
	s.write(margin, cardTall-margin+4, smallSize, false, within(smallSize, cardWide-2*margin, false, c.Source))
	return s
}

// wiring draws the outputs with their leads, and the coils that these go to.
func (c *Card) wiring(s *sheet, y float64) float64 {
	const each, coilsAt = 10.0, 118.0
	s.write(margin, y, headSize, true, "Wiring")
	top := y + 7
	for _, column := range []struct {
		x    float64
		name string
	}{{margin, "output"}, {margin + 35, "lead"}, {margin + 82, "coil end"}} {
		s.write(column.x, y+6, smallSize, false, column.name)
	}
	for k, out := range c.Outputs {
		mid := top + each*(float64(k)+0.5)
		s.box(margin, mid-3.5, 7, 7, color.White, 0.4)
		s.centre(margin+3.5, mid+2, headSize, true, fmt.Sprint(k+1))
		swatch(s, margin+7, mid-1.6, 24, 3.2, out.Base, out.Stripe)
		x := s.write(margin+35, mid-0.2, headSize, true, within(headSize, 24, true, out.Lead))
		s.write(max(x+2, margin+47), mid-0.2, textSize, false, within(textSize, 32, false, out.Words))
		s.write(margin+35, mid+3.9, smallSize, false, within(smallSize, 44, false, out.Seat))
		s.write(margin+82, mid+1.2, headSize, true, out.End)
	}
	c.coils(s, coilsAt, top)
	y = top + 4*each + 4
	if c.Supply == "" {
		return y
	}
	for _, line := range wrap(textSize, cardWide-2*margin, c.Supply) {
		s.write(margin, y, textSize, true, line)
		y += textSize * pointTall * 1.4
	}
	return y
}

// swatch draws a piece of lead in its colours, with a black edge, so that white
// shows on paper and a grey printer loses nothing but the colour.
func swatch(s *sheet, x, y, w, h float64, base, stripe string) {
	ink, ok := printed[base]
	if !ok {
		ink = color.White
	}
	s.box(x, y, w, h, ink, 0.35)
	if second, ok := printed[stripe]; ok {
		s.box(x, y+h/3, w, h/3, second, 0)
	}
}

// printed are the colours of leads on paper.
var printed = map[string]color.Color{
	"BK": color.Gray{0x10}, "BN": color.RGBA{0x7a, 0x45, 0x1c, 255}, "RD": color.RGBA{0xd0, 0x1c, 0x1c, 255}, "OG": color.RGBA{0xf0, 0x80, 0x10, 255},
	"YE": color.RGBA{0xf8, 0xd8, 0x10, 255}, "GN": color.RGBA{0x1c, 0x90, 0x38, 255}, "BU": color.RGBA{0x1c, 0x50, 0xc8, 255}, "VT": color.RGBA{0x78, 0x30, 0xa8, 255},
	"GY": color.Gray{0x90}, "WH": color.White, "PK": color.RGBA{0xf4, 0xa0, 0xb8, 255}, "GD": color.RGBA{0xc8, 0xa0, 0x30, 255},
	"TQ": color.RGBA{0x20, 0xb8, 0xb0, 255}, "SR": color.Gray{0xc8},
}

// coils draws both phases as coils between their ends.
func (c *Card) coils(s *sheet, x, y float64) {
	const radius, turns, wide = 2.6, 8, 0.5
	long := 2 * radius * turns
	left := x + 14
	middle := left + long/2
	for phase, name := range []string{"A", "B"} {
		mid := y + 11 + 20*float64(phase)
		s.centre(middle, mid-5, headSize, true, name)
		for k := range turns {
			s.arch(wide, left+2*radius*float64(k), mid, radius)
		}
		for side, at := range []float64{left, left + long} {
			end := phase + 2*side
			stub := at - 5 + 10*float64(side)
			s.line(wide, color.Black, [2]float64{at, mid}, [2]float64{stub, mid})
			s.dot(stub, mid, 0.9)
			s.centre(stub, mid-2, textSize, true, name+[]string{"+", "-"}[side])
			s.centre(stub, mid+4.6, textSize, false, within(textSize, 13, false, c.Ends[end]))
		}
		if c.Middle[phase] == "" {
			continue
		}
		s.line(wide, color.Black, [2]float64{middle, mid}, [2]float64{middle, mid + 4})
		s.dot(middle, mid, 0.9)
		if !c.Joined {
			s.centre(middle, mid+8, textSize, false, within(textSize, 40, false, c.Middle[phase]))
		}
	}
	if c.Joined { // round the outside, so that no line crosses a coil
		right := left + long + 12
		s.line(wide, color.Black, [2]float64{middle, y + 15}, [2]float64{middle, y + 20.5}, [2]float64{right, y + 20.5},
			[2]float64{right, y + 38.5}, [2]float64{middle, y + 38.5}, [2]float64{middle, y + 31})
		words := within(textSize, 30, true, "common "+c.Middle[0])
		s.write(middle-2-slack*wideOf(face(textSize, true), words), y+39.5, textSize, true, words)
	}
}
