// Package rotor says where the rotor is. It moves only because the field of
// the coils, the detent and the load pull it; nothing in here counts steps.
//
// Machine is the statics: where the rotor comes to rest when a row is energised
// and everything has settled. Its angles are electrical degrees, its torques in
// units of the holding torque with one phase on (T1). Plant and Motion are the
// same machine in time, in SI units: the currents, the speed, and what of both
// is left when the next row comes.
package rotor

import (
	"math"

	"coilwalk/model/motor"
	"coilwalk/sequence"
)

// Machine is what the statics need of a motor.
type Machine struct {
	PolePairs   int
	Detent      float64 // amplitude of the detent torque, in T1
	DetentShift float64 // φd in degrees: 0 puts the detents at one-phase positions, 180 at two-phase ones
	Friction    float64 // dry friction, in T1
	Load        float64 // pulling back against forward turning, in T1
	OnePhase    float64 // T1 at the rotor, N·m; 0 when the motor gives none
}

// Of takes the figures from a motor. Without a holding torque the other
// torques have no measure, and are left out.
func Of(m motor.Motor) Machine {
	machine := Machine{PolePairs: m.PolePairs}
	if m.Figures.DetentAt45 {
		machine.DetentShift = 180
	}
	t1 := m.Figures.OnePhase.Base()
	if m.Figures.HoldingTorque.Given() {
		t1 = m.Figures.HoldingTorque.Base() / math.Sqrt2 // catalogues give it with two phases on
	}
	if t1 <= 0 {
		return machine
	}
	machine.Detent = m.Figures.Detent.Base() / t1
	machine.Friction = m.Figures.Friction.Base() / t1
	machine.Load = m.Figures.Load.Base() / t1
	ratio, _ := m.Train.Ratio().Float64()
	machine.OnePhase = t1 / ratio
	return machine
}

// Torque gives the torque on the rotor at an electrical angle, without
// friction, in T1: that of field and detent, less the load.
func (m Machine) Torque(f sequence.Field, deg float64) float64 {
	sin, cos := sinCosDegrees(deg)
	t := fieldTorque(f.A, f.B, sin, cos) - m.Load
	if m.Detent != 0 {
		shiftSin, shiftCos := sinCosDegrees(m.DetentShift)
		sin4, _ := detentWave(sin, cos, shiftSin, shiftCos)
		t -= m.Detent * sin4
	}
	return t
}

// Stiffness gives −dT/dθe at a rotor angle, in T1 per electrical radian:
// positive where the rotor is drawn back, negative on a hill.
func (m Machine) Stiffness(f sequence.Field, deg float64) float64 {
	sin, cos := sinCosDegrees(deg)
	k := f.A*cos + f.B*sin
	if m.Detent != 0 {
		shiftSin, shiftCos := sinCosDegrees(m.DetentShift)
		_, cos4 := detentWave(sin, cos, shiftSin, shiftCos)
		k += 4 * m.Detent * cos4
	}
	return k
}

// StiffnessSI gives the same in N·m per radian of the rotor: p·T1 times it.
// ok is false when the motor gives no holding torque.
func (m Machine) StiffnessSI(f sequence.Field, deg float64) (newtonMetrePerRadian float64, ok bool) {
	return float64(m.PolePairs) * m.OnePhase * m.Stiffness(f, deg), m.OnePhase > 0
}

// sinCosDegrees is exact at multiples of 90°, so that a row 180° away balances
// to the last bit and not to a rounding error's side.
func sinCosDegrees(deg float64) (sin, cos float64) {
	turn := math.Mod(deg, 360)
	quarter := math.Round(turn / 90)
	sin, cos = math.Sincos((turn - 90*quarter) * math.Pi / 180)
	switch (int(quarter)%4 + 4) % 4 {
	case 1:
		return cos, -sin
	case 2:
		return -sin, -cos
	case 3:
		return -cos, sin
	}
	return sin, cos
}
