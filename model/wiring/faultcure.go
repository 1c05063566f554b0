package wiring

import (
	"fmt"

	"coilwalk/model/files"
	"coilwalk/model/motor"
	"coilwalk/sequence"
)

// Cure says what to do about a fault. Everything at a plug is done with the
// supply off.
func (f Fault) Cure(m motor.Motor) string {
	lead := func(k int) motor.Lead { return m.Output(m.Wiring, k) }
	switch f.Kind {
	case Swapped:
		words := fmt.Sprintf("supply off; exchange outputs %d and %d at the plug, or columns %d and %d in the firmware", f.I+1, f.K+1, f.I+1, f.K+1)
		if i, k, ok := f.otherSwap(m.Wiring); ok {
			words += fmt.Sprintf("; exchanging %d and %d instead makes it turn too, the other way", i+1, k+1)
		}
		return words
	case CoilReversed:
		return fmt.Sprintf("supply off; exchange %s and %s at the plug, or send the order in reverse", lead(f.I), lead(f.K))
	case LeadOpen:
		return fmt.Sprintf("supply off, unplug; measure %s: crimp, plug, then the coil (coilwalk leads)", m.Ends[f.End])
	case TapOff:
		return "supply off; put it to the motor supply, which every current of a sink driver comes through"
	case OutputDead:
		return fmt.Sprintf("supply off; move the lead to a spare output, and check the pin, its number in the firmware and the line to the driver's input %d", f.I+1)
	case OutputOn:
		return fmt.Sprintf("supply off at once: coil %s heats; then check the pin of input %d for a short, and the driver", lead(f.I), f.I+1)
	case HalfReversed:
		return fmt.Sprintf("supply off; exchange both leads of the half of %s", m.Ends[f.End])
	}
	if f.Kind == SupplySags {
		return "measure the supply at the driver while two phases are on: it must not fall; then a stronger one, shorter leads, or wave drive (coilwalk power --supply says what it has to give)"
	}
	return "check the sign of the speed or the direction line in the firmware: the order itself is right"
}

// otherSwap finds the other single swap that cures exchanged outputs: it turns
// the shaft the other way.
func (f Fault) otherSwap(wiring sequence.Permutation) (i, k int, ok bool) {
	// As a place in field order: the columns that the table was written for.
	columns := func(p sequence.Permutation) sequence.Permutation {
		var at sequence.Permutation
		for o, end := range wiring {
			at[end] = p[o]
		}
		return at
	}
	wrong := wiring.Swapped(f.I, f.K)
	for i := range 4 {
		for k := i + 1; k < 4; k++ {
			if i == f.I && k == f.K {
				continue
			}
			if columns(wrong.Swapped(i, k)).Turns() == sequence.Reverse {
				return i, k, true
			}
		}
	}
	return 0, 0, false
}

// oneOf puts faults of a kind into words.
func oneOf(m motor.Motor, faults []Fault) string {
	if len(faults) == 1 {
		return faults[0].Text(m)
	}
	var parts []string
	for _, f := range faults {
		switch f.Kind {
		case Swapped:
			parts = append(parts, fmt.Sprintf("%s with %s", m.Output(m.Wiring, f.I), m.Output(m.Wiring, f.K)))
		case LeadOpen, HalfReversed:
			parts = append(parts, string(m.Ends[f.End]))
		case OutputDead, OutputOn:
			parts = append(parts, fmt.Sprintf("output %d", f.I+1))
		default:
			parts = append(parts, f.Text(m))
		}
	}
	list := files.Either(parts)
	switch faults[0].Kind {
	case Swapped:
		return "two leads swapped, or columns in the firmware: " + list
	case LeadOpen:
		return "a lead or its coil open: " + list
	case OutputDead:
		return "an output that never comes on: " + list
	case OutputOn:
		return "an output that never goes off: " + list
	case HalfReversed:
		return "a half the wrong way round: that of " + list
	}
	return list
}

// whichOne names the test that tells which of several faults of a kind it is.
func whichOne(kind FaultKind) string {
	switch kind {
	case Swapped:
		return "energise one lead after another and watch half steps (coilwalk leads --answers finds which two), or, supply off, exchange any two neighbours in the order and try again: each wrong order has two single exchanges that cure it"
	case CoilReversed:
		return "it is the same which of the two: supply off, exchange the ends of either coil, or send the order in reverse"
	case LeadOpen:
		return "supply off, unplug, and measure each lead with an ohmmeter (coilwalk leads): the open one is it"
	case OutputDead, OutputOn:
		return "step by hand through wave drive and watch the lamps, or measure the outputs: each comes on in one row of four, and only there"
	case TapOff:
		return "measure from the motor supply to each tap, motor plugged in: both must show the supply's voltage against ground"
	case HalfReversed:
		return "energise one half after another and watch half steps (coilwalk leads --answers): the one that goes the wrong way is it"
	}
	return ""
}

// decidesFrom is the odds from which an explanation is asked for in a test by hand.
const decidesFrom = 0.05

// handsDecide names the tests by hand, in their order, where leads may be open as
// well as swapped: with either the rotor only buzzes, so no trial tells them apart for
// good. A meter tells of an open lead, and never which two are swapped; that the shaft
// does. nil where it is not between these.
func handsDecide(ranked []Diagnosis) *NextTrial {
	counts := map[FaultKind]bool{}
	for _, d := range ranked {
		counts[d.kind()] = counts[d.kind()] || d.Odds >= decidesFrom
	}
	first := ranked[0].kind()
	if !counts[LeadOpen] || !counts[Swapped] || first != LeadOpen && first != Swapped && first != OutputDead {
		return nil
	}
	why := "supply off, unplug, measure the leads with an ohmmeter (coilwalk leads): an open one is it. None open: ask the shaft, lead by lead, which two are swapped (coilwalk leads --answers)"
	if counts[OutputDead] {
		why += "; one that moves nothing has a dead output"
	}
	return &NextTrial{ByHand: true, Shaft: true, Why: why}
}

// byHand names the test that parts two kinds of fault which no step mode parts.
func byHand(a, b FaultKind) string {
	is := func(x, y FaultKind) bool { return a == x && b == y || a == y && b == x }
	switch {
	case is(LeadOpen, OutputDead):
		return "supply off, unplug, and measure that lead to its coil with an ohmmeter: open means the lead, sound means the output. Or watch the output's lamp"
	case is(CoilReversed, Deaf):
		return "command the other direction: a reversed coil turns round with it"
	case a == SupplySags || b == SupplySags:
		return "measure the supply's voltage at the driver while two phases are on: only one that sags falls"
	case is(TapOff, LeadOpen), is(TapOff, OutputDead):
		return "measure the voltage from the tap to ground, motor on: it must be the supply's"
	}
	return ""
}
