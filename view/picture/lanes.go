package picture

// Stretch is what a line of a recording does within one cell of the screen.
type Stretch uint8

const (
	Blank  Stretch = iota // nothing was recorded
	Low                   // all the time
	High                  // all the time
	Rise                  // once, from low to high
	Fall                  // once
	Pulse                 // away and back, or some edges
	Dense                 // more edges than can be told apart
	Unsure                // neither high nor low
)

// Lane is one recorded line over the width of the screen.
type Lane struct {
	Label string
	Ink   Ink
	Cells []Stretch
}

// Lanes are recorded lines under each other: time runs to the right, the cursor
// stands in one column.
type Lanes struct {
	Lines  []Lane
	Cursor int // column; −1 for none
	Tall   bool
}

// Height gives the cells that the lanes take.
func (l *Lanes) Height() int { return len(l.Lines) * l.each() }

func (l *Lanes) each() int {
	if l.Tall {
		return 2
	}
	return 1
}

// What a stretch looks like on one line, and on the upper and lower of two.
var (
	oneLine   = [...]rune{Blank: ' ', Low: '▁', High: '▔', Rise: '╱', Fall: '╲', Pulse: '│', Dense: '▒', Unsure: '·'}
	upperLine = [...]rune{Blank: ' ', Low: ' ', High: '─', Rise: '┌', Fall: '┐', Pulse: '┬', Dense: '▒', Unsure: '·'}
	lowerLine = [...]rune{Blank: ' ', Low: '─', High: ' ', Rise: '┘', Fall: '└', Pulse: '┴', Dense: '▒', Unsure: '·'}
	asciiLine = [...]rune{Blank: ' ', Low: '_', High: '=', Rise: '/', Fall: '\\', Pulse: '|', Dense: '#', Unsure: '.'}
)

// Draw draws the lanes from x on, their labels before it.
func (l *Lanes) Draw(g *Grid, x, y int) {
	for k, lane := range l.Lines {
		top := y + k*l.each()
		g.Write(1, top+l.each()-1, tail(lane.Label, x-2, g.ASCII), Loud(lane.Ink))
		for i, s := range lane.Cells {
			style := In(lane.Ink)
			if s == Low || s == Unsure || s == Blank {
				style = In(Faint)
			}
			switch {
			case g.ASCII && l.Tall:
				g.Set(x+i, top+1, asciiLine[s], style)
			case g.ASCII:
				g.Set(x+i, top, asciiLine[s], style)
			case l.Tall:
				g.Set(x+i, top, upperLine[s], style)
				g.Set(x+i, top+1, lowerLine[s], style)
			default:
				g.Set(x+i, top, oneLine[s], style)
			}
		}
	}
	if l.Cursor >= 0 {
		g.Back(x+l.Cursor, y, 1, l.Height(), Band)
	}
}

// tail gives the end of a name that is too long: what tells channels apart.
func tail(name string, w int, ascii bool) string {
	if Width(name) <= w {
		return name
	}
	letters := []rune(name)
	for len(letters) > 0 && Width(string(letters)) > w-1 {
		letters = letters[1:]
	}
	if ascii {
		return "~" + string(letters)
	}
	return "…" + string(letters)
}
