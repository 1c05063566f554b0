package bench

import (
	"math"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"

	"coilwalk/sequence"
)

// turning gives a wiring that turns the motor, forward or back.
func turning(r *rand.Rand) sequence.Permutation {
	for {
		if p := one(r, sequence.Permutations()); p.Turns() != sequence.Standing {
			return p
		}
	}
}

// Forward n rows and back n rows is where one was, row and rotor, for motors
// without friction; with friction it is within the dead zone. The load must be
// below what the mode carries.
func TestForwardAndBackAgain(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := random(t)
		f := one(r, []torques{{}, {detent: 0.1}, {detent: 0.1, at45: true}, {load: 0.3}, {load: -0.3}, {friction: 0.1}, {friction: 0.1, load: 0.2}})
		m := f.motor()
		m.Wiring = turning(r)
		b := New(m)
		b.SetMode(one(r, modes))
		b.Step(int64(r.IntN(41) - 20))
		before, n := b.Read(), r.IntN(60)
		for range n {
			b.Next()
		}
		for range n {
			b.Back()
		}
		after := b.Read()
		if after.Step != before.Step || after.Row != before.Row || after.Coils != before.Coils {
			t.Fatalf("%d rows on and back: row %d, step %d; before %d, %d", n, after.Row, after.Step, before.Row, before.Step)
		}
		if f.friction == 0 {
			if !sameWhere(after.Where, before.Where) {
				t.Fatalf("%+v, %d rows on and back: %v, before %v", f, n, after.Where, before.Where)
			}
			return
		}
		zone := 2 * math.Asin(f.friction+f.load) * 180 / math.Pi
		p, ok := after.Where.Known()
		q, wasOK := before.Where.Known()
		if !ok || !wasOK || math.Abs(p.From(q)) > zone+1e-6 {
			t.Fatalf("%+v, %d rows on and back: %v, before %v", f, n, after.Where, before.Where)
		}
	})
}

// Rightly wired, a half step is an eighth of the cycle, forward and back, over
// any seam; 90° and 90/N° in the other modes.
func TestARowTurnsItsPart(t *testing.T) {
	for _, mode := range modes {
		for _, way := range []float64{1, -1} {
			b := New(torques{}.motor())
			b.SetMode(mode)
			b.Restart()
			at, want := known(t, b), way*90/float64(mode.PerStep)
			for k := range 3 * mode.Rows() {
				if way > 0 {
					b.Next()
				} else {
					b.Back()
				}
				now, r := known(t, b), b.Read()
				if !near(now-at, want) || !r.TurnedOK || !near(r.Turned, want) {
					t.Fatalf("%s, row %d: turned %v° (%v), the rotor went %v°; want %v°", mode.Title, k+1, r.Turned, r.TurnedOK, now-at, want)
				}
				if !r.LagOK || !near(r.Lag, 0) {
					t.Fatalf("%s, row %d: lags %v°, %v", mode.Title, k+1, r.Lag, r.LagOK)
				}
				if r.Step != int64(way)*int64(k+1) || r.Row != b.now.order.Index(r.Step)+1 {
					t.Fatalf("%s, row %d: step %d, row %d", mode.Title, k+1, r.Step, r.Row)
				}
				at = now
			}
			if !near(at-known(t, fresh(mode)), way*3*360) {
				t.Errorf("%s: three cycles end at %v°", mode.Title, at)
			}
		}
	}
}

func fresh(mode sequence.Mode) *Bench {
	b := New(torques{}.motor())
	b.SetMode(mode)
	b.Restart()
	return b
}

// Reverse turns round Next and Back, and nothing else.
func TestReverse(t *testing.T) {
	b := New(torques{friction: 0.05}.motor())
	b.Step(3)
	before := b.Read()
	b.Reverse()
	after := b.Read()
	if after.Way != sequence.Reverse || before.Way != sequence.Forward {
		t.Errorf("Next goes %v, before %v", after.Way, before.Way)
	}
	after.Way, after.Undoable = before.Way, before.Undoable
	if !equal(after, before) {
		t.Errorf("turning round changes more than the way: %+v, before %+v", after, before)
	}
	b.Next()
	if b.Read().Step != 2 {
		t.Errorf("Next goes from 3 to %d", b.Read().Step)
	}
	b.Back()
	b.Back()
	if b.Read().Step != 4 {
		t.Errorf("Back twice goes from 2 to %d", b.Read().Step)
	}
	b.Reverse()
	b.Next()
	if b.Read().Step != 5 || b.Read().Way != sequence.Forward {
		t.Errorf("turned round twice, Next goes from 4 to %d", b.Read().Step)
	}
}

// RowAt reads ahead what Step then does, and does nothing.
func TestRowAt(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := random(t)
		b := anyBench(r)
		before := b.Read()
		later := int64(r.IntN(41) - 20)
		coils, outputs := b.RowAt(later)
		if !equal(b.Read(), before) {
			t.Fatal("reading ahead changed the bench")
		}
		b.Step(later)
		if now := b.Read(); now.Coils != coils || now.Outputs != outputs || outputs.Through(now.Wiring) != coils {
			t.Fatalf("%d rows later: coils %v, outputs %v; foretold %v, %v", later, now.Coils, now.Outputs, coils, outputs)
		}
	})
}
