package terms

var holdTheme = Theme{"how it is held", []Entry{
	{
		Word: "torque",
		Text: `The force by which something is turned, times its distance from the axle; given in newton metres. On Walk it is the pull on the rotor, in parts of what one phase holds. Through a train torque grows by the ratio, less what friction takes.`,
		See:  []string{"Walk", "coilwalk rates", "holding torque", "ratio"}, Draw: drawLoadAngle,
	},
	{
		Word: "holding torque", Also: []string{"hold", "held", "held 1.41"},
		Text: `The most that a motor at rest can bear, with two phases on at the rated current, before it slips. One phase alone holds 0.71 of that. It is a figure at rest: a turning motor gives less, and the less the faster it turns. To measure it, hang weight on a lever at the held shaft until it slips: 100 g at 5 cm is 49 mN.m. What Walk calls held is the hold of the present row beside one coil on: 1 with one, 1.41 with two at right angles.`,
		See:  []string{"Walk", "coilwalk power", "load angle", "pull-out rate"}, Draw: drawLoadAngle,
	},
	{
		Word: "detent torque", Also: []string{"detent", "cogging", "residual torque"},
		Text: `What you feel when you turn the shaft of an unpowered motor with its leads apart: small hills, one to each full step. It keeps a light load in place when the coils are off, and tugs at the rotor while it turns. With leads joined to each other the shaft is stiffer: that is braking, not detent.`,
		See:  []string{"Walk", "coilwalk rates", "coilwalk motors", "friction"}, Draw: drawDetent,
	},
	{
		Word: "rest", Also: []string{"resting place", "rest position", "settles", "equilibrium"},
		Text: `Where the rotor comes to stand under a row: where the torque on it is nothing, and grows against it on both sides. A load or friction keeps it a little beside that. Half a pole pair away the pull is nothing as well, but that is a hill: the least push sends the rotor down either side.`,
		See:  []string{"Walk", "load angle", "unstable balance"}, Draw: drawLoadAngle,
	},
	{
		Word: "unstable balance", Also: []string{"balance", "hill"},
		Text: `A row whose field points straight away from where the rotor stands. Nothing pulls it to either side, so it may go forward, back, or stay: no one can know. The program says so and does not guess. It comes of two leads swapped, a skipped row, or a start at an unlucky row.`,
		See:  []string{"Walk", "rest", "field angle"}, Draw: drawLoadAngle,
	},
	{
		Word: "load angle", Also: []string{"lag angle", "displacement angle"},
		Text: `How far a steady load turns the rotor back from its place under a row. It does not add up from step to step. At 90 electrical degrees, a whole full step, the motor pulls its hardest: a load beyond that makes it slip.`,
		See:  []string{"Walk", "coilwalk rates", "holding torque", "lag"}, Draw: drawLoadAngle,
	},
	{
		Word: "stiffness",
		Text: `How quickly the pull back grows when the rotor is turned away from its rest. Stiffness and inertia together set the frequency at which the rotor rings. A stiff hold with two coils energised is also a test: it tells that they are not halves of one phase.`,
		See:  []string{"coilwalk rates", "coilwalk leads", "rest", "overshoot"},
	},
	{
		Word: "holding current", Also: []string{"hold current", "idle current", "standstill current", "idle", "held at rest"},
		Text: `What flows while the motor stands and is held. On a plain driver it is the full current, so the motor is warmest at rest: it can burn a finger. A chopper can be set to a part of it; switching off altogether lets the load go where it likes.`,
		See:  []string{"coilwalk power", "Power", "duty", "holding torque"},
	},
}}
