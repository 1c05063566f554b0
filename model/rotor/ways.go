package rotor

import "coilwalk/model/driver"

// way is a path of the current under the supply at hand: the coil sees
// drive − ohms·i.
type way struct{ drive, ohms float64 }

// ways is a feed under the supply at hand.
type ways struct {
	feed         driver.Feed
	hold         float64
	above, below way
	linear, firm bool
}

func (p *Plant) ways(f driver.Feed) ways {
	return ways{
		feed:   f,
		hold:   f.Hold,
		above:  way{f.Above.Rail*p.Supply - f.Above.Volts(), f.Above.Ohms()},
		below:  way{f.Below.Rail*p.Supply + f.Below.Volts(), f.Below.Ohms()}, // a drop is against the current
		linear: f.Linear(),
		firm:   f.Firm,
	}
}

// lowest and highest are the voltages between which the current stays at hold:
// what each way would put across the coil there.
func (w *ways) lowest() float64  { return w.above.drive - w.above.ohms*w.hold }
func (w *ways) highest() float64 { return w.below.drive - w.below.ohms*w.hold }
