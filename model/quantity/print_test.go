package quantity

import (
	"math"
	"testing"
)

func TestRounded(t *testing.T) {
	kelvin, _ := Parse[temperature]("300 K")
	weight, _ := Parse[torque]("350 gf.cm")
	for _, c := range []struct {
		q      value
		digits int
		want   string
	}{
		{Amperes(0.0817), 2, "82 mA"},
		{Ohms(1234), 2, "1.2 kohm"},
		{NewtonMetres(0.0343), 2, "34 mN.m"},
		{KilogramSquareMetres(22e-7), 2, "22 g.cm2"},
		{Degrees(11.25), 6, "11.25 deg"},
		{PerSecond(600), 3, "600 /s"},
		{PerSecond(600), 2, "600 /s"}, // zeros that only hold a place
		{PerSecond(12345), 3, "12300 /s"},
		{Degrees(7200), 3, "7200 deg"},
		{Volts(12), 3, "12 V"},
		{Volts(-0.25), 2, "-250 mV"},
		{Volts(0), 3, "0 V"},
		{Volts(math.Copysign(0, -1)), 3, "0 V"},
		{NewtonMetres(0.95), 1, "900 mN.m"}, // the float is just below 0.95
		{NewtonMetres(0), 3, "0 mN.m"},
		{Amperes(0.9996), 3, "1 A"}, // not 1000 mA
		{Amperes(0.9994), 3, "999 mA"},
		{Amperes(0.001), 3, "1 mA"},
		{Amperes(12e-6), 3, "12 uA"},
		{Amperes(3e-9), 3, "0.003 uA"},
		{Ohms(52), 2, "52 ohm"},
		{Henries(1.5), 2, "1.5 H"},
		{Watts(3), 2, "3 W"},
		{NewtonMetres(500e-6), 2, "500 uN.m"}, // not 5.1 gf.cm
		{Seconds(7200), 2, "7200 s"},
		{Ohms(0.005), 1, "5 mohm"},
		{Ohms(2.2e6), 2, "2.2 Mohm"},
		{Henries(0.0032), 2, "3.2 mH"},
		{Henries(470e-6), 3, "470 uH"},
		{Watts(0.75), 2, "750 mW"},
		{Watts(2500), 2, "2.5 kW"},
		{NewtonMetres(1.26), 2, "1.3 N.m"},
		{NewtonMetres(7e-6), 2, "7 uN.m"},
		{KilogramSquareMetres(1.4e-4), 2, "1.4 kg.cm2"},
		{KilogramSquareMetres(5e-8), 2, "0.5 g.cm2"},
		{Seconds(0.005), 2, "5 ms"},
		{Seconds(250e-6), 3, "250 us"},
		{Seconds(90), 2, "90 s"},
		{DegreesCelsius(-12.34), 3, "-12.3 °C"},
		{kelvin, 4, "26.85 °C"},
		{weight, 3, "34.3 mN.m"},
		{Amperes(1.0 / 3), 0, "300 mA"}, // fewer than one digit is none at all
		{Amperes(1.0 / 3), 99, "333.3333333333333 mA"},

		// Extreme values: an exponent, or what it is, but never a row of zeros.
		{Volts(1e20), 3, "1e17 kV"},
		{Amperes(1.5e-30), 3, "1.5e-24 uA"},
		{Volts(math.MaxFloat64), 2, "1.8e305 kV"},
		{Degrees(math.MaxFloat64), 2, "1.7976931348623157e308 deg"}, // 1.8e308 is no float
		{Ohms(math.Inf(1)), 3, "+Inf ohm"},
		{Volts(math.NaN()), 3, "NaN V"},
	} {
		if got := c.q.Rounded(c.digits); got != c.want {
			t.Errorf("%v in %d digits is %q, want %q", c.q, c.digits, got, c.want)
		}
	}
}

// The table of units is data; what its readers take for granted is held here.
func TestTable(t *testing.T) {
	if len(kinds) != len(every) {
		t.Errorf("%d kinds, %d in the tests", len(kinds), len(every))
	}
	for i := range kinds {
		k := &kinds[i]
		bases, rungs := 0, 0
		spelt := map[string]string{}
		for j := range k.units {
			u := &k.units[j]
			if u.role&base != 0 {
				bases++
				if u.times != 1 || u.over != 1 || u.shift != 0 {
					t.Errorf("%s: the base unit %s is converted", k.name, u.name)
				}
			}
			if u.role&rung != 0 {
				rungs++
			}
			for _, s := range append([]string{u.name}, u.also...) {
				if other := spelt[s]; other != "" {
					t.Errorf("%s: %q is %s and %s", k.name, s, other, u.name)
				}
				spelt[s] = u.name
				if found, owner := k.find(plainUnit(s)); found != u || owner != k {
					t.Errorf("%s: %q is not found as %s", k.name, s, u.name)
				}
			}
		}
		if bases != 1 || rungs < 1 {
			t.Errorf("%s has %d base units and %d for Rounded", k.name, bases, rungs)
		}
	}
}
