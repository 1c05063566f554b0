package motor

import (
	"math"

	"coilwalk/model/quantity"
	"coilwalk/sequence"
)

// Connection is one way to connect the coils of a motor, with what it makes of
// the figures of one coil. Figures that the motor does not give are not given
// here either.
type Connection struct {
	Word       string // by which commands know it
	Name       string
	Drive      sequence.Drive
	How        string // what to join, and what to leave open
	Resistance quantity.Resistance
	Inductance quantity.Inductance
	Current    quantity.Current
	Voltage    quantity.Voltage // that drives this current through it at rest
	Torque     float64          // holding torque, relative to the unipolar connection at equal heat
	Rise       quantity.Time    // time constant L/R
}

// ConnectionWords are the words of all connections that a motor with taps may have,
// or with inner ends; "bipolar" is that of one with 4 leads.
var ConnectionWords = []string{"unipolar", "half", "series", "parallel", "parted"}

// Connections lists the ways in which the leads can be connected, by the usual
// rules: relative to one half, series makes 2R, 4L and the rating × 1/√2;
// parallel R/2, L and × √2; both hold √2 times as strongly at equal heat.
// (Ideal factors of a maker's table for an 8-lead motor: 3.0 A 1.4 ohm 3.2 mH
// unipolar, 2.12 A 2.8 ohm 12.8 mH in series, 4.2 A 0.7 ohm 3.2 mH in parallel.)
func (m Motor) Connections() []Connection {
	unipolar := m.connection("unipolar", "unipolar", sequence.Unipolar, m.Supply(sequence.Unipolar), 1, 1, 1, 1)
	series := m.connection("series", "bipolar, halves in series", sequence.Bipolar, m.Supply(sequence.Bipolar), 2, 4, 1/math.Sqrt2, math.Sqrt2)
	switch len(m.Leads()) {
	case 4:
		return []Connection{m.connection("bipolar", "bipolar", sequence.Bipolar, "each coil between two bridge outputs", 1, 1, 1, 1)}
	case 5:
		series.Word, series.Name = "parted", "bipolar, after parting the common"
		series.How = "open the motor and part the common between the phases; each phase is then one coil between its two ends, and the motor has no tap left"
		return []Connection{unipolar, series}
	case 6:
		half := m.connection("half", "bipolar, half a coil", sequence.Bipolar, "each phase from its tap to one end; the other end open, insulated", 1, 1, 1, 1)
		return []Connection{unipolar, half, series}
	}
	in, out := m.Inner, m.Ends
	parallel := m.connection("parallel", "bipolar, halves in parallel", sequence.Bipolar,
		"join "+string(out[0])+" with "+string(in[2])+", "+string(in[0])+" with "+string(out[2])+
			", "+string(out[1])+" with "+string(in[3])+", "+string(in[1])+" with "+string(out[3]), 0.5, 1, math.Sqrt2, math.Sqrt2)
	half := m.connection("half", "bipolar, half a coil", sequence.Bipolar, "each phase one half; the other half open, insulated", 1, 1, 1, 1)
	return []Connection{unipolar, half, series, parallel}
}

// Connected gives the connection in which the motor's drive is wired (Supply), with
// the voltage as the motor's sheet says it where that is of the same coil.
func (m Motor) Connected() Connection {
	how, all := m.Supply(m.Drive), m.Connections()
	for _, c := range all {
		if c.Drive == m.Drive && c.How == how {
			if f := m.Figures; f.Voltage.Given() && c.Torque == 1 {
				c.Voltage = f.Voltage
			}
			return c
		}
	}
	return all[0] // four leads: there is one
}

func (m Motor) connection(word, name string, drive sequence.Drive, how string, r, l, i, torque float64) Connection {
	c := Connection{Word: word, Name: name, Drive: drive, How: how, Torque: torque}
	f := m.Figures
	if f.Resistance.Given() {
		c.Resistance = quantity.Ohms(r * f.Resistance.Base())
	}
	if f.Inductance.Given() {
		c.Inductance = quantity.Henries(l * f.Inductance.Base())
	}
	if rated, ok := m.PhaseCurrent(); ok {
		c.Current = quantity.Amperes(i * rated.Base())
		if f.Resistance.Given() {
			c.Voltage = quantity.Volts(c.Current.Base() * c.Resistance.Base())
		}
	}
	if f.Resistance.Given() && f.Inductance.Given() {
		c.Rise = quantity.Seconds(c.Inductance.Base() / c.Resistance.Base())
	}
	return c
}

// NoParallel says why a 6-lead motor has no parallel connection.
const NoParallel = "Halves in parallel need 8 leads: with 6 the tap joins them the wrong way round, and in parallel their fields would cancel."
