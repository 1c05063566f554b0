package driver

// Stages lists the stages, what a beginner is likeliest to have first. Figures
// are typical ones; a real part scatters.
var Stages = []Stage{
	{
		Name: "darlington", Title: "low-side Darlington array",
		// The straight line through the means of both makers, 0.9, 1.05 and
		// 1.25 V at 100, 200 and 350 mA, meets them within 10 mV.
		Switch: Drop{0.77, 1.4},
		// 1.7 V at 350 mA; that a diode of this kind starts near 0.8 V is
		// common practice.
		Clamp: Drop{0.8, 2.57},
		Diode: Drop{0.8, 0.5},
		Source: "data sheets of seven-channel Darlington arrays (ST Doc ID 5279 Table 4, TI SLRS027O 6.6), typical values; " +
			"the diode to ground: common practice, no source",
		sink: sinks,
	},
	{
		Name: "mosfet", Title: "low-side MOSFET",
		Switch: Drop{0, 0.022},
		Clamp:  Drop{0.8, 0.1},
		Diode:  Drop{0.8, 0.02},
		Source: "on-resistance: data sheet of a logic-level MOSFET (isc, IRLZ44N); the diodes: common practice, no source",

		channel: true, sink: sinks,
	},
	{
		Name: "bridge", Title: "H-bridge of bipolar transistors, slow decay",
		Switch: Drop{1.4, 1.15}, Diode: Drop{1.8, 0.4}, Source: bipolarBridge,
		bridge: bridges, idle: brakes,
	},
	{
		Name: "bridge-fast", Title: "H-bridge of bipolar transistors, fast decay",
		Switch: Drop{1.4, 1.15}, Diode: Drop{1.8, 0.4}, Source: bipolarBridge,
		bridge: bridges, idle: returns,
	},
	{
		Name: "mosfet-bridge", Title: "H-bridge of MOSFETs, slow decay",
		Switch: Drop{0, 0.5}, Diode: Drop{1.6, 0.1}, Source: mosfetBridge,
		channel: true, bridge: bridges, idle: brakes,
	},
	{
		Name: "mosfet-bridge-fast", Title: "H-bridge of MOSFETs, fast decay",
		Switch: Drop{0, 0.5}, Diode: Drop{1.6, 0.1}, Source: mosfetBridge,
		channel: true, bridge: bridges, idle: returns,
	},
	{
		Name: "chopper", Title: "chopper module",
		Switch: Drop{0, 0.5}, Diode: Drop{1.6, 0.1}, Source: mosfetBridge,
		channel: true, bridge: chops, idle: chopsToNone,
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
	bipolarBridge = "data sheet of a bipolar bridge (ST L298, January 2000), typical values; the diodes: common practice, no source"
	mosfetBridge  = "common practice for small modules, no source"
)
