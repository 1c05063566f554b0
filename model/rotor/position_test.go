package rotor

import (
	"math"
	"math/big"
	"testing"

	"pgregory.net/rapid"
)

const far = 1_000_000_000_000_000 // 10¹⁵ pitches

// exact gives the electrical angle over all pitches, without rounding.
func exact(p Position) *big.Rat {
	deg := new(big.Rat).Mul(new(big.Rat).SetInt64(p.Pitch), big.NewRat(360, 1))
	return deg.Add(deg, new(big.Rat).SetFloat64(p.Deg))
}

func TestMovedAtTheSeam(t *testing.T) {
	for _, c := range []struct {
		from Position
		by   float64
		want Position
	}{
		{Position{0, 350}, 10, Position{1, 0}},
		{Position{0, 350}, 20, Position{1, 10}},
		{Position{0, 10}, -10, Position{0, 0}},
		{Position{0, 10}, -20, Position{-1, 350}},
		{Position{-1, 350}, 20, Position{0, 10}},
		{Position{0, 0}, -360, Position{-1, 0}},
		{Position{0, 0}, 720, Position{2, 0}},
		{Position{3, 180}, -1260, Position{0, 0}},
		{Position{0, 0}, -1e-20, Position{0, 0}}, // rounds up to the seam, and is not 360°
		{Position{far, 359}, 2, Position{far + 1, 1}},
		{Position{-far, 1}, -2, Position{-far - 1, 359}},
	} {
		if got := c.from.moved(c.by); got != c.want {
			t.Errorf("%v moved by %v° is at %v, want %v", c.from, c.by, got, c.want)
		}
	}
}

// Moving adds angles, within the rounding of one angle, and From gives it back.
func TestMovedIsExactFarOut(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := random(t)
		p := Position{Pitch: r.Int64N(2*far+1) - far, Deg: r.Float64() * 360}
		if r.IntN(4) == 0 {
			p.Deg = 360 * math.Pow(2, -float64(r.IntN(80)))
			p = Position{p.Pitch, 0}.moved(p.Deg)
		}
		by := (r.Float64()*2 - 1) * 1000
		q := p.moved(by)
		if q.Deg < 0 || q.Deg >= 360 {
			t.Fatalf("%v moved by %v° is at %v", p, by, q)
		}
		want := new(big.Rat).Add(exact(p), new(big.Rat).SetFloat64(by))
		if off, _ := want.Sub(want, exact(q)).Float64(); math.Abs(off) > 1e-12*1000 {
			t.Fatalf("%v moved by %v° is at %v, off by %v°", p, by, q, off)
		}
		if got := q.From(p); !near(got, by, 1e-9) {
			t.Fatalf("%v lies %v° from %v, moved by %v°", q, got, p, by)
		}
	})
}

// Turns against division with remainder in whole numbers.
func TestTurns(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := random(t)
		n := 1 + r.IntN(500)
		p := Position{Pitch: r.Int64N(2*far+1) - far, Deg: r.Float64() * 359}
		if r.IntN(2) == 0 {
			p.Pitch = r.Int64N(41) - 20
		}
		whole, within := p.Turns(n)
		q, rest := new(big.Int).DivMod(big.NewInt(p.Pitch), big.NewInt(int64(n)), new(big.Int)) // Euclid: the rest is ≥ 0
		want := (float64(rest.Int64())*360 + p.Deg) / float64(n)
		if whole != q.Int64() || !near(within, want, 1e-10) || within < 0 || within >= 360 {
			t.Fatalf("%v with %d pole pairs: %d turns and %v°, want %v and %v°", p, n, whole, within, q, want)
		}
	})
}

func TestTurnsByHand(t *testing.T) {
	for _, c := range []struct {
		p      Position
		pairs  int
		whole  int64
		within float64
	}{
		{Position{0, 0}, 8, 0, 0}, {Position{7, 180}, 8, 0, 337.5}, {Position{8, 0}, 8, 1, 0},
		{Position{-1, 0}, 8, -1, 315}, {Position{-8, 0}, 8, -1, 0}, {Position{-9, 90}, 8, -2, 326.25},
		{Position{25, 0}, 50, 0, 180}, {Position{5, 45}, 1, 5, 45}, {Position{-5, 45}, 1, -5, 45},
	} {
		if whole, within := c.p.Turns(c.pairs); whole != c.whole || within != c.within {
			t.Errorf("%v with %d pole pairs: %d turns and %v°, want %d and %v°", c.p, c.pairs, whole, within, c.whole, c.within)
		}
		if got, want := c.p.Rotor(c.pairs), 360*float64(c.whole)+c.within; !near(got, want, 1e-9) {
			t.Errorf("%v with %d pole pairs: at %v° over all turns, want %v°", c.p, c.pairs, got, want)
		}
	}
}

// One turn of the shaft is ratio turns of the rotor, pairs pitches each.
func TestShaft(t *testing.T) {
	ratio := big.NewRat(25792, 405)
	for _, c := range []struct {
		p     Position
		ratio *big.Rat
		want  string // degrees, a fraction
	}{
		{Position{8, 0}, big.NewRat(1, 1), "360"},
		{Position{8 * 64, 0}, big.NewRat(64, 1), "360"},
		{Position{-4, 0}, big.NewRat(64, 1), "-45/16"},
		{Position{1, 90}, big.NewRat(1, 2), "225/2"},
		{Position{0, 0}, ratio, "0"},
		{Position{8 * 25792, 0}, ratio, "145800"}, // 405 turns
		{Position{0, 0.5}, big.NewRat(3, 1), "1/48"},
	} {
		if got := c.p.ShaftExact(8, c.ratio).RatString(); got != c.want {
			t.Errorf("%v behind %v: %s°, want %s°", c.p, c.ratio, got, c.want)
		}
		want, _ := new(big.Rat).SetString(c.want)
		if f, _ := want.Float64(); c.p.Shaft(8, c.ratio) != f {
			t.Errorf("%v behind %v: %v°, want %v°", c.p, c.ratio, c.p.Shaft(8, c.ratio), f)
		}
	}
	if ratio.RatString() != "25792/405" {
		t.Error("the ratio was changed")
	}
}

// Far out too, no bit of the angle is lost.
func TestShaftExactFarOut(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := random(t)
		pairs, ratio := 1+r.IntN(500), big.NewRat(1+r.Int64N(1e6), 1+r.Int64N(1e6))
		p := Position{Pitch: r.Int64N(2*far+1) - far, Deg: r.Float64() * 360}
		back := p.ShaftExact(pairs, ratio)
		back.Mul(back, ratio).Mul(back, big.NewRat(int64(pairs), 1))
		if back.Cmp(exact(p)) != 0 {
			t.Fatalf("%v with %d pole pairs behind %v comes back as %v", p, pairs, ratio, back)
		}
	})
}

func TestSame(t *testing.T) {
	for _, c := range []struct {
		p, q Position
		want bool
	}{
		{Position{0, 1}, Position{0, 1}, true},
		{Position{0, 359.9999999}, Position{1, 0}, true}, // over the seam
		{Position{0, 359.9999999}, Position{0, 0}, false},
		{Position{0, 1}, Position{0, 1.00001}, false},
		{Position{0, 1}, Position{1, 1}, false},
		{Position{far, 1}, Position{far + 1, 1}, false},
	} {
		if c.p.same(c.q) != c.want || c.q.same(c.p) != c.want {
			t.Errorf("%v and %v: same is %v", c.p, c.q, !c.want)
		}
	}
}
