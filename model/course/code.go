package course

import "coilwalk/sequence"

// What a row does to the field: the eighths of an electrical turn are counted
// from A+ alone, forward, so that one is a half step and two are a full one.
const (
	eighths = 8
	off     = int8(8)  // no output is on
	dead    = int8(9)  // both ends of a phase are on
	lost    = int8(10) // a level is not known
)

// codes says for each of the 16 rows of four outputs what it does.
type codes [16]int8

// codesOf makes the table for outputs that drive these coil ends.
func codesOf(wiring sequence.Permutation, activeLow bool) (c codes) {
	for levels := range c {
		on := levels
		if activeLow {
			on ^= 0xf
		}
		var row sequence.Row
		for k := range row {
			if on>>k&1 == 1 {
				row[wiring[k]] = 1
			}
		}
		deg, ok := row.Field().Degrees()
		switch {
		case row == sequence.Row{}:
			c[levels] = off
		case row.BothOn(0) || row.BothOn(1):
			c[levels] = dead
		case ok:
			c[levels] = int8(deg / 45)
		}
	}
	return c
}

// of gives what a row does.
func (c *codes) of(r Row) int8 {
	if r.Flags&unknown != 0 {
		return lost
	}
	return c[r.Levels&0xf]
}

// step gives the way from one field to another in eighths, −3 to 4.
func step(from, to int8) int8 {
	s := (to - from) & 7
	if s > 4 {
		s -= 8
	}
	return s
}

// gait is a way of going: rows of one mode, in one direction.
type gait struct {
	size   int8 // eighths a row: 1 half step, 2 full step or wave drive
	parity int8 // of full step's and wave drive's fields: 1, two coils on; 0, one
	way    int8 // 1 forward, −1 in reverse; 0 not known
}

func (g gait) step() int8 { return g.size * g.way }

// mode gives its step mode; ok is false where too little was seen to tell.
func (g gait) mode() (m sequence.Mode, ok bool) {
	switch {
	case g.size == 1:
		return sequence.Half, true
	case g.size == 2 && g.parity == 1:
		return sequence.Full, true
	case g.size == 2:
		return sequence.Wave, true
	}
	return sequence.Mode{}, false
}

// gaits that rows can have.
var gaits = [...]gait{{1, 0, 1}, {1, 0, -1}, {2, 0, 1}, {2, 0, -1}, {2, 1, 1}, {2, 1, -1}}

// holds says whether a row with this field can be of the gait.
func (g gait) holds(field int8) bool { return field < eighths && (g.size == 1 || field&1 == g.parity) }

// wiringOf gives two pairs of outputs, from 0, their coil ends.
func wiringOf(coils [2][2]int) (p sequence.Permutation) {
	p[coils[0][0]], p[coils[0][1]] = sequence.APlus, sequence.AMinus
	p[coils[1][0]], p[coils[1][1]] = sequence.BPlus, sequence.BMinus
	return p
}

// pairings are the three ways to make two coils of four outputs, as in field
// order first.
var pairings = [3][2][2]int{{{0, 2}, {1, 3}}, {{0, 1}, {2, 3}}, {{0, 3}, {1, 2}}}
