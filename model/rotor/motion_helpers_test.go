package rotor

import (
	"math"
	"testing"

	"coilwalk/model/driver"
	"coilwalk/sequence"
)

var (
	aRow  = sequence.Row{1, 0, 0, 0}
	bRow  = sequence.Row{0, 1, 0, 0}
	abRow = sequence.Row{1, 1, 0, 0}
)

func stage(tb testing.TB, name string) driver.Stage {
	tb.Helper()
	s, err := driver.Named(name)
	if err != nil {
		tb.Fatal(err)
	}
	return s
}

// smallMotor is a two-phase motor of 16 pole pairs on 5 V: 50 ohm, 20 mH, a
// torque of 0.1 N·m to an ampere, 2e-7 kg·m² and 2e-5 N·m·s.
func smallMotor(tb testing.TB) Plant {
	return Plant{PolePairs: 16, Drive: sequence.Bipolar, Stage: stage(tb, "ideal"), Supply: 5, Current: 0.1,
		FluxConstant: 0.1 / 16, Resistance: 50, Inductance: 20e-3, Inertia: 2e-7, Damping: 2e-5, Ratio: 1}
}

// unipolarMotor is the same with four half-coils, coupled by 0.98, and sinks
// that lose 0.9 V and clamps that lose 0.8 V, half an ohm each.
func unipolarMotor(tb testing.TB) Plant {
	p := smallMotor(tb)
	p.Drive, p.Coupling, p.Stage = sequence.Unipolar, 0.98, stage(tb, "darlington")
	p.Stage.Switch = driver.Drop{Volts: 0.9, Ohms: 0.5}
	p.Stage.Clamp = driver.Drop{Volts: 0.8, Ohms: 0.5}
	p.Stage.Diode = driver.Drop{Volts: 0.8, Ohms: 0.5}
	return p
}

// spring is a rotor of 8 pole pairs on a current source that holds with 1 mN·m
// on one phase: no losses at all.
func spring(tb testing.TB) Plant {
	return Plant{PolePairs: 8, Drive: sequence.Bipolar, Stage: stage(tb, "current"), Current: 0.1, FluxConstant: 1e-3 / (8 * 0.1),
		Inertia: 2e-8, Ratio: 1}
}

// heavily damps it, so that it creeps to its rest without a swing.
func heavily(p Plant) Plant {
	p.Damping = 4 * math.Sqrt(8*1e-3*p.Inertia)
	return p
}

// begun gives the motion from a rest at an electrical angle, with a row on.
func begun(p *Plant, deg float64, row sequence.Row) *Motion {
	m := NewMotion(p)
	m.Start(State{Place: position(deg)})
	m.Energise(row)
	return m
}

func advance(tb testing.TB, m *Motion, until float64) State {
	tb.Helper()
	if err := m.Advance(until); err != nil {
		tb.Fatal(err)
	}
	return m.State()
}

// fullSteps runs full steps of 10 ms, the first row at once.
func fullSteps(m *Motion, rows int) error {
	o := sequence.Full.Order()
	for k := range rows {
		m.Energise(o.Row(int64(k)))
		if err := m.Advance(float64(k+1) * 0.01); err != nil {
			return err
		}
	}
	return nil
}

// apart says how far two states lie apart, each part in its own measure: of
// currents, of speed at the ring frequency, of electrical radians.
func apart(p *Plant, s, r State) float64 {
	d := math.Abs(s.Place.From(r.Place)) * math.Pi / 180
	d = max(d, math.Abs(s.Speed-r.Speed)*float64(p.PolePairs)/p.RingRadians(1))
	for j := range s.Currents {
		d = max(d, math.Abs(s.Currents[j]-r.Currents[j])/p.Current)
	}
	return d
}
