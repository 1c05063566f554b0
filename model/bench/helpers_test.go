package bench

import (
	"math"
	"math/rand/v2"
	"reflect"
	"slices"

	"pgregory.net/rapid"

	"coilwalk/model/motor"
	"coilwalk/model/quantity"
	"coilwalk/model/rotor"
	"coilwalk/sequence"
)

const far = 1_000_000_000_000_000 // 10¹⁵ rows

// torques of a made-up motor, with one phase on holding 1 N·m.
type torques struct {
	detent, friction, load float64
	at45                   bool
}

func (f torques) motor() motor.Motor {
	return motor.Motor{
		Name:      "made-up",
		Winding:   motor.Winding{Ends: [4]motor.Lead{"a+", "b+", "a-", "b-"}, Taps: [2]motor.Lead{"a0", "b0"}},
		PolePairs: 8,
		Drive:     sequence.Unipolar,
		Wiring:    sequence.Straight,
		Figures: motor.Figures{OnePhase: quantity.NewtonMetres(1), Detent: quantity.NewtonMetres(f.detent), DetentAt45: f.at45,
			Friction: quantity.NewtonMetres(f.friction), Load: quantity.NewtonMetres(f.load)},
	}
}

// kinds are motors that behave differently.
var kinds = []torques{
	{},
	{friction: 0.1},
	{detent: 0.1},
	{detent: 0.1, at45: true},
	{load: 0.2},
	{load: -0.2},
	{detent: 0.08, friction: 0.05, load: 0.1},
	{detent: 0.2, load: 0.3},
	{load: 1.2}, // adrift under one phase
}

// random gives numbers that are even over a range.
func random(t *rapid.T) *rand.Rand {
	return rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), rapid.Uint64().Draw(t, "seed, too")))
}

func one[T any](r *rand.Rand, of []T) T { return of[r.IntN(len(of))] }

var divided = func() sequence.Mode {
	m, err := sequence.Micro(4, 0)
	if err != nil {
		panic(err)
	}
	return m
}()

// modes are the step modes and a microstep.
var modes = append(slices.Clone(sequence.Modes[:]), divided)

// anyTable gives rows of one's own, as a slip of the hand makes them.
func anyTable(r *rand.Rand) []sequence.Row {
	rows := make([]sequence.Row, 1+r.IntN(8))
	for k := range rows {
		for e := range rows[k] {
			rows[k][e] = float64(r.IntN(2))
		}
	}
	return rows
}

// anyBench gives a sitting with any kind of motor, on any wiring, in any order.
func anyBench(r *rand.Rand) *Bench {
	m := one(r, kinds).motor()
	m.Wiring = one(r, sequence.Permutations())
	b := New(m)
	if r.IntN(2) == 0 {
		b.SetWiring(one(r, sequence.Permutations()))
	}
	switch r.IntN(6) {
	case 0:
		b.SetTable(anyTable(r), b.Read().Wiring)
	case 1:
	default:
		b.SetMode(one(r, modes))
	}
	b.Restart()
	return b
}

// total gives an angle in electrical degrees over all pitches.
func total(p rotor.Position) float64 { return p.From(rotor.Position{}) }

// known gives the rotor's angle, where it must be known.
func known(t rapid.TB, b *Bench) float64 {
	t.Helper()
	p, ok := b.Read().Where.Known()
	if !ok {
		t.Fatalf("it is not known where the rotor is: %+v", b.Read())
	}
	return total(p)
}

// sameWhere says whether the rotor may be in the same places, each to 10⁻⁶°.
func sameWhere(a, b rotor.Whereabouts) bool {
	pitches, ok := a.Apart(b)
	return ok && pitches == 0
}

func near(a, b float64) bool { return math.Abs(a-b) < 1e-6 }

// equal says whether two readings are the same to the last bit. A step mode
// holds a function, so orders are compared by what they do.
func equal(a, b Reading) bool {
	if !sameOrder(a.Order, b.Order) {
		return false
	}
	a.Order, b.Order = sequence.Order{}, sequence.Order{}
	return reflect.DeepEqual(a, b)
}

func sameOrder(a, b sequence.Order) bool {
	m, isMode := a.Mode()
	n, isToo := b.Mode()
	if isMode != isToo || m.Title != n.Title || a.Len() != b.Len() {
		return false
	}
	for k := range int64(a.Len()) {
		if a.Row(k) != b.Row(k) {
			return false
		}
	}
	return true
}
