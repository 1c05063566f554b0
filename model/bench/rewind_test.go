package bench

import (
	"math/rand/v2"
	"testing"
	"time"

	"pgregory.net/rapid"

	"coilwalk/sequence"
)

// act does something at random that can be taken back, and names it; false
// when there turned out to be nothing to take back.
func act(r *rand.Rand, b *Bench) (what string, done bool) {
	was := b.Read().Step
	switch r.IntN(10) {
	case 0:
		b.Next()
		return "next", b.Read().Step != was // at the farthest step there is no next
	case 1:
		b.Back()
		return "back", b.Read().Step != was
	case 2:
		b.Step(int64(r.IntN(101) - 50))
		return "step", b.Read().Step != was
	case 3:
		to := r.Int64N(2*far) - far
		return "jump", b.Jump(to) == nil && to != was
	case 4:
		b.SetMode(one(r, modes))
		return "mode", true
	case 5:
		b.SetTable(anyTable(r), b.Read().Wiring)
		return "table", true
	case 6:
		return "drive", b.SetDrive(one(r, sequence.Drives[:])) == nil
	case 7:
		b.Reverse()
		return "reverse", true
	case 8:
		i, j := 1+r.IntN(4), 1+r.IntN(4)
		return "swap", b.Swap(i, j) == nil
	}
	b.SetWiring(one(r, sequence.Permutations()))
	return "wiring", true
}

// A rewind brings back each earlier reading to the last bit, in turn.
func TestRewindBringsBackEveryReading(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := random(t)
		b := anyBench(r)
		readings := []Reading{b.Read()}
		var names []string
		for range r.IntN(25) {
			if what, done := act(r, b); done {
				readings, names = append(readings, b.Read()), append(names, what)
			}
		}
		for k := len(readings) - 1; k >= 0; k-- {
			if got := b.Read(); !equal(got, readings[k]) {
				t.Fatalf("after %v, %d left:\n%+v\nwas\n%+v", names, k, got, readings[k])
			}
			if got := b.Read().Undoable; got != k {
				t.Fatalf("%d can be taken back, want %d", got, k)
			}
			changes := b.Changes()
			if b.Rewind() != (k > 0) {
				t.Fatalf("a rewind with %d left says %v", k, k == 0)
			}
			if (b.Changes() != changes) != (k > 0) {
				t.Fatalf("with %d left the count of changes goes from %d to %d", k, changes, b.Changes())
			}
		}
	})
}

// After a rewind one goes on as if the undone had never been.
func TestGoingOnAfterARewind(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := random(t)
		seed := r.Uint64()
		b, straight := anyBench(rand.New(rand.NewPCG(seed, 1))), anyBench(rand.New(rand.NewPCG(seed, 1)))
		for range 10 {
			if _, done := act(r, b); done {
				b.Rewind()
			}
			again := r.Uint64()
			act(rand.New(rand.NewPCG(again, 2)), b)
			act(rand.New(rand.NewPCG(again, 2)), straight)
			if got, want := b.Read(), straight.Read(); !equal(got, want) {
				t.Fatalf("%+v, want %+v", got, want)
			}
		}
	})
}

// What changes nothing can not be taken back: it would undo what was before.
func TestNothingIsNotRemembered(t *testing.T) {
	b := New(torques{}.motor())
	b.Step(5)
	b.Step(0)
	if err := b.Jump(5); err != nil {
		t.Error(err)
	}
	for _, pair := range [][2]int{{0, 1}, {1, 5}, {2, 2}, {-1, 3}, {1, 0}} {
		if b.Swap(pair[0], pair[1]) == nil {
			t.Errorf("outputs %v were swapped", pair)
		}
	}
	if b.Jump(1<<62) == nil || b.Jump(-1<<62) == nil {
		t.Error("a jump out of reach")
	}
	b.Run()
	b.SetRate(50)
	b.Elapse(time.Nanosecond)
	b.Stop()
	if r := b.Read(); r.Undoable != 1 || r.Step != 5 {
		t.Errorf("%d things can be taken back at step %d, want 1 at 5", r.Undoable, r.Step)
	}
	if !b.Rewind() || b.Read().Step != 0 {
		t.Errorf("rewound to step %d", b.Read().Step)
	}
}

// Everything that changes a reading is counted; a screen draws by that.
func TestChangesAreCounted(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := random(t)
		b := anyBench(r)
		for range 20 {
			before, changes := b.Read(), b.Changes()
			what, _ := act(r, b)
			switch r.IntN(8) {
			case 0:
				b.Run()
			case 1:
				b.Stop()
			case 2:
				b.SetRate(r.Float64() * 300)
			case 3:
				b.Elapse(time.Duration(r.Int64N(int64(time.Second))))
			case 4:
				b.Restart()
			}
			if b.Changes() == changes && !equal(b.Read(), before) {
				t.Fatalf("%s and more: not counted", what)
			}
		}
	})
}

// So is that a run can not be in time, found out before the first row is due.
func TestWhyARunIsNotInTimeIsCounted(t *testing.T) {
	b := New(torques{}.motor()) // nothing says what current it takes
	b.Run()
	b.Step(20)
	b.SetRate(1)
	before, changes := b.Read(), b.Changes()
	b.Elapse(time.Millisecond)
	if after := b.Read(); before.Untimed != nil || after.Untimed == nil || b.Changes() == changes {
		t.Errorf("changes %d and %d; untimed: %v, then %v", changes, b.Changes(), before.Untimed, after.Untimed)
	}
}

// The past is bounded: its oldest part goes, and what is left is in order.
func TestThePastIsBounded(t *testing.T) {
	b := New(torques{}.motor())
	b.SetMode(sequence.Wave)
	const rows = 3*longestPast + 17
	for range rows {
		b.Next()
		if n := b.Read().Undoable; n > longestPast {
			t.Fatalf("%d moments are kept", n)
		}
	}
	kept := b.Read().Undoable
	if kept < longestPast*8/10 {
		t.Errorf("only %d moments are kept", kept)
	}
	for k := range kept {
		if !b.Rewind() || b.Read().Step != int64(rows-k-1) {
			t.Fatalf("rewind %d leads to step %d, want %d", k+1, b.Read().Step, rows-k-1)
		}
	}
	if b.Rewind() {
		t.Error("a rewind past the past")
	}
	if len(b.past) != 0 || cap(b.past) > 2*longestPast {
		t.Errorf("room is kept for %d moments", cap(b.past))
	}
}

// Restart goes to the first row, rotor at home, and nothing can be taken back;
// the order, the wiring and the way stay.
func TestRestart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := random(t)
		b := anyBench(r)
		for range 10 {
			act(r, b)
		}
		b.Run()
		before := b.Read()
		b.Restart()
		now := b.Read()
		if now.Step != 0 || now.Row != 1 || now.Undoable != 0 || now.Running || b.Rewind() {
			t.Fatalf("%+v", now)
		}
		if now.Wiring != before.Wiring || now.Way != before.Way || now.Drive != before.Drive || now.Table != before.Table || !sameOrder(now.Order, before.Order) {
			t.Fatalf("%+v, before %+v", now, before)
		}
		b.Step(7)
		b.Restart()
		if again := b.Read(); !equal(again, now) {
			t.Fatalf("restarted again: %+v, first %+v", again, now)
		}
	})
}
