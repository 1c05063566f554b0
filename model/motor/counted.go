package motor

import (
	"errors"
	"fmt"
	"math/big"

	"coilwalk/model/quantity"
)

// Counted is what was counted on an opened motor or read off its label; zero
// where nothing was.
type Counted struct {
	Rings, Teeth int            // of a can motor: rings, and teeth of one ring
	RotorTeeth   int            // of a hybrid
	StepAngle    quantity.Angle // printed; may be the half-step angle
}

// Counts gives each way that was counted, for Agree.
func (c Counted) Counts() (counts []Count, err error) {
	add := func(count Count, wrong error) {
		err = errors.Join(err, wrong)
		counts = append(counts, count)
	}
	if (c.Rings == 0) != (c.Teeth == 0) {
		return nil, errors.New("rings and teeth of a ring go together")
	}
	if c.Rings != 0 {
		add(CountRings(c.Rings, c.Teeth))
	}
	if c.RotorTeeth != 0 {
		add(CountRotorTeeth(c.RotorTeeth))
	}
	if c.StepAngle.Given() {
		add(CountAngle(Exactly(c.StepAngle.Base())))
	}
	if err != nil {
		return nil, err
	}
	return counts, nil
}

// Given says whether anything was counted.
func (c Counted) Given() bool { return c != Counted{} }

// Exactly gives a decimal that a person typed as the fraction that it is, to
// nine decimals.
func Exactly(v float64) *big.Rat {
	r, ok := new(big.Rat).SetString(fmt.Sprintf("%.9f", v))
	if !ok {
		return new(big.Rat)
	}
	return r
}
