package picture

import "math"

// Pole is the magnetic pole that a coil end turns to the rotor.
type Pole int8

const (
	NoPole    Pole = 0
	NorthPole Pole = 1
	SouthPole Pole = -1
)

// Letter gives N, S or "".
func (p Pole) Letter() string {
	switch p {
	case NorthPole:
		return "N"
	case SouthPole:
		return "S"
	}
	return ""
}

// ink gives a pole's colour; Faint for none.
func (p Pole) ink() Ink {
	switch p {
	case NorthPole:
		return North
	case SouthPole:
		return South
	}
	return Faint
}

// Dial is the rotor in the field, on one round of 360° electrical: 0° at the
// top, rising clockwise.
type Dial struct {
	Rotors   []float64 // electrical degrees; several when the rotor may be at any of them
	Sure     bool      // the one rotor shown is where it is
	FieldDeg float64
	Strength float64 // of the field: 0 none, 1 one phase, √2 two
	Ends     [4]string
	Poles    [4]Pole // what each end turns to the rotor, in field order

	patch dots
}

// Draw draws the dial, h cells high and 2h wide, with its labels outside:
// three cells to the left and right.
func (d *Dial) Draw(g *Grid, x, y, h int) {
	w := 2 * h
	d.patch.resize(w, h)
	c := newRound(&d.patch)
	c.rim(d.Poles)
	for i, deg := range d.Rotors {
		c.magnet(deg, d.Sure || len(d.Rotors) == 1, i)
	}
	if d.Strength > 0 {
		c.arrow(d.FieldDeg, d.Strength)
	}
	d.patch.onto(g, x, y)
	d.letters(g, x, y, c)
	d.labels(g, x, y, w, h)
}

// letters marks the ends of the magnet, so that they tell without colour.
func (d *Dial) letters(g *Grid, x, y int, c *round) {
	if len(d.Rotors) != 1 {
		g.Write(x+d.patch.w/2-3, y+d.patch.h/2, " not known ", Loud(Alert))
		return
	}
	for _, end := range []struct {
		words string
		deg   float64
		back  Ink
	}{{"N", d.Rotors[0], North}, {"S", d.Rotors[0] + 180, South}} {
		px, py := c.at(end.deg, 0.38*c.r)
		g.Write(x+int(px)/2, y+int(py)/4, end.words, Style{Fore: OnPole, Back: end.back, Bold: true})
	}
	if !d.Sure {
		g.Write(x+d.patch.w/2, y+d.patch.h/2, "?", Loud(Alert))
	}
}

func (d *Dial) labels(g *Grid, x, y, w, h int) {
	places := [4][2]int{{x + w/2 - 1, y}, {x + w, y + h/2}, {x + w/2 - 1, y + h - 1}, {x - 3, y + h/2}}
	for k, at := range places {
		s := In(Faint)
		words := d.Ends[k]
		p := d.Poles[k]
		if p != NoPole {
			s = Loud(p.ink())
			words += " "
		}
		if k == 3 {
			at[0] = x - Width(words+p.Letter()) - 1
		}
		end := g.Write(at[0], at[1], words, s)
		if p != NoPole {
			g.Write(end, at[1], p.Letter(), Style{Fore: OnPole, Back: p.ink(), Bold: true})
		}
	}
}

// round is a circle drawn in dots.
type round struct {
	d         *dots
	cx, cy, r float64 // centre and radius, in dots
}

func newRound(d *dots) *round {
	return &round{d: d, cx: float64(2*d.w-1) / 2, cy: float64(4*d.h-1) / 2, r: float64(4*d.h)/2 - 3.5}
}

// at gives the dot at an angle and a distance from the centre.
func (c *round) at(deg, r float64) (x, y float64) {
	sin, cos := math.Sincos(deg * math.Pi / 180)
	return c.cx + r*sin, c.cy - r*cos
}

func (c *round) dot(deg, r float64, s Style, plain rune) {
	x, y := c.at(deg, r)
	c.d.set(int(math.Round(x)), int(math.Round(y)), s, plain)
}

// rim draws the circle, marks every 45°, and a thick shoe at each coil end in
// the colour of its pole.
func (c *round) rim(poles [4]Pole) {
	step := 75 / c.r // a dot and a bit
	for deg := 0.0; deg < 360; deg += step {
		if c.r > 20 || int(deg/step)%2 == 0 {
			c.dot(deg, c.r, In(Faint), '.')
		}
	}
	for deg := 45.0; deg < 360; deg += 90 {
		for r := 0.92 * c.r; r < c.r; r++ {
			c.dot(deg, r, In(Faint), '.')
		}
	}
	for k, p := range poles {
		s, plain, deep := In(Faint), '.', 1.0
		if p != NoPole {
			s, plain, deep = Loud(p.ink()), '#', 2.0
		}
		for deg := -16.0; deg <= 16; deg += step / 2 {
			for r := c.r - deep; r <= c.r+1; r++ {
				c.dot(float64(90*k)+deg, r, s, plain)
			}
		}
	}
}

// magnetLong is half of the magnet's length: the field's arrow needs room beyond.
const magnetLong = 0.5

// magnet draws the rotor as a bar, its north half towards deg.
func (c *round) magnet(deg float64, solid bool, nth int) {
	const hub = 0.045 // the axle, left free
	long, wide := magnetLong*c.r, 0.13*c.r
	sin, cos := math.Sincos(deg * math.Pi / 180)
	reach := long + wide
	for y := math.Floor(c.cy - reach); y <= c.cy+reach; y++ {
		for x := math.Floor(c.cx - reach); x <= c.cx+reach; x++ {
			along := (x-c.cx)*sin - (y-c.cy)*cos
			across := (x-c.cx)*cos + (y-c.cy)*sin
			if math.Abs(along) > long || math.Abs(across) > wide || math.Hypot(along, across) < hub*c.r {
				continue
			}
			if !solid && (int(x)+int(y)+nth)%2 == 0 {
				continue // a rotor that only may be here is drawn thin
			}
			s, plain := In(North), 'N'
			if along < 0 {
				s, plain = In(South), 'S'
			}
			c.d.set(int(x), int(y), s, plain)
		}
	}
}

// arrow draws the field from beyond the magnet outward, the longer the
// stronger, with a head.
func (c *round) arrow(deg, strength float64) {
	const longest = 0.36
	from := (magnetLong + 0.05) * c.r
	to := from + math.Min(strength/math.Sqrt2, 1)*longest*c.r
	s := Loud(Current)
	for r := from; r <= to; r += 0.5 {
		c.dot(deg, r, s, '+')
		if c.r > 30 {
			c.dot(deg+0.8, r, s, '+')
		}
	}
	head := math.Max(4, 0.13*c.r)
	for back := 0.0; back <= head; back += 0.5 {
		half := back * 0.6
		for side := -half; side <= half; side += 0.5 {
			c.dot(deg+side/(to-back)*180/math.Pi, to-back, s, '+')
		}
	}
}
