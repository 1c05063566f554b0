package bench

import (
	"math"
	"testing"

	"coilwalk/model/motor"
	"coilwalk/sequence"
)

// Released, nothing is on and the rotor is left to its detent; the next row is the
// one that stood, and how far the rotor turns to it nobody can know.
func TestRelease(t *testing.T) {
	m, _ := motor.BuiltIn("vent-flap")
	b := New(m)
	b.Next()
	b.Release()
	if r := b.Read(); r.HasField || r.Outputs != (sequence.Row{}) || r.Step != 1 || !b.Released() {
		t.Errorf("released it stands as %+v", r)
	}
	changes := b.Changes()
	b.SetMode(sequence.Full) // chosen with all off, nothing comes on by it
	if r := b.Read(); r.HasField || changes == b.Changes() {
		t.Errorf("a mode switched %s on", r.Outputs.Bits())
	}
	stood := b.Read().Step
	b.Next()
	if r := b.Read(); b.Released() || !r.HasField || r.Field.Strength() < 1.4 || r.Step != stood || r.TurnedOK {
		t.Errorf("after the next row it stands as %+v", r)
	}
	b.Rewind()
	if !b.Released() {
		t.Error("rewound it is not released")
	}
}

// What is energised from off begins with the row that stands, by one row or many,
// forward and back, and by number as far as is asked.
func TestRowsFromOff(t *testing.T) {
	m, _ := motor.BuiltIn("vent-flap")
	for _, c := range []struct {
		do   func(b *Bench)
		step int64
	}{
		{(*Bench).Next, 3},
		{(*Bench).Back, 3},
		{func(b *Bench) { _ = b.Rows(5) }, 7},
		{func(b *Bench) { _ = b.Rows(-5) }, -1},
		{func(b *Bench) { _ = b.Rows(805) }, 807},
		{func(b *Bench) { _ = b.Jump(10) }, 10},
		{func(b *Bench) { _ = b.Jump(-10) }, -10},
	} {
		b := New(m)
		_ = b.Rows(3)
		b.Release()
		c.do(b)
		r := b.Read()
		if r.Step != c.step || r.TurnedOK || b.Released() {
			t.Errorf("from step 3, off, it comes to step %d, wanted %d; turned known: %t", r.Step, c.step, r.TurnedOK)
		}
		b.Next()
		if r := b.Read(); !r.TurnedOK || math.Abs(r.Turned-45) > 7 {
			t.Errorf("at step %d the next row turns it %g°, known %t", c.step, r.Turned, r.TurnedOK)
		}
	}
}

// A copy can be stepped without the bench moving, and the rows ahead are those
// that Next then sends.
func TestCopyAndAhead(t *testing.T) {
	m, _ := motor.BuiltIn("vent-flap")
	for _, wiring := range sequence.Permutations() {
		for k := range 4 {
			back, off := k&1 != 0, k&2 != 0
			b := New(m)
			b.SetWiring(wiring)
			if back {
				b.Reverse()
			}
			b.Next()
			if off {
				b.Release()
			}
			before := b.Read()
			outputs, coils := b.Ahead()
			c := b.Copy()
			for k := range outputs {
				c.Next()
				if r := c.Read(); r.Outputs != outputs[k] || r.Coils != coils[k] {
					t.Fatalf("row %d ahead is %s, Next sends %s", k+1, outputs[k].Bits(), r.Outputs.Bits())
				}
			}
			if b.Rewind(); !off {
				b.Next()
			} else {
				b.Release()
			}
			if after := b.Read(); after.Step != before.Step || after.Outputs != before.Outputs || after.Undoable != before.Undoable {
				t.Fatalf("the copy moved the bench from %d to %d", before.Step, after.Step)
			}
			if len(outputs) != 8 {
				t.Fatalf("%d rows in a cycle of half step", len(outputs))
			}
		}
	}
}
