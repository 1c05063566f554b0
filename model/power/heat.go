package power

import (
	"fmt"
	"math"

	"coilwalk/model/quantity"
	"coilwalk/model/rotor"
)

// Body is how a winding gets warm: one mass that takes the heat in and a way for
// it to the air. (The first-order model of machines at intermittent duty; common
// practice, no source.)
type Body struct {
	Thermal float64 // K/W, winding to ambient
	Seconds float64 // time constant
	Class   float64 // °C, that the insulation stands
}

// What a motor that gives nothing is taken to be.
const (
	hybridRise = 80.0 // K with two phases on at rest at the rated current (two sheets of hybrids: 80 K at most, class B)
	canRise    = 50.0 // K (sheets of two geared can motors: 40 K at 5 V and 60 K at 12 V, class A)
	// Mass × 450 J/(kg·K) of iron (from memory) × K/W: 0.28 kg and some 8 K/W of a
	// hybrid of 42 mm, 37 g and some 45 K/W of a geared can.
	hybridSeconds = 1000.0
	canSeconds    = 750.0
	manyPoles     = 25 // from which a motor is a hybrid, as in rotor's estimates
)

// body gives the motor's own figures, and estimates what they leave out. What two
// half-coils, or two coils, make of the rated current or voltage is the same heat
// in every connection.
func (q *Question) body() (Body, []rotor.Estimate) {
	f := q.Motor.Figures
	b := Body{Thermal: f.Thermal.Base(), Seconds: f.ThermalTime.Base(), Class: f.Insulation.Celsius()}
	kind, rise, seconds, class := "can motors", canRise, canSeconds, "A"
	if q.Motor.PolePairs >= manyPoles {
		kind, rise, seconds, class = "hybrids", hybridRise, hybridSeconds, "B"
	}
	var list []rotor.Estimate
	note := func(figure string, value float64, shown, why string) {
		list = append(list, rotor.Estimate{Figure: figure, Value: value, Shown: shown, Why: why})
	}
	if !f.Thermal.Given() {
		watts := q.ratedWatts(rise)
		b.Thermal = rise / watts
		note("thermal_resistance", b.Thermal, quantity.KelvinPerWatt(b.Thermal).Rounded(2),
			fmt.Sprintf("a rise of %.0f K with two phases on at the rated figures, as sheets of %s allow; %s make it", rise, kind, quantity.Watts(watts).Rounded(2)))
	}
	if !f.ThermalTime.Given() {
		b.Seconds = seconds
		note("thermal_time", seconds, fmt.Sprintf("%.0f min", seconds/60), fmt.Sprintf("mass and heat of iron, as %s have it; within a factor of two", kind))
	}
	if b.Class == 0 {
		b.Class = map[string]float64{"A": 105, "B": 130}[class]
		note("insulation", b.Class, fmt.Sprintf("class %s, %.0f °C", class, b.Class), fmt.Sprintf("usual for %s", kind))
	}
	return b, list
}

// ratedWatts gives what two phases make of the rated figures once they are warm by
// a rise: at the rated voltage, where the motor has one and no current, else at the
// rated current.
func (q *Question) ratedWatts(rise float64) float64 {
	f := q.Motor.Figures
	i, _ := q.Motor.PhaseCurrent()
	cold := f.Resistance.Base()
	if cold == 0 {
		cold = f.Voltage.Base() / i.Base()
	}
	warm := Copper(cold, sheetC, sheetC+rise)
	if f.Voltage.Given() && !f.Current.Given() {
		return 2 * f.Voltage.Base() * f.Voltage.Base() / warm
	}
	return 2 * i.Base() * i.Base() * warm
}

// Hottest is where a temperature is no longer followed, in °C: whatever it is has
// burnt.
const Hottest = 400

// settles gives the temperature that a body comes to: ambient + Rth·P(t), where the
// heat P, in W, depends on the temperature itself. It is the lowest such, which is
// reached from below; Hottest where there is none.
func settles(ambientC, thermal float64, watts func(celsius float64) float64) float64 {
	if t, ok := iterated(ambientC, thermal, watts); ok {
		return t
	}
	over := func(t float64) bool { return ambientC+thermal*watts(t) > t }
	const step = 5.0
	for from := ambientC; from < Hottest; from += step {
		if over(from + step) {
			continue
		}
		least, most := from, from+step
		for range 40 {
			if mid := (least + most) / 2; over(mid) {
				least = mid
			} else {
				most = mid
			}
		}
		return (least + most) / 2
	}
	return Hottest
}

// iterated takes the heat at a temperature for the next one, from ambient on, until
// it stays; ok is false where it does not, or goes too far.
func iterated(ambientC, thermal float64, watts func(celsius float64) float64) (t float64, ok bool) {
	t = ambientC
	for range 60 {
		next := ambientC + thermal*watts(t)
		if !(next < Hottest) {
			return 0, false
		}
		if math.Abs(next-t) < 1e-7 {
			return next, true
		}
		t = next
	}
	return 0, false
}

// Warm is the winding's temperature at a time.
type Warm struct{ Seconds, Celsius float64 }

// warmPoints is how many points the course of a temperature has.
const warmPoints = 120

// warms gives the course over a time, from ambient, by the midpoint rule:
//
//	dt/ds = (ambient + Rth·P(t) − t)/time constant
func (b Body) warms(ambientC, seconds float64, watts func(celsius float64) float64) []Warm {
	t := ambientC
	course := []Warm{{0, t}}
	h := seconds / warmPoints
	slope := func(t float64) float64 { return (ambientC + b.Thermal*watts(min(t, Hottest)) - t) / b.Seconds }
	for k := 1; k <= warmPoints; k++ {
		if h > b.Seconds/4 { // it follows at once
			t = settles(ambientC, b.Thermal, watts)
		} else {
			t = min(Hottest, t+h*slope(t+h/2*slope(t)))
		}
		course = append(course, Warm{float64(k) * h, t})
	}
	return course
}
