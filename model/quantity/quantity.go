// Package quantity holds physical quantities with their units, read and
// printed as a bench person writes them: "52 ohm", "34 mN.m", "350 gf.cm".
package quantity

// Quantity is a value of one dimension, kept as it was written: the number and
// its unit. What a data sheet says so comes back digit for digit. Quantities are
// == when they were written alike: 1 A and 1000 mA differ, though their Base is
// the same. The zero one is not given, which is not the same as a given 0.
type Quantity[D dimension] struct {
	value float64
	unit  *unit // nil when not given
}

// The quantities of the bench, with the base unit that Base gives.
type (
	Voltage     = Quantity[voltage]     // V
	Current     = Quantity[current]     // A
	Resistance  = Quantity[resistance]  // ohm
	Inductance  = Quantity[inductance]  // H
	Power       = Quantity[power]       // W
	Torque      = Quantity[torque]      // N·m
	Inertia     = Quantity[inertia]     // kg·m²
	Angle       = Quantity[angle]       // degrees
	Rate        = Quantity[rate]        // per second
	Time        = Quantity[duration]    // s
	Temperature = Quantity[temperature] // °C
	Thermal     = Quantity[thermal]     // K/W, thermal resistance
)

// The constructors are for computed values and take any; one that could not be
// read back is told by MarshalText.

// Volts gives a voltage in volts.
func Volts(v float64) Voltage { return inBase[voltage](v) }

// Amperes gives a current in amperes.
func Amperes(v float64) Current { return inBase[current](v) }

// Ohms gives a resistance in ohm.
func Ohms(v float64) Resistance { return inBase[resistance](v) }

// Henries gives an inductance in henry.
func Henries(v float64) Inductance { return inBase[inductance](v) }

// Watts gives a power in watts.
func Watts(v float64) Power { return inBase[power](v) }

// NewtonMetres gives a torque in N·m.
func NewtonMetres(v float64) Torque { return inBase[torque](v) }

// KilogramSquareMetres gives an inertia in kg·m².
func KilogramSquareMetres(v float64) Inertia { return inBase[inertia](v) }

// Degrees gives an angle in degrees.
func Degrees(v float64) Angle { return inBase[angle](v) }

// PerSecond gives a rate in events a second.
func PerSecond(v float64) Rate { return inBase[rate](v) }

// Seconds gives a time in seconds.
func Seconds(v float64) Time { return inBase[duration](v) }

// DegreesCelsius gives a temperature in °C.
func DegreesCelsius(v float64) Temperature { return inBase[temperature](v) }

// KelvinPerWatt gives a thermal resistance in K/W.
func KelvinPerWatt(v float64) Thermal { return inBase[thermal](v) }

func inBase[D dimension](v float64) Quantity[D] { return written[D](v, kindOf[D]().base()) }

// written puts a quantity together. A -0, which a product with a switched-off
// coil gives, becomes 0: "-0 A" would only make a person at a bench wonder.
func written[D dimension](v float64, u *unit) Quantity[D] {
	if v == 0 {
		v = 0
	}
	return Quantity[D]{value: v, unit: u}
}

// Given says whether there is a value at all.
func (q Quantity[D]) Given() bool { return q.unit != nil }

// Base gives the value in the base unit of its dimension; 0 when not given.
func (q Quantity[D]) Base() float64 {
	if q.unit == nil {
		return 0
	}
	return q.unit.toBase(q.value)
}
