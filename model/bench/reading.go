package bench

import (
	"math/big"

	"coilwalk/model/motor"
	"coilwalk/model/quantity"
	"coilwalk/model/rotor"
	"coilwalk/model/wiring"
	"coilwalk/sequence"
)

// Reading is all that can be read off the bench at one moment.
type Reading struct {
	Order     sequence.Order
	Table     bool // the order is a table of one's own
	Drive     sequence.Drive
	Wiring    sequence.Permutation
	Rewired   bool               // the wiring is not as the motor states it
	Faults    []wiring.Fault     // put in by hand
	Way       sequence.Direction // that is commanded
	Running   bool
	Rate      float64 // rows per second
	Timed     bool    // the rotor moves in time, and InTime says how it follows
	InTime    InTime
	Untimed   error // why it goes from rest to rest in a run; nil where that was not found out
	Step      int64 // rows since the start, signed
	Row       int   // place in the cycle, from 1
	Outputs   sequence.Row
	Coils     sequence.Row // what arrives at the coil ends, in field order
	Field     sequence.Field
	FieldDeg  float64
	HasField  bool
	Where     rotor.Whereabouts
	Balance   rotor.Balance
	Turned    float64 // electrical degrees that the last move turned the rotor
	TurnedOK  bool
	Lag       float64 // electrical degrees that the rotor rests behind the field; negative: ahead
	LagOK     bool
	Undoable  int     // moments that a rewind can take back
	PhaseHeat float64 // copper loss, 1 = one phase on
	Stiffness float64 // N·m at the rotor per radian of it, drawing it back; 0 when not known
}

// Read reads the bench.
func (b *Bench) Read() Reading {
	coils := b.coils()
	r := Reading{
		Order: b.now.order, Table: b.now.table, Drive: b.now.drive, Wiring: b.now.wiring,
		Rewired: b.now.wiring != b.motor.Wiring,
		Faults:  b.now.faults,
		Way:     b.now.way, Running: b.running, Rate: b.rate,
		Step: b.now.step, Row: b.now.order.Index(b.now.step) + 1,
		Outputs: b.outputs(b.now.step), Coils: coils, Field: coils.Field(),
		Where: b.now.where, Balance: b.now.balance,
		Turned: b.now.turned, TurnedOK: b.now.moved, Undoable: len(b.past),
		PhaseHeat: coils.Heat(b.now.drive),
	}
	r.FieldDeg, r.HasField = r.Field.Degrees()
	if p, ok := r.Where.Known(); ok {
		r.Stiffness, _ = b.machine.StiffnessSI(r.Field, p.Deg)
	}
	if len(r.Where.Places) == 1 && r.HasField {
		r.Lag, r.LagOK = sequence.Between(r.Where.Places[0].Deg, r.FieldDeg), true
	}
	if b.timed != nil {
		r.Timed, r.InTime = true, b.inTime()
	}
	r.Untimed = b.untimed
	return r
}

// RowAt gives the rows around the present one for a trace: what arrives at the
// coil ends, and what stands on the outputs, a number of rows later in the
// order (not in the way of Next).
func (b *Bench) RowAt(later int64) (coils, outputs sequence.Row) {
	outputs = b.row(b.now.step + later)
	return b.through(outputs), outputs
}

// Shaft gives the angle of the output shaft at a place of the rotor, degrees.
func (b *Bench) Shaft(p rotor.Position) float64 {
	return p.Shaft(b.motor.PolePairs, b.ratio)
}

// Torque gives the torque on the rotor at a rotor angle in electrical degrees
// under the present row, in units of one phase on.
func (b *Bench) Torque(deg float64) float64 {
	return b.machine.Torque(b.coils().Field(), deg)
}

// Commanded gives the exact angle of the shaft that the order commands, in
// turns from step 0; nil for a table, which commands no steady advance.
func (b *Bench) Commanded() *big.Rat {
	deg := b.now.order.Degrees(b.now.step)
	if deg == nil || b.now.table {
		return nil
	}
	first := b.now.order.Degrees(0)
	turns := deg.Sub(deg, first)
	turns.Quo(turns, new(big.Rat).SetInt64(360*int64(b.motor.PolePairs)))
	return turns.Quo(turns, b.ratio)
}

// Current gives the rated current in a coil end of the present row, before
// any driver's drop; ok is false where the motor states none.
func (r Reading) Current(m motor.Motor, e sequence.End) (i quantity.Current, ok bool) {
	m.Drive = r.Drive
	full, ok := m.DrivenCurrent()
	return quantity.Amperes(full.Base() * r.Coils[e]), ok
}
