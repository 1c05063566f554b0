package trouble

// Cautions that more than one trouble needs.
const (
	leadsCare = "Motor supply off before you move a lead or unplug the motor."
	speedCare = "Keep fingers and sleeves clear of a shaft at speed and out of gears."
	heatCare  = "A motor held at rest can burn you. Feel for heat near it before you touch it."
)

// Questions that more than one trouble asks.
var (
	askTable = Ask{Text: "Is the step table right for this wiring?", Screen: "Table", Command: "coilwalk check my-firmware.c --motor " + Motor}
	askPins  = Ask{Text: "What do the pins really do? Record the driver's four inputs.", Screen: "Recording", Command: "coilwalk read pins.vcd --motor " + Motor}
	askShaft = Ask{Text: "Which lead goes where? The shaft is asked, a test at a time.", Screen: "Leads", Shaft: true, Command: "coilwalk leads --answers answers.txt --motor " + Motor}
	askMeter = Ask{Text: "Are the coils whole? Measure between pairs of leads.", Screen: "Leads", Command: "coilwalk leads readings.csv"}
	askRate  = Ask{Text: "Is the rate too high for this motor, or for a start?", Screen: "Rates", Line: "rate", Engine: Rates, Command: "coilwalk rates --for 600 --motor " + Motor}
	askHeld  = Ask{Text: "What does it draw, held at rest, and may it?", Screen: "Power", Line: "turning", Clear: true, Engine: Power, Command: "coilwalk power --motor " + Motor}
)

// turning are troubles of a motor that does not turn as it should.
var turning = []Trouble{
	{
		Word: "buzzes", Says: "it buzzes or rocks, does not turn",
		Words: []string{"buzz", "hum", "rock", "vibrat", "jitter", "shak", "twitch", "chatter", "trembl", "shiver", "quiver", "wobbl", "rattl", "oscillat", "noise", "back and forth", "to and fro", "does not turn", "not spin"},
		First: "Take the rate away: send some 20 rows a second, without a load. If it turns then, the rate or the load is to blame; if it still rocks, look at leads, outputs and table.",
		Care:  leadsCare,
		Asks: []Ask{
			{Text: "It buzzes slowly, and both ways: what explains that?", Screen: "Faults", Told: []string{"half forward buzz", "half reverse buzz"}, Engine: Faults},
			askShaft, askTable, askMeter, askRate,
		},
	},
	{
		Word: "one-way", Says: "it turns only one way",
		Words: []string{"one way", "one direction", "only way", "same way", "same direction", "ignor", "whatever", "direction command", "dir pin"},
		First: "Ask for both ways slowly and hold it for a moment: if it then goes the other way, it is only rocking and chance or a load decides. If not, see whether the command arrives.",
		Care:  leadsCare,
		Asks: []Ask{
			{Text: "It turns one way for both commands: what explains that?", Screen: "Faults", Told: []string{"half forward cw", "half reverse cw"}, Engine: Faults},
			askPins, askShaft, askTable,
		},
	},
	{
		Word: "wrong-way", Says: "it turns the wrong way",
		Words: []string{"wrong way", "wrong direction", "backward", "reversed", "revers", "opposite", "mirror", "counter"},
		First: "Nothing is broken. Exchange the two ends of one coil at the plug, or send the order backwards. An exchange between two coils makes it rock.",
		Care:  leadsCare,
		Asks: []Ask{
			{Text: "It goes the other way for both commands: what turns it round?", Screen: "Faults", Told: []string{"half forward ccw", "half reverse cw"}, Engine: Faults},
			{Text: "Which two leads are the ends of one coil?", Screen: "Leads", Command: "coilwalk leads readings.csv"},
			{Text: "Which way does the table go?", Screen: "Table", Command: "coilwalk check my-firmware.c --direction forward --motor " + Motor},
			{Text: "Does the train turn the shaft against the rotor?", Screen: "Shaft", Line: "train", Engine: Shaft, Command: "coilwalk shaft --motor " + Motor},
		},
	},
	{
		Word: "random", Says: "it starts in a random direction",
		Words: []string{"random", "either way", "sometimes", "chance", "unpredict", "held", "reverses when"},
		First: "A row whose field points away from the rotor may throw it to either side. Hold the first row for a moment before you start; if it stays random, a coil or an output is off.",
		Care:  leadsCare,
		Asks: []Ask{
			{Text: "It turns back when held: what explains that?", Screen: "Faults", Told: []string{"half forward reverses", "half reverse reverses"}, Engine: Faults},
			askMeter, askPins, askRate,
		},
	},
	{
		Word: "nothing", Says: "it does nothing at all",
		Words: []string{"nothing", "dead", "no movement", "not move", "no motion", "silent", "does not start", "still", "broken", "no sign"},
		First: "Is the motor supply on, its ground joined with the controller's, the tap or common at the supply? Try to turn the shaft by hand, gently, with a row on: is it held?",
		Care:  leadsCare,
		Asks: []Ask{
			{Text: "It stands still slowly, and both ways: what explains that?", Screen: "Faults", Told: []string{"half forward still", "half reverse still"}, Engine: Faults},
			askMeter, askPins,
			{Text: "Can this driver and supply drive it at all?", Screen: "Power", Line: "stage", Engine: Power, Command: "coilwalk power --motor " + Motor},
			{Text: "Is a step too small to see? What is a row at the shaft?", Screen: "Shaft", Line: "train", Engine: Shaft, Command: "coilwalk shaft --mode half --motor " + Motor},
		},
	},
	{
		Word: "lamps", Says: "the lamps run, the motor does not",
		Words: []string{"lamp", "led", "light", "blink", "indicator"},
		First: "Lamps show what the inputs ask for, not what reaches the coils. Look at the plug, the common or taps, and the motor supply at the driver's own pins.",
		Care:  leadsCare,
		Asks: []Ask{
			{Text: "The lamps are right and the shaft still: what explains that?", Screen: "Faults", Told: []string{"half forward still", "half reverse still"}, Engine: Faults},
			askMeter, askShaft,
			{Text: "If the lamps only flicker, is the rate too high?", Screen: "Rates", Line: "rate", Engine: Rates, Command: "coilwalk rates --for 600 --motor " + Motor},
			{Text: "Can this driver drive this motor?", Screen: "Power", Line: "stage", Engine: Power, Command: "coilwalk power --motor " + Motor},
		},
	},
}
