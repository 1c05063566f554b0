package picture

import "math"

// Gap is the air gap unrolled: the teeth of the stator in a row, and under it
// the poles of the rotor, so that one sees what lines up with what. A tooth of
// each coil end returns every pole pair.
type Gap struct {
	PolePairs int
	Ends      [4]string
	Poles     [4]Pole // what the teeth of each end turn to the rotor
	Rotor     float64 // electrical degrees from tooth 1, counting pitches; within one turn
	FieldDeg  float64 // electrical degrees
	HasField  bool
	Known     bool // which of its poles faces which tooth; every pole pair looks alike
	Marked    bool // which pole pair it is, too
}

// toothWide is the cells of one tooth and the gap beside it; PairWide those of a
// pole pair,
// four teeth.
const (
	toothWide = 4
	PairWide  = 4 * toothWide
)

// GapHeight is the number of lines a Gap takes.
const GapHeight = 4

// Pairs gives the number of pole pairs that w cells show.
func (p *Gap) Pairs(w int) int { return max(1, min(p.PolePairs, w/PairWide)) }

// Draw draws as many pole pairs as fit into w cells; if not all of the rotor
// fits, the stretch in which the rotor's first pole stands.
func (p *Gap) Draw(g *Grid, x, y, w int) {
	pairs := p.Pairs(w)
	// The pole pair that the rotor's first pole is nearest to stands in the
	// stretch shown; the last stretch ends with the last pole pair.
	at := int(math.Floor((p.Rotor+45)/360)) % p.PolePairs
	first := min(at/pairs*pairs, p.PolePairs-pairs)
	for i := range 4 * pairs {
		p.tooth(g, x+i*toothWide, y, i%4)
	}
	if p.HasField {
		p.field(g, x, y+3, pairs)
	}
	p.strip(g, x, y+2, pairs, first)
}

// tooth draws one tooth: its coil end above, then the tooth with the letter of
// its pole.
func (p *Gap) tooth(g *Grid, x, y, end int) {
	pole := p.Poles[end]
	if pole == NoPole {
		g.Write(x+1, y, p.Ends[end], In(Faint))
		g.Write(x+1, y+1, "▄▄", In(Faint))
		return
	}
	g.Write(x+1, y, p.Ends[end], Loud(pole.ink()))
	g.Write(x+1, y+1, pole.Letter()+pole.Letter(), Style{Fore: OnPole, Back: pole.ink(), Bold: true})
}

// cellDegrees are the electrical degrees of a cell.
const cellDegrees = 360.0 / PairWide

// field marks below each pole pair where the field draws a north pole to.
func (p *Gap) field(g *Grid, x, y, pairs int) {
	at := int(math.Floor(p.FieldDeg/cellDegrees + 2))
	for i := range pairs {
		g.Set(x+i*PairWide+at%PairWide, y, '△', Loud(Current))
	}
}

// strip draws the rotor's poles, each half a pitch long, with its letter, and
// below it a mark at the pole that faced tooth 1 at the start.
func (p *Gap) strip(g *Grid, x, y, pairs, first int) {
	if !p.Known {
		g.Line(x, y, pairs*PairWide, '·', In(Alert))
		g.Write(x+pairs*PairWide/2-7, y, " not known ", Loud(Alert))
		return
	}
	shift := p.Rotor - 360*float64(first)
	if turn := 360 * float64(p.PolePairs); shift > turn-180 {
		shift -= turn // just before the first tooth
	}
	for i := range pairs * PairWide {
		// The angle of the rotor, from the middle of its north pole, that lies
		// under each half of the cell; tooth A+ is centred on cell 2 − ½ … 2.
		left := p.pole((float64(i)-1.75)*cellDegrees - shift)
		right := p.pole((float64(i)-1.25)*cellDegrees - shift)
		switch {
		case left == right:
			mark := '▀'
			if left == SouthPole {
				mark = '▄'
			}
			g.Set(x+i, y, mark, Style{Fore: left.ink(), Back: left.ink()})
			if g.ASCII {
				mark = map[Pole]rune{NorthPole: '=', SouthPole: '-'}[left]
				g.Set(x+i, y, mark, In(left.ink()))
			}
		default:
			g.Set(x+i, y, '▌', Style{Fore: left.ink(), Back: right.ink()})
		}
	}
	first0 := -int(math.Ceil(shift/180)) - 1 // of the poles to the left of the stretch
	for k := first0; k <= first0+2*pairs+3; k++ {
		pole := NorthPole
		if k%2 != 0 {
			pole = SouthPole
		}
		at := int(math.Floor((shift+180*float64(k))/cellDegrees + 2))
		if at >= 0 && at < pairs*PairWide {
			g.Set(x+at, y, rune(pole.Letter()[0]), Style{Fore: OnPole, Back: pole.ink(), Bold: true})
		}
	}
	if !p.Marked {
		g.Write(x, y+1, "which tooth it stands under is not known", In(Alert))
		return
	}
	if at := int(math.Floor(shift/cellDegrees + 2)); at >= 0 && at < pairs*PairWide {
		g.Set(x+at, y+1, '▲', Loud(Text))
	}
}

// pole gives the pole of the rotor at an angle from the middle of a north pole.
func (p *Gap) pole(deg float64) Pole {
	if m := math.Mod(math.Mod(deg+90, 360)+360, 360); m < 180 {
		return NorthPole
	}
	return SouthPole
}
