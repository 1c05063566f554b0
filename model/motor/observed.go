package motor

import (
	"fmt"
	"math/big"
	"strings"

	"coilwalk/model/files"
)

// Observed is what a person asked of the firmware and saw at the shaft.
type Observed struct {
	Asked *big.Rat // steps, or degrees
	Steps bool     // what was asked was steps
	Seen  *big.Rat // degrees that the shaft turned, without sign
}

// mostObserved bounds both figures, far above what anybody waits for.
var mostObserved = big.NewRat(1_000_000_000, 1)

// ParseObserved reads "200 steps = 45 deg": on the left what was asked, in
// steps, degrees or turns, on the right what was seen, in degrees or turns.
func ParseObserved(text string) (Observed, error) {
	wanted := fmt.Errorf(`%s is no observation; what was asked and what was seen are wanted, as "200 steps = 45 deg" or "1 turn = 342 deg"`, files.Quoted(text))
	asked, seen, both := strings.Cut(text, "=")
	if !both {
		return Observed{}, wanted
	}
	var o Observed
	var unit string
	var ok bool
	if o.Asked, unit, ok = measure(asked); !ok {
		return Observed{}, wanted
	}
	o.Steps = unit == "steps"
	if o.Seen, unit, ok = measure(seen); !ok || unit == "steps" {
		return Observed{}, wanted
	}
	if o.Asked.Sign() == 0 {
		return Observed{}, fmt.Errorf("%s: nothing was asked, so nothing follows", files.Quoted(text))
	}
	return o, nil
}

// mostSeen bounds how many observations are weighed together: what explains them
// takes longer with each, and more say no more.
const mostSeen = 24

// ParseSeen reads several observations.
func ParseSeen(texts []string) ([]Observed, error) {
	var seen []Observed
	for _, text := range texts {
		o, err := ParseObserved(text)
		if err != nil {
			return nil, err
		}
		if seen = append(seen, o); len(seen) > mostSeen {
			return nil, fmt.Errorf("%d observations are given; at most %d are weighed", len(texts), mostSeen)
		}
	}
	return seen, nil
}

// measure reads a number and its unit: steps, degrees or turns, which are
// degrees too. A sign is dropped: only how far it turned is weighed.
func measure(text string) (value *big.Rat, unit string, ok bool) {
	text = strings.ToLower(strings.TrimSpace(text))
	digits := strings.TrimLeft(text, "+-0123456789./")
	value, ok = number(strings.TrimLeft(strings.TrimSuffix(text, digits), "+-"))
	if !ok || value.Cmp(mostObserved) > 0 {
		return nil, "", false
	}
	switch strings.TrimSpace(digits) {
	case "steps", "step", "rows", "row", "pulses", "pulse":
		return value, "steps", true
	case "deg", "degrees", "degree", "°":
		return value, "deg", true
	case "turns", "turn", "rev", "revolution", "revolutions":
		return value.Mul(value, big.NewRat(360, 1)), "deg", true
	}
	return nil, "", false
}

// String writes an observation as it is read.
func (o Observed) String() string {
	unit := "deg"
	if o.Steps {
		unit = "steps"
	}
	return fmt.Sprintf("%s %s = %s deg", trimmed(o.Asked.FloatString(3)), unit, trimmed(o.Seen.FloatString(3)))
}
