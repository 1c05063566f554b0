// Package bench is one sitting with a motor: the motor, its wiring, the order
// that is sent, and where all of it stands. Rows are energised one at a time,
// forward, back, or undone; the rotor follows by package rotor alone. There is
// no screen and no clock in it: time is handed in.
package bench

import (
	"fmt"
	"math/big"
	"slices"

	"coilwalk/model/motor"
	"coilwalk/model/rotor"
	"coilwalk/model/wiring"
	"coilwalk/sequence"
)

// Bench is a sitting. Its zero value is not usable; New makes one.
type Bench struct {
	motor   motor.Motor
	machine rotor.Machine
	ratio   *big.Rat // of the train
	now     moment
	past    []moment
	changes uint64

	running bool
	rate    float64 // rows per second
	owed    float64 // rows that have come due but were not sent, below 1
	timed   *timedRun
	untimed error // why a run goes from rest to rest and not in time
}

// moment is all that a rewind brings back.
type moment struct {
	order  sequence.Order
	table  bool           // order's rows are as on outputs 1 to 4, not at coil ends
	rows   []sequence.Row // the table of one's own, walked or not; nil without one, never changed
	drive  sequence.Drive
	wiring sequence.Permutation // the coil end that each output really feeds
	faults []wiring.Fault       // put in by hand; never changed once made
	way    sequence.Direction   // that is commanded
	step   int64
	off    bool // no output is on, whatever the row; until the next row

	where   rotor.Whereabouts
	balance rotor.Balance
	turned  float64       // electrical degrees that the last move turned the rotor
	moved   bool          // turned is known
	moving  []rotor.State // in a run in time, of each place; never changed once made
}

// longestPast bounds how far a rewind can go.
const longestPast = 10_000 // moments, some 2 MB

// New starts a sitting with a motor, in half step, at rest on the first row.
func New(m motor.Motor) *Bench {
	b := &Bench{motor: m, machine: rotor.Of(m), ratio: m.Train.Ratio(), rate: FirstRate}
	b.now = moment{order: sequence.Half.Order(), drive: m.Drive, wiring: m.Wiring, way: sequence.Forward}
	b.home()
	return b
}

// home puts the rotor to rest on the present row, as if it had been helped
// home by hand.
func (b *Bench) home() {
	b.now.off = false
	field := b.coils().Field()
	deg, _ := field.Degrees()
	b.now.where, b.now.balance = b.machine.Follow(rotor.At(rotor.Position{Deg: deg}), field)
	b.now.turned, b.now.moved = 0, true
}

// Restart takes the sitting back to its first row, rotor at home, and forgets
// the past.
func (b *Bench) Restart() {
	b.Stop()
	b.changes++
	b.past = nil
	b.now.step = 0
	b.home()
}

// Ratio gives the train's ratio, rotor turns to one of the shaft.
func (b *Bench) Ratio() float64 {
	ratio, _ := b.ratio.Float64()
	return ratio
}

// Motor gives the motor.
func (b *Bench) Motor() motor.Motor { return b.motor }

// Next energises the next row, the way that is commanded; forward when a fault
// keeps the command from arriving.
func (b *Bench) Next() { b.Step(int64(b.goes())) }

// goes is the way that the next row goes.
func (b *Bench) goes() sequence.Direction {
	if !wiring.Obeys(b.now.faults) {
		return sequence.Forward
	}
	return b.now.way
}

// Back energises the row before; the motor really turns back.
func (b *Bench) Back() { b.Step(-int64(b.goes())) }

// Rewind undoes the last thing done, and time with it; false when there is
// nothing left to undo.
func (b *Bench) Rewind() bool {
	if len(b.past) == 0 {
		return false
	}
	b.changes++
	b.now = b.past[len(b.past)-1]
	b.past = b.past[:len(b.past)-1]
	b.timed = nil
	b.settleAgain()
	return true
}

// Changes counts what has been done: while it stays, so does every reading.
func (b *Bench) Changes() uint64 { return b.changes }

// remember keeps the present for a rewind.
func (b *Bench) remember() {
	b.changes++
	if b.timed != nil {
		b.now.moving = b.timed.states()
	}
	if len(b.past) == longestPast {
		b.past = append(b.past[:0], b.past[longestPast/10:]...)
	}
	b.past = append(b.past, b.now)
}

// energise puts the present row on and lets the rotor settle, but in a run in
// time, where it goes on from how it moves.
func (b *Bench) energise() {
	if b.timed != nil {
		b.timed.energise(b)
		return
	}
	before, wasKnown := b.now.where.Known()
	b.now.where, b.now.balance = b.machine.Follow(b.now.where, b.coils().Field())
	after, isKnown := b.now.where.Known()
	b.now.moved = wasKnown && isKnown
	b.now.turned = 0
	if b.now.moved {
		b.now.turned = after.From(before)
	}
}

// outputs gives the row at a step as it stands on outputs 1 to 4: the motor's
// stated wiring says which output is to feed which end.
func (b *Bench) outputs(step int64) sequence.Row {
	if b.now.off && step == b.now.step {
		return sequence.Row{}
	}
	return b.row(step)
}

// row gives the order's row at a step, as it stands on the outputs.
func (b *Bench) row(step int64) sequence.Row {
	row := b.now.order.Row(step)
	if b.now.table {
		return row
	}
	return row.Onto(b.motor.Wiring)
}

// coils gives the present row as it arrives at the coil ends.
func (b *Bench) coils() sequence.Row {
	return b.through(b.outputs(b.now.step))
}

// through gives what arrives at the coil ends of a row on the outputs.
func (b *Bench) through(outputs sequence.Row) sequence.Row {
	return wiring.Coils(b.now.faults, outputs, b.now.wiring, b.now.drive)
}

// SetMode changes the step mode in mid-walk: the row of the new order nearest
// to the present one is energised.
func (b *Bench) SetMode(m sequence.Mode) {
	b.remember()
	old, oldLen := b.now.order.Row(b.now.step), int64(b.now.order.Len())
	if b.now.table {
		old = old.Through(b.motor.Wiring)
	}
	cycle := (b.now.step - int64(b.now.order.Index(b.now.step))) / oldLen
	b.now.order, b.now.table = m.Order(), false
	deg, ok := old.Field().Degrees()
	nearest := 0
	if ok {
		nearest = b.now.order.Nearest(deg)
		switch at, _ := b.now.order.Row(int64(nearest)).Field().Degrees(); { // over the seam at 0°
		case at-deg < -180:
			cycle++
		case at-deg > 180:
			cycle--
		}
	}
	b.now.step = cycle*int64(b.now.order.Len()) + int64(nearest)
	b.energise()
}

// SetTable walks rows of one's own, given as on outputs 1 to 4, with the leads that they
// were judged by: one deed, which one rewind takes back.
func (b *Bench) SetTable(rows []sequence.Row, onOutputs sequence.Permutation) {
	b.rest()
	b.remember()
	b.now.wiring, b.now.rows = onOutputs, slices.Clone(rows)
	b.now.order, b.now.table, b.now.step = sequence.Custom(rows), true, 0
	b.home()
}

// HasTable says whether there is a table of one's own to walk.
func (b *Bench) HasTable() bool { return b.now.rows != nil }

// BackToTable goes from a step mode back to the table of one's own, to its row
// nearest to the present one.
func (b *Bench) BackToTable() {
	if b.now.rows == nil || b.now.table {
		return
	}
	b.remember()
	deg, hasField := b.coils().Field().Degrees()
	b.now.order, b.now.table, b.now.step = sequence.Custom(b.now.rows), true, 0
	if hasField { // nearest as the leads stand now
		atEnds := make([]sequence.Row, len(b.now.rows))
		for k, r := range b.now.rows {
			atEnds[k] = b.through(r)
		}
		b.now.step = int64(sequence.Custom(atEnds).Nearest(deg))
	}
	b.energise()
}

// SetDrive changes how the winding is fed, if its leads allow it.
func (b *Bench) SetDrive(d sequence.Drive) error {
	if err := b.motor.Allows(d); err != nil {
		return err
	}
	b.rest()
	b.remember()
	b.now.drive = d
	b.energise()
	return nil
}

// Reverse turns round the way that Next goes. The row stays.
func (b *Bench) Reverse() {
	b.remember()
	b.now.way = -b.now.way
}

// Swap exchanges the leads on two outputs, counted from 1.
func (b *Bench) Swap(i, j int) error {
	if i < 1 || i > 4 || j < 1 || j > 4 || i == j {
		return fmt.Errorf("outputs %d and %d can not be swapped; two different ones from 1 to 4 are wanted", i, j)
	}
	b.remember()
	b.now.wiring = b.now.wiring.Swapped(i-1, j-1)
	b.energise()
	return nil
}

// SetWiring puts the leads on the outputs in a given way.
func (b *Bench) SetWiring(onOutputs sequence.Permutation) {
	b.remember()
	b.now.wiring = onOutputs
	b.energise()
}

// Rewire puts the leads back as the motor states them, and takes out every
// fault that was put in.
func (b *Bench) Rewire() {
	b.remember()
	b.now.wiring, b.now.faults = b.motor.Wiring, nil
	b.energise()
}

// HasFault says whether a fault is there: put in as one, or made by exchanging the
// two leads that it names.
func (b *Bench) HasFault(f wiring.Fault) bool {
	return slices.Contains(b.now.faults, f) || b.plugged(f)
}

// plugged says whether the leads of two outputs stand exchanged.
func (b *Bench) plugged(f wiring.Fault) bool {
	stated, now := b.motor.Wiring, b.now.wiring
	return f.Exchanges() && now[f.I] == stated[f.K] && now[f.K] == stated[f.I]
}

// ToggleFault puts a fault in, or takes it out. Exchanged leads are no fault beside
// the wiring: they are the wiring, so that every screen tells the same of them.
func (b *Bench) ToggleFault(f wiring.Fault) {
	b.remember()
	if f.Exchanges() {
		b.now.wiring = b.now.wiring.Swapped(f.I, f.K)
	} else if i := slices.Index(b.now.faults, f); i >= 0 {
		b.now.faults = slices.Delete(slices.Clone(b.now.faults), i, i+1)
	} else {
		b.now.faults = append(slices.Clone(b.now.faults), f)
	}
	b.energise()
}

// SetTrain puts another train between rotor and shaft: the rotor stays where it
// is, and only what it means at the shaft changes.
func (b *Bench) SetTrain(t motor.Train) {
	b.rest()
	b.changes++
	b.motor.Train = t
	b.ratio = t.Ratio()
}
