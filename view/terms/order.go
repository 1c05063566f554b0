package terms

var orderTheme = Theme{"the energising order", []Entry{
	{
		Word: "order", Also: []string{"energising order", "sequence", "step sequence", "energizing order", "step order", "cycle", "no-order"},
		Text: `The list of rows by which a motor is stepped, repeated for ever: forward down the list, back up it. One whole cycle carries the rotor on by one pole pair. A step that leaves the order, or leads in another order than the table was written for, makes the motor rock or skip.`,
		See:  []string{"coilwalk order", "Walk", "row", "step mode"}, Draw: drawModes,
	},
	{
		Word: "row", Also: []string{"step", "state"},
		Text: `One line of the energising order: which outputs are on together. The next row moves the field on by a full step, half a step or less, and the rotor follows it. Rates here are rows a second, and always go with a step mode.`,
		See:  []string{"Walk", "coilwalk order", "order", "rate"}, Draw: drawModes,
	},
	{
		Word: "step table", Also: []string{"table", "column"},
		Text: `The energising order as it stands in source text: rows of zeros and ones, a column for each output. It does not know its wiring: the same table is sound with one pairing of columns into coils and rocks the motor with another. The reader here takes it out of C, Rust, Python and more, and names each row that is wrong.`,
		See:  []string{"coilwalk check", "order", "outputs"},
	},
	{
		Word: "pin order", Also: []string{"plug order", "phase order", "plug", "1-3-2-4", "AABB", "ABAB", "ABBA"},
		Text: `Three orders meet at a driver: that of the pins on your board, that of the leads in the plug, and that of the phases. Plugs come as AABB, ABAB or ABBA, and in 1A 1B 2A 2B the digit may be the coil or the end: measure. A library that wants both ends of one coil first gets the pins as 1-3-2-4 where outputs 1 to 4 feed A+ B+ A- B-. Given otherwise, the motor only rocks.`,
		See:  []string{"coilwalk check", "coilwalk leads", "mapping", "swap"},
	},
	{
		Word: "step mode", Also: []string{"mode", "stepping mode", "excitation"},
		Text: `The way in which the field is led round: wave drive, full step, half step or microstep. It decides how far a row goes, how strongly it is held, and what is drawn from the supply. The rows to a turn change with it, so a figure without its mode is worth little.`,
		See:  []string{"Walk", "coilwalk order", "wave drive", "full step", "half step", "microstep"}, Draw: drawModes,
	},
	{
		Word: "wave drive", Also: []string{"wave", "one phase on", "one-phase-on", "single phase"},
		Text: `One coil end on at a time, four rows to a cycle. It draws the least and holds the least: full step holds 1.41 times as strongly. The rotor rests right under the tooth of the end that is on.`,
		See:  []string{"coilwalk order", "Walk", "full step", "step mode"}, Draw: drawWave,
	},
	{
		Word: "full step", Also: []string{"two phases on", "two-phase-on", "full", "full steps", "root 2", "√2", "1.41"},
		Text: `Two coil ends on at a time, one of each phase, four rows to a cycle. It steps as far as wave drive does but holds 1.41 times as strongly, for twice the current. The rotor rests midway between two teeth, half a step beside the places of wave drive.`,
		See:  []string{"coilwalk order", "Walk", "wave drive", "step mode"}, Draw: drawFull,
	},
	{
		Word: "half step", Also: []string{"half stepping", "half-stepping", "half steps"},
		Text: `One and two coil ends on in turn, eight rows to a cycle, so each row goes half as far. Turning is smoother, and it takes twice the rows to a turn: half steps that are counted as full turn the shaft by half. Hold alternates between 1 and 1.41, unless the current is scaled to even it out.`,
		See:  []string{"coilwalk order", "Walk", "full step", "step mode"}, Draw: drawHalf,
	},
	{
		Word: "microstep", Also: []string{"microstepping", "microsteps", "micro", "divisor", "divide"},
		Text: `A full step divided into many rows by giving the two phases shares of the current, as a sine and a cosine. Turning becomes smooth and quiet, but friction eats the smallest steps. Driver modules have a divisor: one set to 8 makes a 200-step motor want 1600 pulses to a turn.`,
		See:  []string{"coilwalk order", "Walk", "chopper", "step mode"}, Draw: drawMicro,
	},
	{
		Word: "field", Also: []string{"magnetic field", "field strength", "strength", "no field"},
		Text: `What the coils that are on do together: an arrow with a direction and a length. The rotor turns into its direction and is held the more strongly the longer it is. With both halves of a phase on, or nothing on, that phase has no field.`,
		See:  []string{"Walk", "field angle", "holding torque"}, Draw: drawField,
	},
	{
		Word: "field angle", Also: []string{"angle of the field"},
		Text: `Where the field of a row points, in electrical degrees. Alone, A+ points to 0, B+ to 90, A- to 180 and B- to 270; two ends together point midway between them. An order is sound when this angle goes on by equal steps, all one way round.`,
		See:  []string{"Walk", "coilwalk order", "electrical degree", "coil end"}, Draw: drawField,
	},
	{
		Word: "electrical degree", Also: []string{"electrical degrees", "electrical", "electrical angle", "degree", "dial"},
		Text: `An angle counted within one pole pair: once round, 360 electrical degrees, carries the rotor on by one pole pair. A full step is 90 of them. The dial on Walk is electrical, so it goes round many times for one turn of the rotor.`,
		See:  []string{"Walk", "pole pair", "field angle"}, Draw: drawField,
	},
	{
		Word: "forward", Also: []string{"reverse", "direction", "clockwise", "cw", "counter-clockwise", "ccw", "back"},
		Text: `Here forward means that the output shaft turns clockwise, seen facing its end. It goes with a rising field angle. Others may call it the other way round: exchange the two ends of one coil, or run the order backwards, and it is reversed.`,
		See:  []string{"Walk", "coilwalk order", "swap", "output shaft"},
	},
	{
		Word: "outputs", Also: []string{"output", "driver output", "pin", "pins"},
		Text: `The four places at the driver to which the motor's leads are joined, numbered 1 to 4 here. An output that is on pulls its lead to ground, or drives current through it. Output order is how your board counts them; field order is A+, B+, A-, B-.`,
		See:  []string{"Walk", "coilwalk check", "mapping", "coil end"},
	},
}}
