package rotor

import (
	"math"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"

	"coilwalk/sequence"
)

// The rows of wave drive, as the fields they set up.
var (
	aPlus  = sequence.Field{A: 1}
	bPlus  = sequence.Field{B: 1}
	aMinus = sequence.Field{A: -1}
	bMinus = sequence.Field{B: -1}
	both   = sequence.Field{A: 1, B: 1} // A+ and B+, at 45°
	off    = sequence.Field{}
)

// tenth is how well a place is checked where nothing better is said: a tenth
// of what separates two places (Position.same).
const tenth = 1e-7

func near(a, b, within float64) bool { return math.Abs(a-b) <= within }

// total gives an angle in electrical degrees over all pitches.
func total(p Position) float64 { return float64(p.Pitch)*360 + p.Deg }

// position is the other way round.
func position(deg float64) Position {
	pitch := math.Floor(deg / 360)
	return Position{Pitch: int64(pitch), Deg: deg - 360*pitch}
}

// restFrom gives the one place where the rotor rests, over all pitches.
func restFrom(t *testing.T, m Machine, f sequence.Field, deg float64) (float64, Balance) {
	t.Helper()
	places, balance := m.Rest(f, position(deg))
	if len(places) != 1 {
		t.Fatalf("%+v under %v from %v°: %d places, balance %d; one is wanted", m, f, deg, len(places), balance)
	}
	if d := places[0].Deg; d < 0 || d >= 360 {
		t.Fatalf("%+v under %v from %v°: at %v° within the pitch", m, f, deg, d)
	}
	return total(places[0]), balance
}

// random gives numbers that are even over a range: those of rapid crowd about
// zero, where rests are special.
func random(t *rapid.T) *rand.Rand {
	return rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), rapid.Uint64().Draw(t, "seed, too")))
}

// anyMachine gives a motor of which each figure may be missing.
func anyMachine(r *rand.Rand) Machine {
	m := Machine{PolePairs: 1 + r.IntN(100)}
	if r.IntN(2) == 0 {
		m.Detent = r.Float64() * 0.6
	}
	if r.IntN(2) == 0 {
		m.DetentShift = 180
	}
	if r.IntN(2) == 0 {
		m.Friction = r.Float64() * 0.5
	}
	if r.IntN(2) == 0 {
		m.Load = r.Float64()*2.4 - 1.2
	}
	return m
}

// anyField gives a row of whole currents, any other field, or none.
func anyField(r *rand.Rand) sequence.Field {
	switch r.IntN(6) {
	case 0:
		return off
	case 1, 2:
		return sequence.Field{A: float64(r.IntN(3) - 1), B: float64(r.IntN(3) - 1)}
	}
	return sequence.Field{A: r.Float64()*2 - 1, B: r.Float64()*2 - 1}
}
