package bench

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"coilwalk/model/motor"
	"coilwalk/model/rotor"
	"coilwalk/model/wiring"
	"coilwalk/sequence"
)

// Swapping the same leads twice puts all the wiring back, and the same with
// the field of every row.
func TestSwapTwice(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := random(t)
		b := anyBench(r)
		before := b.Read()
		i, j := 1+r.IntN(4), 1+r.IntN(4)
		if i == j {
			return
		}
		if err := b.Swap(i, j); err != nil {
			t.Fatal(err)
		}
		once := b.Read()
		for k := range 4 {
			want := before.Wiring[k]
			switch k {
			case i - 1:
				want = before.Wiring[j-1]
			case j - 1:
				want = before.Wiring[i-1]
			}
			if once.Wiring[k] != want || once.Outputs != before.Outputs || once.Coils[want] != before.Outputs[k] {
				t.Fatalf("outputs %d and %d swapped: %v gives %v, before %v", i, j, once.Wiring, once.Coils, before.Wiring)
			}
		}
		if err := b.Swap(j, i); err != nil {
			t.Fatal(err)
		}
		if after := b.Read(); after.Wiring != before.Wiring || after.Coils != before.Coils || after.Outputs != before.Outputs || after.Rewired != before.Rewired {
			t.Fatalf("swapped twice: %+v, before %+v", after, before)
		}
	})
}

// Two leads exchanged are the same wherever it is said: put in as a fault they are on
// other outputs, taken out they are back, and every pair that is exchanged is told.
func TestExchangedLeadsAreTheWiring(t *testing.T) {
	for _, name := range []string{"vent-flap", "hybrid-4", "hybrid-6", "hybrid-8"} {
		m, found := motor.BuiltIn(name)
		if !found {
			t.Fatal(name)
		}
		exchanges := 0
		for _, f := range wiring.Faults(m) {
			if !f.Exchanges() {
				continue
			}
			exchanges++
			byHand, put := New(m), New(m)
			if err := byHand.Swap(f.I+1, f.K+1); err != nil {
				t.Fatal(err)
			}
			put.ToggleFault(f)
			for range 9 {
				a, b := byHand.Read(), put.Read()
				if a.Wiring != b.Wiring || a.Outputs != b.Outputs || a.Coils != b.Coils || b.Faults != nil || !byHand.HasFault(f) || !put.HasFault(f) {
					t.Fatalf("%s, %s: %+v as a fault, %+v by hand", name, f.Text(m), b, a)
				}
				byHand.Next()
				put.Next()
			}
			for _, other := range wiring.Faults(m) { // a second pair leaves the first
				if other.Exchanges() && other.I != f.I && other.K != f.K && other.I != f.K && other.K != f.I {
					put.ToggleFault(other)
					if !put.HasFault(f) || !put.HasFault(other) {
						t.Errorf("%s: of %s and %s one is not told", name, f.Text(m), other.Text(m))
					}
					put.ToggleFault(other)
				}
			}
			if put.ToggleFault(f); put.Read().Rewired || put.HasFault(f) {
				t.Errorf("%s: %s is not taken out", name, f.Text(m))
			}
		}
		if exchanges != 6 {
			t.Errorf("%s: %d pairs of leads", name, exchanges)
		}
	}
}

// A motor may state any wiring: then its outputs carry the order the other way
// about, and what arrives at the coil ends is the order.
func TestStatedWiringIsRight(t *testing.T) {
	for _, p := range sequence.Permutations() {
		m := torques{}.motor()
		m.Wiring = p
		b := New(m)
		for k := range int64(9) {
			r := b.Read()
			if want := sequence.Half.Order().Row(k); r.Coils != want || r.Rewired {
				t.Fatalf("%v, row %d: %v at the coil ends, want %v; rewired %v", p, k, r.Coils, want, r.Rewired)
			}
			for out, v := range r.Outputs {
				if v != r.Coils[p[out]] {
					t.Fatalf("%v, row %d: %v on the outputs, %v at the ends", p, k, r.Outputs, r.Coils)
				}
			}
			if !near(known(t, b), 45*float64(k)) {
				t.Fatalf("%v, row %d: at %v°", p, k, known(t, b))
			}
			b.Next()
		}
		if err := b.Swap(1, 3); err != nil || !b.Read().Rewired {
			t.Errorf("%v: swapped, %v, and rewired is %v", p, err, b.Read().Rewired)
		}
		b.Rewire()
		if r := b.Read(); r.Wiring != p || r.Rewired {
			t.Errorf("%v: put back to %v", p, r.Wiring)
		}
	}
}

// Of the 24 wirings, four turn forward, four back, and sixteen make no way,
// however long the order is sent (by counting: the symmetries of a ring of
// four).
func TestSixteenWiringsMakeNoWay(t *testing.T) {
	count := map[sequence.Direction]int{}
	for _, p := range sequence.Permutations() {
		for _, f := range []torques{{friction: 0.1}, {friction: 0.05, detent: 0.1}} {
			b := wiredAs(f, p)
			b.Step(8) // the first cycle may pull the rotor off its start
			at := known(t, b)
			least, most := at, at
			for cycle := range 12 {
				for range 8 {
					b.Next()
					now := known(t, b)
					least, most = min(least, now), max(most, now)
				}
				got := known(t, b) - at
				if want := 360 * float64(cycle+1) * float64(p.Turns()); !near(got, want) {
					t.Fatalf("%+v on %v, after %d cycles: %v° on, want %v°", f, p, cycle+1, got, want)
				}
			}
			if p.Turns() == sequence.Standing && (most-least >= 360 || most-least < 45) {
				t.Errorf("%+v on %v: it shakes over %v°", f, p, most-least)
			}
		}
		count[p.Turns()]++
	}
	if count[sequence.Forward] != 4 || count[sequence.Reverse] != 4 || count[sequence.Standing] != 16 {
		t.Errorf("%v", count)
	}
}

// Without friction and detent a wrong wiring comes to rows that are met from
// 180° away: the bench says so, and knows where the rotor may be.
func TestWhereaboutsUnderAWrongWiring(t *testing.T) {
	uncertain := 0
	for _, p := range sequence.Permutations() {
		b := wiredAs(torques{}, p)
		for range 40 {
			b.Next()
			r := b.Read()
			_, ok := r.Where.Known()
			if p.Turns() != sequence.Standing && (!ok || r.Balance != rotor.Held) {
				t.Fatalf("%v turns, and yet: %v, balance %d", p, r.Where, r.Balance)
			}
			if len(r.Where.Places) == 0 || len(r.Where.Places) > 8 {
				t.Fatalf("%v: %v", p, r.Where)
			}
			if r.Balance == rotor.Either {
				uncertain++
				if ok || r.TurnedOK || r.Turned != 0 {
					t.Fatalf("%v: either way, and yet known: %+v", p, r)
				}
			}
			for _, place := range r.Where.Places {
				if r.HasField && math.Abs(sequence.Between(place.Deg, r.FieldDeg)) > 1e-6 {
					t.Fatalf("%v: at %v° under a field at %v°", p, place.Deg, r.FieldDeg)
				}
			}
		}
	}
	if uncertain < 16 {
		t.Errorf("only %d rows went either way", uncertain)
	}
}

// By hand: outputs 2 and 3 swapped, in wave drive, with friction. The rows come
// as A+ A− B+ B−: the rotor sticks, goes to B+, sticks, and goes back to A+.
func TestOneWrongWiringByHand(t *testing.T) {
	b := New(torques{friction: 0.5}.motor()) // the dead zone reaches 30° to each side
	b.SetMode(sequence.Wave)
	b.Restart()
	if err := b.Swap(2, 3); err != nil {
		t.Fatal(err)
	}
	for k, want := range []struct {
		deg     float64
		balance rotor.Balance
	}{{0, rotor.Stuck}, {60, rotor.Held}, {60, rotor.Stuck}, {30, rotor.Held}, {30, rotor.Stuck}, {60, rotor.Held}, {60, rotor.Stuck}, {30, rotor.Held}} {
		b.Next()
		r := b.Read()
		if got := known(t, b); !near(got, want.deg) || r.Balance != want.balance {
			t.Errorf("row %d: at %v°, balance %d; want %v°, %d", k+1, got, r.Balance, want.deg, want.balance)
		}
	}
}
