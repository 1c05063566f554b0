package rotor

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"coilwalk/sequence"
)

// ends gives the rests as angles, rising; rounding may part them by a shade.
func ends(places []Position) []float64 {
	var at []float64
	for _, p := range places {
		at = append(at, total(p))
	}
	slices.Sort(at)
	return at
}

func sameEnds(a, b []float64) bool {
	return slices.EqualFunc(a, b, func(x, y float64) bool { return near(x, y, 1e-6) })
}

// someStart draws starts that are often exactly on a hill or a valley, which a
// turn by 90° must leave there to the last bit.
func someStart(r interface {
	IntN(int) int
	Float64() float64
}) float64 {
	if r.IntN(2) == 0 {
		return float64(45 * (r.IntN(33) - 16))
	}
	return r.Float64()*1440 - 720
}

// flat says whether the curve lies level where the rotor rests, half way up the
// hill: whether field or friction holds it there hangs by the last bit.
func flat(m Machine, f sequence.Field, at []Position) bool {
	return len(at) == 1 && math.Abs(m.Stiffness(f, at[0].Deg)) < 1e-9
}

// The four axes are alike: turning field and start by 90° turns the rests, for
// the detent's torque repeats every 90°.
func TestQuarterTurns(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := random(t)
		m, f, deg := anyMachine(r), anyField(r), someStart(r)
		before, balance := m.Rest(f, position(deg))
		for range 4 {
			f, deg = sequence.Field{A: -f.B, B: f.A}, deg+90
			after, turned := m.Rest(f, position(deg))
			want := ends(before)
			for i := range want {
				want[i] += 90
			}
			if turned != balance && !flat(m, f, after) || !sameEnds(ends(after), want) {
				t.Fatalf("%+v under %v from %v°: %v, balance %d; a quarter turn before %v, %d", m, f, deg, after, turned, before, balance)
			}
			before = after
		}
	})
}

// A mirror exchanges forward and back: field, start, load and the detent's
// shift change sign, and so do the rests.
func TestMirror(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := random(t)
		m, f, deg := anyMachine(r), anyField(r), someStart(r)
		there, balance := m.Rest(f, position(deg))
		level := flat(m, f, there)
		m.Load, m.DetentShift = -m.Load, -m.DetentShift
		back, mirrored := m.Rest(sequence.Field{A: f.A, B: -f.B}, position(-deg))
		want := ends(there)
		for i := range want {
			want[i] = -want[i]
		}
		slices.Sort(want)
		if mirrored != balance && !level || !sameEnds(ends(back), want) {
			t.Fatalf("%+v under %v from %v°: %v, balance %d; mirrored %v, %d", m, f, deg, there, balance, back, mirrored)
		}
	})
}

// Whole pitches make no difference, however many.
func TestPitchesAreAlike(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := random(t)
		m, f, from := anyMachine(r), anyField(r), position(someStart(r))
		here, balance := m.Rest(f, from)
		for _, pitches := range []int64{1, -7, 1e15, -1e15} {
			far := Position{Pitch: from.Pitch + pitches, Deg: from.Deg}
			there, same := m.Rest(f, far)
			for i := range there {
				there[i].Pitch -= pitches
			}
			if same != balance || !slices.Equal(there, here) {
				t.Fatalf("%+v under %v from %v: %v, %d; %d pitches on %v, %d", m, f, from, here, balance, pitches, there, same)
			}
		}
	})
}

// What has come to rest rests: the same row once more moves nothing.
func TestRestRests(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := random(t)
		m, f := anyMachine(r), anyField(r)
		first, _ := m.Rest(f, position(someStart(r)))
		for _, p := range first {
			again, balance := m.Rest(f, p)
			if len(again) != 1 || balance == Adrift || balance == Either || math.Abs(again[0].From(p)) > 1e-6 {
				t.Fatalf("%+v under %v rests at %v, then at %v, balance %d", m, f, p, again, balance)
			}
		}
	})
}
