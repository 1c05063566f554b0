package rotor

import (
	"math"
	"slices"
	"testing"

	"coilwalk/sequence"
)

// places gives the angles where the rotor may rest, rising, over all pitches.
func places(m Machine, f sequence.Field, deg float64) ([]float64, Balance) {
	at, balance := m.Rest(f, position(deg))
	angles := make([]float64, len(at))
	for i, p := range at {
		angles[i] = total(p)
	}
	slices.Sort(angles)
	return angles, balance
}

func alike(got []float64, want ...float64) bool {
	return slices.EqualFunc(got, want, func(a, b float64) bool { return near(a, b, tenth) })
}

// 180° away the pull is none either way. Without load and friction both sides
// are given; friction keeps the rotor there; a load decides.
func TestOpposite(t *testing.T) {
	for k, f := range []sequence.Field{aPlus, bPlus, aMinus, bMinus, both} {
		field := float64(90 * k)
		if f == both {
			field = 45
		}
		for _, pitch := range []float64{0, 1, -1, 1000} {
			field := field + 360*pitch
			for _, side := range []float64{180, -180} {
				if got, balance := places(Machine{PolePairs: 8}, f, field+side); balance != Either || !alike(got, field+side-180, field+side+180) {
					t.Errorf("%v from %v°: %v, balance %d; want either side", f, field+side, got, balance)
				}
				if got, balance := places(Machine{PolePairs: 8, Friction: 0.01}, f, field+side); balance != Stuck || !alike(got, field+side) {
					t.Errorf("%v from %v°, with friction: %v, balance %d; want it stuck", f, field+side, got, balance)
				}
				for _, load := range []float64{0.001, 0.3, -0.001, -0.3} {
					lag := math.Asin(load/f.Strength()) * 180 / math.Pi
					want := field + side - math.Copysign(180, load) - lag
					if got, balance := places(Machine{PolePairs: 8, Load: load}, f, field+side); balance != Held || !alike(got, want) {
						t.Errorf("%v from %v°, load %v: %v, balance %d; want %v°", f, field+side, load, got, balance, want)
					}
				}
			}
		}
	}
}

// A little off the hill there is nothing to choose.
func TestBesideTheHill(t *testing.T) {
	m := Machine{PolePairs: 8}
	for _, off := range []float64{0.01, 1, 89} {
		if got, balance := places(m, aPlus, 180-off); balance != Held || !alike(got, 0) {
			t.Errorf("%v° before the hill: %v, balance %d", off, got, balance)
		}
		if got, balance := places(m, aPlus, 180+off); balance != Held || !alike(got, 360) {
			t.Errorf("%v° past the hill: %v, balance %d", off, got, balance)
		}
	}
}

// A load moves the hill; on its new top it is as unstable as before.
func TestHillUnderLoad(t *testing.T) {
	m := Machine{PolePairs: 8, Load: 0.5}
	if got, balance := places(m, aPlus, -150); balance != Either || !alike(got, -390, -30) {
		t.Errorf("on the top of the hill: %v, balance %d", got, balance)
	}
}

// Without field the rotor falls to the detent in whose basin it is: at the
// one-phase positions, or at the two-phase ones.
func TestDetentBasins(t *testing.T) {
	for _, shift := range []float64{0, 180} {
		m := Machine{PolePairs: 8, Detent: 0.1, DetentShift: shift}
		for k := -9.0; k < 9; k++ {
			foot := 90*k + shift/4
			for _, by := range []float64{-44.9, -20, -0.001, 0, 0.001, 20, 44.9} {
				if got, balance := places(m, off, foot+by); balance != Detent || !near(got[0], foot, 1e-3) || len(got) != 1 {
					t.Errorf("shift %v°, from %v°: %v, balance %d; want %v°", shift, foot+by, got, balance, foot)
				}
			}
			if got, balance := places(m, off, foot+45); balance != Either || !alike(got, foot, foot+90) {
				t.Errorf("shift %v°, midway at %v°: %v, balance %d; want both neighbours", shift, foot+45, got, balance)
			}
		}
	}
}

// An unloaded two-phase row switched off leaves the rotor midway.
func TestSwitchedOffAfterTwoPhases(t *testing.T) {
	m := Machine{PolePairs: 8, Detent: 0.05}
	o := sequence.Full.Order()
	for k := range int64(8) {
		row := o.Row(k).Field()
		field, _ := row.Degrees()
		w, _ := m.Follow(At(position(field+10)), row)
		p, ok := w.Known()
		if !ok {
			t.Fatalf("row %d: %v", k, w)
		}
		if w, balance := m.Follow(w, off); balance != Either || len(w.Places) != 2 {
			t.Errorf("row %d, off from %v: %v, balance %d", k, p, w, balance)
		}
		m := m // friction keeps it where the row left it
		m.Friction = 0.01
		if w, balance := m.Follow(At(p), off); balance != Stuck || len(w.Places) != 1 || w.Places[0] != p {
			t.Errorf("row %d, off from %v with friction: %v, balance %d", k, p, w, balance)
		}
	}
}

// With neither field nor detent the rotor stays as it is; so it does with a
// load that friction bears.
func TestLoose(t *testing.T) {
	for _, m := range []Machine{{PolePairs: 8}, {PolePairs: 8, Friction: 0.2}, {PolePairs: 8, Friction: 0.2, Load: 0.19}, {PolePairs: 8, Friction: 0.2, Load: -0.19},
		{PolePairs: 8, Friction: 0.2, Detent: 0.1}} {
		for deg := -400.0; deg < 400; deg += 17.3 {
			if got, balance := m.Rest(off, position(deg)); balance != Loose || len(got) != 1 || got[0] != position(deg) {
				t.Errorf("%+v from %v°: %v, balance %d", m, deg, got, balance)
			}
		}
	}
}

// What drives the rotor on must beat the hold and friction together.
func TestAdrift(t *testing.T) {
	const shade = 1e-3
	for _, c := range []struct {
		what string
		m    Machine // without its load
		f    sequence.Field
		hold float64
	}{
		{"one phase", Machine{}, aPlus, 1},
		{"two phases", Machine{}, both, math.Sqrt2},
		{"one phase and friction", Machine{Friction: 0.2}, aPlus, 1.2},
		{"detent alone", Machine{Detent: 0.1}, off, 0.1},
		{"detent and friction", Machine{Detent: 0.1, Friction: 0.2}, off, 0.3},
		{"friction alone", Machine{Friction: 0.2}, off, 0.2},
	} {
		c.m.PolePairs = 8
		for _, sign := range []float64{1, -1} {
			for deg := 3.0; deg < 360; deg += 31 {
				c.m.Load = sign * (c.hold - shade)
				if got, balance := c.m.Rest(c.f, position(deg)); balance == Adrift || len(got) != 1 {
					t.Errorf("%s, load %v, from %v°: %v, balance %d; it is held", c.what, c.m.Load, deg, got, balance)
				}
			}
			c.m.Load = sign * (c.hold + shade)
			adrift := 0
			for deg := 3.0; deg < 360; deg += 31 {
				got, balance := c.m.Rest(c.f, position(deg))
				if balance == Adrift && len(got) == 0 {
					adrift++
				}
			}
			if adrift != 12 {
				t.Errorf("%s, load %v: adrift from %d of 12 places", c.what, c.m.Load, adrift)
			}
		}
	}
}
