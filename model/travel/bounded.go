package travel

import "fmt"

// StartShare of the start–stop rate is what a move starts at: loads and motors
// scatter. Rates advise the same (rotor.Rates.For).
const StartShare = 0.85

// What is beyond any small motor, and comes of a slip of the exponent: its answer
// would look as good as another.
const (
	MostRate  = 1_000_000     // rows a second
	MostAccel = 1_000_000_000 // rows a second more in each second: from a stand to MostRate in a millisecond
)

// Bounded says which rate or acceleration of a wish can not be meant.
func (w Wish) Bounded() error {
	for _, rate := range []float64{w.Start, w.Top} {
		if rate > MostRate {
			return fmt.Errorf("a rate of %g rows/s can not be; at most %d is taken", rate, MostRate)
		}
	}
	for _, accel := range []float64{w.Accel, w.Decel} {
		if accel > MostAccel {
			return fmt.Errorf("an acceleration of %g rows/s more in each second can not be; at most %d is taken", accel, MostAccel)
		}
	}
	return nil
}

// The same for what firmware may be told to reckon with; their product is a whole
// number that a float64 holds.
const (
	mostSteps = 1_000_000_000 // to a turn: of the finest steps behind any gears
	mostRPM   = 1_000_000     // turns a minute
)

func (b Belief) bounded() error {
	switch {
	case b.StepsPerTurn > mostSteps:
		return fmt.Errorf("%d steps to a turn can not be; at most %d are taken", b.StepsPerTurn, mostSteps)
	case b.RPM > mostRPM:
		return fmt.Errorf("%d turns a minute can not be; at most %d are taken", b.RPM, mostRPM)
	}
	return nil
}
