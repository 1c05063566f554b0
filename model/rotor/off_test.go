package rotor

import (
	"math"
	"testing"

	"coilwalk/sequence"
)

// Detents lie at the one-phase positions (φd = 0): a rotor on one stays, one on a
// two-phase row stands midway between two and falls 45° electrical to either
// side; friction may keep it (design of the model: no field, the detent's basin).
// With the detents at the two-phase positions it is the other way round.
func TestCoilsOff(t *testing.T) {
	p := plantOf(t, "hybrid-4", "current")
	p.Friction, p.Load = 0, Load{}
	check := func(mode sequence.Mode, row int, want ...float64) {
		t.Helper()
		all := SwitchedOff(p, mode)
		got := all[row-1].Degrees
		if all[row-1].Row != row {
			t.Errorf("%s: row %d is called row %d", mode.Name, row, all[row-1].Row)
		}
		if len(got) != len(want) {
			t.Fatalf("%s row %d: %v, want %v", mode.Name, row, got, want)
		}
		for i := range want {
			if math.Abs(math.Abs(got[i])-want[i]) > 0.01 {
				t.Errorf("%s row %d: %v, want %v", mode.Name, row, got, want)
			}
		}
	}
	check(sequence.Half, 1, 0)
	check(sequence.Half, 2, 45, 45)
	check(sequence.Full, 1, 45, 45)
	p.DetentShift = 180
	check(sequence.Half, 1, 45, 45)
	check(sequence.Half, 2, 0)
	p.DetentShift, p.Friction = 0, 2*p.Detent
	check(sequence.Half, 2, 0)
	p.Friction, p.Load.Torque = 0, 1.5*p.Detent // more than the detent holds
	if all := SwitchedOff(p, sequence.Half); len(all[0].Degrees) != 0 || all[0].Kept != Adrift {
		t.Errorf("a load stronger than the detent: %+v", all[0])
	}
}
