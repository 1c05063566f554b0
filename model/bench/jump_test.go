package bench

import (
	"math"
	"math/big"
	"math/rand/v2"
	"testing"
	"time"

	"pgregory.net/rapid"

	"coilwalk/model/rotor"
	"coilwalk/sequence"
)

// A jump comes to where walking row by row comes to, for every kind of motor,
// wiring and table.
func TestJumpIsAWalk(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := random(t)
		seed := r.Uint64()
		jumper, walker := anyBench(rand.New(rand.NewPCG(seed, 1))), anyBench(rand.New(rand.NewPCG(seed, 1)))
		for range 3 {
			n := int64(r.IntN(601) - 300)
			if err := jumper.Jump(jumper.Read().Step + n); err != nil {
				t.Fatal(err)
			}
			for range n {
				walker.Next()
			}
			for range -n {
				walker.Back()
			}
			sameRest(t, n, jumper.Read(), walker.Read())
			if r.IntN(2) == 0 { // the next stretch starts where another wiring left the rotor
				p := one(r, sequence.Permutations())
				jumper.SetWiring(p)
				walker.SetWiring(p)
			}
		}
	})
}

func sameRest(t rapid.TB, n int64, got, want Reading) {
	t.Helper()
	if got.Step != want.Step || got.Row != want.Row || got.Coils != want.Coils || got.Outputs != want.Outputs || got.Balance != want.Balance || got.LagOK != want.LagOK || !near(got.Lag, want.Lag) || !sameWhere(got.Where, want.Where) {
		t.Fatalf("%d rows at once: %+v\none by one: %+v", n, got, want)
	}
}

// Every kind on every wiring, both ways, in one mode or another.
func TestJumpOnEveryWiring(t *testing.T) {
	for i, f := range kinds {
		for j, p := range sequence.Permutations() {
			for way := int64(-1); way <= 1; way += 2 {
				jumper, walker := wiredAs(f, p), wiredAs(f, p)
				mode := modes[(i+j)%len(modes)]
				jumper.SetMode(mode)
				walker.SetMode(mode)
				n := int64(20 + 13*((i+j)%5))
				jumper.Step(way * n)
				for range n {
					walker.Step(way)
				}
				sameRest(t, way*n, jumper.Read(), walker.Read())
			}
		}
	}
}

// angle gives the electrical angle over all pitches, exact.
func angle(p rotor.Position) *big.Rat {
	deg := new(big.Rat).Mul(new(big.Rat).SetInt64(p.Pitch), big.NewRat(360, 1))
	return deg.Add(deg, new(big.Rat).SetFloat64(p.Deg))
}

func off(a, b *big.Rat) float64 {
	f, _ := new(big.Rat).Sub(a, b).Float64()
	return f
}

// Rightly wired, the rotor is where the order commands it after 10¹⁵ rows, less
// the load's lag; angle and count of pitches are exact.
func TestFarJumpComesWhereTheOrderCommands(t *testing.T) {
	fifth, err := sequence.Micro(5, 0)
	if err != nil {
		t.Fatal(err)
	}
	for _, mode := range append(modes, fifth) {
		for _, load := range []float64{0, 0.3, -0.3} {
			for _, to := range []int64{far, -far, far + 1, far - 5, -far - 3, 4*far + 7, -4*far - 7} {
				b := New(torques{load: load}.motor())
				b.SetMode(mode)
				b.Restart()
				if err := b.Jump(to); err != nil {
					t.Fatal(err)
				}
				r := b.Read()
				p, ok := r.Where.Known()
				lag := sequence.Between(p.Deg, r.FieldDeg)
				behind := off(mode.Order().Degrees(to), angle(p))
				if !ok || r.Step != to || !near(behind, lag) || !near(r.Lag, lag) || (lag > 0.01) != (load > 0) || (lag < -0.01) != (load < 0) {
					t.Errorf("%s, load %v, to %d: at %v (step %d), %v° behind the order and %v° behind the field", mode.Title, load, to, r.Where, r.Step, behind, lag)
				}
			}
		}
	}
}

// On any wiring a far jump is what two walked cycles promise: the same rests,
// and for each cycle the same whole pitches on. (Under a load even a wrong wiring
// makes way: met from near 180° away, the rotor falls with the load.)
func TestFarJumpOnEveryWiring(t *testing.T) {
	const settled, odd = 20, 3 // cycles by when the rests repeat, and rows over
	for _, f := range []torques{{friction: 0.1}, {detent: 0.1, friction: 0.05}, {load: 0.1, friction: 0.15}} {
		for _, p := range sequence.Permutations() {
			for _, way := range []int64{1, -1} {
				walk := func(rows int64) rotor.Position {
					b := wiredAs(f, p)
					for range rows {
						b.Step(way)
					}
					at, ok := b.Read().Where.Known()
					if !ok {
						t.Fatalf("%+v on %v: %v", f, p, b.Read().Where)
					}
					return at
				}
				first, next := walk(8*settled+odd), walk(8*settled+odd+8)
				pitches := math.Round(next.From(first) / 360)
				if !near(next.From(first), 360*pitches) || math.Abs(pitches) > 1 || f.load == 0 && pitches != float64(way*int64(p.Turns())) {
					t.Fatalf("%+v on %v: a cycle turns the rotor by %v°", f, p, next.From(first))
				}
				const cycles = far / 8
				b := wiredAs(f, p)
				if err := b.Jump(way * (8*cycles + odd)); err != nil {
					t.Fatal(err)
				}
				want := first
				want.Pitch += int64(pitches) * (cycles - settled)
				if got, ok := b.Read().Where.Known(); !ok || math.Abs(off(angle(got), angle(want))) > 1e-6 {
					t.Errorf("%+v on %v, way %d: %v (%v), want %v", f, p, way, got, ok, want)
				}
			}
		}
	}
}

func wiredAs(f torques, p sequence.Permutation) *Bench {
	b := New(f.motor())
	b.SetWiring(p)
	b.Restart()
	return b
}

// A jump by 10¹⁵ costs a few cycles walked row by row. The best of some tries
// counts, for the machine may be busy.
func TestFarJumpIsFast(t *testing.T) {
	fine, err := sequence.Micro(64, 0)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range kinds {
		for _, mode := range append(modes, fine) {
			for _, p := range []sequence.Permutation{sequence.Straight, sequence.Straight.Swapped(1, 2), sequence.Straight.Swapped(0, 2)} {
				cycle, jump := time.Hour, time.Hour
				for range 3 {
					b := wiredAs(f, p)
					b.SetMode(mode)
					start := time.Now()
					b.Step(int64(mode.Rows()) - 1)
					cycle = min(cycle, time.Since(start))
					start = time.Now()
					if err := b.Jump(far); err != nil {
						t.Fatal(err)
					}
					jump = min(jump, time.Since(start))
				}
				if jump > 40*cycle+10*time.Millisecond {
					t.Errorf("%+v, %s, on %v: a jump %v, one cycle %v", f, mode.Title, p, jump, cycle)
				}
			}
		}
	}
}

// A step out of reach is refused, and nothing is done.
func TestJumpOutOfReach(t *testing.T) {
	b := New(torques{}.motor())
	b.Step(5)
	before := b.Read()
	for _, to := range []int64{math.MaxInt64, math.MinInt64, math.MaxInt64/2048 + 1, -math.MaxInt64/2048 - 1} {
		if err := b.Jump(to); err == nil || !equal(b.Read(), before) {
			t.Errorf("to %d: %v, %+v", to, err, b.Read())
		}
	}
	for _, to := range []int64{math.MaxInt64 / 2048, -math.MaxInt64 / 2048} {
		if err := b.Jump(to); err != nil || b.Read().Step != to {
			t.Errorf("to %d: %v, at %d", to, err, b.Read().Step)
		}
	}
	if err := b.Jump(0); err != nil || b.Read().Step != 0 || !near(known(t, b), 0) {
		t.Errorf("and home: %v, %+v", err, b.Read())
	}
}

// Turned is what the whole jump turned the rotor.
func TestAJumpTurns(t *testing.T) {
	for _, n := range []int64{1, 7, 100, -100, 8 * 1000, -8*1000 - 4} {
		b := New(torques{}.motor())
		b.Step(2)
		b.Step(n)
		if r := b.Read(); !r.TurnedOK || !near(r.Turned, 45*float64(n)) {
			t.Errorf("%d half steps turned %v°, %v", n, r.Turned, r.TurnedOK)
		}
	}
	b := New(torques{load: 1.2}.motor()) // adrift under one phase: nobody knows
	b.Step(8)
	if r := b.Read(); r.TurnedOK || r.Turned != 0 || r.LagOK || len(r.Where.Places) != 0 || r.Balance != rotor.Adrift {
		t.Errorf("adrift: %+v", r)
	}
}
