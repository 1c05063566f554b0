package bench

import (
	"math"

	"coilwalk/model/rotor"
	"coilwalk/sequence"
)

// account holds what a run in time did against what was asked. It begins anew
// when something but the row is changed.
type account struct {
	from    rotor.Position // where the rotor was when it began
	behind  float64        // electrical degrees that it was behind the field then
	asked   float64        // electrical degrees commanded since
	perRow  float64        // of them; 0 where the order commands no steady advance
	step    int64          // of the present row
	way     float64        // in which it came, +1 or −1
	rows    int64          // sent since
	lost    int64          // whole pitches that the rotor is behind what was asked
	lostAt  int64          // of rows, when that changed last
	last    float64        // lag when it was looked at last
	sum     float64        // of the lag over time, degree seconds
	span    float64        // seconds in that
	ends    int64          // of rows, when the mean is taken next
	lag     float64        // its mean over the last cycles
	settled bool           // there was a whole one
}

// What a lag and a loss are told from.
const (
	inStep      = 270.0 // electrical degrees: a rotor may lag so far, by its load and the rise of its current, and still be in step
	meanSeconds = 0.02  // at least: with whole cycles, what a mean is taken of
	stillLosing = 64    // rows since the last loss
)

// begin begins the account with the rotor at a place.
func (a *account) begin(b *Bench, at rotor.Position) {
	*a = account{from: at, step: b.now.step, way: float64(b.goes()), ends: int64(b.now.order.Len())}
	if mode, ok := b.now.order.Mode(); ok && !b.now.table {
		a.perRow = 90 / float64(mode.PerStep)
	}
	if deg, ok := b.coils().Field().Degrees(); ok {
		a.behind = sequence.Between(at.Deg, deg)
	}
	a.last = a.behind
}

// row takes note of the row that was put on.
func (a *account) row(b *Bench, at rotor.Position) {
	by := b.now.step - a.step
	if by != 1 && by != -1 {
		a.begin(b, at)
		return
	}
	a.step, a.way = b.now.step, float64(by)
	a.rows++
	a.asked += float64(by) * a.perRow
	a.last = a.lagAt(b, at)
	if a.rows >= a.ends && a.span >= meanSeconds {
		a.lag, a.settled = a.sum/a.span, true
		a.sum, a.span, a.ends = 0, 0, a.rows+int64(b.now.order.Len())
	}
}

// look takes note of where the rotor is some seconds after the last look.
func (a *account) look(b *Bench, seconds float64, at rotor.Position) {
	if a.perRow != 0 {
		if off := a.off(at); math.Abs(off-360*float64(a.lost)) > inStep {
			a.lost, a.lostAt = int64(math.Round(off/360)), a.rows
		}
	}
	lag := a.lagAt(b, at)
	a.sum += (a.last + lag) / 2 * seconds
	a.span += seconds
	a.last = lag
}

// off gives how far the rotor is behind what was asked, in electrical degrees.
func (a *account) off(at rotor.Position) float64 { return a.asked + a.behind - at.From(a.from) }

// lagAt gives the lag behind the field. A sound motor's is followed beyond half a
// pitch.
func (a *account) lagAt(b *Bench, at rotor.Position) float64 {
	if a.perRow != 0 && b.now.wiring == b.motor.Wiring && len(b.now.faults) == 0 {
		return a.off(at) - 360*float64(a.lost)
	}
	deg, ok := b.coils().Field().Degrees()
	if !ok {
		return a.last
	}
	return sequence.Between(at.Deg, deg)
}

// InTime is what there is to be told of a run in time.
type InTime struct {
	Rows    int64   // sent since it began, or since something was changed
	Asked   float64 // electrical degrees commanded since; 0 where the order commands no steady advance
	Turned  float64 // electrical degrees that the rotor turned since
	Lag     float64 // electrical degrees that the rotor trails the field, the way that the rows come; the mean over the last cycles
	Lost    int64   // rows that it was sent and did not follow; negative: it turned further than asked
	Losing  bool    // some of them just now
	Kept    float64 // the part of the time that could be computed: below 1 it is shown slower than it is
	Certain bool    // it began at one place
	Stage   string  // the word for the driver stage
	Supply  float64 // V
}

// Commands says whether the order commands a steady advance, so that what is lost
// of it can be told.
func (r Reading) Commands() bool {
	_, ok := r.Order.Mode()
	return ok && !r.Table
}

// inTime reads a run in time.
func (b *Bench) inTime() InTime {
	t := b.timed
	a := &t.account
	r := InTime{Rows: a.rows, Asked: a.asked, Turned: t.motions[0].State().Place.From(a.from), Lag: a.lag, Kept: t.kept, Stage: t.plant.Stage.Name, Supply: t.plant.Supply,
		Certain: len(t.motions) == 1, Losing: a.lostAt > 0 && a.rows-a.lostAt < stillLosing}
	if !a.settled {
		r.Lag = a.last
		if a.span > 0 {
			r.Lag = a.sum / a.span
		}
	}
	r.Lag *= a.way
	if a.perRow != 0 {
		r.Lost = int64(math.Round(math.Copysign(360/a.perRow, a.asked))) * a.lost
		r.Lost = max(-a.rows, min(r.Lost, a.rows)) // it is whole cycles behind; no more than was sent can be lost
	}
	return r
}
