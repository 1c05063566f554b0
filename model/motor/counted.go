package motor

import (
	"cmp"
	"errors"
	"fmt"
	"math/big"
	"strconv"
	"strings"

	"coilwalk/model/files"
	"coilwalk/model/quantity"
)

// Counted is what was counted on an opened motor or read off its label; zero
// where nothing was.
type Counted struct {
	Rings, Teeth int            // of a can motor: rings, and teeth of one ring
	RotorTeeth   int            // of a hybrid
	StepAngle    quantity.Angle // printed; may be the half-step angle
}

// Counts gives each way that was counted, for Agree; the error is the first that is
// wrong.
func (c Counted) Counts() (counts []Count, err error) {
	add := func(count Count, wrong error) {
		err = cmp.Or(err, wrong)
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

// ParseCounted reads counts as a person writes them, parted by commas: rings x
// teeth of one as "4x8", a hybrid's rotor teeth as "50 teeth", and the printed
// step angle as "7.5deg".
func ParseCounted(text string) (c Counted, err error) {
	for _, part := range strings.Split(text, ",") {
		part = strings.ToLower(strings.TrimSpace(part))
		rings, teeth, both := strings.Cut(part, "x")
		ofRotor, isTeeth := strings.CutSuffix(part, "teeth")
		switch {
		case part == "":
		case both:
			c.Rings, err = strconv.Atoi(strings.TrimSpace(rings))
			if err == nil {
				c.Teeth, err = strconv.Atoi(strings.TrimSpace(teeth))
			}
			if err != nil || c.Rings < 1 || c.Teeth < 1 {
				return c, fmt.Errorf("%s is no count; rings x teeth of one are wanted, as 4x8", files.Quoted(part))
			}
		case isTeeth:
			if c.RotorTeeth, err = strconv.Atoi(strings.TrimSpace(ofRotor)); err != nil || c.RotorTeeth < 1 {
				return c, fmt.Errorf("%s is no count; rotor teeth are wanted as 50 teeth", files.Quoted(part))
			}
		default:
			if err := c.StepAngle.Set(part); err != nil {
				return c, fmt.Errorf("%w; counts are 4x8 for rings, 50 teeth for a rotor", err)
			}
		}
	}
	return c, nil
}

// String writes counts as they are read.
func (c Counted) String() string {
	var parts []string
	if c.Rings > 0 {
		parts = append(parts, fmt.Sprintf("%dx%d", c.Rings, c.Teeth))
	}
	if c.RotorTeeth > 0 {
		parts = append(parts, fmt.Sprintf("%d teeth", c.RotorTeeth))
	}
	if c.StepAngle.Given() {
		parts = append(parts, c.StepAngle.String())
	}
	return strings.Join(parts, ", ")
}

// Exactly gives a decimal that a person typed as the fraction that it is, to
// nine decimals.
func Exactly(v float64) *big.Rat {
	r, ok := new(big.Rat).SetString(fmt.Sprintf("%.9f", v))
	if !ok {
		return new(big.Rat)
	}
	return r
}
