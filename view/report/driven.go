package report

import (
	"fmt"
	"math"
	"strings"

	"coilwalk/model/power"
)

// Rates and power speak of one drive: what is named counts for both. Where nothing
// is, each takes what errs on its safe side, and both say so. Rates are run on the
// rated voltage, of which the stage leaves less, so they come out rather too low;
// heat is judged at the rated current, which wants more, so it comes out rather too
// high.

var fedWords = map[power.Fed]struct{ key, said string }{
	power.AsRated: {"rated", "as rated"}, power.AsSuits: {"suits", "which suits it"}, power.AsNamed: {"named", "set by you"},
}

// DrivenBy says the stage and the voltage that a motor is run with.
func DrivenBy(d power.Driven, supply float64) string {
	if d.Stage.Instant() { // whatever the voltage is
		if d.Current > 0 {
			return d.Stage.Title + ", " + amperes(d.Current)
		}
		return d.Stage.Title
	}
	words := fmt.Sprintf("%s, %s %s", d.Stage.Title, volts(supply), fedWords[d.Fed].said)
	if d.Current > 0 {
		words += ", at " + amperes(d.Current)
	}
	return words
}

// RatedWords says in a few words which supply counts while none is named.
func RatedWords(d power.Driven) string {
	switch {
	case d.Fed == power.AsSuits:
		return volts(d.Volts.Base()) + ", which suits"
	case d.Fed == power.AsRated && d.Rated > 0 && !d.Stage.Instant():
		return volts(d.Rated) + ", as rated"
	case d.Stage.Instant():
		return "none is named"
	}
	return ""
}

// RatesFed says why rates are run as they are, and what power takes, under the name
// that it has where this is read; "" where there is nothing to be told.
func RatesFed(d power.Driven, other string) string {
	if words, same := alike(d, other); same {
		return words
	}
	q := d.Heat
	if q.Stage.Name != d.Stage.Name {
		return fmt.Sprintf("No supply named: %s. %s takes %s, %s.", article(d.Stage.Title), Sentence(other), article(q.Stage.Title), volts(q.Supply.Volts))
	}
	return fmt.Sprintf("Run on the rated %s. %s takes %s, which brings the rated current.", volts(d.Rated), Sentence(other), volts(q.Supply.Volts))
}

// PowerFed says the same of power, beside rates.
func PowerFed(d power.Driven, other string) string {
	if words, same := alike(d, other); same {
		return words
	}
	q := d.Heat
	if q.Stage.Name != d.Stage.Name {
		return fmt.Sprintf("No supply named: %s, %s. %s takes %s.", article(q.Stage.Title), volts(q.Supply.Volts), Sentence(other), article(d.Stage.Title))
	}
	return fmt.Sprintf("%s brings the rated current. %s runs on the rated %s.", volts(q.Supply.Volts), Sentence(other), volts(d.Rated))
}

// alike says that the other takes the same supply and stage, where it does.
func alike(d power.Driven, other string) (words string, same bool) {
	q := d.Heat
	switch {
	case q.Supply.Volts == 0: // power says nothing of this motor
		return "", true
	case d.Fed == power.AsNamed:
		return "", true
	case d.Fed == power.AsSuits:
		return fmt.Sprintf("No voltage is named: %s suits the stage; %s takes the same.", volts(d.Volts.Base()), other), true
	case q.Stage.Name == d.Stage.Name && (d.Stage.Instant() || math.Abs(q.Supply.Volts-d.Rated) < alikeVolts*d.Rated):
		return fmt.Sprintf("On the rated %s; %s takes the same.", volts(d.Rated), other), true
	}
	return "", false
}

// Apart says why rates and power take different voltages or stages where none was
// named; "" where they do not.
func Apart(d power.Driven) string {
	if _, same := alike(d, ""); same {
		return ""
	}
	if d.Heat.Stage.Name != d.Stage.Name {
		return "Without a supply only the motor limits its rates; heat wants a stage that there is. Name stage and supply, and both take them."
	}
	return "So rates come out rather too low, and heat rather too high. Name a supply, and both take it."
}

// alikeVolts is the part by which two voltages differ that are written alike.
const alikeVolts = 0.001

// OtherDrive says that a stage wants another connection than the drive of the motor, so
// that this was taken; "" where it does not.
func OtherDrive(d power.Driven) string {
	if !d.Turned {
		return ""
	}
	return fmt.Sprintf("%s, for the stage can not feed a %s drive", d.Connection.Name, d.Motor.Drive)
}

// Drives adds how the motor is driven, and what power takes.
func (r *Rates) Drives(d power.Driven, other string) {
	r.Connection, r.SupplyFrom = d.Connection.Name, fedWords[d.Fed].key
	r.Forbids, r.Set = ForbiddenBy(d), some(d.Current)
	r.fed, r.turned = strings.TrimSpace(RatesFed(d, other)+" "+Apart(d)), OtherDrive(d)
}

// Drives adds how the motor is driven where it is run in time.
func (p *Power) Drives(d power.Driven, other string) {
	if p.Coil == nil {
		return
	}
	var notes []string
	if words := OtherDrive(d); words != "" {
		notes = append(notes, "Connected as "+words+".")
	}
	if words := PowerFed(d, other); words != "" {
		notes = append(notes, strings.TrimSpace(words+" "+Apart(d)))
	}
	p.Notes = append(notes, p.Notes...)
}
