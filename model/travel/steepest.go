package travel

import (
	"context"
	"math"

	"coilwalk/model/rotor"
	"coilwalk/sequence"
)

// Sought is what was found of an acceleration for a wish that gives none.
type Sought struct {
	Accel    float64 // half of the greatest with which the motor follows, or as much more as it takes; 0 where it follows with none
	Farthest float64 // where it follows with none, the one with which it falls out last
}

// Steepest seeks an acceleration for a wish that gives none. To a rate that the
// motor goes on at a move may be too short: it then turns at what it reaches. To one
// at which it falls out there has to be an acceleration that gets there, for a
// slower one only hides that the rate is too high.
func (w Wish) Steepest(ctx context.Context, plant rotor.Plant, mode sequence.Mode, way sequence.Direction, goesOn bool) (s Sought, err error) {
	ring := plant.RingRadians(1) / (2 * math.Pi)
	perCycle := 4 * float64(mode.PerStep)
	most := perCycle * ring * ring * 16 // rows a second, a second: far more than any rotor has
	gets, last := false, int64(-1)
	try := func(accel float64) (good, there bool, f Followed, err error) {
		w.Accel, w.Decel = accel, accel
		p, err := w.Plan()
		if err != nil {
			return false, false, f, err
		}
		there = p.Peak >= w.Top*(1-1e-9)
		if gets = gets || there; gets && !there && !goesOn {
			return false, false, f, nil
		}
		f, err = p.follow(ctx, plant, mode, way, false)
		return f.Kind == "", there, f, err
	}
	for accel := most; accel > most/1e6; accel /= 2 {
		good, there, f, err := try(accel)
		if err != nil {
			return s, err
		}
		if good {
			s.Accel = accel
			milder := accel / 2
			if there { // with no less does it still get there
				milder = max(milder, w.enough())
			}
			if good, _, _, err = try(milder); good {
				s.Accel = milder
			}
			return s, err
		}
		if gets && !there && !goesOn {
			break
		}
		if f.At >= last && (there || !gets) { // of alike ones the gentlest that gets there
			last, s.Farthest = f.At, accel
		}
	}
	return s, nil
}

// enough is the acceleration with which a move just gets to its rate.
func (w Wish) enough() float64 {
	p := Profile{Wish: w, Peak: w.Top}
	return 2 * p.way(1) / float64(max(1, w.Rows-1)) * (1 + 1e-9)
}

// fastestTries bounds the search for a rate, each a fiftieth below the last.
const (
	fastestTries = 40
	fastestDown  = 1 / 1.02
)

// Fastest seeks, from a rate downwards, one that such a move gets to and is followed
// with, and an acceleration to it; 0 where there is none above its start.
func (w Wish) Fastest(ctx context.Context, plant rotor.Plant, mode sequence.Mode, way sequence.Direction, from float64) (rate, accel float64, err error) {
	for range fastestTries {
		w.Top = math.Floor(10*from) / 10 // it is told so
		if w.Top >= 100 {
			w.Top = math.Floor(from)
		}
		if !(w.Top > w.Start) {
			break
		}
		s, err := w.Steepest(ctx, plant, mode, way, false)
		if err != nil || s.Accel > 0 {
			return w.Top, s.Accel, err
		}
		from *= fastestDown
	}
	return 0, 0, nil
}
