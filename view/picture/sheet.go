package picture

import (
	"fmt"
	"image/color"
	"math"
	"strings"

	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
)

// sheet is paper that is drawn on in millimetres, from its upper left corner.
type sheet struct {
	canvas vg.Canvas
	tall   float64     // mm
	wide   []vg.Length // of each piece of words, in their order
}

// Sizes of letters, in points.
const (
	titleSize = 22.0
	headSize  = 12.0
	textSize  = 9.5
	smallSize = 8.0
)

// slack is how much wider than ours another letter may be that stands in for it,
// where a program does not keep to the widths of the words.
const slack = 1.18

// pointTall is the height of a point, in mm.
const pointTall = 25.4 / 72

func (s *sheet) at(x, y float64) vg.Point {
	return vg.Point{X: vg.Length(x) * vg.Millimeter, Y: vg.Length(s.tall-y) * vg.Millimeter}
}

func (s *sheet) path(points [][2]float64) vg.Path {
	var p vg.Path
	for k, at := range points {
		if k == 0 {
			p.Move(s.at(at[0], at[1]))
		} else {
			p.Line(s.at(at[0], at[1]))
		}
	}
	return p
}

// line joins points with a line so many mm wide.
func (s *sheet) line(wide float64, c color.Color, points ...[2]float64) {
	s.canvas.SetColor(c)
	s.canvas.SetLineWidth(vg.Length(wide) * vg.Millimeter)
	s.canvas.Stroke(s.path(points))
}

// box fills a rectangle, and draws its edge where that has a width.
func (s *sheet) box(x, y, w, h float64, fill color.Color, edge float64) {
	points := [][2]float64{{x, y}, {x + w, y}, {x + w, y + h}, {x, y + h}}
	p := s.path(points)
	p.Close()
	s.canvas.SetColor(fill)
	s.canvas.Fill(p)
	if edge > 0 {
		s.canvas.SetColor(color.Black)
		s.canvas.SetLineWidth(vg.Length(edge) * vg.Millimeter)
		s.canvas.Stroke(p)
	}
}

// area fills what points enclose.
func (s *sheet) area(fill color.Color, points ...[2]float64) {
	p := s.path(points)
	p.Close()
	s.canvas.SetColor(fill)
	s.canvas.Fill(p)
}

// arch draws a half circle from one point to another on its right, upwards.
func (s *sheet) arch(wide, x, y, radius float64) {
	var p vg.Path
	p.Move(s.at(x, y))
	p.Arc(s.at(x+radius, y), vg.Length(radius)*vg.Millimeter, math.Pi, -math.Pi)
	s.canvas.SetColor(color.Black)
	s.canvas.SetLineWidth(vg.Length(wide) * vg.Millimeter)
	s.canvas.Stroke(p)
}

// dot fills a circle.
func (s *sheet) dot(x, y, radius float64) {
	var p vg.Path
	p.Move(s.at(x+radius, y))
	for _, from := range []float64{0, math.Pi} { // in halves: SVG has no arc that ends where it began
		p.Arc(s.at(x, y), vg.Length(radius)*vg.Millimeter, from, math.Pi)
	}
	p.Close()
	s.canvas.SetColor(color.Black)
	s.canvas.Fill(p)
}

// fitted gives an SVG of the sheet the widths that its words were laid out with,
// for where another letter stands in for ours.
func (s *sheet) fitted(svg string) string {
	parts := strings.Split(svg, "<text ")
	var b strings.Builder
	b.WriteString(parts[0])
	for k, part := range parts[1:] {
		fmt.Fprintf(&b, `<text textLength="%.2f" lengthAdjust="spacingAndGlyphs" %s`, s.wide[k].Points(), part)
	}
	return strings.ReplaceAll(b.String(), "font-family:Liberation Sans;", "font-family:Liberation Sans,Arial,Helvetica,sans-serif;")
}

func face(points float64, bold bool) font.Face {
	f := font.Font{Typeface: "Liberation", Variant: "Sans"}
	if bold {
		f.Weight = 3 // bold, as OpenType collections count from normal
	}
	return font.DefaultCache.Lookup(f, vg.Points(points))
}

// write puts words with their foot at y, and gives where they end.
func (s *sheet) write(x, y, points float64, bold bool, words string) float64 {
	f := face(points, bold)
	s.canvas.SetColor(color.Black)
	s.canvas.FillString(f, s.at(x, y), words)
	s.wide = append(s.wide, f.Width(words))
	return x + wideOf(f, words)
}

// centre puts words about a middle.
func (s *sheet) centre(x, y, points float64, bold bool, words string) {
	s.write(x-wideOf(face(points, bold), words)/2, y, points, bold, words)
}

func wideOf(f font.Face, words string) float64 { return float64(f.Width(words) / vg.Millimeter) }

// wrap parts words into lines that are at most so many mm wide.
func wrap(points, wide float64, words string) (lines []string) {
	f := face(points, false)
	line := ""
	for _, word := range strings.Fields(words) {
		longer := strings.TrimSpace(line + " " + word)
		if line != "" && wideOf(f, longer) > wide {
			lines, line = append(lines, line), word
			continue
		}
		line = longer
	}
	return append(lines, line)
}

// within cuts words that are wider than so many mm.
func within(points, wide float64, bold bool, words string) string {
	f := face(points, bold)
	letters := []rune(words)
	for len(letters) > 1 && wideOf(f, string(letters)) > wide {
		letters = append(letters[:len(letters)-2], '…')
	}
	return string(letters)
}
