package sheet

import (
	"context"
	"fmt"
	"math/big"

	"coilwalk/model/motor"
	"coilwalk/model/power"
	"coilwalk/model/rotor"
	"coilwalk/model/travel"
	"coilwalk/sequence"
	"coilwalk/view/report"
)

// Ramp is a move with acceleration that is asked for.
type Ramp struct {
	Motor      motor.Motor
	Mode       sequence.Mode
	Turns      *big.Rat // of the shaft; below zero in reverse
	Asked      string   // the same in words
	After      sequence.Direction
	Wish       travel.Wish // a start rate and an acceleration may be missing
	Started    bool        // the start rate was given
	Recurrence bool        // by the usual one in whole numbers
	Timer      travel.Timer
	Stop       int64 // asked for at that row; 0 for none
	Alone      bool  // no motor is run through it
	Plant      rotor.Plant
	Estimates  []rotor.Estimate
	Driven     power.Driven

	sent   travel.Sent
	on     Rates  // the machine, where it is told by lines
	driven Shared // by what, where its own lines are empty
}

// MostListed rows of a move have their intervals listed.
const MostListed = 2_000_000

// Rows settles how many rows the move is, and which way.
func (r *Ramp) Rows() (way sequence.Direction, err error) {
	var play *big.Rat
	if _, deg, ok := r.Motor.Train.Play(); ok {
		play = new(big.Rat).Quo(motor.Exactly(deg), big.NewRat(360, 1))
	}
	mover := travel.NewMover(r.Motor.StepsPerShaftTurn(r.Mode), play)
	if r.After == sequence.Reverse || r.After == sequence.Standing && r.Turns.Sign() < 0 { // nobody says that it reverses
		mover.After(sequence.Reverse)
	}
	r.sent = mover.Turn(r.Turns)
	switch {
	case r.sent.Rows.Sign() == 0:
		return way, fmt.Errorf("%s is less than half a row: nothing would move", r.Asked)
	case !new(big.Int).Abs(r.sent.Rows).IsInt64(): // the least of them has no opposite
		return way, fmt.Errorf("a move of %s rows is longer than can be planned", r.sent.Rows)
	}
	way = sequence.Forward
	if r.Wish.Rows = r.sent.Rows.Int64(); r.Wish.Rows < 0 {
		way, r.Wish.Rows = sequence.Reverse, -r.Wish.Rows
	}
	if r.Wish.Rows > MostListed {
		return way, fmt.Errorf("a move of %d rows is more than the %d that are listed; plan it in parts", r.Wish.Rows, int64(MostListed))
	}
	return way, nil
}

// Answer plans the move, Rows of which are settled, and runs the motor through it.
func (r *Ramp) Answer(ctx context.Context, way sequence.Direction) (*report.Ramp, error) {
	w := r.Wish
	startFrom, accelFrom := "given", "given"
	var err error
	var found rotor.Rates
	var forbids *report.Forbids
	var most, mostAccel float64
	if !r.Alone {
		r.Driven.Heat.Mode, r.Driven.Heat.Load = r.Mode, r.Plant.Load.Torque
		forbids = report.ForbiddenBy(r.Driven)
		if err := forbids.Idle(); err != nil {
			return nil, fmt.Errorf("%s is not run through it: %w", r.Motor.Name, err)
		}
		var whole bool
		if err := r.Plant.CheckPace(); err != nil {
			return nil, err
		}
		if found, whole = rotor.NewTrials(r.Plant, r.Mode).Follow(rotor.Sweep{}, func(float64) bool { return ctx.Err() == nil }); !whole && ctx.Err() != nil {
			return nil, ctx.Err()
		}
		if !r.Started && !r.Recurrence {
			w.Start, startFrom = travel.StartShare*found.StartStop, "model"
		}
		if w.Accel == 0 && w.Start < w.Top {
			sought, err := w.Steepest(ctx, r.Plant, r.Mode, way, found.GoesOn(w.Top))
			if err != nil {
				return nil, err
			}
			if w.Accel, accelFrom = sought.Accel, "model"; w.Accel == 0 { // it follows none: shown with the one that gets it farthest
				if w.Accel, accelFrom = sought.Farthest, "none"; w.Accel == 0 {
					w.Accel = 2 * w.Top
				}
				if most, mostAccel, err = w.Fastest(ctx, r.Plant, r.Mode, way, min(w.Top, found.PullOut)); err != nil {
					return nil, err
				}
			}
		}
	}
	if w.Start >= w.Top {
		w.Start, accelFrom = w.Top, "none" // it goes at its rate from the start
	}
	plan, err := w.Plan()
	if err != nil {
		return nil, err
	}
	answer := report.NewRamp(r.Motor, r.Mode, way, r.Asked, r.sent, plan)
	answer.StartFrom, answer.AccelFrom = startFrom, accelFrom
	method := "exact"
	if r.Recurrence {
		method = "recurrence"
	}
	answer.Count(r.Timer, method)
	if r.Stop > 0 {
		if err := answer.Break(r.Stop, r.Timer); err != nil {
			return nil, err
		}
	}
	if r.Alone {
		return answer, nil
	}
	followed, err := plan.Follow(ctx, r.Plant, r.Mode, way)
	if err != nil {
		return nil, err
	}
	room := 0.0
	if followed.Kind == "" {
		if room, err = plan.Room(ctx, r.Plant, r.Mode, way); err != nil {
			return nil, err
		}
	}
	answer.Follow(followed, room, r.Mode, found, r.Estimates)
	answer.Holds(most, mostAccel)
	answer.Forbids = forbids
	if words := report.OtherDrive(r.Driven); words != "" {
		answer.Notes = append(answer.Notes, "Connected as "+words+".")
	}
	return answer, nil
}
