package rotor

import (
	"math"
	"testing"

	"coilwalk/sequence"
)

// zone gives the dead zone about the field, from where the rotor comes to rest
// when it comes from either side, in electrical degrees over all pitches.
func zone(t *testing.T, m Machine, f sequence.Field, field float64) (lower, upper float64) {
	t.Helper()
	lower, a := restFrom(t, m, f, field-90)
	upper, b := restFrom(t, m, f, field+90)
	if a != Held || b != Held {
		t.Errorf("balances %d and %d at the edges of the dead zone", a, b)
	}
	return lower, upper
}

// S = 90° and f/h = 1/2 give a dead zone of 60°, and single steps from 30° to
// 150° (Jones, "Stepping Motor Physics", Friction and the Dead Zone). One pole
// pair has S = 90°.
func TestDeadZoneOfJones(t *testing.T) {
	m := Machine{PolePairs: 1, Friction: 0.5}
	lower0, upper0 := zone(t, m, aPlus, 0)
	lower1, upper1 := zone(t, m, bPlus, 90)
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"the zone of A+", upper0 - lower0, 60},
		{"the zone of B+", upper1 - lower1, 60},
		{"the middle of the zone of A+", (upper0 + lower0) / 2, 0},
		{"the middle of the zone of B+", (upper1 + lower1) / 2, 90},
		{"the smallest step", lower1 - upper0, 30},
		{"the largest step", upper1 - lower0, 150},
	} {
		if !near(c.got, c.want, tenth) {
			t.Errorf("%s: %v°, want %v°", c.what, c.got, c.want)
		}
	}
	for _, from := range []float64{lower0, 0, upper0} { // a step without overshoot ends at the near edge
		if to, _ := restFrom(t, m, bPlus, from); to-from < 30-tenth || to-from > 150+tenth || !near(to, lower1, tenth) {
			t.Errorf("a step from %v° goes to %v°", from, to)
		}
	}
}

// d = 2·(S/(π/2))·asin(f/h) (Jones, the same place), for a motor of 1.8° and
// f/h = 1/2 the 1.2° computed from it, in degrees of the rotor.
func TestDeadZoneFormula(t *testing.T) {
	lower, upper := zone(t, Machine{PolePairs: 50, Friction: 0.5}, aPlus, 0)
	if d := (upper - lower) / 50; !near(d, 1.2, 1e-8) {
		t.Errorf("1.8° motor: dead zone of %v°, want 1.2°", d)
	}
	for _, ratio := range []float64{0.001, 0.05, 0.2, 0.7, 0.95} {
		for _, f := range []sequence.Field{aMinus, both} {
			field, _ := f.Degrees()
			m := Machine{PolePairs: 12, Friction: ratio * f.Strength()}
			const s = 90.0 / 12
			lower, upper := zone(t, m, f, field)
			want := 2 * (s / (math.Pi / 2)) * math.Asin(ratio)
			if d := (upper - lower) / 12; !near(d, want, 1e-7) {
				t.Errorf("f/h = %v under %v: dead zone of %v°, want %v°", ratio, f, d, want)
			}
		}
	}
}

// Anywhere in the zone the rotor stays to the last bit; outside it does not.
func TestRotorStaysInTheDeadZone(t *testing.T) {
	m := Machine{PolePairs: 8, Friction: 0.5}
	for _, pitch := range []int64{0, -3, 1e15} {
		for deg := -29.9; deg < 30; deg += 0.7 {
			from := position(deg)
			from.Pitch += pitch
			if to, balance := m.Rest(aPlus, from); len(to) != 1 || to[0] != from || balance != Held {
				t.Errorf("from %v: %v, balance %d", from, to, balance)
			}
		}
		for _, deg := range []float64{30.1, -30.1, 149, -149} {
			from := position(deg)
			if to, _ := m.Rest(aPlus, from); len(to) != 1 || to[0] == from || !near(math.Abs(total(to[0])), 30, tenth) {
				t.Errorf("from %v: %v", from, to)
			}
		}
	}
}

// On the hill friction has a zone of as much again: there it alone holds.
func TestStuckOnTheHill(t *testing.T) {
	m := Machine{PolePairs: 8, Friction: 0.5}
	for _, deg := range []float64{150.1, 170, 180, 190, 209.9} {
		from := position(deg)
		if to, balance := m.Rest(aPlus, from); len(to) != 1 || to[0] != from || balance != Stuck {
			t.Errorf("from %v: %v, balance %d; want it stuck there", from, to, balance)
		}
	}
}

// A rest follows the field only past the zone, so going back there is lost
// motion of its whole width.
func TestFrictionGivesLostMotion(t *testing.T) {
	m := Machine{PolePairs: 8, Friction: 0.2}
	o := micro(t, 16).Order()
	half := math.Asin(0.2) * 180 / math.Pi
	w := At(Position{})
	at := func(k int64) float64 {
		t.Helper()
		w, _ = m.Follow(w, o.Row(k).Field())
		p, ok := w.Known()
		if !ok {
			t.Fatal("the rotor is lost")
		}
		return total(p)
	}
	for k := range int64(33) {
		deg := at(k)
		if k > 4 && !near(deg, 90*float64(k)/16-half, tenth) {
			t.Errorf("going forward, row %d: %v°", k, deg)
		}
	}
	turned := 180 - half
	for k := int64(31); k >= 0; k-- {
		want := min(turned, 90*float64(k)/16+half)
		if deg := at(k); !near(deg, want, tenth) {
			t.Errorf("going back, row %d: %v°, want %v°", k, deg, want)
		}
	}
}
