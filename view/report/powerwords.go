package report

import (
	"fmt"
	"math"
	"strings"

	"coilwalk/model/power"
	"coilwalk/model/quantity"
)

func amperes(v float64) string { return quantity.Amperes(v).Rounded(3) }
func volts(v float64) string   { return quantity.Volts(v).Rounded(3) }
func watts(v float64) string   { return quantity.Watts(v).Rounded(2) }

// celsius writes a temperature; one that is no longer followed has no figure.
func celsius(v float64) string {
	if v >= power.Hottest {
		return fmt.Sprintf("over %d °C", power.Hottest)
	}
	return Fixed(v, 0) + " °C"
}

// whole writes a part as whole percent.
func whole(part float64) string { return Fixed(100*part, 0) + " %" }

// lasting writes a time in the unit that suits it.
func lasting(seconds float64) string {
	switch {
	case seconds < 1:
		return quantity.Seconds(seconds).Rounded(2)
	case seconds < 120:
		return Fixed(seconds, 0) + " s"
	case seconds < 2*3600:
		return Fixed(seconds/60, 0) + " min"
	}
	return Angle(seconds/3600, 1)[:len(Angle(seconds/3600, 1))-len("°")] + " h"
}

// CheckText says what a check came to: the figure, its limit, and why it matters.
func CheckText(a *power.Answer, c power.Check) string {
	s, l := a.Supply, a.Stage.Limits
	switch c.Kind {
	case power.FitsLeads:
		return misfit(a)
	case power.NeverSupply:
		return fmt.Sprintf("the coil would ask %s of a pin for some %s; and %s", amperes(c.Value), amperes(c.Limit), s.Never)
	case power.SupplyLow:
		if c.Verdict == power.Fine {
			return fmt.Sprintf("%s at the stage, which works from %s on", volts(c.Value), volts(c.Limit))
		}
		return fmt.Sprintf("%s are left at the stage, which needs %s to work at all", volts(c.Value), volts(c.Limit))
	case power.SupplyHigh:
		return fmt.Sprintf("%s of the %s that the stage stands", volts(c.Value), volts(c.Limit))
	case power.SupplyCurrent:
		words := fmt.Sprintf("it draws %s of the %s that the supply may give", amperes(c.Value), amperes(c.Limit))
		if s.Promised > 0 && c.Verdict == power.Marginal {
			words = fmt.Sprintf("it draws %s: %s", amperes(c.Value), s.Note)
		}
		return words
	case power.SupplyLasts:
		return fmt.Sprintf("the supply lasts %s, where %s are wanted", lasting(c.Value), lasting(c.Limit))
	case power.OutputCurrent:
		return fmt.Sprintf("%s through an output that stands %s for good", amperes(c.Value), amperes(c.Limit)) + standing(a)
	case power.AllOutputs:
		return fmt.Sprintf("%s through all outputs of a package that stands %s", amperes(c.Value), amperes(c.Limit)) + standing(a)
	case power.Junction:
		words := fmt.Sprintf("the driver's chip gets as warm as %s with %s in it; it should stay below %s and must below %s", celsius(c.Value), watts(a.Driver.PackageMost), celsius(l.Keep), celsius(l.Hottest))
		over, _ := a.Check(power.OutputCurrent)
		if sink := (l.Keep - a.Ambient) / a.Driver.PackageMost; c.Verdict != power.Fine && over.Verdict != power.Not && sink > coldestSink {
			words += fmt.Sprintf("; a heat sink that brings it from %s to %s would do", quantity.KelvinPerWatt(l.Thermal).Rounded(2), quantity.KelvinPerWatt(sink).Rounded(2))
		}
		return words
	case power.WindingHeat:
		words := fmt.Sprintf("the winding gets to %s of the %s of its insulation", celsius(c.Value), celsius(c.Limit))
		if !a.Motor.Figures.Thermal.Given() {
			words += ", by estimate"
		}
		return words
	case power.CoilCurrent:
		return fmt.Sprintf("%s in a coil that is rated for %s", amperes(c.Value), amperes(c.Limit)) + standing(a)
	case power.Hold:
		return fmt.Sprintf("warm, it holds %s of what it does at its rated current", whole(c.Value))
	case power.LoadHeld:
		return fmt.Sprintf("warm, it holds %s, and the load pulls with %s", quantity.NewtonMetres(c.Value).Rounded(3), quantity.NewtonMetres(c.Limit).Rounded(3))
	case power.LogicLevel:
		return fmt.Sprintf("an input of the stage asks for %s at this current, and the controller gives %s", volts(c.Limit), volts(c.Value))
	case power.GetsUp:
		return fmt.Sprintf("above %s a coil is switched off before its current is up", rows(c.Limit))
	case power.FollowsRate:
		return fmt.Sprintf("%s is not followed: ask coilwalk rates --for why", rows(c.Value))
	}
	return ""
}

// coldestSink is the least thermal resistance, in K/W from junction to air, that a
// heat sink at a bench comes to; common practice, no source.
const coldestSink = 4

// misfit says why a stage can not drive what the leads of a motor offer.
func misfit(a *power.Answer) string {
	what, right := power.Misfit(a.Motor, a.Connection, a.Stage)
	return what + "; " + right
}

// CureText says what to do, and what it then comes to.
func CureText(c power.Cure) string {
	b := c.Answer
	words := fmt.Sprintf("%s: %s in a coil, %s from the supply, winding %s, holds %s of its rating", toDo(c), amperes(b.Driver.OutputAmpere), amperes(b.Cold.Ampere), celsius(b.After), whole(b.Part*rowStrength(b)/math.Sqrt2))
	if b.Verdict != power.Fine && b.Checks[0].Kind != power.Hold {
		words += "; then " + CheckText(b, b.Checks[0])
	}
	return words
}

// toDo says what a cure asks to be done.
func toDo(c power.Cure) string {
	b := c.Answer
	switch c.Kind {
	case power.ToRest:
		return "rest on rows with one phase on, as in wave drive"
	case power.SwitchOff:
		do := fmt.Sprintf("switch off for all but %s of the time", whole(c.Value))
		if stays, known := b.Stays(); known && !stays {
			do += " (it does not stay put then)"
		}
		return do
	case power.HoldLower:
		return fmt.Sprintf("hold with %s of the current", whole(c.Value))
	case power.SetLower:
		do := fmt.Sprintf("set the stage to %s", amperes(c.Value))
		if v := b.Stage.Reference.Volts(c.Value); v > 0 {
			do += fmt.Sprintf(" (reference %s)", volts(v))
		}
		return do
	case power.AddSeries:
		return fmt.Sprintf("put %s in series with each coil, for %s of heat", quantity.Ohms(c.Value).Rounded(2), watts(b.Driver.OutputAmpere*b.Driver.OutputAmpere*c.Value))
	case power.OtherSupply:
		return fmt.Sprintf("feed it from %s, %s", article(b.Supply.Title), volts(c.Value))
	case power.OtherStage:
		do := "drive it with " + article(b.Stage.Title)
		if b.Supply.Title == power.Suits {
			do += ", from " + volts(b.Supply.Volts)
		}
		if c.Value > 0 {
			do += ", set to " + amperes(c.Value)
		}
		return do
	}
	return fmt.Sprintf("connect it %s: %s", c.Name, b.Connection.How)
}

// article puts a or an before words. Of our stages and supplies an H takes an, a U
// as in USB does not.
func article(words string) string {
	if strings.ContainsAny(words[:1], "aeioAEIOH") {
		return "an " + words
	}
	return "a " + words
}

// rowStrength is the field of the row that a question is about, at the rated
// current, in that of one phase.
func rowStrength(a *power.Answer) float64 {
	return a.Mode.Order().Row(int64(a.Row - 1)).Field().Strength()
}

// skinBurns are the temperatures in °C from which bare metal burns the skin: ISO
// 13732-1, figures from memory.
var skinBurns = []struct {
	celsius float64
	within  string
}{{65, "a second"}, {55, "10 s"}, {51, "a minute"}, {48, "10 minutes"}}

const burnSource = "burns: ISO 13732-1, figures from memory"

// burnsWithin says how soon bare metal of so many °C burns the skin, if it does.
func burnsWithin(celsius float64) (within string, burns bool) {
	for _, burn := range skinBurns {
		if celsius >= burn.celsius {
			return burn.within, true
		}
	}
	return "", false
}

// Burns says whether the motor's case gets hot enough to burn skin.
func Burns(a *power.Answer) bool {
	_, burns := burnsWithin(a.After)
	return burns
}

// PowerCautions are what a hand at the bench has to know about this question.
func PowerCautions(a *power.Answer) (words []string) {
	add := func(format string, values ...any) { words = append(words, fmt.Sprintf(format, values...)) }
	if within, is := burnsWithin(a.After); is {
		add("Its case can get near %s: bare metal so hot burns skin within %s.", celsius(a.After), within)
	}
	if a.Driver.JunctionMost > 85 {
		add("The driver gets hot enough to burn a finger.")
	}
	add("Supply off before a lead is touched: a coil that is unplugged while it carries current kicks, and can take the driver with it.")
	if a.Stage.ClampsTo != "" {
		add("When an output opens, its coil's current goes %s.", a.Stage.ClampsTo)
	}
	add("Check the supply's polarity first: fed the wrong way round, a stage conducts through its diodes and burns.")
	if a.Motor.Train.Geared() {
		add("A geared shaft pinches, and does not turn back by hand.")
	}
	if a.Load > 0 {
		add("Switched off it lets go of the load.")
	}
	return append(words, "A supply that hangs on mains stays closed: mains is for licensed people and your local codes.")
}

// CautionsBeside are the cautions that the verdict has not told already.
func CautionsBeside(a *power.Answer) []string {
	words := PowerCautions(a)
	if a.Verdict == power.Fine && Burns(a) { // PowerDecides
		return words[1:]
	}
	return words
}

// silent says which line of the stage keeps it silent, and what its inputs ask for.
func silent(a *power.Answer) string {
	in := a.Stage.Input
	var parts []string
	if len(in.Needs) > 0 {
		needs := in.Needs.At(a.Driver.OutputAmpere)
		works := "it works from 3.3 V and from 5 V logic"
		if needs > 3.3 {
			works = "3.3 V logic does not promise that, 5 V does"
		}
		if needs > 5 {
			works = "neither 3.3 V nor 5 V logic promises that"
		}
		parts = append(parts, fmt.Sprintf("each asks for %s at this current: %s", volts(needs), works))
	}
	if in.Ampere > 0 {
		parts = append(parts, "takes up to "+amperes(in.Ampere))
	}
	if in.Silent != "" {
		parts = append(parts, in.Silent)
	}
	return strings.Join(parts, "; ")
}
