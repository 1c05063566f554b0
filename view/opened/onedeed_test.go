package opened

import (
	"testing"

	"coilwalk/model/bench"
	"coilwalk/model/motor"
	"coilwalk/model/table"
)

// A cure, the next table and the table itself are one deed each, of rows and leads at
// once: one rewind leads back to what was on the bench before.
func TestWhatIsPutOnTheBenchIsOneDeed(t *testing.T) {
	// A row is missing, then leads of another pairing, then sound.
	source, err := table.Read("a.c", []byte("int a[] = {8, 12, 4, 2, 3, 1, 9};\nint b[] = {8, 10, 2, 6, 4, 5, 1, 9};\nint c[] = {8, 4, 2, 1};\n"), table.Options{})
	if err != nil {
		t.Fatal(err)
	}
	m, _ := motor.BuiltIn("hybrid-4")
	b := bench.New(m)
	o := &Table{File: "a.c", Verdicts: source.Judge(table.Question{})}
	o.Walk(b)
	deeds := 0
	for _, do := range []func() bool{
		func() bool { _, ok := o.Cure(b, 1); return ok },
		func() bool { return o.Next(b) },
		func() bool { return o.Next(b) },
		func() bool { o.Walk(b); return true },
	} {
		before := b.Read()
		if !do() {
			t.Fatal("nothing was put on the bench")
		}
		after := b.Read()
		if after.Undoable != before.Undoable+1 {
			t.Errorf("%d can be taken back, then %d", before.Undoable, after.Undoable)
		}
		if after.Wiring != before.Wiring {
			deeds++
		}
		b.Rewind()
		if back := b.Read(); back.Wiring != before.Wiring || back.Coils != before.Coils || back.Outputs != before.Outputs || back.Order.Len() != before.Order.Len() {
			t.Errorf("one rewind leads to %v by %v, and before it was %v by %v", back.Outputs, back.Wiring, before.Outputs, before.Wiring)
		}
		do()
	}
	if deeds == 0 {
		t.Error("no leads were changed: it tries little")
	}
}
