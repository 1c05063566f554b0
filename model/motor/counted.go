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

// ParseSteps reads the full steps to a turn of the rotor as a person knows them: the
// number itself, or what was counted, as ParseCounted has it. told says in words what
// it was taken for.
func ParseSteps(text string) (polePairs int, c Counted, told string, err error) {
	if n, err := strconv.Atoi(text); err == nil {
		if n < 4 || n > 2000 || n%4 != 0 {
			return 0, c, "", errors.New("a whole number that 4 divides is wanted: four full steps to each pole pair")
		}
		return n / 4, c, fmt.Sprintf("taken for %d full steps: %d pole pairs, and a full step is %s°", n, n/4, trimmed(strconv.FormatFloat(360/float64(n), 'f', 4, 64))), nil
	}
	if c, err = ParseCounted(text); err != nil {
		return 0, c, "", err
	}
	counts, err := c.Counts()
	if err != nil {
		return 0, c, "", err
	}
	if len(counts) == 0 {
		return 0, c, "", errors.New("this one is needed: most hybrids have 200, can motors 24 to 48. To find out, open a spare one and count, or energise row after row of wave drive by hand and count them for one turn of the rotor")
	}
	agreed := Agree(counts)
	if agreed.Steps == 0 {
		return 0, c, "", errors.New(agreed.Text)
	}
	return int(agreed.Steps / 4), c, agreed.Text, nil
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
