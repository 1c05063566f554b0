package trouble

// unsure are questions of those who have not begun yet.
var unsure = []Trouble{
	{
		Word: "leads", Says: "I do not know my leads",
		Words: []string{"lead", "wire", "wiring", "colour", "color", "which goes", "plug", "connect", "pinout", "common", "centre tap", "center tap", "unknown motor"},
		First: "Take the motor off everything and measure between pairs of leads. That tells coils, taps and the common; the rest is asked of the shaft. Colours tell nothing: makers differ.",
		Care:  "Motor unplugged from everything, its shaft at rest, no finger on a probe.",
		Asks: []Ask{
			{Text: "What is this motor? The first two leads to measure are marked.", Screen: "Leads", Command: "coilwalk leads readings.csv"},
			{Text: "Which lead goes on which output? The shaft is asked.", Screen: "Leads", Shaft: true, Command: "coilwalk leads readings.csv --answers answers.txt"},
			{Text: "How is it kept for next time?", Command: "coilwalk motors new my-new-motor.toml"},
		},
	},
	{
		Word: "driver", Says: "is the driver or the supply right?",
		Words: []string{"driver", "supply", "usb", "battery", "volt", "amp", "current", "board", "bridge", "psu", "adapter", "reset", "brown"},
		First: "Look for the motor's coil resistance and its rated voltage or current: they decide. Without them, measure a coil with the motor unplugged.",
		Care:  "Never feed a coil from a controller's pin. Clamps go to the motor supply.",
		Asks: []Ask{
			{Text: "Is this driver right for this motor?", Screen: "Power", Line: "stage", Engine: Power, Command: "coilwalk power --stage " + Stage + " --motor " + Motor},
			{Text: "Does this supply do: a USB port, a battery, 12 V?", Screen: "Power", Line: "supply", Command: "coilwalk power --supply usb --motor " + Motor},
			{Text: "How fast does it go on it?", Screen: "Rates", Line: "supply", Engine: Rates, Command: "coilwalk rates --motor " + Motor},
			{Text: "How are 5, 6 or 8 leads connected best?", Screen: "Power", Line: "connected", Command: "coilwalk motors show hybrid-8"},
		},
	},
}

// All lists the troubles, the most frequent first.
func All() (all []Trouble) {
	all = append(all, turning...)
	all = append(all, running...)
	return append(all, unsure...)
}
