package trouble

// running are troubles of a motor that turns, but not as fast, as far or as
// strongly as it should.
var running = []Trouble{
	{
		Word: "stalls", Says: "it stalls above some rate",
		Words: []string{"stall", "too fast", "fast", "speed", "above", "stops", "faster", "high rate", "scream", "whine", "whistl"},
		First: "Send it slowly: if all is well there, leads and order are right and the rate is to blame. Note the rate in rows a second, and whether it started or was brought up.",
		Care:  speedCare,
		Asks: []Ask{
			askRate,
			{Text: "Would a ramp bring it there, and from where?", Command: "coilwalk ramp --turn 90deg --rate 600/s --motor " + Motor},
			{Text: "Does the load hold it back?", Screen: "Rates", Line: "load", Engine: Rates, Command: "coilwalk rates --for 600 --load 5mN.m --motor " + Motor},
			{Text: "Does the current get up in time? Try another supply.", Screen: "Rates", Line: "supply", Command: "coilwalk rates --supply 24V --motor " + Motor},
			askPins,
		},
	},
	{
		Word: "band", Says: "it fails in a band of rates",
		Words: []string{"band", "certain", "resonan", "middle", "between", "at some speeds", "particular", "mid-range", "rough"},
		First: "That is resonance: rows that come in time with the rotor's own swing. Wiring is right if it works on both sides. Try half step, or go through the band quickly.",
		Care:  speedCare,
		Asks: []Ask{
			{Text: "Where are the holes, and how does it ring?", Screen: "Rates", Line: "step mode", Engine: Rates, Command: "coilwalk rates --mode full --motor " + Motor},
			{Text: "Does half step close them?", Screen: "Rates", Line: "step mode", Command: "coilwalk rates --mode half --motor " + Motor},
			{Text: "Does more load or inertia move them?", Screen: "Rates", Line: "inertia", Command: "coilwalk rates --inertia 20g.cm2 --motor " + Motor},
			{Text: "Did you measure how it rings? The model is then fitted to it.", Command: "coilwalk rates --ring 95 --motor " + Motor},
		},
	},
	{
		Word: "one-place", Says: "it stumbles at one place",
		Words: []string{"same place", "one place", "same point", "one point", "same spot", "one spot", "each cycle", "every cycle", "each time", "stumbl", "once a turn"},
		First: "Send row after row by hand. Where it stays, jumps or falls back in each cycle, that row is to blame, or the lead or output that is alone in it; once a shaft turn it is a tooth or the load.",
		Care:  leadsCare,
		Asks: []Ask{
			askTable, askPins,
			{Text: "It rocks in wave drive, a lead a row: what explains that?", Screen: "Faults", Told: []string{"wave forward buzz", "wave reverse buzz"}, Engine: Faults},
			askMeter,
			{Text: "Once a shaft turn? Which wheel turns so often?", Screen: "Shaft", Line: "train", Engine: Shaft, Command: "coilwalk shaft --motor " + Motor},
		},
	},
	{
		Word: "loses-steps", Says: "it loses steps or jitters",
		Words: []string{"los", "skip", "miss", "jitter", "stutter", "jerk", "uneven", "irregular", "slip", "hesitat", "now and then", "step"},
		First: "Does it slip by a pole pair, four full steps, at a start or at speed? What always comes at the same place, as by a wrong row in your own table (coilwalk FILE opens it), is another trouble: it stumbles at one place.",
		Care:  leadsCare,
		Asks: []Ask{
			{Text: "It skips slowly as well: what explains that?", Screen: "Faults", Told: []string{"half forward skips", "half reverse skips"}, Engine: Faults},
			askTable, askPins, askRate,
			{Text: "Is a ramp too steep?", Command: "coilwalk ramp --turn 90deg --rate 600/s --motor " + Motor},
			{Text: "Does the supply sag?", Screen: "Power", Line: "supply", Engine: Power, Command: "coilwalk power --supply usb --motor " + Motor},
		},
	},
	{
		Word: "drifts", Says: "it drifts over many turns",
		Words: []string{"drift", "accumulat", "position", "inaccura", "off by", "creep", "after many", "wrong angle", "overshoots the mark", "not exact", "angle"},
		First: "Mark the shaft, send ten turns, and read the mark. An error that is the same each turn is a wrong figure in the firmware; one that jumps is lost steps.",
		Care:  speedCare,
		Asks: []Ask{
			{Text: "What was asked, and what did the shaft do?", Screen: "Shaft", Line: "seen", Engine: Shaft, Command: `coilwalk shaft --observed "10 turns = 3562 deg" --motor ` + Motor},
			{Text: "Which ratio or steps to a turn does the firmware hold?", Screen: "Shaft", Line: "firmware", Command: "coilwalk shaft --believe 42:1 --motor " + Motor},
			{Text: "Is it the play, at each reversal?", Screen: "Shaft", Line: "backlash", Command: "coilwalk shaft --backlash 8deg --motor " + Motor},
			{Text: "Or are steps lost?", Screen: "Rates", Line: "rate", Engine: Rates, Command: "coilwalk rates --for 600 --motor " + Motor},
		},
	},
	{
		Word: "weak", Says: "it is weak",
		Words: []string{"weak", "no torque", "little torque", "strength", "power less", "easily", "can not lift", "cannot lift", "slips under", "feeble", "torque", "force"},
		First: "Measure the voltage at the driver while a row is on, and the current of a coil. A driver that drops 2 V, a supply that sags, or half of the coils left out makes a motor weak.",
		Care:  leadsCare,
		Asks: []Ask{
			{Text: "It is weak in each mode: what explains that?", Screen: "Faults", Told: []string{"wave forward weak", "full forward weak", "half forward weak"}, Engine: Faults},
			askHeld,
			{Text: "Does the driver take too much of the supply?", Screen: "Power", Line: "stage", Command: "coilwalk power --stage " + Stage + " --motor " + Motor},
			{Text: "Is it weak at speed only?", Screen: "Rates", Line: "load", Engine: Rates, Command: "coilwalk rates --curve --motor " + Motor},
		},
	},
	{
		Word: "hot", Says: "it gets hot",
		Words: []string{"hot", "heat", "warm", "overheat", "burn", "smell", "temperature", "smok", "melt", "cook"},
		First: "A motor draws most when it stands, so it is warmest held at rest. Too hot to hold may still be within its class; if it smells or smokes, switch off at once.",
		Care:  heatCare,
		Asks: []Ask{
			askHeld,
			{Text: "May it be held with less, or only part of the time?", Screen: "Power", Line: "on for", Command: "coilwalk power --duty 30% --motor " + Motor},
			{Text: "Where does the rotor go when the coils are switched off?", Screen: "Rates", Line: "load", Command: "coilwalk rates --motor " + Motor},
			{Text: "Is it the driver that is hot?", Screen: "Power", Line: "stage", Command: "coilwalk power --stage " + Stage + " --motor " + Motor},
			{Text: "Is a coil shorted? Measure it, cold and unplugged.", Screen: "Leads", Command: "coilwalk leads readings.csv"},
		},
	},
}
