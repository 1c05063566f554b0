package report

import (
	"fmt"
	"math"
	"strings"

	"coilwalk/model/bench"
	"coilwalk/model/motor"
	"coilwalk/model/rotor"
	"coilwalk/sequence"
)

// Step says in one line of plain words where the bench stands: for screen
// readers, scripts, and the line mode.
func Step(b *bench.Bench) string {
	r := b.Read()
	s := stands(b)
	if r.TurnedOK {
		s += "; " + Turned(b.Motor(), r.Turned)
	} else if _, known := r.Where.Known(); known {
		s += "; how far it turned is not known"
	}
	if r.Balance != rotor.Held || !r.TurnedOK {
		s += "; " + Balance(r.Balance)
	}
	return s + "."
}

// Stands is Step without what the last row did.
func Stands(b *bench.Bench) string { return stands(b) + "." }

func stands(b *bench.Bench) string {
	r, m := b.Read(), b.Motor()
	field := "no field"
	if r.HasField {
		field = fmt.Sprintf("field %s electrical, strength %s", Angle(r.FieldDeg, 2), Fixed(r.Field.Strength(), 2))
	}
	return fmt.Sprintf("step %d, row %d of %d: %s on; %s; %s", r.Step, r.Row, r.Order.Len(), lit(m, r.Wiring, r.Coils), field, Whereabouts(b))
}

// Whereabouts says where rotor and shaft are.
func Whereabouts(b *bench.Bench) string {
	r, m := b.Read(), b.Motor()
	p, ok := r.Where.Known()
	if !ok {
		return "the rotor's position is not known: " + unknown(r.Where)
	}
	turns, within := p.Turns(m.PolePairs)
	if turns < 0 && within > 0 { // −0.4° rather than 359.6° and one turn back
		turns, within = turns+1, within-360
	}
	s := "rotor " + Angle(within, 3)
	if turns != 0 {
		s += fmt.Sprintf(" and %s turns", Count(turns))
	}
	if r.LagOK && math.Abs(r.Lag) >= 0.05 {
		s += fmt.Sprintf(" (%s %s the field)", Angle(m.AtRotor(math.Abs(r.Lag)), 2), side(r.Lag))
	}
	if m.Train.Geared() {
		s += ", shaft " + ShaftAngle(b, p)
	}
	return s
}

// ShaftAngle writes the angle of the output shaft, to the last digit however far it
// has turned.
func ShaftAngle(b *bench.Bench, p rotor.Position) string {
	deg := b.Shaft(p)
	if math.Abs(deg) < 1e6 {
		return Fixed(deg, 4) + "°"
	}
	m := b.Motor()
	return p.ShaftExact(m.PolePairs, m.Train.Ratio()).FloatString(4) + "°"
}

func unknown(w rotor.Whereabouts) string {
	if len(w.Places) == 0 {
		return "it may be anywhere"
	}
	if len(w.Places) == 1 {
		return fmt.Sprintf("at %s electrical, but under which tooth can not be told", Angle(w.Places[0].Deg, 1))
	}
	if w.PitchLost {
		return fmt.Sprintf("one of %d angles under any tooth", len(w.Places))
	}
	if len(w.Places) == 2 {
		return fmt.Sprintf("at one of two places %s electrical apart", Angle(math.Abs(w.Places[0].From(w.Places[1])), 1))
	}
	return fmt.Sprintf("at one of %d places", len(w.Places))
}

// Turned says how far a move turned the rotor and which way the shaft went.
func Turned(m motor.Motor, electricalDeg float64) string {
	if math.Abs(electricalDeg) < 0.05 {
		return "it did not turn"
	}
	deg := m.AtRotor(electricalDeg)
	if math.Abs(deg) > 1e6 {
		return fmt.Sprintf("turned %.6g turns, %s", deg/360, Turning(deg > 0))
	}
	s := fmt.Sprintf("turned %s° %s", Fixed(math.Abs(deg), 3), Turning(deg > 0))
	return s
}

// Heading says in a few words how an order is sent: "half step", "table".
func Heading(r bench.Reading) string {
	if r.Table {
		return "table"
	}
	if m, ok := r.Order.Mode(); ok {
		return m.Title
	}
	return "rows"
}

// Exchanged says which leads are not on the outputs that the motor states; "" when all
// are.
func Exchanged(m motor.Motor, wiring sequence.Permutation) string {
	var pairs []string
	for i := range wiring {
		for k := i + 1; k < len(wiring); k++ {
			if wiring[i] == m.Wiring[k] && wiring[k] == m.Wiring[i] {
				pairs = append(pairs, fmt.Sprintf("%s and %s", m.Output(m.Wiring, i), m.Output(m.Wiring, k)))
			}
		}
	}
	switch {
	case wiring == m.Wiring:
		return ""
	case pairs == nil: // three or four went round
		return "leads are swapped"
	}
	return strings.Join(pairs, ", ") + " swapped"
}

// WiringLine says which lead is on which output, and what was changed.
func WiringLine(m motor.Motor, wiring sequence.Permutation) string {
	parts := make([]string, 4)
	for k := range parts {
		parts[k] = fmt.Sprintf("output %d %s (%s)", k+1, m.Output(wiring, k), wiring[k])
	}
	s := strings.Join(parts, ", ")
	if wiring != m.Wiring {
		s += "; not as the motor states it: " + Exchanged(m, wiring)
	}
	return s
}

// Changed says of a change of step mode that it moved the rotor by itself; "" where
// it did not, or that is not known.
func Changed(b *bench.Bench) string {
	r := b.Read()
	if !r.TurnedOK || math.Abs(r.Turned) < 5 { // less is friction's, and nobody sees it
		return ""
	}
	deg := b.Motor().AtRotor(r.Turned)
	return fmt.Sprintf("%s: its nearest row came on and turned the rotor %s %s", Heading(r), Angle(math.Abs(deg), 3), map[bool]string{true: "cw", false: "ccw"}[deg > 0])
}

// side says on which side of the field a rotor is that lags so far.
func side(lag float64) string {
	if lag < 0 {
		return "ahead of"
	}
	return "behind"
}

// Happened says the last thing that happened in one short sentence, and whether
// it is one to worry about.
func Happened(b *bench.Bench) (words string, alarm bool) {
	r, m := b.Read(), b.Motor()
	on := shortLit(r.Coils)
	switch r.Balance {
	case rotor.Stuck:
		if !r.HasField {
			return on + ": no field. The rotor stands on a hill of the detent; friction keeps it.", true
		}
		return on + ": the field is opposite the rotor. It balances; only friction keeps it.", true
	case rotor.Either:
		return on + ": the rotor stands on a hill and falls to either side. Position not known.", true
	case rotor.Adrift:
		return on + ": the load is stronger than the hold and turns the rotor on.", true
	case rotor.Unknown:
		return on + ": no field, and it is not known where the rotor is.", true
	}
	if !r.HasField {
		if len(r.Coils.On()) > 0 {
			return on + ": both ends of a phase cancel. No field; " + Balance(r.Balance)[len("no field; "):] + ".", true
		}
		return "All off. " + Sentence(Balance(r.Balance)[len("no field; "):]) + ".", false
	}
	if _, known := r.Where.Known(); known && !r.TurnedOK {
		return on + ": the rotor is at rest in the field; how far it turned to it is not known.", false
	}
	if !r.TurnedOK {
		return on + ": the field is at " + Angle(r.FieldDeg, 1) + ", but under which tooth is not known.", true
	}
	if math.Abs(r.Turned) < 0.05 {
		rests := "is at rest in it"
		if r.LagOK && math.Abs(r.Lag) >= 0.05 { // friction, detent or load hold it off
			rests = fmt.Sprintf("stays %s electrical %s it", Angle(math.Abs(r.Lag), 1), side(r.Lag))
		}
		return fmt.Sprintf("%s: the field is at %s; the rotor %s.", on, Angle(r.FieldDeg, 1), rests), false
	}
	deg := m.AtRotor(r.Turned)
	s := fmt.Sprintf("%s: the rotor turned %s %s", on, Angle(math.Abs(deg), 3), Turning(deg > 0))
	if m.Train.Geared() {
		s += fmt.Sprintf(", the shaft %s", Angle(math.Abs(deg)/b.Ratio(), 4))
	}
	return s + ".", math.Abs(r.Turned) > 135
}

// shortLit lists the ends that are on: "A+ and B+ on", "nothing on".
func shortLit(coils sequence.Row) string {
	on := coils.On()
	if len(on) == 0 {
		return "Nothing on"
	}
	parts := make([]string, len(on))
	for i, e := range on {
		parts[i] = e.String()
	}
	return strings.Join(parts, " and ") + " on"
}
