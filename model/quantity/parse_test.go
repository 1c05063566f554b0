package quantity

import (
	"math"
	"slices"
	"strings"
	"testing"
)

// reading is a text, what it comes to in the base unit, and how it is printed.
type reading struct {
	dimension, text string
	base            float64
	printed         string
}

// conversions: the base values are worked out by hand from the source, not with
// the program's table. A source holds for the rows below it.
var conversions = []reading{
	// The base unit itself.
	{"voltage", "12 V", 12, "12 V"},
	{"current", "0.35 A", 0.35, "0.35 A"},
	{"resistance", "52 ohm", 52, "52 ohm"},
	{"inductance", "1 H", 1, "1 H"},
	{"power", "3 W", 3, "3 W"},
	{"torque", "0.4 N.m", 0.4, "0.4 N.m"},
	{"inertia", "0.001 kg.m2", 0.001, "0.001 kg.m2"},
	{"angle", "11.25 deg", 11.25, "11.25 deg"},
	{"rate", "600 /s", 600, "600 /s"},
	{"time", "2 s", 2, "2 s"},
	{"temperature", "25 °C", 25, "25 °C"},

	// Definition of the prefix (SI brochure, 9th edition, table 7).
	{"voltage", "250 mV", 0.25, "250 mV"},
	{"voltage", "1.5 kV", 1500, "1.5 kV"},
	{"current", "82 mA", 0.082, "82 mA"},
	{"current", "40 uA", 40e-6, "40 uA"},
	{"resistance", "1.2 kohm", 1200, "1.2 kohm"},
	{"resistance", "5 mohm", 0.005, "5 mohm"},
	{"resistance", "5 Mohm", 5e6, "5 Mohm"},
	{"inductance", "3.2 mH", 0.0032, "3.2 mH"},
	{"inductance", "470 uH", 470e-6, "470 uH"},
	{"power", "750 mW", 0.75, "750 mW"},
	{"power", "2 kW", 2000, "2 kW"},
	{"torque", "34 mN.m", 0.034, "34 mN.m"},
	{"torque", "7 uN.m", 7e-6, "7 uN.m"},
	{"torque", "3.4 N.cm", 0.034, "3.4 N.cm"},
	{"torque", "340 mN.cm", 0.0034, "340 mN.cm"},
	{"time", "5 ms", 0.005, "5 ms"},
	{"time", "250 us", 250e-6, "250 us"},
	{"time", "200 ns", 200e-9, "200 ns"},
	{"rate", "1.2 kHz", 1200, "1.2 kHz"},
	{"rate", "16 MHz", 16e6, "16 MHz"},
	{"inertia", "22 g.cm2", 22e-7, "22 g.cm2"}, // 1e-3 kg × (1e-2 m)²
	{"inertia", "3 kg.cm2", 3e-4, "3 kg.cm2"},  // (1e-2 m)²
	{"inertia", "900 g.mm2", 9e-7, "900 g.mm2"},

	// Conversion from the standard gravity 9.80665 m/s2, CGPM 1901:
	// 300 gf.cm = 29.42 mN.m, and 34.3 mN.m = 349.8 gf.cm (see TestGramForce).
	{"torque", "300 gf.cm", 0.02941995, "300 gf.cm"},
	{"torque", "1 kgf.cm", 0.0980665, "1 kgf.cm"},
	{"torque", "2 kgf.m", 19.6133, "2 kgf.m"},

	// 0.45359237 kg / 16 × 9.80665 m/s2 × 0.0254 m (yard and pound agreement 1959).
	{"torque", "1 ozf.in", 0.007061551814226, "1 ozf.in"},
	{"torque", "100 ozf.in", 0.7061551814226, "100 ozf.in"},

	// Definition: one turn is 360 deg or 2π rad, one arcmin 1/60 deg.
	{"angle", "2 turn", 720, "2 turn"},
	{"angle", "1 rad", 57.29577951308232, "1 rad"},
	{"angle", "3141.592653589793 mrad", 180, "3141.592653589793 mrad"},
	{"angle", "90 arcmin", 1.5, "90 arcmin"},

	// Definition: one hertz is one per second.
	{"rate", "50 Hz", 50, "50 Hz"},

	// Non-SI units accepted (SI brochure, 9th edition, table 8).
	{"time", "1.5 min", 90, "1.5 min"},
	{"time", "2 h", 7200, "2 h"},

	// Definition of the degree Celsius: t = T - 273.15 K.
	{"temperature", "300 K", 26.85, "300 K"},
	{"temperature", "0 K", -273.15, "0 K"},
	{"temperature", "-273.15 °C", -273.15, "-273.15 °C"},
}

// spellings are other ways to write what the conversions have.
var spellings = []reading{
	// Numbers.
	{"voltage", "12V", 12, "12 V"},
	{"voltage", "  12   V ", 12, "12 V"},
	{"voltage", "12\u00a0V", 12, "12 V"}, // the blank that does not break, from a data sheet
	{"voltage", "-12 V", -12, "-12 V"},
	{"voltage", "+12 V", 12, "12 V"},
	{"voltage", "\u221212 V", -12, "-12 V"}, // the minus of a data sheet
	{"voltage", "-0 V", 0, "0 V"},
	{"voltage", "007.50 V", 7.5, "7.5 V"},
	{"voltage", ".5 V", 0.5, "0.5 V"},
	{"voltage", "5. V", 5, "5 V"},
	{"voltage", "1e-3 V", 0.001, "0.001 V"},
	{"voltage", "1.5E+3V", 1500, "1500 V"},
	{"voltage", "1,5 V", 1.5, "1.5 V"},
	{"voltage", "-1,25e1 V", -12.5, "-12.5 V"},
	{"voltage", "1,5000 V", 1.5, "1.5 V"},
	{"voltage", "1500,25 V", 1500.25, "1500.25 V"},
	{"voltage", "1e15 V", 1e15, "1e15 V"},
	{"voltage", "2.5e-9 V", 2.5e-9, "2.5e-9 V"},
	{"voltage", "0.000001 V", 1e-6, "0.000001 V"},
	{"voltage", "0e999 V", 0, "0 V"},

	// Capitals.
	{"voltage", "12 v", 12, "12 V"},
	{"voltage", "1 KV", 1000, "1 kV"},
	{"current", "5 ma", 0.005, "5 mA"},
	{"current", "5 UA", 5e-6, "5 uA"},
	{"torque", "34 mNM", 0.034, "34 mN.m"},
	{"torque", "1 Kg.Cm", 0.0980665, "1 kgf.cm"},
	{"time", "1 MIN", 60, "1 min"},
	{"resistance", "5 mOhm", 0.005, "5 mohm"},
	{"resistance", "5 MOhm", 5e6, "5 Mohm"},
	{"rate", "2 KHZ", 2000, "2 kHz"},

	// Resistance: signs and shorthand.
	{"resistance", "52 \u03a9", 52, "52 ohm"}, // Greek omega
	{"resistance", "52\u2126", 52, "52 ohm"},  // ohm sign
	{"resistance", "1.2 k\u03a9", 1200, "1.2 kohm"},
	{"resistance", "5 m\u2126", 0.005, "5 mohm"},
	{"resistance", "5 M\u2126", 5e6, "5 Mohm"},
	{"resistance", "1.2k ohm", 1200, "1.2 kohm"},
	{"resistance", "5 m ohm", 0.005, "5 mohm"},
	{"resistance", "5 M\u03a9", 5e6, "5 Mohm"},
	{"resistance", "5 M ohm", 5e6, "5 Mohm"},
	{"resistance", "1.2k", 1200, "1.2 kohm"},
	{"resistance", "1.2 K", 1200, "1.2 kohm"},
	{"resistance", "1M", 1e6, "1 Mohm"},
	{"resistance", "52R", 52, "52 ohm"},

	// Micro sign and Greek mu.
	{"current", "40 \u00b5A", 40e-6, "40 uA"},
	{"time", "40\u03bcs", 40e-6, "40 us"},

	// Separators of products.
	{"torque", "34 mNm", 0.034, "34 mN.m"},
	{"torque", "34 mN\u00b7m", 0.034, "34 mN.m"},
	{"torque", "34 mN\u22c5m", 0.034, "34 mN.m"}, // dot operator
	{"torque", "34 mN\tm", 0.034, "34 mN.m"},
	{"torque", "34 mN*m", 0.034, "34 mN.m"},
	{"torque", "34 mN m", 0.034, "34 mN.m"},
	{"torque", "34mN \u00b7 m", 0.034, "34 mN.m"},
	{"torque", "3.4 Ncm", 0.034, "3.4 N.cm"},
	{"torque", "1 kgcm", 0.0980665, "1 kgf.cm"},
	{"torque", "1 kg-cm", 0.0980665, "1 kgf.cm"},
	{"torque", "300 g cm", 0.02941995, "300 gf.cm"},
	{"torque", "2 kg.m", 19.6133, "2 kgf.m"},
	{"torque", "100 oz.in", 0.7061551814226, "100 ozf.in"},
	{"torque", "100 oz-in", 0.7061551814226, "100 ozf.in"},
	{"torque", "100 ozf in", 0.7061551814226, "100 ozf.in"},
	{"inertia", "22 gcm²", 22e-7, "22 g.cm2"},
	{"inertia", "22 g\u00b7cm^2", 22e-7, "22 g.cm2"},
	{"inertia", "1 kg m²", 1, "1 kg.m2"},
	{"inertia", "900 g mm2", 9e-7, "900 g.mm2"},

	// Words.
	{"angle", "11.25°", 11.25, "11.25 deg"},
	{"angle", "1 degree", 1, "1 deg"},
	{"angle", "2 degrees", 2, "2 deg"},
	{"angle", "2 turns", 720, "2 turn"},
	{"rate", "600/s", 600, "600 /s"},
	{"rate", "600 rows/s", 600, "600 /s"},
	{"rate", "600 steps / s", 600, "600 /s"},
	{"rate", "1 row/s", 1, "1 /s"},
	{"rate", "1 step/s", 1, "1 /s"},
	{"rate", "600 pps", 600, "600 /s"},
	{"temperature", "25 C", 25, "25 °C"},
	{"temperature", "25 degC", 25, "25 °C"},
	{"temperature", "25 deg C", 25, "25 °C"},
	{"temperature", "25° C", 25, "25 °C"},
}

func TestReading(t *testing.T) {
	for _, c := range slices.Concat(conversions, spellings) {
		q, err := probeFor(c.dimension).parse(c.text)
		if err != nil {
			t.Errorf("%s %q: %v", c.dimension, c.text, err)
			continue
		}
		allowed := 4e-16 * math.Abs(c.base) // the two roundings of a conversion
		switch {
		case strings.HasSuffix(c.printed, " ozf.in"):
			allowed = 1e-13 * c.base // the digits written down in the table
		case strings.HasSuffix(c.printed, " K"):
			allowed = 0 // the shift is done so that no digit is lost
		}
		if got := q.Base(); math.Abs(got-c.base) > allowed || math.Signbit(got) != math.Signbit(c.base) {
			t.Errorf("%s %q is %v in the base unit, want %v", c.dimension, c.text, got, c.base)
		}
		if got := q.String(); got != c.printed {
			t.Errorf("%s %q is printed %q, want %q", c.dimension, c.text, got, c.printed)
		}
		if !q.Given() || q.Type() != c.dimension {
			t.Errorf("%s %q: given %v, type %q", c.dimension, c.text, q.Given(), q.Type())
		}
	}
}

// A wrong table that agrees with itself would pass a round trip; that every
// unit has a row worked out by hand stops it.
func TestEveryUnitHasAConversion(t *testing.T) {
	for _, p := range every {
		for i := range p.units {
			name := p.units[i].name
			if !slices.ContainsFunc(conversions, func(c reading) bool {
				return c.dimension == p.name && strings.HasSuffix(c.text, " "+name) && c.text == c.printed
			}) {
				t.Errorf("no conversion of %s in the table", name)
			}
		}
	}
}

// 34.3 mN.m = 349.8 gf.cm and 300 gf.cm = 29.42 mN.m, to the digits that data
// sheets print: conversion from the standard gravity 9.80665 m/s2, CGPM 1901.
func TestGramForce(t *testing.T) {
	a, _ := Parse[torque]("34.3 mN.m")
	b, _ := Parse[torque]("349.8 gf.cm")
	if d := math.Abs(a.Base() - b.Base()); d > 0.05*9.80665e-5 {
		t.Errorf("34.3 mN.m and 349.8 gf.cm are %v N.m apart", d)
	}
	c, _ := Parse[torque]("300 gf.cm")
	if got := c.Rounded(4); got != "29.42 mN.m" {
		t.Errorf("300 gf.cm is %s", got)
	}
}

func TestConstructors(t *testing.T) {
	units := []string{"V", "A", "ohm", "H", "W", "N.m", "kg.m2", "deg", "/s", "s", "°C"}
	for i, p := range every {
		q := p.inBase(1.5)
		if q.Base() != 1.5 || !q.Given() || q.String() != "1.5 "+units[i] {
			t.Errorf("%s: 1.5 in the base unit is %q, base %v", p.name, q, q.Base())
		}
		if s := p.inBase(math.Copysign(0, -1)).String(); s != "0 "+units[i] {
			t.Errorf("%s: -0 is %q", p.name, s)
		}
	}
}

func TestNotGiven(t *testing.T) {
	var q Torque
	text, err := q.MarshalText()
	if q.Given() || q.Base() != 0 || q.String() != "" || q.Rounded(3) != "" || len(text) != 0 || err != nil || q.Type() != "torque" {
		t.Errorf("zero value: %v %v %q %q %q %v %q", q.Given(), q.Base(), q.String(), q.Rounded(3), text, err, q.Type())
	}
	if zero, err := Parse[torque]("0 N.m"); err != nil || !zero.Given() || zero == q {
		t.Errorf("a given 0 is %v, %v", zero, err)
	}
	full := NewtonMetres(1)
	if err := full.UnmarshalText(nil); err != nil || full != q {
		t.Errorf("an empty text gives %q, %v", full, err)
	}
}

func TestSet(t *testing.T) {
	var q Torque
	if err := q.Set("350 g.cm"); err != nil || q.String() != "350 gf.cm" {
		t.Errorf("Set gives %q, %v", q, err)
	}
	if err := q.Set("5 V"); err == nil || q.String() != "350 gf.cm" {
		t.Errorf("a failed Set leaves %q, %v", q, err)
	}
	if err := q.UnmarshalText([]byte("5 V")); err == nil || q.String() != "350 gf.cm" {
		t.Errorf("a failed UnmarshalText leaves %q, %v", q, err)
	}
}
