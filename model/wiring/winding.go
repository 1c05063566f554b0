package wiring

import (
	"strconv"

	"coilwalk/model/motor"
	"coilwalk/sequence"
)

// Winding gives the winding as far as readings tell it, when it is certain down
// to the last lead: which end of a coil comes first, and with 5 or 8 leads which
// belong to one phase, is taken in the order of the leads, as ohms can not tell
// it. ok is false before that, and after a fault.
func (a Answer) Winding() (w motor.Winding, ok bool) {
	w.OrderGuessed = true
	if len(a.Kinds) == 0 || a.Kinds[0].Odds < sure || len(a.Faults) > 0 {
		return w, false
	}
	switch kind := a.Kinds[0].Kind; {
	case kind == FiveLead && len(a.Common) == 1 && len(a.Leads) == 5:
		w.Common = a.Common[0]
		at := 0
		for _, l := range a.Leads {
			if l != w.Common {
				w.Ends[at] = l
				at++
			}
		}
		return w, true
	case kind == EightLead && len(a.Phases) == 4:
		for i, p := range a.Phases {
			if len(p.Ends) != 2 {
				return w, false
			}
			w.Ends[i], w.Inner[i] = p.Ends[0], p.Ends[1]
		}
		return w, true
	case (kind == FourLead || kind == SixLead) && len(a.Phases) == 2:
		for i, p := range a.Phases {
			if len(p.Ends) != 2 || (p.Tap == "") != (kind == FourLead) {
				return w, false
			}
			w.Ends[i], w.Ends[i+2], w.Taps[i] = p.Ends[0], p.Ends[1], p.Tap
		}
		return w, true
	}
	return w, false
}

// Motor gives a motor as far as readings tell it, and what its shaft answered, where
// that settles the order of the leads (ordered); shaft may be nil. Its outputs are in
// the order of its coil ends. What neither tells is left open: name, steps, train and
// all figures but the resistance. ok is as of Winding.
func (a Answer) Motor(shaft *Sitting) (m motor.Motor, ordered, ok bool) {
	if m.Winding, ok = a.Winding(); !ok {
		return m, false, false
	}
	if ordered = shaft != nil && shaft.Settled(); ordered {
		m.Winding = shaft.Winding(m.Winding)
	}
	m.Drive = m.Drives()[0]
	for k := range m.Wiring {
		m.Wiring[k] = sequence.End(k)
	}
	digits, _ := strconv.ParseFloat(strconv.FormatFloat(a.Ohm, 'g', 3, 64), 64) // a meter tells no more
	ok = m.Figures.Resistance.Set(strconv.FormatFloat(digits, 'f', -1, 64)+" ohm") == nil
	return m, ordered, ok
}
