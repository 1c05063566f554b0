package picture

import (
	"fmt"
	"math"
)

// GearPair is one gear driving another, by their teeth.
type GearPair struct{ Driving, Driven int }

// Gears draws a train mesh by mesh, pulled apart so that no gear hides another:
// each gear a circle as big as its teeth are many, an axle from each driven gear
// to the next driving one, and an arrow in each for the sense in which it turns
// when the shaft turns clockwise.
type Gears struct {
	Pairs []GearPair

	patch dots
}

const (
	leastRadius = 2.2 // dots: a smaller circle is a blot
	axle        = 6.0 // dots between two meshes
)

// Draw draws the train in w × h cells, as big as fits, the teeth
// below. With 2 × 4 dots to a cell that is twice as tall as wide, dots are square
// and gears round.
func (p *Gears) Draw(g *Grid, x, y, w, h int) {
	if len(p.Pairs) == 0 || w < 8 || h < 3 {
		return
	}
	h--
	p.patch.resize(w, h)
	scale := p.scale(float64(2*w-1), float64(4*h-1))
	row := h / 2
	middle := float64(4*row) + 1.5
	at, most := 0.0, 0.0
	type place struct {
		x, y  int
		words string
	}
	var arrows, teeth []place
	for i, pair := range p.Pairs {
		small, big := radius(pair.Driving, scale), radius(pair.Driven, scale)
		from := at
		for k, gear := range []struct {
			r     float64
			teeth int
		}{{small, pair.Driving}, {big, pair.Driven}} {
			at += gear.r
			most = math.Max(most, gear.r)
			p.circle(at, middle, gear.r, gear.teeth, In(Text))
			arrow := "↻" // the shaft turns clockwise, and each mesh turns the sense round
			if (len(p.Pairs)-i-1+k)%2 == 0 {
				arrow = "↺"
			}
			arrows = append(arrows, place{x + int(at/2), y + row, arrow})
			at += gear.r + 1
		}
		words := fmt.Sprintf("%d:%d", pair.Driving, pair.Driven)
		teeth = append(teeth, place{x: x + int((from+at)/4) - Width(words)/2, words: words})
		if i+1 < len(p.Pairs) {
			for d := -big; d < axle+radius(p.Pairs[i+1].Driving, scale)-1; d++ { // from axle to axle
				p.patch.set(int(at+d), int(middle), In(Faint), '-')
			}
			at += axle
		}
	}
	p.patch.onto(g, x, y)
	for _, a := range arrows {
		g.Write(a.x, a.y, a.words, Loud(Current))
	}
	end := 0
	below := y + min(row+int(math.Ceil(most/4))+1, h)
	for _, t := range teeth {
		if t.x > end || end == 0 {
			end = g.Write(t.x, below, t.words, In(Text))
		}
	}
}

func radius(teeth int, scale float64) float64 {
	return math.Max(float64(teeth)*scale, leastRadius)
}

// scale gives the dots of radius to a tooth at which all fits.
func (p *Gears) scale(wide, tall float64) float64 {
	most := 0
	for _, pair := range p.Pairs {
		most = max(most, pair.Driving, pair.Driven)
	}
	scale := (tall/2 - 1) / float64(most)
	for range 100 { // the least radius makes this no plain division
		width := axle * float64(len(p.Pairs)-1)
		for _, pair := range p.Pairs {
			width += 2*radius(pair.Driving, scale) + 2*radius(pair.Driven, scale) + 2
		}
		if width <= wide {
			break
		}
		scale *= 0.97
	}
	return scale
}

// circle draws a gear: with its teeth where there is room to see them.
func (p *Gears) circle(cx, cy, r float64, teeth int, s Style) {
	depth := 0.0
	if 2*math.Pi*r/float64(teeth) >= 4 {
		depth = 1.5
	}
	steps := int(4*math.Pi*r) + 8
	for i := range steps {
		a := 2 * math.Pi * float64(i) / float64(steps)
		at := r
		if depth > 0 && math.Mod(a*float64(teeth)/(2*math.Pi), 1) > 0.5 {
			at -= depth
		}
		p.patch.set(int(math.Round(cx+at*math.Cos(a))), int(math.Round(cy+at*math.Sin(a))), s, 'o')
	}
}
