package rotor

import (
	"fmt"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"coilwalk/sequence"
)

func TestKnown(t *testing.T) {
	p := Position{Pitch: -3, Deg: 12}
	if got, ok := At(p).Known(); !ok || got != p {
		t.Errorf("%v, %v", got, ok)
	}
	for _, w := range []Whereabouts{{}, {Places: []Position{p, {Pitch: 3}}}, {Places: []Position{p}, PitchLost: true}} {
		if got, ok := w.Known(); ok || got != (Position{}) {
			t.Errorf("%v is known to be at %v", w, got)
		}
	}
}

// The angle is known when only the pitch is open.
func TestAngle(t *testing.T) {
	for i, c := range []struct {
		w   Whereabouts
		deg float64
		ok  bool
	}{
		{At(Position{Pitch: -3, Deg: 12}), 12, true},
		{Whereabouts{Places: []Position{{Pitch: 1, Deg: 12}, {Pitch: 7, Deg: 12}}}, 12, true},
		{Whereabouts{Places: []Position{{Deg: 12}}, PitchLost: true}, 12, true},
		{Whereabouts{Places: []Position{{Pitch: 1, Deg: 12}, {Pitch: 1, Deg: 102}}}, 0, false},
		{Whereabouts{Places: []Position{{Deg: 12}, {Deg: 192}}, PitchLost: true}, 0, false},
		{Whereabouts{}, 0, false},
	} {
		if deg, ok := c.w.Angle(); deg != c.deg || ok != c.ok {
			t.Errorf("%d: %v is at %v°, %v; want %v°, %v", i, c.w, deg, ok, c.deg, c.ok)
		}
	}
}

// Each row that is met from 180° away may send the rotor either way: a place
// more each time, and every one 360° from the next. Past eight places only the
// angle within the pitch is kept.
func TestPlacesSpreadAndFold(t *testing.T) {
	m := Machine{PolePairs: 8}
	w := At(Position{Pitch: 5, Deg: 180})
	for k := range 12 {
		f, deg := aPlus, 0.0
		if k%2 == 1 {
			f, deg = aMinus, 180
		}
		var balance Balance
		before := slices.Clone(w.Places)
		earlier := w
		w, balance = m.Follow(w, f)
		if !slices.Equal(earlier.Places, before) {
			t.Fatalf("row %d changed the places before it", k)
		}
		if balance != Either {
			t.Errorf("row %d: balance %d", k, balance)
		}
		if k+2 > 8 {
			if !w.PitchLost || len(w.Places) != 1 || w.Places[0] != (Position{Deg: deg}) {
				t.Errorf("row %d: %v; want the angle %v° alone", k, w, deg)
			}
			continue
		}
		at := ends(w.Places)
		if w.PitchLost || len(at) != k+2 {
			t.Fatalf("row %d: %v; want %d places", k, w, k+2)
		}
		for i, a := range at {
			if want := 5*360 + 180 - 180*float64(k+1) + 360*float64(i); !near(a, want, tenth) {
				t.Errorf("row %d: place %d at %v°, want %v°", k, i, a, want)
			}
		}
	}
}

// Fallen into one detent or its neighbour, the rotor is drawn to one place by
// the next row, and is known again.
func TestPlacesMeetAgain(t *testing.T) {
	m := Machine{PolePairs: 8, Detent: 0.1}
	start := Position{Pitch: 2, Deg: 45}
	w, balance := m.Follow(At(start), off)
	if _, ok := w.Known(); ok || balance != Either || len(w.Places) != 2 {
		t.Fatalf("off midway: %v, balance %d", w, balance)
	}
	again, balance := m.Follow(w, both)
	if p, ok := again.Known(); !ok || balance != Held || !near(p.From(start), 0, tenth) {
		t.Errorf("on again: %v, balance %d; want %v", again, balance, start)
	}
	if len(w.Places) != 2 {
		t.Errorf("meeting again changed what was: %v", w)
	}
	// Over the seam at 0° too.
	w, _ = m.Follow(At(Position{Pitch: 2, Deg: 315}), off)
	again, _ = m.Follow(w, sequence.Field{A: 1, B: -1})
	if p, ok := again.Known(); !ok || p.Pitch != 2 || !near(p.Deg, 315, tenth) {
		t.Errorf("at the seam: %v, then %v", w, again)
	}
}

// A pitch that is lost does not come back.
func TestPitchStaysLost(t *testing.T) {
	m, o := Machine{PolePairs: 8}, sequence.Half.Order()
	w := Whereabouts{Places: []Position{{Deg: 0}}, PitchLost: true}
	for k := range int64(20) {
		w, _ = m.Follow(w, o.Row(k).Field())
		if !w.PitchLost || len(w.Places) != 1 || w.Places[0].Pitch != 0 || !near(w.Places[0].Deg, float64(45*(k%8)), tenth) {
			t.Fatalf("row %d: %v", k, w)
		}
	}
}

// A rotor that was adrift is caught by a row that holds it, at the foot of its
// pull; nobody knows of which pitch.
func TestCaught(t *testing.T) {
	m := Machine{PolePairs: 8, Load: 0.5}
	w, balance := m.Follow(At(Position{Pitch: 7, Deg: 10}), off)
	if balance != Adrift || len(w.Places) != 0 {
		t.Fatalf("under the load alone: %v, balance %d", w, balance)
	}
	if w, balance := m.Follow(w, off); balance != Unknown || len(w.Places) != 0 {
		t.Errorf("still off: %v, balance %d", w, balance)
	}
	if w, balance := m.Follow(w, sequence.Field{A: 0.4}); balance != Adrift || len(w.Places) != 0 {
		t.Errorf("a row too weak: %v, balance %d", w, balance)
	}
	caught, _ := m.Follow(w, aPlus)
	if again, balance := m.Follow(caught, off); balance != Adrift || again.PitchLost || len(again.Places) != 0 {
		t.Errorf("let go again: %v, balance %d", again, balance)
	}
	for k, f := range []sequence.Field{aPlus, bPlus, aMinus, bMinus} {
		w, balance := m.Follow(w, f)
		want := float64((90*k + 330) % 360) // asin 0.5 = 30° behind
		if balance != Held || !w.PitchLost || len(w.Places) != 1 || !near(w.Places[0].Deg, want, tenth) || w.Places[0].Pitch != 0 {
			t.Errorf("caught by %v: %v, balance %d; want %v°", f, w, balance, want)
		}
	}
}

// One place adrift leaves nothing known; of other balances the least sure is told.
func TestLeastSureBalance(t *testing.T) {
	m := Machine{PolePairs: 8, Friction: 0.1}
	w := Whereabouts{Places: []Position{{Deg: 0}, {Deg: 180}}}
	for range 2 {
		if got, balance := m.Follow(w, aPlus); balance != Stuck || len(got.Places) != 2 {
			t.Errorf("%v: %v, balance %d; want stuck", w, got, balance)
		}
		slices.Reverse(w.Places)
	}
	m = Machine{PolePairs: 8}
	for range 2 {
		got, balance := m.Follow(w, aPlus)
		if at := ends(got.Places); balance != Either || len(at) != 2 || !near(at[0], 0, tenth) || !near(at[1], 360, tenth) {
			t.Errorf("%v: %v, balance %d; want either, at 0° and 360°", w, got, balance)
		}
		slices.Reverse(w.Places)
	}
}

func TestApart(t *testing.T) {
	a := func(places ...Position) Whereabouts { return Whereabouts{Places: places} }
	lost := func(deg float64) Whereabouts {
		return Whereabouts{Places: []Position{{Deg: deg}}, PitchLost: true}
	}
	for i, c := range []struct {
		w, v    Whereabouts
		pitches int64
		ok      bool
	}{
		{a(Position{5, 10}), a(Position{2, 10}), 3, true},
		{a(Position{2, 10}), a(Position{5, 10}), -3, true},
		{a(Position{5, 10}), a(Position{2, 10.001}), 0, false},
		{a(Position{5, 10}), a(Position{2, 190}), 0, false},
		{a(Position{5, 1e-8}), a(Position{2, 360 - 1e-8}), 2, true}, // a shade either side of the seam
		{a(Position{2, 360 - 1e-8}), a(Position{5, 1e-8}), -2, true},
		{a(Position{far, 10}), a(Position{-far, 10}), 2 * far, true},
		{a(Position{5, 10}, Position{6, 10}), a(Position{2, 10}, Position{3, 10}), 3, true},
		{a(Position{5, 10}, Position{6, 10}), a(Position{2, 10}, Position{4, 10}), 0, false},
		{a(Position{5, 10}, Position{6, 10}), a(Position{2, 10}), 0, false},
		{Whereabouts{}, Whereabouts{}, 0, true},
		{Whereabouts{}, a(Position{}), 0, false},
		{lost(10), lost(10), 0, true},
		{lost(10), lost(11), 0, false},
		{lost(10), a(Position{0, 10}), 0, false},
	} {
		pitches, ok := c.w.Apart(c.v)
		if ok != c.ok || ok && pitches != c.pitches {
			t.Errorf("%d: %v from %v: %d pitches, %v; want %d, %v", i, c.w, c.v, pitches, ok, c.pitches, c.ok)
		}
	}
}

// Shifted and Apart undo each other, and Shifted leaves its own places alone.
func TestShiftedIsApart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := random(t)
		var w Whereabouts
		for range 1 + r.IntN(mostPlaces) {
			w.Places = append(w.Places, Position{Pitch: r.Int64N(2001) - 1000, Deg: r.Float64() * 360})
		}
		before := fmt.Sprint(w)
		pitches := r.Int64N(2*far+1) - far
		s := w.Shifted(pitches)
		if fmt.Sprint(w) != before {
			t.Fatalf("%s was changed to %v", before, w)
		}
		if got, ok := s.Apart(w); !ok || got != pitches {
			t.Fatalf("%v shifted by %d lies %d apart, %v", w, pitches, got, ok)
		}
		for i, p := range s.Places {
			if p.Deg != w.Places[i].Deg || p.Pitch-w.Places[i].Pitch != pitches {
				t.Fatalf("%v shifted by %d is %v", w, pitches, s)
			}
		}
		w.PitchLost = true
		if got := w.Shifted(pitches); fmt.Sprint(got) != fmt.Sprint(w) {
			t.Fatalf("without its pitch %v is shifted to %v", w, got)
		}
	})
}
