package power

import (
	"coilwalk/model/files"
)

// coil is one coil, or half-coil, as its connection makes it.
type coil struct {
	ohms    float64 // at sheetC
	henries float64 // 0 when not known
	rated   float64 // A
}

// sheetC is the temperature, in °C, that data sheets give a winding's resistance
// at. (Sheets of the small motors looked at: "at 25 °C".)
const sheetC = 25

// zeroC is the temperature at which copper's straight line comes to no resistance
// at all: R2/R1 = (t2 − zeroC)/(t1 − zeroC). (Electrical Engineering Portal,
// "Temperature rise"; 1/254.5 = 0.00393 per kelvin at 20 °C.)
const zeroC = -234.5

// Copper gives a copper resistance, known at one temperature in °C, at another.
func Copper(ohms, atC, thenC float64) float64 { return ohms * (thenC - zeroC) / (atC - zeroC) }

// at gives the resistance at a winding temperature in °C.
func (c coil) at(windingC float64) float64 { return Copper(c.ohms, sheetC, windingC) }

// coil gives the coil of the question's connection.
func (q *Question) coil() (coil, error) {
	f, c := q.Motor.Figures, q.Connection
	need := func(what, right string) (coil, error) {
		return coil{}, &files.Complaint{File: q.Motor.Name, What: what, Right: right}
	}
	if !c.Current.Given() {
		return need("the motor gives no phase current, and without it nothing says what is too much", "give current, or voltage and resistance, under [figures]")
	}
	one := coil{ohms: c.Resistance.Base(), henries: c.Inductance.Base(), rated: c.Current.Base()}
	if !c.Resistance.Given() {
		if !f.Voltage.Given() || c.Torque != 1 {
			return need("the motor gives no resistance, which sets its currents and its heat", "give resistance, or voltage and current, under [figures]")
		}
		one.ohms = f.Voltage.Base() / one.rated
	}
	return one, nil
}
