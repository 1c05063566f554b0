package terms

var trainTheme = Theme{"gears", []Entry{
	{
		Word: "train", Also: []string{"gear train", "gearbox", "gear", "gears", "geared", "reduction"},
		Text: `The gears between rotor and output shaft. They make the shaft slow and strong, and the rotor's steps small there. An odd number of meshes turns the shaft against the rotor. Never turn a geared shaft by force: its teeth are small.`,
		See:  []string{"coilwalk shaft", "Shaft", "mesh", "ratio", "backlash"}, Draw: drawGears,
	},
	{
		Word: "mesh", Also: []string{"meshes", "driving", "driven", "pinion"},
		Text: `One gear driving another. Its ratio is the driven gear's teeth over the driving gear's. Count both and give them as driving:driven, from the rotor on.`,
		See:  []string{"coilwalk shaft", "Shaft", "ratio", "train"}, Draw: drawGears,
	},
	{
		Word: "ratio", Also: []string{"gear ratio", "nominal ratio", "exact ratio", "reduction ratio"},
		Text: `Turns of the rotor for one turn of the shaft. Counted teeth give it exactly, as a fraction; the round figure that is printed is often a little wrong. Firmware that believes the round figure drifts, turn by turn.`,
		See:  []string{"coilwalk shaft", "Shaft", "drift", "mesh"}, Draw: drawGears,
	},
	{
		Word: "backlash", Also: []string{"play", "lash", "slop"},
		Text: `The play between the teeth of gears. When the motor turns round, the rotor takes it up first and the shaft stands meanwhile. Come to a place always from the same side, or send the rows that the play takes at each reversal. A single small step can vanish in it.`,
		See:  []string{"coilwalk shaft", "coilwalk rates", "Shaft", "train"}, Draw: drawBacklash,
	},
	{
		Word: "drift",
		Text: `An error of position that grows with every turn, because the firmware's figure for a turn is not the true one. It is not lost steps: it is the same each turn, and goes back when you turn back. The cure is the exact ratio and a plan that now and then sends one row more.`,
		See:  []string{"coilwalk shaft", "Shaft", "ratio", "lost steps"},
	},
}}
