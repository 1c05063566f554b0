package sequence

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// torque is what a field gives a rotor at an electrical angle, in multiples of
// the holding torque of one phase on: −iA·sin θ + iB·cos θ. (Textbook model of
// the two-phase motor; from memory.)
func torque(f Field, deg float64) float64 {
	sin, cos := math.Sincos(deg * math.Pi / 180)
	return f.B*cos - f.A*sin
}

// The rotor comes to rest where the field points: at 0° with A alone, 90° with
// B alone, 45° with both, held there by as much as the field is strong. (The
// same model, from memory; the consequences are computed.)
func TestTheFieldPointsWhereTheRotorRests(t *testing.T) {
	for _, c := range []struct{ a, b, deg, strength float64 }{
		{1, 0, 0, 1}, {0, 1, 90, 1}, {-1, 0, 180, 1}, {0, -1, 270, 1},
		{1, 1, 45, math.Sqrt2}, {-1, 1, 135, math.Sqrt2}, {-1, -1, 225, math.Sqrt2}, {1, -1, 315, math.Sqrt2},
		{0.3, 0.3, 45, 0.3 * math.Sqrt2}, {-0.1, 0, 180, 0.1}, {0.7, -0.7, 315, 0.7 * math.Sqrt2},
	} {
		f := Field{A: c.a, B: c.b}
		deg, ok := f.Degrees()
		if !ok || deg != c.deg || math.Abs(f.Strength()-c.strength) > 1e-15 {
			t.Errorf("%v: %v° %v, strength %v, want %v° and %v", f, deg, ok, f.Strength(), c.deg, c.strength)
		}
		if at := torque(f, deg); math.Abs(at) > 1e-12 {
			t.Errorf("%v: torque %v where it is said to rest", f, at)
		}
		if behind := torque(f, deg-90); math.Abs(behind-f.Strength()) > 1e-12 {
			t.Errorf("%v: it is pulled on by %v, strength %v", f, behind, f.Strength())
		}
	}
}

// The curves of neighbouring rows cross at cos of half the angle between them:
// 0.7071 of the holding torque in full step, 0.9239 = cos 22.5° in half step with
// fields of one length. (Standard result, from memory; the row of 22.5° in a
// maker's sixteenth-step table prints the same cosine.)
func TestWhereNeighbouringCurvesCross(t *testing.T) {
	for _, c := range []struct {
		mode Mode
		want float64
	}{{Wave, 0.7071}, {Full, 0.7071}, {mustMicro(t, 2, 0), 0.9239}} {
		o := c.mode.Order()
		for k := range int64(o.Len()) {
			f, g := o.Row(k).Field(), o.Row(k+1).Field()
			a, _ := f.Degrees()
			b, _ := g.Degrees()
			crossing := a + Between(a, b)/2 - 90
			one, other := torque(f, crossing), torque(g, crossing)
			if math.Abs(one-other) > 1e-12 {
				t.Errorf("%s: the curves of rows %d and %d do not cross at %v°", c.mode.Title, k, k+1, crossing)
			}
			if got := one / f.Strength(); math.Abs(got-c.want) > 5e-5 {
				t.Errorf("%s: they cross at %v, want %v", c.mode.Title, got, c.want)
			}
			cosine := (f.A*g.A + f.B*g.B) / (f.Strength() * g.Strength()) // of the whole angle
			if got := math.Sqrt((1 + cosine) / 2); math.Abs(got-c.want) > 5e-5 {
				t.Errorf("%s: cosine of half the angle %v, want %v", c.mode.Title, got, c.want)
			}
		}
	}
}

// One phase on holds 29.3 % less than two. (A maker's training "Stepper
// Fundamentals", slide 10; the percentage is computed from its 1 : 1.414.)
func TestRippleOfHalfStep(t *testing.T) {
	o := Half.Order()
	for k := int64(0); k < 8; k += 2 {
		for _, beside := range []int64{k - 1, k + 1} {
			less := 100 * (1 - o.Row(k).Field().Strength()/o.Row(beside).Field().Strength())
			if math.Abs(less-29.3) > 0.05 {
				t.Errorf("row %d holds %v %% less than row %d", k, less, beside)
			}
		}
	}
}

// Angle and strength give the field back.
func TestAngleAndStrengthMakeTheField(t *testing.T) {
	part := rapid.Float64Range(-1, 1).Filter(func(v float64) bool { return v == 0 || math.Abs(v) > 1e-9 })
	rapid.Check(t, func(t *rapid.T) {
		f := Field{A: part.Draw(t, "a"), B: part.Draw(t, "b")}
		deg, ok := f.Degrees()
		if ok == f.None() || deg < 0 || deg >= 360 {
			t.Fatalf("%v: %v° %v", f, deg, ok)
		}
		sin, cos := math.Sincos(deg * math.Pi / 180)
		if s := f.Strength(); math.Abs(s*cos-f.A) > 1e-12 || math.Abs(s*sin-f.B) > 1e-12 {
			t.Fatalf("%v: %v long at %v°", f, s, deg)
		}
	})
}

func TestBetween(t *testing.T) {
	for _, c := range []struct{ from, to, want float64 }{
		{0, 0, 0}, {10, 350, -20}, {350, 10, 20}, {0, 180, 180}, {180, 0, 180}, {90, 270, 180},
		{0, 181, -179}, {0, 720, 0}, {-90, 270, 0}, {0, -540, 180}, {45, 1000, -125}, {315, 45, 90},
	} {
		if got := Between(c.from, c.to); got != c.want {
			t.Errorf("from %v° to %v°: %v°, want %v°", c.from, c.to, got, c.want)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		from := rapid.IntRange(-100_000, 100_000).Draw(t, "from")
		to := rapid.IntRange(-100_000, 100_000).Draw(t, "to")
		got := Between(float64(from), float64(to))
		if got <= -180 || got > 180 || (from+int(got)-to)%360 != 0 {
			t.Fatalf("from %d° to %d°: %v°", from, to, got)
		}
	})
}

// A phase with both ends on gives no field whatever the drive; it heats a
// unipolar winding twice and a bridge's coil not at all. (Common practice, no
// source.)
func TestBothEndsOfAPhaseOn(t *testing.T) {
	for bits := range 16 {
		var r Row
		on := 0
		for k := range r {
			r[k] = float64(bits >> k & 1)
			on += bits >> k & 1
		}
		a, b := bits&5, bits>>1&5
		live := 0.0 // phases with one end on
		for _, phase := range []int{a, b} {
			if phase == 1 || phase == 4 {
				live++
			}
		}
		if r.BothOn(0) != (a == 5) || r.BothOn(1) != (b == 5) {
			t.Errorf("%v: both on %v, %v", r, r.BothOn(0), r.BothOn(1))
		}
		if f := r.Field(); f.None() != (live == 0) || math.Abs(f.Strength()-math.Sqrt(live)) > 1e-15 {
			t.Errorf("%v: field %v", r, f)
		}
		if r.Heat(Unipolar) != float64(on) || r.Heat(Bipolar) != live {
			t.Errorf("%v: heat %v and %v, want %d and %v", r, r.Heat(Unipolar), r.Heat(Bipolar), on, live)
		}
		if !r.Whole() || len(r.On()) != on {
			t.Errorf("%v: whole %v, on %v", r, r.Whole(), r.On())
		}
	}
	if r := (Row{0.5, 0, 0.2, 0}); !r.BothOn(0) || math.Abs(r.Heat(Unipolar)-0.29) > 1e-15 || math.Abs(r.Heat(Bipolar)-0.09) > 1e-15 {
		t.Errorf("%v: heat %v and %v", r, r.Heat(Unipolar), r.Heat(Bipolar))
	}
}
