package picture

// dots is a patch of a grid drawn finer than its cells: 2 × 4 dots a cell as
// braille, or one mark a cell in ASCII. A cell has the colour of its last dot.
type dots struct {
	w, h  int // cells
	bits  []uint8
	ink   []Style
	plain []rune // in ASCII: the mark of a cell with dots
}

func (d *dots) resize(w, h int) {
	d.w, d.h = w, h
	if cap(d.bits) < w*h {
		d.bits, d.ink, d.plain = make([]uint8, w*h), make([]Style, w*h), make([]rune, w*h)
	}
	d.bits, d.ink, d.plain = d.bits[:w*h], d.ink[:w*h], d.plain[:w*h]
	clear(d.bits)
}

// brailleBit is the bit of each dot, by row and column within the cell
// (Unicode 1.1, block Braille Patterns, U+2800 on).
var brailleBit = [4][2]uint8{{0x01, 0x08}, {0x02, 0x10}, {0x04, 0x20}, {0x40, 0x80}}

func (d *dots) set(x, y int, s Style, plain rune) {
	if x < 0 || y < 0 || x >= 2*d.w || y >= 4*d.h {
		return
	}
	i := y/4*d.w + x/2
	d.bits[i] |= brailleBit[y%4][x%2]
	d.ink[i] = s
	d.plain[i] = plain
}

// onto puts the dots upon a grid; cells without dots are left as they are.
func (d *dots) onto(g *Grid, x, y int) {
	for j := range d.h {
		for i := range d.w {
			k := j*d.w + i
			if d.bits[k] == 0 {
				continue
			}
			mark := rune(0x2800) + rune(d.bits[k])
			if g.ASCII {
				mark = d.plain[k]
			}
			g.Set(x+i, y+j, mark, d.ink[k])
		}
	}
}
