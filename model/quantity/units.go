package quantity

import "math"

// One pound is 0.45359237 kg and one inch 25.4 mm by definition (international
// yard and pound agreement, 1959). One ounce is 1/16 pound; its weight under
// standard gravity is kept to the 15 digits that a float holds for certain.
const (
	ounceForce = 0.278013850953781 // N
	inch       = 0.0254            // m
)

// Standard gravity is 9.80665 m/s2 (CGPM 1901). It stands in the table without
// its decimal point, so that whole gf.cm are multiplied exactly.
const gravity = 980665 // 1e-5 m/s2

// kinds is every dimension with its units. A spelling may stand in two kinds
// ("K"); a message about a stray unit then names the first kind, so temperature
// stands before resistance.
var kinds = []kind{
	{of: voltage{}, name: "voltage", units: []unit{
		{name: "V", role: base | told | rung, times: 1, over: 1},
		{name: "mV", role: told | rung, times: 1, over: 1e3},
		{name: "kV", role: told | rung, times: 1e3, over: 1},
	}},
	{of: current{}, name: "current", units: []unit{
		{name: "A", role: base | told | rung, times: 1, over: 1},
		{name: "mA", role: told | rung, times: 1, over: 1e3},
		{name: "uA", role: told | rung, times: 1, over: 1e6},
	}},
	{of: temperature{}, name: "temperature", floor: "absolute zero", units: []unit{
		{name: "°C", role: base | told | rung, times: 1, over: 1, least: -273.15, also: []string{"C", "degC", "deg C", "° C"}},
		// 273.15 is not a float; in hundredths the shift is exact.
		{name: "K", role: told, times: 100, shift: 27315, over: 100},
	}},
	{of: resistance{}, name: "resistance", units: []unit{
		{name: "ohm", role: base | told | rung, times: 1, over: 1, also: []string{"R"}},
		{name: "kohm", role: told | rung, times: 1e3, over: 1, also: []string{"k ohm", "k", "K"}},
		{name: "mohm", role: told | rung, times: 1, over: 1e3, also: []string{"m ohm"}},
		{name: "Mohm", role: rung, times: 1e6, over: 1, also: []string{"M ohm", "M"}},
	}},
	{of: inductance{}, name: "inductance", units: []unit{
		{name: "mH", role: told | rung, times: 1, over: 1e3},
		{name: "uH", role: told | rung, times: 1, over: 1e6},
		{name: "H", role: base | told | rung, times: 1, over: 1},
	}},
	{of: power{}, name: "power", units: []unit{
		{name: "W", role: base | told | rung, times: 1, over: 1},
		{name: "mW", role: told | rung, times: 1, over: 1e3},
		{name: "kW", role: told | rung, times: 1e3, over: 1},
	}},
	// Data sheets leave the f out of kgf, gf and ozf.
	{of: torque{}, name: "torque", units: []unit{
		{name: "mN.m", role: told | rung, times: 1, over: 1e3},
		{name: "N.m", role: base | told | rung, times: 1, over: 1},
		{name: "uN.m", role: rung, times: 1, over: 1e6},
		{name: "N.cm", role: told, times: 1, over: 1e2},
		{name: "mN.cm", times: 1, over: 1e5},
		{name: "gf.cm", role: told, times: gravity, over: 1e10, also: []string{"g.cm"}},
		{name: "kgf.cm", role: told, times: gravity, over: 1e7, also: []string{"kg.cm"}},
		{name: "kgf.m", times: gravity, over: 1e5, also: []string{"kg.m"}},
		{name: "ozf.in", role: told, times: ounceForce * inch, over: 1, also: []string{"oz.in"}},
	}},
	{of: inertia{}, name: "inertia", units: []unit{
		{name: "g.cm2", role: told | rung, times: 1, over: 1e7},
		{name: "kg.cm2", role: told | rung, times: 1, over: 1e4},
		{name: "kg.m2", role: base | told | rung, times: 1, over: 1},
		{name: "g.mm2", times: 1, over: 1e9},
	}},
	{of: angle{}, name: "angle", units: []unit{
		{name: "deg", role: base | told | rung, times: 1, over: 1, also: []string{"°", "degree", "degrees"}},
		{name: "rad", role: told, times: 180, over: math.Pi},
		{name: "turn", role: told, times: 360, over: 1, also: []string{"turns"}},
		{name: "mrad", times: 180, over: 1e3 * math.Pi},
		{name: "arcmin", times: 1, over: 60},
	}},
	{of: rate{}, name: "rate", units: []unit{
		{name: "/s", role: base | told | rung, times: 1, over: 1,
			also: []string{"rows/s", "row/s", "steps/s", "step/s", "pps"}},
		{name: "Hz", role: told, times: 1, over: 1},
		{name: "kHz", role: told, times: 1e3, over: 1},
		{name: "MHz", role: told, times: 1e6, over: 1},
	}},
	{of: duration{}, name: "time", units: []unit{
		{name: "s", role: base | told | rung, times: 1, over: 1},
		{name: "ms", role: told | rung, times: 1, over: 1e3},
		{name: "us", role: told | rung, times: 1, over: 1e6},
		{name: "ns", role: told | rung, times: 1, over: 1e9},
		// The m of min is no prefix, so its case is free.
		{name: "min", role: told, times: 60, over: 1, also: []string{"Min"}},
		{name: "h", role: told, times: 3600, over: 1},
	}},
}
