package travel

import (
	"context"
	"math"

	"coilwalk/model/course"
	"coilwalk/model/rotor"
	"coilwalk/sequence"
)

// Followed is what a motor makes of a move.
type Followed struct {
	Lost float64 // full steps that it is behind when it has come to rest
	At   int64   // row, from 0, at which it first falls out of step; −1 where it does not
	Kind string  // fast-start, steep-ramp or lost-steps; "" where it follows
	Cut  bool    // a part of the even middle was left out
}

// mostFlat rows of the even middle are run: once it swings evenly nothing new
// comes.
const mostFlat = 600

// Follow runs a motor through a move, in a mode and direction.
func (p *Profile) Follow(ctx context.Context, plant rotor.Plant, mode sequence.Mode, way sequence.Direction) (Followed, error) {
	f := Followed{At: -1}
	c, skipped, from := p.course(mode, way)
	f.Cut = skipped > 0
	v := course.Judge(c, [4]string{"1", "2", "3", "4"}, course.Question{Wiring: &sequence.Straight, Active: course.High})
	with, err := v.Hold(ctx, &course.Motor{Plant: plant}, true)
	if err != nil {
		return f, err
	}
	if with.Lost == nil || *with.Lost == 0 && len(with.Faults) == 0 {
		return f, nil
	}
	f.Lost = *with.Lost * float64(way)
	for _, fault := range with.Faults {
		if row := fault.Row - 1; f.At < 0 || row < f.At {
			f.At, f.Kind = row, fault.Kind
		}
	}
	if f.At > from {
		f.At += skipped
	}
	if f.Kind == "" {
		f.Kind = "lost-steps"
	}
	return f, nil
}

// course makes the rows of the move in time, held before and after it; of a long
// even middle only a part. It gives the rows left out, and after which row.
func (p *Profile) course(mode sequence.Mode, way sequence.Direction) (c *course.Course, skipped, from int64) {
	const tick = 1e-9
	order := mode.Order()
	c = course.New(tick)
	rest := 1 / math.Max(p.Start, 1)
	begin := math.Max(rest, 0.5)
	from = int64(math.Ceil(p.Up)) + mostFlat/2
	if until := p.Rows - 1 - int64(math.Ceil(p.Down)) - mostFlat/2; until > from {
		cycle := int64(order.Len())
		skipped = (until - from) / cycle * cycle
	}
	put := func(k int64, at float64) {
		row, levels := order.Row(int64(way)*k), uint8(0)
		for e, v := range row {
			if v > 0 {
				levels |= 1 << e
			}
		}
		c.Add(course.Row{At: int64(at / tick), Levels: levels})
	}
	put(0, 0) // held, before the move
	for k := int64(0); k < p.Rows; k++ {
		at := p.At(k)
		if skipped > 0 && k > from {
			if k <= from+skipped {
				continue
			}
			at -= float64(skipped) / p.Peak
		}
		put(k+1, begin+at)
	}
	c.End(int64((begin + p.Seconds + 1.5) / tick))
	return c, skipped, from
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
		f, err := p.Follow(ctx, plant, mode, way)
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

// Steepest seeks an acceleration for a wish that gives none: half of the greatest
// with which the motor follows; 0 where it follows with none.
func (w Wish) Steepest(ctx context.Context, plant rotor.Plant, mode sequence.Mode, way sequence.Direction) (float64, error) {
	ring := plant.RingRadians(1) / (2 * math.Pi)
	perCycle := 4 * float64(mode.PerStep)
	high := perCycle * ring * ring * 16 // rows a second, a second: far more than any rotor has
	for low := high / 1e6; high > low; high /= 2 {
		w.Accel, w.Decel = high, high
		p, err := w.Plan()
		if err != nil {
			return 0, err
		}
		f, err := p.Follow(ctx, plant, mode, way)
		if err != nil {
			return 0, err
		}
		if f.Kind == "" {
			return high / 2, nil
		}
	}
	return 0, nil
}
