package bench

import (
	"math"
	"testing"

	"coilwalk/model/motor"
	"coilwalk/model/quantity"
	"coilwalk/sequence"
)

// 4 leads have no tap, so no unipolar drive; the common of 5 joins both
// phases, so no bridge (Nippon Pulse, FAQ on rotary hybrid stepper motors, has
// the first; the second is common practice, no source). A refusal does nothing.
func TestSetDrive(t *testing.T) {
	four, five, six := torques{}.motor(), torques{}.motor(), torques{}.motor()
	four.Taps = [2]motor.Lead{}
	four.Drive = sequence.Bipolar
	five.Taps, five.Common = [2]motor.Lead{}, "c"
	for _, c := range []struct {
		m       motor.Motor
		refused sequence.Drive
		why     string
	}{
		{four, sequence.Unipolar, "a 4-lead motor has no tap to put to the supply, so its drive is bipolar"},
		{five, sequence.Bipolar, "the common of a 5-lead motor joins both phases, so its drive is unipolar"},
	} {
		b := New(c.m)
		b.Step(3)
		before, changes := b.Read(), b.Changes()
		if err := b.SetDrive(c.refused); err == nil || err.Error() != c.why || !equal(b.Read(), before) || b.Changes() != changes {
			t.Errorf("%d leads, %s: %v, %+v", len(c.m.Leads()), c.refused, err, b.Read())
		}
		if err := b.SetDrive(c.m.Drive); err != nil || b.Read().Drive != c.m.Drive {
			t.Errorf("%d leads, %s: %v", len(c.m.Leads()), c.m.Drive, err)
		}
	}
	b := New(six)
	for _, d := range []sequence.Drive{sequence.Bipolar, sequence.Unipolar} {
		if err := b.SetDrive(d); err != nil || b.Read().Drive != d {
			t.Errorf("6 leads, %s: %v", d, err)
		}
	}
}

// Both halves of a phase on: no field, twice the heat of the phase unipolar,
// and none behind a bridge.
func TestHeatFollowsTheDrive(t *testing.T) {
	b := New(torques{}.motor())
	b.SetTable([]sequence.Row{{1, 0, 1, 0}}, b.Read().Wiring)
	if r := b.Read(); r.HasField || r.PhaseHeat != 2 {
		t.Errorf("unipolar: heat %v, field %v", r.PhaseHeat, r.Field)
	}
	if err := b.SetDrive(sequence.Bipolar); err != nil || b.Read().PhaseHeat != 0 {
		t.Errorf("bipolar: %v, heat %v", err, b.Read().PhaseHeat)
	}
}

// A sitting begins in half step on its first row, the rotor at home: under it,
// less the load's lag, asin(0.5) = 30°.
func TestNew(t *testing.T) {
	b := New(torques{load: 0.5}.motor())
	r := b.Read()
	if mode, ok := r.Order.Mode(); !ok || mode.Name != "half" || r.Step != 0 || r.Row != 1 || r.Way != sequence.Forward || r.Running || r.Undoable != 0 || r.Table {
		t.Errorf("%+v", r)
	}
	if !near(known(t, b), -30) || !near(r.Lag, 30) || !r.LagOK || r.Outputs != (sequence.Row{1, 0, 0, 0}) {
		t.Errorf("%+v", r)
	}
	if b.Motor().Name != "made-up" {
		t.Errorf("the motor is %s", b.Motor().Name)
	}
	for _, name := range motor.Names() {
		m, _ := motor.BuiltIn(name)
		if b := New(m); math.Abs(known(t, b)) > 30 || b.Read().Rewired || b.Read().Drive != m.Drive {
			t.Errorf("%s: %+v", name, b.Read())
		}
	}
}

// The lag is positive behind the field, negative ahead, also over the seam.
func TestLag(t *testing.T) {
	for _, load := range []float64{0.5, -0.5} {
		b := New(torques{load: load}.motor())
		b.SetMode(sequence.Wave)
		b.Restart()
		for range 9 {
			r := b.Read()
			if want := math.Copysign(30, load); !r.LagOK || !near(r.Lag, want) || !near(b.Torque(r.Where.Places[0].Deg), 0) {
				t.Errorf("load %v, row %d: lag %v°, want %v°", load, r.Row, r.Lag, want)
			}
			b.Next()
		}
	}
}

// The torque is that of the row as it arrives: at the most a quarter of the
// cycle before the field.
func TestTorque(t *testing.T) {
	b := New(torques{}.motor())
	b.SetMode(sequence.Full)
	b.Restart()
	for k := range 4 {
		field := 45 + 90*float64(k)
		if got := b.Torque(field - 90); !near(got, math.Sqrt2) {
			t.Errorf("a quarter before %v°: %v, want √2", field, got)
		}
		if got := b.Torque(field + 90); !near(got, -math.Sqrt2) {
			t.Errorf("a quarter past %v°: %v, want −√2", field, got)
		}
		b.Next()
	}
}

// The current is that of a coil end, whatever output feeds it.
func TestCurrent(t *testing.T) {
	m := torques{}.motor()
	b := New(m)
	if i, ok := b.Read().Current(m, sequence.APlus); ok {
		t.Errorf("a motor without figures draws %v", i)
	}
	m.Figures.Current = quantity.Amperes(0.4)
	half, err := sequence.Micro(2, 0)
	if err != nil {
		t.Fatal(err)
	}
	b = New(m)
	b.SetMode(half)
	b.SetWiring(sequence.Permutation{sequence.AMinus, sequence.BPlus, sequence.APlus, sequence.BMinus})
	b.Step(1)
	for e, want := range map[sequence.End]float64{sequence.APlus: 0, sequence.BPlus: 0.4 / math.Sqrt2, sequence.AMinus: 0.4 / math.Sqrt2, sequence.BMinus: 0} {
		if i, ok := b.Read().Current(m, e); !ok || !near(i.Base(), want) {
			t.Errorf("%v draws %v, want %v A", e, i, want)
		}
	}
}

// Stiffness is p·T1 where the rotor rests under one phase, √2 as much under
// two; with a load it falls with the cosine of the lag. In N·m per radian of
// the rotor.
func TestStiffness(t *testing.T) {
	for _, load := range []float64{0, 0.5} {
		b := New(torques{load: load}.motor())
		for k := range 4 {
			strength := 1.0
			if k%2 == 1 {
				strength = math.Sqrt2
			}
			want := 8 * math.Sqrt(strength*strength-load*load)
			if got := b.Read().Stiffness; !near(got, want) {
				t.Errorf("load %v, row %d: %v, want %v", load, k+1, got, want)
			}
			b.Next()
		}
	}
	b := New(torques{}.motor())
	b.Step(4)
	b.SetTable([]sequence.Row{{1, 0, 0, 0}, {0, 0, 1, 0}}, b.Read().Wiring)
	b.Next() // either way: where the rotor is, and how it is held, is not known
	if got := b.Read().Stiffness; got != 0 {
		t.Errorf("nobody knows where the rotor is, and its stiffness is %v", got)
	}
}
