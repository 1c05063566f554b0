package terms

var motionTheme = Theme{"rates and motion", []Entry{
	{
		Word: "rate", Also: []string{"speed", "rows a second", "step rate", "pulse rate", "pps", "rows/s"},
		Text: `How many rows are sent in a second. In half step the same rate turns the motor half as fast as in full step, so a rate goes with its mode. From rows a second and the rows to a turn come the turns a minute of the shaft, which stand beside it here.`,
		See:  []string{"coilwalk rates", "Rates", "row", "rpm"},
	},
	{
		Word: "rpm", Also: []string{"turns a minute", "revolutions per minute"},
		Text: `Turns a minute of the output shaft. Firmware that is told rpm with a wrong figure of steps to a turn runs at another rate than you think. If a motor stalls at a harmless rpm, look at the rows a second instead.`,
		See:  []string{"coilwalk ramp", "coilwalk rates", "rate", "step angle"},
	},
	{
		Word: "start-stop rate", Also: []string{"pull-in rate", "pull-in", "start/stop rate", "pull in torque", "starting rate", "maximum starting frequency", "start rate", "starts", "fast-start"},
		Text: `The highest rate at which the motor starts from rest and stops again without losing a row. Load and inertia lower it. Ask for more at once and the motor hums, or stops dead: begin below it and speed up.`,
		See:  []string{"coilwalk rates", "Rates", "pull-out rate", "ramp"}, Draw: drawRates,
	},
	{
		Word: "pull-out rate", Also: []string{"pull-out", "pull-out torque", "stall", "follows", "running rate", "stalls"},
		Text: `The highest rate that a turning motor still follows under its load; above it, it falls out of step and stands humming. The quicker it turns, the less time a coil's current has to rise, and the more the turning rotor's own voltage works against it. More supply voltage behind a chopper, or a lower inductance, raises it. Between it and the start-stop rate lies the slew range, which only a ramp reaches.`,
		See:  []string{"coilwalk rates", "Rates", "start-stop rate", "slew"}, Draw: drawRates,
	},
	{
		Word: "slew", Also: []string{"slew range", "slewing", "slew rate"},
		Text: `The rates between start-stop and pull-out. There the motor follows once it turns, but it can not start, stop or turn round at once. Speed up into this range and slow down out of it.`,
		See:  []string{"coilwalk rates", "Rates", "ramp", "start-stop rate"}, Draw: drawRates,
	},
	{
		Word: "ramp", Also: []string{"acceleration", "speed profile", "s-curve", "steep-ramp"},
		Text: `A row-by-row plan of a move: a start rate, speeding up, a top rate, slowing down. It brings the motor into the slew range and safely out of it; too steep, it loses steps on the way. Times are whole ticks of a timer here, rounded so that nothing adds up.`,
		See:  []string{"coilwalk ramp", "coilwalk write", "slew", "tick"},
	},
	{
		Word: "tick", Also: []string{"timer", "prescale", "prescaler", "clock", "quantised-timer"},
		Text: `One count of the controller's timer: its clock divided by the prescale. Delays in whole milliseconds are coarse ticks: half of one becomes nothing, and a ramp made of them goes in jumps. A counter that is too short for the first interval needs a larger prescale.`,
		See:  []string{"coilwalk ramp", "coilwalk write", "ramp"},
	},
	{
		Word: "overshoot", Also: []string{"ringing", "settling", "swing", "step response", "ring frequency"},
		Text: `The rotor's swing beyond its new rest when a row is energised. It swings to and fro, which is called ringing, until friction and damping have eaten the swing. Rows sent in time with the ringing build it up: see resonance.`,
		See:  []string{"coilwalk rates", "Rates", "Walk", "resonance"}, Draw: drawResponse,
	},
	{
		Word: "resonance", Also: []string{"resonances", "band of rates", "hole", "mid-band resonance"},
		Text: `At rates near the rotor's own frequency, each row gives a push in time with its swing until it slips. The motor then fails in a band of rates and works below and above it. Half step or microsteps, more friction or load inertia, or passing the band quickly helps. It is often taken for bad wiring.`,
		See:  []string{"coilwalk rates", "Rates", "overshoot", "damping"}, Draw: drawResponse,
	},
	{
		Word: "damping", Also: []string{"damped", "viscous friction"},
		Text: `What takes the swing out of a rotor: friction, braking by the coils, oil, a soft coupling. A lightly damped motor rings long and is prone to resonance. It is rarely on a data sheet, so it is estimated here and marked so.`,
		See:  []string{"coilwalk rates", "overshoot", "friction"}, Draw: drawResponse,
	},
	{
		Word: "lag", Also: []string{"dynamic lag", "out of step"},
		Text: `How far the rotor is behind the field, in electrical degrees, of which a full step has 90; below zero it is ahead. At rest friction, detent and load keep it a little back. In a run it trails, the more the faster and the harder it is loaded. Once it passes half a pole pair the pull turns against the rotor, and rows are lost.`,
		See:  []string{"Walk", "load angle", "lost steps"},
	},
	{
		Word: "lost steps", Also: []string{"lost step", "lost rows", "missed steps", "skipped steps", "step loss", "slip", "skips"},
		Text: `Rows that were sent but not followed. A motor loses them in whole cycles: it slips by a pole pair, which is four full steps, and goes on as if nothing were wrong. Causes are a rate that is too high, a start too fast, too much load, resonance, or a faulty order.`,
		See:  []string{"Walk", "coilwalk rates", "coilwalk read", "pull-out rate"},
	},
	{
		Word: "position", Also: []string{"position error"},
		Text: `Where the shaft is, counted in steps from where it began. Nobody measures it: it is only true as long as no step is lost. Find a stop or a switch once after power comes on, and again when in doubt.`,
		See:  []string{"coilwalk read", "coilwalk shaft", "lost steps", "drift"},
	},
}}
