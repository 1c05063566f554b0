package bench

import (
	"math"
	"math/big"
	"testing"

	"pgregory.net/rapid"

	"coilwalk/sequence"
)

// A change of mode goes to the nearest row: no row of the new order lies nearer
// to the old field, and the rotor goes no farther than the field does.
func TestModeChangeKeepsTheNearestRow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := random(t)
		m := torques{}.motor()
		m.Wiring = one(r, sequence.Permutations()) // as stated, so it is right
		b := New(m)
		b.SetMode(one(r, modes))
		b.Restart()
		b.Step(int64(r.IntN(81) - 40))
		for range 3 {
			before, at, mode := b.Read(), known(t, b), one(r, modes)
			b.SetMode(mode)
			after := b.Read()
			turned := sequence.Between(before.FieldDeg, after.FieldDeg)
			for k := range int64(mode.Rows()) {
				deg, _ := mode.Order().Row(k).Field().Degrees()
				if off := math.Abs(sequence.Between(before.FieldDeg, deg)); off < math.Abs(turned)-1e-9 {
					t.Fatalf("from %v° to %v° in %s, though %v° is nearer", before.FieldDeg, after.FieldDeg, mode.Title, deg)
				}
			}
			if got, ok := after.Order.Mode(); !ok || got.Title != mode.Title || after.Table {
				t.Fatalf("the mode is %v", got.Title)
			}
			if !near(known(t, b)-at, turned) || !near(after.Turned, turned) {
				t.Fatalf("the field goes %v°, the rotor %v°", turned, known(t, b)-at)
			}
			if after.Way != before.Way || after.Wiring != before.Wiring {
				t.Fatalf("way or wiring changed: %+v", after)
			}
		}
	})
}

// Rows that two modes share stay as they are, in whatever cycle, also 10¹⁵ rows
// out; so does the electrical angle over all pitches.
func TestModeChangeOnASharedRow(t *testing.T) {
	for _, cycles := range []int64{0, 1, -1, 1000, far / 16, -far / 16} {
		for quarter := range int64(4) {
			for _, from := range []sequence.Mode{sequence.Wave, sequence.Half, divided} {
				for _, to := range []sequence.Mode{sequence.Wave, sequence.Half, divided} {
					b := fresh(from)
					step := 4*cycles + quarter
					b.Step(step * int64(from.PerStep))
					before := b.Read()
					b.SetMode(to)
					after := b.Read()
					if after.Step != step*int64(to.PerStep) || after.Coils != before.Coils || !sameWhere(after.Where, before.Where) || after.Turned != 0 {
						t.Errorf("%s to %s at full step %d: step %d, %v; was %v", from.Title, to.Title, step, after.Step, after.Coils, before.Coils)
					}
				}
			}
		}
	}
}

// What the order commands at the shaft, by fractions: rows ÷ rows per turn.
func TestCommanded(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := random(t)
		m := torques{}.motor()
		m.PolePairs = 1 + r.IntN(100)
		m.Train.Nominal = big.NewRat(1+r.Int64N(5000), 1+r.Int64N(500))
		b := New(m)
		mode := one(r, modes)
		b.SetMode(mode)
		b.Restart()
		step := r.Int64N(201) - 100
		if r.IntN(2) == 0 {
			step = r.Int64N(2*far) - far
		}
		if err := b.Jump(step); err != nil {
			t.Fatal(err)
		}
		got := b.Commanded()
		want := new(big.Rat).SetInt64(step)
		want.Quo(want, m.StepsPerShaftTurn(mode))
		if got == nil || got.Cmp(want) != 0 {
			t.Fatalf("%s, step %d, %d pole pairs, ratio %v: %v turns, want %v", mode.Title, step, m.PolePairs, m.Train.Nominal, got, want)
		}
		if want, _ := m.Train.Nominal.Float64(); b.Ratio() != want {
			t.Fatalf("ratio %v, want %v", b.Ratio(), want)
		}
		// The rotor, right wired and unloaded, brings the shaft there.
		p, ok := b.Read().Where.Known()
		first, _ := mode.Order().Row(0).Field().Degrees()
		turned := new(big.Rat).SetFloat64(first)
		turned.Quo(turned, new(big.Rat).Mul(big.NewRat(int64(m.PolePairs), 1), m.Train.Nominal))
		turned.Sub(p.ShaftExact(m.PolePairs, m.Train.Nominal), turned)
		if off(turned, new(big.Rat).Mul(want, big.NewRat(360, 1))) > 1e-6 || !ok {
			t.Fatalf("the shaft is at %v°, commanded %v turns", turned, want)
		}
		if shaft, _ := p.ShaftExact(m.PolePairs, m.Train.Nominal).Float64(); b.Shaft(p) != shaft {
			t.Fatalf("the shaft is at %v°, want %v°", b.Shaft(p), shaft)
		}
	})
}

// Reading the order's command changes nothing.
func TestCommandedTwice(t *testing.T) {
	b := New(torques{}.motor())
	b.Step(5)
	first := b.Commanded().RatString()
	if again := b.Commanded().RatString(); again != first || first != "5/64" {
		t.Errorf("%s turns, then %s; want 5/64", first, again)
	}
}
