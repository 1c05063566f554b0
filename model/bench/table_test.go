package bench

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"coilwalk/model/rotor"
	"coilwalk/sequence"
)

// A table stands on the outputs as it is written, whatever the wiring, and
// goes round.
func TestTableStandsOnTheOutputs(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := random(t)
		m := one(r, kinds).motor()
		m.Wiring = one(r, sequence.Permutations())
		b := New(m)
		b.SetWiring(one(r, sequence.Permutations()))
		b.Step(int64(r.IntN(20)))
		rows := anyTable(r)
		b.SetTable(rows, b.Read().Wiring)
		if b.Read().Step != 0 || !b.Read().Table {
			t.Fatalf("%+v", b.Read())
		}
		written := slices.Clone(rows)
		rows[0] = sequence.Row{9, 9, 9, 9} // the caller may change its own
		for range 20 {
			step := int64(r.IntN(41) - 20)
			if err := b.Jump(step); err != nil {
				t.Fatal(err)
			}
			n := int64(len(written))
			at := (step%n + n) % n
			now := b.Read()
			if now.Outputs != written[at] || now.Row != int(at)+1 || now.Step != step || b.Commanded() != nil {
				t.Fatalf("step %d of %v: %v on the outputs, row %d", step, written, now.Outputs, now.Row)
			}
			for k, e := range now.Wiring {
				if now.Coils[e] != written[at][k] {
					t.Fatalf("output %d feeds %v: %v at the ends, %v on the outputs", k+1, e, now.Coils, now.Outputs)
				}
			}
		}
	})
}

// A table that is a mode's own rows walks as the mode does.
func TestTableOfAMode(t *testing.T) {
	for _, mode := range modes {
		for _, p := range sequence.Permutations() {
			m := torques{friction: 0.05}.motor()
			m.Wiring = p
			byMode, byTable := New(m), New(m)
			byMode.SetMode(mode)
			byMode.Restart()
			var rows []sequence.Row
			for k := range int64(mode.Rows()) {
				_, outputs := byMode.RowAt(k)
				rows = append(rows, outputs)
			}
			byTable.SetTable(rows, byTable.Read().Wiring)
			for _, n := range []int64{0, 3, -7, 100, far} {
				byMode.Step(n)
				byTable.Step(n)
				a, b := byTable.Read(), byMode.Read()
				if a.Coils != b.Coils || !sameWhere(a.Where, b.Where) || a.Balance != b.Balance || a.Step != b.Step {
					t.Fatalf("%s on %v, %d on: %+v, want %+v", mode.Title, p, n, a, b)
				}
			}
		}
	}
}

// From a table a mode takes over at the nearest row, by the stated wiring.
func TestFromATableToAMode(t *testing.T) {
	for _, p := range sequence.Permutations() {
		m := torques{friction: 0.05}.motor()
		m.Wiring = p
		b := New(m)
		b.SetMode(sequence.Wave)
		b.Restart()
		var rows []sequence.Row
		for k := range int64(4) {
			_, outputs := b.RowAt(k)
			rows = append(rows, outputs)
		}
		b.SetTable(rows, b.Read().Wiring)
		b.Step(2)
		before := b.Read()
		b.SetMode(sequence.Half)
		if after := b.Read(); after.Coils != before.Coils || after.FieldDeg != 180 || after.Row != 5 || after.Table || after.Turned != 0 {
			t.Errorf("%v: %v at %v°, row %d; was %v", p, after.Coils, after.FieldDeg, after.Row, before.Coils)
		}
	}
}

// Rows that are off, or cancel, have no field; a mode then starts anew.
func TestTableWithoutField(t *testing.T) {
	b := New(torques{detent: 0.1}.motor())
	b.SetTable([]sequence.Row{{0, 1, 0, 0}, {}, {1, 1, 1, 1}}, b.Read().Wiring)
	b.Step(1)
	if r := b.Read(); r.HasField || r.LagOK || r.Balance != rotor.Detent || !near(known(t, b), 90) {
		t.Errorf("off: %+v", r)
	}
	b.Step(1)
	if r := b.Read(); r.HasField || r.PhaseHeat != 4 || !near(known(t, b), 90) {
		t.Errorf("all on: %+v", r)
	}
	b.SetMode(sequence.Half)
	if r := b.Read(); r.Row != 1 || r.FieldDeg != 0 {
		t.Errorf("half step from no field: %+v", r)
	}
	b.SetTable(nil, b.Read().Wiring)
	b.Step(5)
	if r := b.Read(); r.Outputs != (sequence.Row{}) || r.Row != 1 || r.Step != 5 {
		t.Errorf("no rows at all: %+v", r)
	}
}

// A detent has a valley at each row of wave drive, but one phase on makes a
// hill of that 180° away: A+ after A− sends the rotor either way.
func TestTableByHand(t *testing.T) {
	b := New(torques{detent: 0.1}.motor())
	b.SetTable([]sequence.Row{{1, 0, 0, 0}, {0, 1, 0, 0}, {0, 0, 1, 0}, {}}, b.Read().Wiring)
	for k, deg := range []float64{90, 180, 180} {
		if b.Next(); !near(known(t, b), deg) {
			t.Errorf("row %d: at %v°, want %v°", k+2, known(t, b), deg)
		}
	}
	b.Next()
	want := rotor.Whereabouts{Places: []rotor.Position{{Pitch: 1}, {Pitch: 0}}}
	if r := b.Read(); r.Balance != rotor.Either || !sameWhere(r.Where, want) || r.TurnedOK {
		t.Errorf("A+ from 180° away: %v, balance %d", r.Where, r.Balance)
	}
}

// Back from a mode to the table: to the row that the mode has shared with it,
// as the leads stand, and the rotor stays. A rewind undoes it.
func TestBackToTable(t *testing.T) {
	b := New(torques{friction: 0.05}.motor())
	if before, changes := b.Read(), b.Changes(); b.HasTable() {
		t.Error("a table that nobody gave")
	} else if b.BackToTable(); !equal(b.Read(), before) || b.Changes() != changes {
		t.Errorf("back to no table: %+v", b.Read())
	}
	table := []sequence.Row{{1, 1, 0, 0}, {0, 1, 1, 0}, {0, 0, 1, 1}, {1, 0, 0, 1}}
	b.SetTable(table, b.Read().Wiring)
	if before := b.Read(); !b.HasTable() {
		t.Error("the table is gone")
	} else if b.BackToTable(); !equal(b.Read(), before) {
		t.Errorf("back to the table that is walked: %+v", b.Read())
	}
	for k := range int64(4) {
		b.SetMode(sequence.Half)
		b.Restart()
		b.Step(2*k + 1)
		before := b.Read()
		b.BackToTable()
		after := b.Read()
		if !after.Table || after.Step != k || after.Outputs != table[k] || after.Coils != before.Coils || !sameWhere(after.Where, before.Where) {
			t.Errorf("from half step %d: row %d, %v; want row %d, %v", 2*k+1, after.Row, after.Outputs, k+1, table[k])
		}
		if !b.Rewind() || !equal(b.Read(), before) {
			t.Errorf("undone: %+v, was %+v", b.Read(), before)
		}
	}
}
