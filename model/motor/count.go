package motor

import (
	"fmt"
	"math/big"
	"strings"
)

// Count is one way to learn the full steps to a rotor turn.
type Count struct {
	How     string   // "4 rings of 8 teeth"
	Steps   *big.Rat // full steps to a rotor turn, exact
	Printed bool     // a printed angle, which may be the half-step angle
}

// CountRings counts on an opened can motor: each phase has two rings of teeth,
// and every tooth is one full step apart from the next ring's.
func CountRings(rings, teeth int) (Count, error) {
	if rings != 4 || teeth < 1 || teeth > 500 {
		return Count{}, fmt.Errorf("%d rings of %d teeth are no two-phase motor; four rings of 1 to 500 teeth are wanted", rings, teeth)
	}
	return Count{fmt.Sprintf("%d rings of %d teeth", rings, teeth), big.NewRat(int64(rings)*int64(teeth), 1), false}, nil
}

// CountRotorTeeth counts the teeth on one cup of a hybrid's rotor: four full
// steps to each (a maker's FAQ, 50 teeth × 4 = 200).
func CountRotorTeeth(teeth int) (Count, error) {
	if teeth < 1 || teeth > 500 {
		return Count{}, fmt.Errorf("a rotor can not have %d teeth; 1 to 500 are wanted", teeth)
	}
	return Count{fmt.Sprintf("%d rotor teeth", teeth), big.NewRat(4*int64(teeth), 1), false}, nil
}

// CountAngle takes a printed step angle in degrees.
func CountAngle(deg *big.Rat) (Count, error) {
	if deg.Sign() <= 0 || deg.Cmp(big.NewRat(90, 1)) > 0 {
		return Count{}, fmt.Errorf("a step angle of %s° can not be; above 0° and up to 90° is wanted", deg.FloatString(3))
	}
	return Count{fmt.Sprintf("a step angle of %s°", trimmed(deg.FloatString(4))), new(big.Rat).Quo(big.NewRat(360, 1), deg), true}, nil
}

// Agreement says what several counts come to.
type Agreement struct {
	Steps int64  // full steps to a rotor turn; 0 when they leave it open
	Text  string // in words
	Wrong []int  // the counts that can not be right
}

// Agree compares counts. An angle at which twice as many steps fit as were
// counted is the half-step angle, not a wrong count. Where counts differ
// otherwise, what most of them say is right; two that differ leave it open.
func Agree(counts []Count) Agreement {
	if len(counts) == 0 {
		return Agreement{Text: "nothing was counted"}
	}
	votes := make([]int, len(counts))
	for i, a := range counts {
		for _, b := range counts {
			if a.Steps.Cmp(b.Steps) == 0 || isHalfAngle(b, a) {
				votes[i]++
			}
		}
	}
	best := 0
	for i, c := range counts {
		if votes[i] > votes[best] || votes[i] == votes[best] && c.Steps.Cmp(counts[best].Steps) < 0 && isHalfAngle(counts[best], c) {
			best = i
		}
	}
	chosen := counts[best]
	var g Agreement
	text := fmt.Sprintf("%s: %s full steps to a rotor turn", chosen.How, trimmed(chosen.Steps.FloatString(3)))
	tie := false
	for i, c := range counts {
		switch {
		case i == best:
		case c.Steps.Cmp(chosen.Steps) == 0:
			text += fmt.Sprintf("; %s agrees", c.How)
		case isHalfAngle(c, chosen):
			text += fmt.Sprintf("; %s is the half-step angle, which agrees", c.How)
		default:
			g.Wrong = append(g.Wrong, i)
			tie = tie || votes[i] == votes[best]
			text += fmt.Sprintf("; %s would make %s", c.How, trimmed(c.Steps.FloatString(3)))
		}
	}
	switch {
	case tie:
		g.Wrong, text = nil, text+": one of them must be wrong; count again"
	case !chosen.Steps.IsInt() || new(big.Int).Mod(chosen.Steps.Num(), big.NewInt(4)).Sign() != 0:
		text += ": no multiple of 4, so no two-phase motor has it; measure again"
	default:
		g.Steps = chosen.Steps.Num().Int64()
	}
	if len(g.Wrong) > 0 {
		text += ", so it must be wrong"
	}
	g.Text = text
	return g
}

// isHalfAngle says whether a printed angle is the half-step angle of another
// count: a factor of exactly two.
func isHalfAngle(angle, count Count) bool {
	twice := new(big.Rat).Mul(count.Steps, big.NewRat(2, 1))
	return angle.Printed && angle.Steps.Cmp(twice) == 0
}

// trimmed drops zeros at the end of a decimal fraction.
func trimmed(text string) string {
	if !strings.Contains(text, ".") {
		return text
	}
	return strings.TrimRight(strings.TrimRight(text, "0"), ".")
}
