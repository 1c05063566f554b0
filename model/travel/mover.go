package travel

import (
	"math/big"

	"coilwalk/sequence"
)

// Mover turns moves of the shaft into whole rows, one after another, and never
// drifts: what is asked is summed up exactly, and each move sends what is
// missing, to the nearest row. On a reversal it adds the rows that take up the
// play of the train.
type Mover struct {
	perTurn *big.Rat // rows to a turn of the shaft
	play    *big.Rat // rows that a reversal loses
	wanted  *big.Rat // rows, of all moves so far
	sent    *big.Int // without those for the play
	extra   *big.Int // rows sent for the play, signed
	way     sequence.Direction
}

// NewMover begins at rest, with the play taken up forward. Backlash is in turns
// of the shaft.
func NewMover(rowsPerTurn, backlashTurns *big.Rat) *Mover {
	m := &Mover{perTurn: rowsPerTurn, play: new(big.Rat), wanted: new(big.Rat), sent: new(big.Int), extra: new(big.Int), way: sequence.Forward}
	if backlashTurns != nil {
		m.play.Mul(backlashTurns, rowsPerTurn)
	}
	return m
}

// After says which way the move before went, and with it on which side the play
// is.
func (m *Mover) After(way sequence.Direction) {
	m.way = way
	m.extra.SetInt64(0)
	if way == sequence.Reverse {
		m.extra.Neg(nearest(m.play))
	}
}

// Sent is one move in rows.
type Sent struct {
	Rows *big.Int // to send, signed: forward above zero; those for the play among them
	Play *big.Int // those that only take up the play, signed
	Off  *big.Rat // where the shaft then is off what was asked for in all, in rows: at most a half either way
}

// Turn moves the shaft by an angle in turns, exact.
func (m *Mover) Turn(turns *big.Rat) Sent {
	m.wanted.Add(m.wanted, new(big.Rat).Mul(turns, m.perTurn))
	whole := nearest(m.wanted)
	rows := new(big.Int).Sub(whole, m.sent)
	m.sent.Set(whole)
	way := sequence.Direction(rows.Sign())
	out := Sent{Rows: rows, Play: new(big.Int)}
	if way != sequence.Standing && way != m.way {
		// The play is counted from the start: forward it is taken up, in reverse
		// all of it has been crossed. So it is rounded once, and returns to nothing.
		all := new(big.Int)
		if way == sequence.Reverse {
			all = nearest(m.play)
		}
		want := new(big.Int).Neg(all)
		out.Play.Sub(want, m.extra)
		m.extra.Set(want)
		m.way = way
	}
	out.Rows = new(big.Int).Add(rows, out.Play)
	out.Off = new(big.Rat).Sub(new(big.Rat).SetInt(whole), m.wanted)
	return out
}

// nearest rounds to the nearest whole number, halves up.
func nearest(r *big.Rat) *big.Int {
	twice := new(big.Int).Lsh(r.Num(), 1)
	twice.Add(twice, r.Denom())
	return twice.Div(twice, new(big.Int).Lsh(r.Denom(), 1))
}
