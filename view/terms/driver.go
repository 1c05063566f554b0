package terms

// Drops: 0.9 to 1.1 V at 100 to 200 mA of the usual Darlington array (data sheet
// of ST, Doc ID 5279 Rev 8, table 4), 1.8 V and more at 1 A of a bipolar bridge
// (data sheet of ST, January 2000). Classes: IEC 60085's letters as teaching
// manuals print them. Else common practice, no source.
var driverTheme = Theme{"driver and supply", []Entry{
	{
		Word: "driver", Also: []string{"driver stage", "stage", "driver board", "module"},
		Text: `What stands between the controller's pins and the motor's coils, and switches their current. Never feed a coil from a controller's pin: it gives far too little, and the kick of the coil can kill it. Never unplug a motor from a live driver.`,
		See:  []string{"coilwalk power", "Power", "low-side switch", "H-bridge", "chopper"},
	},
	{
		Word: "low-side switch", Also: []string{"sink", "sinks", "sunk", "low side switch", "sink driver", "array"},
		Text: `A switch between a coil's end and ground; the coil's other side is at the supply. Four of them drive a motor with taps or a common. They can not drive a 4-lead motor, as they can not turn the current round.`,
		See:  []string{"coilwalk power", "Walk", "unipolar", "Darlington"}, Draw: drawUnipolar,
	},
	{
		Word: "Darlington", Also: []string{"darlington array", "darlington pair"},
		Text: `Two transistors in one, as in the usual array of low-side switches: a weak pin is enough to switch it. It costs about a volt between coil and ground, so a 5 V motor gets some 4 V. The array's clamp pin goes to the motor supply.`,
		See:  []string{"coilwalk power", "low-side switch", "clamp diode", "drop"}, Draw: drawUnipolar,
	},
	{
		Word: "MOSFET", Also: []string{"fet", "transistor", "logic-level mosfet"},
		Text: `A transistor that hardly drops any voltage when it is fully on. It has to be of a kind that a controller's 3.3 or 5 V switches fully. Without clamp diodes at the coils, their kick breaks it down.`,
		See:  []string{"coilwalk power", "low-side switch", "clamp diode"},
	},
	{
		Word: "H-bridge", Also: []string{"bridge", "full bridge", "dual h-bridge", "half-bridge", "small-bridge", "mosfet-bridge"},
		Text: `Four switches around a coil, so that current can be sent through it either way. A motor with two coils needs two. With both sides alike the coil is off and braked. An old bridge of bipolar transistors may drop 2 V or more and get hot.`,
		See:  []string{"coilwalk power", "Walk", "bipolar", "drop"}, Draw: drawBridge,
	},
	{
		Word: "chopper", Also: []string{"chopping", "constant current", "current limit", "regulated current", "step-direction module"},
		Text: `A driver that switches a coil on and off many times within a row to keep its current at a set value. So a supply far above the motor's rated voltage is right for it: current rises quickly and fast rates are reached. Set its current before you connect a motor.`,
		See:  []string{"coilwalk power", "coilwalk rates", "sense resistor", "rated voltage"}, Draw: drawChopper,
	},
	{
		Word: "ideal source", Also: []string{"ideal", "ideal switch", "ideal current source"},
		Text: `A stage that no shop sells. On one nothing drops (ideal); the other gives each coil its set current at once, at any rate (current). They tell the best that a motor could do, and what of that the driver takes away; never plan a machine by them.`,
		See:  []string{"coilwalk rates", "coilwalk power", "driver", "drop"},
	},
	{
		Word: "sense resistor", Also: []string{"sense", "reference", "reference voltage", "current setting"},
		Text: `A small resistor through which a chopper measures the coil's current. The current is set by a reference voltage against it; modules have a tiny screw for that. Turn the screw with the motor still or the supply off, and measure the reference.`,
		See:  []string{"coilwalk power", "Power", "chopper"},
	},
	{
		Word: "clamp diode", Also: []string{"clamp", "flyback diode", "freewheeling diode", "free-wheel diode", "clamps"},
		Text: `A diode that gives a coil's current a way on when its switch opens; without it the voltage jumps until something breaks. With a low-side array its pin goes to the motor supply, not to ground. The way it leaves for the current decides how quickly a coil lets go.`,
		See:  []string{"coilwalk power", "low-side switch", "back-EMF", "decay"}, Draw: drawClamp,
	},
	{
		Word: "decay", Also: []string{"slow decay", "fast decay", "mixed decay", "bridge-fast", "mosfet-bridge-fast"},
		Text: `How a coil's current dies when its switch opens. Slow decay lets it go round in the coil and a switch; fast decay sends it back into the supply. Slow is efficient at rest; fast rates and fine microsteps want it fast.`,
		See:  []string{"coilwalk power", "clamp diode", "chopper"},
	},
	{
		Word: "current", Also: []string{"ampere", "phase current"},
		Text: `What flows through a coil that is on: supply less drop, through the coil's resistance. It makes the field, and heat, which grows with its square: half the current, a quarter of the heat. The rated current is what a phase stands for good. The stage of that name is an ideal source.`,
		See:  []string{"coilwalk power", "Power", "ohmmeter", "inductance", "ideal source"},
	},
	{
		Word: "drop", Also: []string{"voltage drop", "saturation voltage"},
		Text: `The voltage that a switch keeps for itself when it is on. The coil gets the rest of the supply, and the driver gets warm with drop times current. It weighs most with low supplies.`,
		See:  []string{"coilwalk power", "Power", "Darlington", "H-bridge"},
	},
	{
		Word: "back-EMF", Also: []string{"counter emf", "induced voltage"},
		Text: `The voltage that a turning rotor induces in the coils, against the supply. It grows with the rate and leaves less for the current, so torque falls. It also brakes a motor whose leads are joined, and pushes current into the driver when the shaft is turned by hand.`,
		See:  []string{"coilwalk rates", "pull-out rate", "inductance"},
	},
	{
		Word: "inductance",
		Text: `What makes a coil's current rise and fall slowly. Inductance over resistance is the time that it takes to about two thirds. When a row is shorter than that, the coil never gets its full current, and the motor gets weak.`,
		See:  []string{"coilwalk rates", "coilwalk power", "time constant", "back-EMF"}, Draw: drawRise,
	},
	{
		Word: "time constant", Also: []string{"l/r", "rise time"},
		Text: `The time after which 63 percent of a change have happened: inductance over resistance for a coil's current, minutes for a winding's warmth. Three of them make 95 percent. A short electrical one is what fast rates need.`,
		See:  []string{"coilwalk power", "Power", "inductance"}, Draw: drawRise,
	},
	{
		Word: "rated voltage", Also: []string{"label voltage", "rated current", "rated"},
		Text: `The voltage at which a coil takes its rated current, at rest and for good. On a plain driver the supply should be about that, plus the drop. Behind a chopper only the rated current counts, and the supply may be much higher.`,
		See:  []string{"coilwalk power", "coilwalk motors", "chopper", "drop"},
	},
	{
		Word: "supply", Also: []string{"motor supply", "power supply", "usb port", "battery"},
		Text: `Where the motor's current comes from. A board's own 5 V, a USB port or a 9 V block often gives too little. The voltage sags, and the motor is weak, skips, or resets the controller. Join the grounds of motor supply and controller, and nothing else.`,
		See:  []string{"coilwalk power", "Power", "sag"},
	},
	{
		Word: "sag", Also: []string{"supply sags", "brown-out"},
		Text: `The fall of a supply's voltage when more is drawn than it can give. Rows with two phases on suffer first: a motor that is good in wave drive and weak in full step has such a supply. Long thin wires do the same.`,
		See:  []string{"coilwalk power", "coilwalk faults", "supply"},
	},
	{
		Word: "duty", Also: []string{"duty cycle", "on time"},
		Text: `The part of the time during which something is on. For a motor it is the share of minutes in which current flows, which decides how warm it gets. For an output with a carrier it is the share of each period, which decides the current.`,
		See:  []string{"coilwalk power", "Power", "carrier", "holding current"},
	},
	{
		Word: "insulation class", Also: []string{"class", "winding temperature", "thermal class"},
		Text: `A letter that says how hot a winding's insulation may get for good: A 105, E 120, B 130, F 155, H 180 degrees Celsius. The case is cooler than the winding, but can still burn you. The winding's resistance rises as it warms, and tells its temperature.`,
		See:  []string{"coilwalk power", "Power", "holding current"},
	},
	{
		Word: "junction", Also: []string{"junction temperature", "thermal resistance"},
		Text: `The inside of a driver's chip, where its heat arises. It is hotter than its case by its watts times the thermal resistance. A chip warms within seconds, so a rest between moves does not save it.`,
		See:  []string{"coilwalk power", "Power", "drop"},
	},
	{
		Word: "active level", Also: []string{"active low", "active high", "inverted"},
		Text: `The level of a pin that switches the output on: high for most drivers, low for some. With the wrong one every row is the opposite of what was meant: three outputs are on where one should be. It is also the reason for pull resistors: pins float while a controller starts.`,
		See:  []string{"coilwalk check", "coilwalk read", "coilwalk write", "outputs"},
	},
}}
