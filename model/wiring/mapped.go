package wiring

import "coilwalk/model/motor"

// Winding gives a winding with its ends in the order of the likeliest mapping.
func (s *Sitting) Winding(w motor.Winding) motor.Winding {
	best := s.Mappings()[0]
	inner := map[motor.Lead]motor.Lead{} // of each end the tap, or of each half the other end
	for k, end := range w.Ends {
		switch {
		case w.Taps[0] != "":
			inner[end] = w.Taps[k%2]
		case w.Inner[0] != "":
			inner[end], inner[w.Inner[k]] = w.Inner[k], end
		}
	}
	w.Ends, w.OrderGuessed = best.Order, false
	for k, end := range w.Ends {
		switch {
		case w.Taps[0] != "" && k < 2:
			w.Taps[k] = inner[end]
		case w.Inner[0] != "":
			w.Inner[k] = inner[end]
		}
	}
	return w
}
