package driver

// Stages lists the stages, what a beginner is likeliest to have first. Figures
// are typical ones; a real part scatters. "From memory" is of a data sheet that
// was not at hand.
var Stages = []Stage{
	{
		Name: "darlington", Title: "low-side Darlington array",
		// The straight line through the means of both makers, 0.9, 1.05 and
		// 1.25 V at 100, 200 and 350 mA, meets them within 10 mV.
		Switch:     Drop{0.77, 1.4},
		Typical:    Curve{{0.1, 0.9}, {0.2, 1.05}, {0.35, 1.25}}, // means of two makers
		Guaranteed: Curve{{0.1, 1.1}, {0.2, 1.3}, {0.35, 1.6}},
		// 1.7 V at 350 mA; that a diode of this kind starts near 0.8 V is
		// common practice.
		Clamp: Drop{0.8, 2.57},
		Diode: Drop{0.8, 0.5},
		Source: "two makers' data sheets of seven-channel Darlington arrays (Tables 2 to 4; 6.1 to 6.6), in a DIP; " +
			"no change with warmth, and the diode to ground: common practice, no source",
		Limits: Limits{Output: 0.5, Peak: 0.6, Together: 2.5, Most: 50, PerPackage: 4, Thermal: 70, Keep: 125, Hottest: 150},
		Input: Input{Ampere: 1.35e-3, Needs: Curve{{0.2, 2.4}, {0.25, 2.7}, {0.3, 3.0}},
			Silent: "there is no enable line; an input that is left open keeps its output off"},
		ClampsTo: "through the array's clamp diodes to its common pin, which goes to the motor supply and never to ground",
		sink:     sinks,
	},
	{
		Name: "mosfet", Title: "low-side MOSFET",
		Switch:  Drop{0, 0.022},
		Typical: Curve{{0, 0}, {1, 0.022}},
		Warm:    warmMOSFET,
		Clamp:   Drop{0.8, 0.1},
		Diode:   Drop{0.8, 0.02},
		Source: "on-resistance and voltage: a maker's data sheet of a 55 V logic-level MOSFET, at a gate of 10 V; one in a TO-220 each, 62 K/W, " +
			"and the diodes: common practice, no source",
		Limits:   Limits{Output: 10, Most: 55, PerPackage: 1, Thermal: 62, Keep: 125, Hottest: 175},
		Input:    Input{Needs: Curve{{0, 4.5}}, Silent: "there is no enable line; a gate that is left open is neither on nor off: a resistor to ground keeps it off"},
		ClampsTo: "through a diode that you have to add, from the coil end to the motor supply: a lone MOSFET has none, and breaks without",

		channel: true, sink: sinks,
	},
	{
		Name: "bridge", Title: "H-bridge of bipolar transistors, slow decay",
		Switch: Drop{1.4, 1.15}, Diode: Drop{1.8, 0.4}, Typical: bipolarTypical, Guaranteed: bipolarMost, Source: bipolarBridge,
		Limits: bipolarLimits, Input: bipolarInput, ClampsTo: bridgeDiodes,
		bridge: bridges, idle: brakes,
	},
	{
		Name: "bridge-fast", Title: "H-bridge of bipolar transistors, fast decay",
		Switch: Drop{1.4, 1.15}, Diode: Drop{1.8, 0.4}, Typical: bipolarTypical, Guaranteed: bipolarMost, Source: bipolarBridge,
		Limits: bipolarLimits, Input: bipolarInput, ClampsTo: bridgeDiodes,
		bridge: bridges, idle: returns,
	},
	{
		Name: "small-bridge", Title: "array of four half-bridges, slow decay",
		// One point is published: 1.4 V above and 1.2 V below at 600 mA, at most
		// 1.8 V each. Below it the same is taken.
		Switch: Drop{Volts: 2.6}, Diode: Drop{Volts: 2.6}, Typical: Curve{{0.6, 2.6}}, Guaranteed: Curve{{0.6, 3.6}},
		Source: "data sheet of a quad half-bridge with diodes (DIP); limits of temperature and voltage from memory",
		Limits: Limits{Output: 0.6, Peak: 1.2, Least: 4.5, Most: 36, PerPackage: 4, Thermal: 67, Keep: 125, Hottest: 150},
		Input: Input{Ampere: 0.1e-3, Needs: Curve{{0, 2.3}},
			Silent: "an enable line that is low keeps two outputs off"},
		ClampsTo: bridgeDiodes,
		bridge:   bridges, idle: brakes,
	},
	{
		Name: "mosfet-bridge", Title: "H-bridge of MOSFETs, slow decay",
		Switch: Drop{0, 0.5}, Diode: Drop{1.6, 0.1}, Typical: moduleTypical, Warm: warmMOSFET, Source: mosfetBridge,
		Limits: moduleLimits, Input: moduleInput, ClampsTo: bridgeDiodes,
		channel: true, bridge: bridges, idle: brakes,
	},
	{
		Name: "mosfet-bridge-fast", Title: "H-bridge of MOSFETs, fast decay",
		Switch: Drop{0, 0.5}, Diode: Drop{1.6, 0.1}, Typical: moduleTypical, Warm: warmMOSFET, Source: mosfetBridge,
		Limits: moduleLimits, Input: moduleInput, ClampsTo: bridgeDiodes,
		channel: true, bridge: bridges, idle: returns,
	},
	{
		Name: "chopper", Title: "chopper module",
		Switch: Drop{0, 0.5}, Diode: Drop{1.6, 0.1}, Typical: moduleTypical, Warm: warmMOSFET,
		Source: mosfetBridge + "; the setting: a maker's data sheet of such a module's part, sense resistors of 0.1 ohm; its limits from memory",
		Limits: Limits{Output: 1, Peak: 2, Least: 8, Most: 35, PerPackage: 4, Thermal: 32, Keep: 125, Hottest: 150},
		Input: Input{Ampere: 20e-6, Needs: Curve{{0, 3.5}},
			Silent: "enable has to be low, and sleep and reset high: left open, sleep may keep it silent"},
		Reference: Reference{Sense: 0.1, Gain: 8},
		ClampsTo:  bridgeDiodes,
		channel:   true, bridge: chops, idle: chopsToNone,
	},
	{
		Name: "current", Title: "ideal current source", Source: "an idealisation",
		sink: imposes, bridge: imposes, idle: imposesNone,
	},
	{
		Name: "ideal", Title: "ideal switch", Source: "an idealisation: nothing drops anywhere",
		channel: true, sink: sinks, bridge: bridges, idle: brakes,
	},
}

const (
	// Typical source and sink together 2.55 V at 1 A and 3.7 V at 2 A; the line
	// through both gives 2.0 V at half an ampere.
	bipolarBridge = "a maker's data sheet of a dual bipolar bridge (January 2000): drops, currents, 35 K/W, and a junction of 150 °C by 25 W at a case of 75 °C and 3 K/W; lowest supply and inputs from memory; " +
		"no change with warmth, and the diodes: common practice, no source"
	mosfetBridge = "common practice for small modules, no source"
	bridgeDiodes = "through the bridge's diodes back to the motor supply, which has to take it: a capacitor at the driver does"

	// On-resistance is some 1.5 times that at 25 °C at 125 °C; common practice, no
	// source.
	warmMOSFET = 0.005
)

var (
	bipolarTypical = Curve{{1, 2.55}, {2, 3.7}}
	bipolarMost    = Curve{{1, 3.2}, {2, 4.9}}
	bipolarLimits  = Limits{Output: 2, Peak: 2.5, Least: 4.8, Most: 46, PerPackage: 4, Thermal: 35, Keep: 125, Hottest: 150}
	bipolarInput   = Input{Ampere: 0.1e-3, Needs: Curve{{0, 2.3}}, Silent: "an enable line that is low keeps two outputs off; on a module a jumper holds it high"}

	moduleTypical = Curve{{0, 0}, {1, 0.5}}
	moduleLimits  = Limits{Output: 1.2, Peak: 2, Least: 2.7, Most: 10.8, PerPackage: 4, Thermal: 60, Keep: 125, Hottest: 150}
	moduleInput   = Input{Ampere: 0.1e-3, Needs: Curve{{0, 2.1}}, Silent: "a sleep or standby line that is low, or left open, keeps all outputs off"}
)
