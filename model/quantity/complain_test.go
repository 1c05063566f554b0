package quantity

import (
	"math"
	"strings"
	"testing"
)

var faults = []struct{ dimension, text, message string }{
	// No unit, for each dimension: which units are told, and which first.
	{"voltage", "52", "52 has no unit; write V, mV or kV, as in 52 V"},
	{"current", "52", "52 has no unit; write A, mA or uA, as in 52 A"},
	{"resistance", "52", "52 has no unit; write ohm, kohm or mohm, as in 52 ohm"},
	{"inductance", "52", "52 has no unit; write mH, uH or H, as in 52 mH"},
	{"power", "52", "52 has no unit; write W, mW or kW, as in 52 W"},
	{"torque", "52", "52 has no unit; write mN.m, N.m, N.cm, gf.cm, kgf.cm or ozf.in, as in 52 mN.m"},
	{"inertia", "52", "52 has no unit; write g.cm2, kg.cm2 or kg.m2, as in 52 g.cm2"},
	{"angle", "52", "52 has no unit; write deg, rad or turn, as in 52 deg"},
	{"rate", "52", "52 has no unit; write /s, Hz, kHz or MHz, as in 52 /s"},
	{"time", "52", "52 has no unit; write s, ms, us, ns, min or h, as in 52 s"},
	{"temperature", "52", "52 has no unit; write °C or K, as in 52 °C"},
	{"resistance", " -1,5e2 ", "-1,5e2 has no unit; write ohm, kohm or mohm, as in -1,5e2 ohm"},

	// Unknown units.
	{"resistance", "52 ohmm", "52 ohmm has an unknown unit; write ohm, kohm or mohm, as in 52 ohm"},
	{"resistance", "4R7", "4R7 has an unknown unit; write ohm, kohm or mohm, as in 4 ohm"},
	{"resistance", "5 m", "5 m has an unknown unit; write ohm, kohm or mohm, as in 5 ohm"},
	{"voltage", "5 MV", "5 MV has an unknown unit; write V, mV or kV, as in 5 V"},
	{"voltage", "5 .V", "5 .V has an unknown unit; write V, mV or kV, as in 5 V"},
	{"voltage", "5 m.V", "5 m.V has an unknown unit; write V, mV or kV, as in 5 V"},
	{"voltage", "5 k V", "5 k V has an unknown unit; write V, mV or kV, as in 5 V"},
	{"voltage", "1e V", "1e V has an unknown unit; write V, mV or kV, as in 1 V"},
	{"time", "5 MS", "5 MS has an unknown unit; write s, ms, us, ns, min or h, as in 5 s"},
	{"torque", "5 MNm", "5 MNm has an unknown unit; write mN.m, N.m, N.cm, gf.cm, kgf.cm or ozf.in, as in 5 mN.m"},
	{"torque", "5 N..m", "5 N..m has an unknown unit; write mN.m, N.m, N.cm, gf.cm, kgf.cm or ozf.in, as in 5 mN.m"},

	// Units of another dimension, some of them only by their capitals.
	{"current", "12 V", "12 V is a voltage; a current is wanted: A, mA or uA"},
	{"voltage", "12 mA", "12 mA is a current; a voltage is wanted: V, mV or kV"},
	{"torque", "22 g.cm2", "22 g.cm2 is an inertia; a torque is wanted: mN.m, N.m, N.cm, gf.cm, kgf.cm or ozf.in"},
	{"inertia", "22 gcm", "22 gcm is a torque; an inertia is wanted: g.cm2, kg.cm2 or kg.m2"},
	{"temperature", "25 °", "25 ° is an angle; a temperature is wanted: °C or K"},
	{"angle", "25 °C", "25 °C is a temperature; an angle is wanted: deg, rad or turn"},
	{"time", "2 H", "2 H is an inductance; a time is wanted: s, ms, us, ns, min or h"},
	{"inductance", "2 h", "2 h is a time; an inductance is wanted: mH, uH or H"},
	{"voltage", "1.2k", "1.2k is a resistance; a voltage is wanted: V, mV or kV"},
	{"voltage", "300 K", "300 K is a temperature; a voltage is wanted: V, mV or kV"},
	{"temperature", "300 k", "300 k is a resistance; a temperature is wanted: °C or K"},
	{"power", "5 hz", "5 hz is a rate; a power is wanted: W, mW or kW"},

	// No number.
	{"power", "", "nothing is given for the power; write W, mW or kW, as in 12 W"},
	{"power", " \t", "nothing is given for the power; write W, mW or kW, as in 12 W"},
	{"power", "W", "W does not begin with a number; write W, mW or kW, as in 12 W"},
	{"power", "NaN W", "NaN W does not begin with a number; write W, mW or kW, as in 12 W"},
	{"power", "Inf W", "Inf W does not begin with a number; write W, mW or kW, as in 12 W"},
	{"power", "-inf W", "-inf W does not begin with a number; write W, mW or kW, as in 12 W"},
	{"power", "--5 W", "--5 W does not begin with a number; write W, mW or kW, as in 12 W"},
	{"power", ". W", ". W does not begin with a number; write W, mW or kW, as in 12 W"},
	{"power", "e5 W", "e5 W does not begin with a number; write W, mW or kW, as in 12 W"},

	// Numbers that are not plain.
	{"angle", "1/4 turn", "the number in 1/4 turn is not plain; write digits with at most one point, as in 1500 or 1.5"},
	{"voltage", "5-10 V", "the number in 5-10 V is not plain; write digits with at most one point, as in 1500 or 1.5"},
	{"voltage", "1_000 V", "the number in 1_000 V is not plain; write digits with at most one point, as in 1500 or 1.5"},
	{"voltage", "0x10 V", "the number in 0x10 V is not plain; write digits with at most one point, as in 1500 or 1.5"},
	{"voltage", "0x1p3 V", "the number in 0x1p3 V is not plain; write digits with at most one point, as in 1500 or 1.5"},
	{"voltage", "1 500 V", "the number in 1 500 V is not plain; write digits with at most one point, as in 1500 or 1.5"},
	{"voltage", "1.2.3 V", "the number in 1.2.3 V is not plain; write digits with at most one point, as in 1500 or 1.5"},
	{"voltage", "1,234,567 V", "the number in 1,234,567 V is not plain; write digits with at most one point, as in 1500 or 1.5"},
	{"voltage", "1.234,5 V", "the number in 1.234,5 V is not plain; write digits with at most one point, as in 1500 or 1.5"},
	{"voltage", "12, V", "the number in 12, V is not plain; write digits with at most one point, as in 1500 or 1.5"},
	{"voltage", "1e3.5 V", "the number in 1e3.5 V is not plain; write digits with at most one point, as in 1500 or 1.5"},
	{"voltage", "1e3,5 V", "the number in 1e3,5 V is not plain; write digits with at most one point, as in 1500 or 1.5"},

	// A comma that may be either.
	{"voltage", "1,500 V", "1,500 can be read in two ways; write 1.5 or 1500"},
	{"voltage", "1,500", "1,500 can be read in two ways; write 1.5 or 1500"},
	{"voltage", "-0,125e2 V", "-0,125e2 can be read in two ways; write -0.125e2 or -125e2"},
	{"voltage", "2,000 V", "2,000 can be read in two ways; write 2 or 2000"},
	{"voltage", "0,000 V", "0,000 can be read in two ways; write 0 or 0"},

	// Size.
	{"voltage", "1.001e15 V", "1.001e15 V is too large; numbers up to 1e15 are taken"},
	{"voltage", "-2e15 V", "-2e15 V is too large; numbers up to 1e15 are taken"},
	{"voltage", "1e999 V", "1e999 V is too large; numbers up to 1e15 are taken"},
	{"voltage", "1e99999999999999999999 V", "1e99999999999999999999 V is too large; numbers up to 1e15 are taken"},
	{"voltage", "1e-999 V", "1e-999 V is too close to zero to be told from it; write 0 if that is meant"},
	{"temperature", "-273.16 °C", "-273.16 °C is below absolute zero, -273.15 °C"},
	{"temperature", "-1 K", "-1 K is below absolute zero, 0 K"},

	// What a terminal must not get, and what is too long to show.
	{"voltage", "5 \x1b[2JV", `5 \u001b[2JV has an unknown unit; write V, mV or kV, as in 5 V`},
	{"voltage", "5\nV", `5\u000aV has an unknown unit; write V, mV or kV, as in 5 V`},
	{"voltage", "\xff", "? does not begin with a number; write V, mV or kV, as in 12 V"},
	{"voltage", strings.Repeat("1", 50) + "V", strings.Repeat("1", 40) + "… is too large; numbers up to 1e15 are taken"},
}

func TestFaults(t *testing.T) {
	for _, c := range faults {
		q, err := probeFor(c.dimension).parse(c.text)
		if err == nil {
			t.Errorf("%s %q is read as %q, want the error %q", c.dimension, c.text, q, c.message)
		} else if err.Error() != c.message || q.Given() {
			t.Errorf("%s %q:\ngot  %s\nwant %s\n(%q)", c.dimension, c.text, err, c.message, q)
		}
	}
}

// What MarshalText writes must be readable, so it refuses the rest.
func TestUnwritable(t *testing.T) {
	for _, c := range []struct {
		q       value
		message string
	}{
		{Volts(math.NaN()), "NaN V is no voltage"},
		{Volts(math.Inf(1)), "+Inf V is too large; numbers up to 1e15 are taken"},
		{Amperes(-1e16), "-1e16 A is too large; numbers up to 1e15 are taken"},
		{DegreesCelsius(-300), "-300 °C is below absolute zero, -273.15 °C"},
	} {
		if text, err := c.q.MarshalText(); err == nil || err.Error() != c.message || text != nil {
			t.Errorf("%v is written as %q, error %v; want the error %q", c.q, text, err, c.message)
		}
	}
}
