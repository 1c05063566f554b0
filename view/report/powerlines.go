package report

import (
	"fmt"
	"math"

	"coilwalk/model/power"
	"coilwalk/model/quantity"
)

// BalancePart is what one of those who get the supply's power has.
type BalancePart struct {
	Name  string
	Watts float64
	Share float64 // of all that comes out of the source
}

// BalanceParts lists who gets the power, in the order in which it goes; who gets
// none is left out.
func BalanceParts(a *power.Answer) (parts []BalancePart) {
	b := a.Balance
	all := b.Supply + b.Source
	for _, p := range []BalancePart{{Name: "copper", Watts: b.Copper}, {Name: "driver", Watts: b.Stage}, {Name: "clamp", Watts: b.Clamp},
		{Name: "damping", Watts: b.Damping}, {Name: "friction", Watts: b.Friction - b.Damping}, {Name: "shaft", Watts: b.Shaft}, {Name: "resistor", Watts: b.Series}, {Name: "supply", Watts: b.Source}} {
		if p.Watts > 1e-6*all {
			p.Share = p.Watts / all
			parts = append(parts, p)
		}
	}
	return parts
}

// turning says before watts and warmth that they are those of turning, where it was
// run: the currents beside them are those of a stand.
func turning(a *power.Answer) string {
	if a.Followed {
		return "turning, "
	}
	return ""
}

// standing says after a current that it is none of turning, where it was run: against
// the back-EMF of a coil less of it flows.
func standing(a *power.Answer) string {
	if a.Followed {
		return ", when it stands or turns slowly"
	}
	return ""
}

// CoilLine says what flows in a coil.
func CoilLine(a *power.Answer) string {
	at, runs := "", ""
	if a.Followed {
		at, runs = "standing, ", fmt.Sprintf("; turning, %s as heat counts it", amperes(a.Heating()))
	}
	return fmt.Sprintf("%s%s cold, %s warm%s; rated %s through %s", at, amperes(a.Driver.OutputAmpere), amperes(mostOf(a.Warm.Coils)), runs, amperes(a.Rated), quantity.Ohms(a.Ohms).Rounded(3))
}

// WindingLine says how warm the winding gets, and when.
func WindingLine(a *power.Answer) string {
	words := fmt.Sprintf("%s for good, of %s (half of that rise after %s); %s warm", celsius(a.Final), celsius(a.Body.Class), lasting(halfRise(a)), quantity.Ohms(power.Copper(a.Ohms, 25, a.After)).Rounded(3))
	if a.For > 0 {
		words = fmt.Sprintf("%s after %s, %s", celsius(a.After), lasting(a.For), words)
	}
	if !a.Motor.Figures.Thermal.Given() {
		words += "; estimated"
	}
	return turning(a) + words
}

// PowerShort says what gets warm and what is held, in a few words each.
func PowerShort(a *power.Answer) [][2]string {
	winding := turning(a) + fmt.Sprintf("%s of %s", celsius(a.After), celsius(a.Body.Class))
	if !a.Motor.Figures.Thermal.Given() {
		winding += ", estimated"
	}
	facts := [][2]string{{"winding", winding}}
	if l := a.Stage.Limits; l.Thermal > 0 {
		facts = append(facts, [2]string{"driver", turning(a) + fmt.Sprintf("%s, chip %s of %s", watts(a.Driver.Package), celsius(a.Driver.JunctionMost), celsius(l.Keep))})
	}
	torque := whole(a.Part) + " of rated, warm"
	if a.WarmShaft > 0 {
		torque = quantity.NewtonMetres(a.WarmShaft).Rounded(3) + " warm, " + torque[:len(torque)-len(", warm")]
	}
	return append(facts, [2]string{"torque", torque})
}

// halfRise gives the time after which half of the rise is there.
func halfRise(a *power.Answer) float64 {
	for _, w := range a.Course {
		if w.Celsius-a.Ambient >= (a.Final-a.Ambient)/2 {
			return w.Seconds
		}
	}
	return math.Ln2 * a.Body.Seconds
}

// DriverLine says what the stage turns into heat, and how warm its chip gets.
func DriverLine(a *power.Answer) string {
	d, l := a.Driver, a.Stage.Limits
	if l.Thermal == 0 {
		return "ideal: it stays cold"
	}
	return turning(a) + fmt.Sprintf("%s an output, %s a package (a poor part %s); chip %s, at most %s; keep below %s", watts(d.Output), watts(d.Package), watts(d.PackageMost), celsius(d.Junction), celsius(d.JunctionMost), celsius(l.Keep))
}

// TorqueLine says what is held.
func TorqueLine(a *power.Answer) string {
	words := fmt.Sprintf("warm %s of what this row holds at the rated current", whole(a.Part))
	if a.WarmShaft > 0 {
		words = fmt.Sprintf("holds %s cold, %s warm: %s", quantity.NewtonMetres(a.ColdShaft).Rounded(3), quantity.NewtonMetres(a.WarmShaft).Rounded(3), words[len("warm "):])
	}
	return words
}

// RiseLine says how long a current takes to get up, and up to which rate it does.
func RiseLine(a *power.Answer) string {
	r := a.Rise
	words := fmt.Sprintf("time constant %s", quantity.Seconds(r.Constant).Rounded(2))
	if r.Seconds == 0 {
		return words + "; the supply is too low for it ever to get to what is set"
	}
	what := "to 90 %"
	if a.Stage.Regulates() {
		what = "to what is set"
	}
	return fmt.Sprintf("%s, %s in %s; above %s it no longer gets up", words, what, quantity.Seconds(r.Seconds).Rounded(2), rows(r.Rate))
}

// OffLine says what holding costs and what switching off does.
func OffLine(a *power.Answer) string {
	return fmt.Sprintf("holding costs %s; switched off, %s", watts(a.Warm.In()), offWords(switchedOff(a.Off, a.Motor.PolePairs)))
}
