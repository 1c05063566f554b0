package bench

import (
	"testing"

	"coilwalk/model/motor"
	"coilwalk/sequence"
)

// Released, nothing is on and the rotor is left to its detent; the next row is the
// one after that which stood.
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
	b.Next()
	if r := b.Read(); b.Released() || !r.HasField || r.Field.Strength() < 1.4 {
		t.Errorf("after the next row it stands as %+v", r)
	}
	b.Rewind()
	if !b.Released() {
		t.Error("rewound it is not released")
	}
}

// A copy can be stepped without the bench moving, and the rows ahead are those
// that Next then sends.
func TestCopyAndAhead(t *testing.T) {
	m, _ := motor.BuiltIn("vent-flap")
	for _, wiring := range sequence.Permutations() {
		for _, back := range []bool{false, true} {
			b := New(m)
			b.SetWiring(wiring)
			if back {
				b.Reverse()
			}
			b.Next()
			before := b.Read()
			outputs, coils := b.Ahead()
			c := b.Copy()
			for k := range outputs {
				c.Next()
				if r := c.Read(); r.Outputs != outputs[k] || r.Coils != coils[k] {
					t.Fatalf("row %d ahead is %s, Next sends %s", k+1, outputs[k].Bits(), r.Outputs.Bits())
				}
			}
			b.Rewind()
			b.Next()
			if after := b.Read(); after.Step != before.Step || after.Outputs != before.Outputs || after.Undoable != before.Undoable {
				t.Fatalf("the copy moved the bench from %d to %d", before.Step, after.Step)
			}
			if len(outputs) != 8 {
				t.Fatalf("%d rows in a cycle of half step", len(outputs))
			}
		}
	}
}
