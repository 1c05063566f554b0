package picture

import "strconv"

// Part is one of those that a whole goes to.
type Part struct {
	Name, Value string
	Share       float64 // of the whole, 0 to 1
	Ink         Ink
}

// Shares is a whole and where it goes: a tree of bars, told by their words as well.
type Shares struct {
	Name, Value string
	Parts       []Part
}

// nameSpace and valueSpace are the room for the words before a bar.
const (
	nameSpace  = 12
	valueSpace = 9
)

// Draw draws the whole on the first line and a part on each that follows, in w × h
// cells; parts that have no line left are left out.
func (s *Shares) Draw(g *Grid, x, y, w, h int) {
	room := w - nameSpace - valueSpace - 6
	if room < 4 || h < 2 {
		return
	}
	at := x + nameSpace + valueSpace + 1
	g.Write(x, y, s.Name, In(Faint))
	g.WriteEnd(at-1, y, s.Value, Loud(Strong))
	g.Line(at, y, room, '━', In(Strong))
	for k, p := range s.Parts {
		line := y + 1 + k
		if k+1 >= h {
			return
		}
		branch := "├ "
		if k == len(s.Parts)-1 || k+2 >= h {
			branch = "└ "
		}
		g.Write(g.Write(x+1, line, branch, In(Faint)), line, p.Name, In(Text))
		g.WriteEnd(at-1, line, p.Value, In(Text))
		filled := int(p.Share*float64(room) + 0.5)
		g.Line(at, line, filled, '█', In(p.Ink))
		if filled == 0 {
			g.Set(at, line, '▏', In(p.Ink))
		}
		g.WriteEnd(x+w, line, strconv.Itoa(int(100*p.Share+0.5))+" %", In(Faint))
	}
}
