package motor

import (
	"fmt"
	"math/big"
	"strings"
)

// words tells a cause.
func (b Belief) words(c cause) string {
	var parts []string
	if c.divisor != b.Mode.PerStep {
		parts = append(parts, fmt.Sprintf("each step that is sent makes %s, not %s: %s", stepWords(c.divisor), stepWords(b.Mode.PerStep), whereDivisor(c.divisor)))
	}
	switch {
	case c.ratio == nil:
		r, _ := b.Motor.Train.Ratio().Float64()
		parts = append(parts, fmt.Sprintf("the train is not as stated: its ratio is about %s:1", threeDigits(r/c.scale)))
	case c.ratio.Cmp(b.Motor.Train.Ratio()) != 0:
		parts = append(parts, fmt.Sprintf("the train has the printed ratio %s:1, not %s:1", trimmed(c.ratio.FloatString(3)), trimmed(b.Motor.Train.Ratio().FloatString(3))))
	}
	declared, _ := b.declared().Float64()
	switch c.asking {
	case degreesForSteps:
		parts = append(parts, "degrees were given where steps are wanted")
	case withoutTrain:
		parts = append(parts, fmt.Sprintf("the firmware holds the rotor's %d steps for a turn of the shaft: the train was left out", b.Motor.StepsPerRotorTurn(b.Mode)))
	case declaredWrong:
		parts = append(parts, fmt.Sprintf("the firmware does not hold %s steps to a turn of the shaft, but about %s", trimmed(b.declared().FloatString(3)), threeDigits(declared*c.scale)))
	case asDeclared:
		exact := b.Motor.StepsPerShaftTurn(b.Mode)
		if off := b.declared().Cmp(exact); off != 0 && len(parts) == 0 {
			d := DriftOf(exact, b.declared())
			way := "too far"
			if off < 0 {
				way = "short"
			}
			parts = append(parts, fmt.Sprintf("as the teeth have it: %s steps to a turn are declared, but a turn is %s, so each comes out %s° %s",
				trimmed(b.declared().FloatString(3)), trimmed(exact.FloatString(3)), trimmed(new(big.Rat).Abs(d.DegPerTurn).FloatString(2)), way))
		}
	}
	if len(parts) == 0 {
		return "all is as believed"
	}
	return strings.Join(parts, "; and ")
}

func stepWords(divisor int) string {
	switch divisor {
	case 1:
		return "a full step"
	case 2:
		return "a half step"
	}
	return fmt.Sprintf("1/%d of a step", divisor)
}

func whereDivisor(divisor int) string {
	switch divisor {
	case 1:
		return "the table or the driver works in full step"
	case 2:
		return "the table or the driver works in half step"
	}
	return fmt.Sprintf("the driver module's microstep divisor is set to %d", divisor)
}

// threeDigits writes a figure that was measured, not counted.
func threeDigits(v float64) string {
	if v >= 1000 {
		return fmt.Sprintf("%.0f", v)
	}
	return fmt.Sprintf("%.3g", v)
}
