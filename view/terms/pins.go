package terms

var pinsTheme = Theme{"pins in time", []Entry{
	{
		Word: "recording", Also: []string{"capture", "vcd", "csv", "logic analyser", "logic analyzer", "trace"},
		Text: `Levels of pins over time, kept in a file by a logic analyser or a simulator. It shows what the firmware really sends, not what its source seems to say. Probe the driver's inputs with grounds joined: a coil's end swings to twice the supply, more than an analyser bears.`,
		See:  []string{"coilwalk read", "channel", "edge"}, Draw: drawRecording,
	},
	{
		Word: "channel",
		Text: `One recorded line. Among many channels the four outputs are found by how they behave, and why is said. If the guess is wrong, name them.`,
		See:  []string{"coilwalk read", "recording", "outputs"}, Draw: drawRecording,
	},
	{
		Word: "edge", Also: []string{"rising edge", "falling edge", "late-pin"},
		Text: `The moment at which a line changes its level. Edges that belong to one row come close together; one that comes late makes a false row for a moment. A step and direction module steps at one edge of its step line.`,
		See:  []string{"coilwalk read", "glitch", "channel"}, Draw: drawRecording,
	},
	{
		Word: "glitch", Also: []string{"spike", "runt"},
		Text: `A level that comes and goes too quickly to be meant. Short ones do not move the rotor, but they tell of something: pins written one after another, a loose lead, a missing ground. The program names the time and the line.`,
		See:  []string{"coilwalk read", "edge", "recording"}, Draw: drawGlitch,
	},
	{
		Word: "gap", Also: []string{"pause"},
		Text: `A row that stands much longer than those beside it, within a run. Something kept the firmware busy: a print, an interrupt, a wait. The motor jolts there, and at speed it may lose its step.`,
		See:  []string{"coilwalk read", "tick", "lost steps"},
	},
	{
		Word: "carrier", Also: []string{"pwm", "modulation", "pulse-width modulation"},
		Text: `A fast switching on and off by which an output gives a part of the current. It is far faster than the rows, and is taken out before rows are read. Its duty is what the motor feels.`,
		See:  []string{"coilwalk read", "duty", "microstep"},
	},
	{
		Word: "step and direction", Also: []string{"step/dir", "step-direction", "setup time", "step pulse", "enable", "short-setup", "disabled"},
		Text: `Two lines to a driver module that makes the rows itself: one edge of step is one row, direction says which way. Direction has to stand for a moment before the edge, the setup time. If enable holds the module off, steps are lost without a sign.`,
		See:  []string{"coilwalk read", "chopper", "edge"},
	},
	{
		Word: "firmware", Also: []string{"bench firmware", "firmata", "controller", "stepper source"},
		Text: `The program in the controller that sends the rows. For the bench there is one that steps as it is told on its serial line, and switches all coils off when nobody talks to it. For your own, tables and a stepping source can be written.`,
		See:  []string{"coilwalk live", "coilwalk write", "step table"},
	},
	{
		Word: "armed", Also: []string{"arm", "live", "disarmed", "all coils off"},
		Text: `Ready to energise a real motor: nothing is on before you have armed it, read the cautions and typed the word. Space switches all coils off at once and disarms. The load is free then, so support it first.`,
		See:  []string{"coilwalk live", "firmware", "load"},
	},
}}
