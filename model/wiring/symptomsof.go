package wiring

import "coilwalk/model/motor"

// SymptomsOf gives what a person would tell of a motor that behaves so in each of
// Trials.
func SymptomsOf(m motor.Motor, does []Behaviour) (all []Symptom) {
	for i, t := range Trials() {
		s := Symptom{Trial: t, Seen: Seen(does[i].SeenIn(i, len(does)))}
		if s.Seen == Seen(Buzzes) && !m.Train.Geared() {
			s.Places = does[i].Places
		}
		all = append(all, s)
	}
	return all
}
