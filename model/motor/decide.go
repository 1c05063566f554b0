package motor

import (
	"fmt"
	"math"
	"math/big"
)

// Decision is the measurement that parts two explanations.
type Decision struct {
	Ask  string     // what to ask of the firmware
	Past [2]float64 // degrees at which the mark then stands past the start, −180 to 180, for each
	Ends [2]float64 // degrees turned in all
}

// Decide finds what to ask for so that the two likeliest explanations show
// clearly different: turns of the shaft as the firmware has them, few if few
// will do. ok is false when there are no two, or nothing parts them.
func (b Belief) Decide(told []Explanation, seen []Observed) (d Decision, ok bool) {
	if len(told) < 2 {
		return d, false
	}
	for _, turns := range []int64{1, 2, 5, 10, 20, 50, 100} {
		o := Observed{Asked: big.NewRat(360*turns, 1), Seen: new(big.Rat)}
		d.Ask = fmt.Sprintf("%d turns", turns)
		if turns == 1 {
			d.Ask = "one turn"
		}
		if seen[0].Steps {
			rows := new(big.Rat).Mul(b.declared(), big.NewRat(turns, 1))
			whole := new(big.Int).Quo(rows.Num(), rows.Denom())
			o.Steps, o.Asked = true, new(big.Rat).SetInt(whole)
			d.Ask = fmt.Sprintf("%s steps", whole)
		}
		for i := range d.Ends {
			d.Ends[i] = b.expects(told[i].cause, o)
			d.Past[i] = math.Remainder(d.Ends[i], 360)
		}
		apart := math.Abs(math.Remainder(d.Ends[0]-d.Ends[1], 360))
		if apart > 6*b.spread() || math.Abs(d.Ends[0]-d.Ends[1]) > 300 && apart > 4*b.spread() {
			return d, true
		}
	}
	return d, false
}
