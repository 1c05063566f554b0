package travel

import (
	"fmt"
	"math"
)

// Belief is how firmware makes a delay of a speed: it holds a turn to be so many
// steps, wants so many turns a minute, and waits whole units of time.
type Belief struct {
	StepsPerTurn int64
	RPM          int64
	Unit         float64 // s: of the delay, as 1e-3
	PerMinute    int64   // units in a minute, as 60000; reckoned in whole numbers
	Twice        bool    // the delay stands twice in a step, between two edges
	Floating     bool    // it divides with decimals, and only the delay is cut to a whole number
}

// Real is what comes of it.
type Real struct {
	Delay  int64   // units that it waits
	Exact  float64 // units that it should
	Rate   float64 // rows a second; infinite where it does not wait at all
	Wanted float64
	Stages []string // the reckoning, line by line
}

// Reckon follows the firmware.
func (b Belief) Reckon() (r Real, err error) {
	if b.StepsPerTurn < 1 || b.RPM < 1 || b.PerMinute < 1 {
		return r, fmt.Errorf("steps to a turn and turns a minute above zero are wanted")
	}
	if err := b.bounded(); err != nil {
		return r, err
	}
	r.Wanted = float64(b.StepsPerTurn) * float64(b.RPM) / 60
	per := 1.0
	if b.Twice {
		per = 2
	}
	r.Exact = float64(b.PerMinute) / (float64(b.StepsPerTurn) * float64(b.RPM)) / per
	switch {
	case b.Floating:
		r.Delay = int64(r.Exact)
		r.Stages = append(r.Stages, fmt.Sprintf("%d / (%d × %d)%s = %.4g, cut to %d", b.PerMinute, b.StepsPerTurn, b.RPM, half(b.Twice), r.Exact, r.Delay))
	default:
		whole := b.PerMinute / b.StepsPerTurn / b.RPM
		r.Stages = append(r.Stages, fmt.Sprintf("%d / %d = %d, / %d = %d, in whole numbers", b.PerMinute, b.StepsPerTurn, b.PerMinute/b.StepsPerTurn, b.RPM, whole))
		if b.Twice {
			r.Stages = append(r.Stages, fmt.Sprintf("%d / 2 = %d", whole, whole/2))
			whole /= 2
		}
		r.Delay = whole
	}
	r.Rate = math.Inf(1)
	if r.Delay > 0 {
		r.Rate = 1 / (float64(r.Delay) * per * b.Unit)
	}
	return r, nil
}

func half(twice bool) string {
	if twice {
		return " / 2"
	}
	return ""
}
