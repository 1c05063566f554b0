package travel

import (
	"context"
	"math"

	"coilwalk/model/rotor"
	"coilwalk/sequence"
)

// Followed is what a motor makes of a move.
type Followed struct {
	Lost float64 // full steps that it is behind when it has come to rest; below zero ahead
	At   int64   // row, from 0, at which it first falls out of step; −1 where it does not
	Kind string  // fast-start, steep-ramp or lost-steps; "" where it follows
	Cut  bool    // a part of the even middle was left out
	Even bool    // the motor turned evenly there; else what was left out might have been lost
}

const (
	evenSteps  = 150  // full steps at each end of the even middle are run: once it turns evenly nothing new comes
	unevenMost = 3000 // full steps of it, while a swing does not die out
	leastEven  = 300  // rows of it at least
	firstSteps = 6    // full steps; a loss so early comes of the start
	firstRows  = 12   // or rows, where these are more
	outOfStep  = 250  // degrees electrical: a swing takes a rotor that is in step no further
	hopeless   = 540  // degrees electrical, behind or ahead: it will not come back
	settleIn   = 2.0  // s, at most, to come to rest
	followedTo = 1e-5 // tolerance of Motion, as for trials of rates
)

// Follow runs a motor through a move, in a mode and direction: from rest on the
// row before the first, to rest on the last.
func (p *Profile) Follow(ctx context.Context, plant rotor.Plant, mode sequence.Mode, way sequence.Direction) (Followed, error) {
	return p.follow(ctx, plant, mode, way, true)
}

// follow is Follow; whole wants to know how much is lost too, not only whether.
func (p *Profile) follow(ctx context.Context, plant rotor.Plant, mode sequence.Mode, way sequence.Direction, whole bool) (Followed, error) {
	f := Followed{At: -1}
	order, per := mode.Order(), 90/float64(mode.PerStep)
	m := rotor.NewMotion(&plant)
	m.Tolerance = followedTo
	first := order.Row(0)
	deg, _ := first.Field().Degrees()
	m.Start(rotor.State{Place: rotor.Position{Deg: deg}})
	m.Energise(first)
	if _, ok, err := m.Settle(first, settleIn); err != nil || !ok {
		f.Kind, f.At = "lost-steps", 0 // the load is too much to be held at all
		return f, err
	}
	from := m.State()
	begin := from.Seconds
	perStep := int64(mode.PerStep)
	even := max(leastEven, evenSteps*perStep)
	early := max(firstRows, firstSteps*perStep)
	skipFrom, spare := p.evenMiddle(even, int64(order.Len()))
	skipBy := skipFrom + max(0, unevenMost*perStep-even)
	var calm rotor.Calm
	behind := func(k int64) float64 { // degrees electrical, on the way that it goes
		return float64(k+1)*per - float64(way)*m.State().Place.From(from.Place)
	}
	var last int64
	var evenFrom float64       // behind where the even middle begins, or where it falls out in it
	evenRow := skipFrom - even // there
	for k := int64(0); k < p.Rows; k++ {
		if k == evenRow {
			evenFrom = behind(k - 1)
		}
		if in := k - (skipFrom - even); in > 0 && in%perStep == 0 {
			f.Even = f.Even || calm.See(behind(k-1))
		}
		left := (skipFrom + spare - k) / int64(order.Len()) * int64(order.Len())
		if k >= skipFrom && left > 0 && !f.Cut && (f.Even || k >= skipBy || f.At >= 0 && k >= evenRow+even) {
			// The rows left out are whole cycles: a rotor in step is as many pitches
			// on, and one that falls behind goes on to do so.
			f.Cut = true
			begin -= float64(left) / p.Peak
			pitches := left / int64(order.Len())
			if slip := behind(k-1) - evenFrom; math.Abs(slip) > outOfStep {
				pitches -= int64(math.Round(float64(pitches) * slip / (float64(k-evenRow) * per)))
			}
			from.Place.Pitch -= int64(way) * pitches
			k += left
		}
		on := order.Row(int64(way) * (k + 1))
		m.Energise(on)
		if k+1 < p.Rows {
			next, soon := begin+p.At(k+1), m.State().Seconds+settleIn
			if err := m.Dwell(on, min(next, soon)); err != nil {
				return f, err
			}
			// A load that carries the rotor away would do so for all of a long row.
			if off := behind(k); math.Abs(off) > hopeless && (next > soon || !whole) {
				if f.At < 0 {
					f.At, f.Kind = k, p.kindAt(k, early)
				}
				f.Lost = 4 * math.Round(off/360)
				return f, nil
			}
			if err := m.Dwell(on, next); err != nil {
				return f, err
			}
		}
		if k%16 == 0 && ctx.Err() != nil {
			return f, ctx.Err()
		}
		if f.At < 0 && math.Abs(behind(k)) > outOfStep {
			f.At, f.Kind = k, p.kindAt(k, early)
			if k >= evenRow { // how fast it goes on to fall behind is seen from here on
				evenFrom, evenRow = behind(k), k+1
			}
		}
		last = k
	}
	if _, _, err := m.Settle(order.Row(int64(way)*(last+1)), settleIn); err != nil {
		return f, err
	}
	if cycles := math.Round(behind(last) / 360); cycles != 0 {
		if f.Lost = 4 * cycles; f.At < 0 {
			f.At, f.Kind = last, p.kindAt(last, early)
		}
	} else {
		f.At, f.Kind = -1, "" // a swing, no loss
	}
	return f, nil
}

// kindAt says what a loss at a row comes of; up to the row early the start is to
// blame.
func (p *Profile) kindAt(k, early int64) string {
	switch {
	case k <= early || p.Up == 0 && p.Start > 0:
		return "fast-start"
	case float64(k) <= p.Up+1, float64(p.Rows-1-k) < p.Down:
		return "steep-ramp"
	}
	return "lost-steps"
}

// Cause says what a loss comes of, where it is known which rates the motor follows:
// no start is too fast at which it starts, no ramp too steep to a rate that it falls
// out at anyway, and a swing that a ramp leaves behind may end it only once that is
// over.
func (p *Profile) Cause(f Followed, mode sequence.Mode, found rotor.Rates) string {
	after := p.Up + evenSteps*float64(mode.PerStep)
	switch k := float64(f.At); {
	case f.Kind == "":
	case f.At <= max(firstRows, firstSteps*int64(mode.PerStep)):
		if f.Kind == "fast-start" && p.Up > 0 && p.Start > 0 && p.Start <= found.StartStop {
			return "steep-ramp"
		}
	case !found.GoesOn(p.Rate(f.At)), k > p.Up && !found.GoesOn(p.Peak):
		return "lost-steps"
	case f.Kind == "lost-steps" && p.Up > 0 && k <= after:
		return "steep-ramp"
	}
	return f.Kind
}

// evenMiddle gives the rows that may be left out, whole cycles of whole pitches,
// and where, so many being run at each end of the middle.
func (p *Profile) evenMiddle(even, cycle int64) (from, rows int64) {
	from = int64(math.Ceil(p.Up)) + even
	if until := p.Rows - 1 - int64(math.Ceil(p.Down)) - even; until > from {
		rows = (until - from) / cycle * cycle
	}
	return from, rows
}

// Room says how much more load at the shaft, in N·m, the motor follows the move
// with: sought by halves, to a thirtieth of what it holds.
func (p *Profile) Room(ctx context.Context, plant rotor.Plant, mode sequence.Mode, way sequence.Direction) (float64, error) {
	holds := math.Sqrt2 * plant.OnePhase() * plant.Ratio
	low, high := 0.0, holds
	base := plant.Load.Torque
	for high-low > holds/30 {
		mid := (low + high) / 2
		plant.Load.Torque = base + mid*float64(way)
		f, err := p.follow(ctx, plant, mode, way, false)
		if err != nil {
			return 0, err
		}
		if f.Kind == "" {
			low = mid
		} else {
			high = mid
		}
	}
	return low, nil
}
