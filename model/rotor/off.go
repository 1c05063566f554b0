package rotor

import "coilwalk/sequence"

// Off is where the rotor goes from the rest of a row when the coils are switched
// off: into a detent, or nowhere.
type Off struct {
	Row     int       // of the cycle, from 1
	Degrees []float64 // electrical, that it may turn by: one, or two where it may fall to either side
	Kept    Balance
}

// SwitchedOff says that for each row of the first quarter cycle, which all others
// are like. The load that is left pulls too.
func SwitchedOff(p Plant, mode sequence.Mode) (all []Off) {
	machine := p.Machine()
	order := mode.Order()
	for row := range mode.PerStep {
		field := p.Field(order.Row(int64(row)))
		deg, ok := field.Degrees()
		if !ok {
			continue
		}
		rests, _ := machine.Rest(field, Position{}.moved(deg))
		if len(rests) != 1 {
			continue
		}
		off := Off{Row: row + 1}
		places, kept := machine.Rest(sequence.Field{}, rests[0])
		off.Kept = kept
		for _, to := range places {
			off.Degrees = append(off.Degrees, to.From(rests[0]))
		}
		all = append(all, off)
	}
	return all
}
