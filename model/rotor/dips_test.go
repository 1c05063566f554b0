package rotor

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// hermite is the cubic with given ends and slopes over 0 to h, in the standard basis
// (any textbook of numerical analysis: cubic Hermite interpolation).
func hermite(was, going, is, goes, h, x float64) float64 {
	h00, h10 := 2*x*x*x-3*x*x+1, x*x*x-2*x*x+x
	h01, h11 := -2*x*x*x+3*x*x, x*x*x-x*x
	return h00*was + h10*h*going + h01*is + h11*h*goes
}

// A dip is one of the cubic through the ends and slopes of a step, looked at in
// eighths, to less than a fifth of the lower end.
func TestADipIsOneOfTheCubic(t *testing.T) {
	yes, no := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		h := rapid.Float64Range(1e-5, 10).Draw(t, "h")
		was, is := rapid.Float64Range(0.01, 2).Draw(t, "was"), rapid.Float64Range(0.01, 2).Draw(t, "is")
		g := guard{was: was, is: is, going: -rapid.Float64Range(0, 8).Draw(t, "going") / h, goes: rapid.Float64Range(0, 8).Draw(t, "goes") / h}
		lowest := min(was, is)
		for x := 0.125; x < 1; x += 0.125 {
			lowest = min(lowest, hermite(was, g.going, is, g.goes, h, x))
		}
		edge := 0.2 * min(was, is)
		if math.Abs(lowest-edge) < 1e-9 {
			return
		}
		if got := dips(&g, h); got != (lowest < edge) {
			t.Fatalf("%t, and the cubic gets to %g, the lower end is %g", got, lowest, min(was, is))
		}
		if lowest < edge {
			yes++
		} else {
			no++
		}
	})
	if yes == 0 || no == 0 {
		t.Errorf("%d dip, %d do not: it tries nothing", yes, no)
	}
}
