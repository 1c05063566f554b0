package terms

var troubleTheme = Theme{"what goes wrong", []Entry{
	{
		Word: "fault", Also: []string{"faults", "symptom", "odds"},
		Text: `Something wrong with wiring, driver or order. Tell what the motor does in each step mode, slowly and both ways, and the faults are ranked by how well each explains it. Odds of 80 % mean that it is right in about four of five such cases.`,
		See:  []string{"coilwalk faults", "coilwalk trouble", "Faults", "swap"},
	},
	{
		Word: "buzz", Also: []string{"buzzes", "hum", "rock", "rocks", "jitter", "vibrate", "chatter", "twitch"},
		Text: `What a motor does that is pulled to and fro: it hums and rocks, and gets nowhere. Slowly sent, it points to two leads that are swapped, a coil or output that is dead, or a wrong table. At a fast rate, it points to the rate.`,
		See:  []string{"coilwalk trouble", "coilwalk faults", "Faults", "swap"},
	},
	{
		Word: "short", Also: []string{"shorted", "shorted coil", "short circuit", "lead to case"},
		Text: `Wire that touches where it should not: turn to turn, coil to coil, or a lead to the motor's case. A shorted coil shows too little resistance and gets hot. That all leads of a 5-lead motor are joined is no short: they meet in the common.`,
		See:  []string{"coilwalk leads", "Leads", "ohmmeter", "common"},
	},
	{
		Word: "stuck", Also: []string{"stuck-low", "stuck-high", "dead output", "stuck output"},
		Text: `An output that never switches: dead, or always on. In wave drive, one dead output leaves one row of four without a field, so the motor stumbles at the same place of each cycle. Compare its pin with its lead to tell controller from driver.`,
		See:  []string{"coilwalk faults", "coilwalk read", "Faults", "outputs"},
	},
	{
		Word: "open lead", Also: []string{"open coil", "open-lead", "broken coil"},
		Text: `A lead, a plug or a coil that does not conduct: the meter shows open where it should show the coil. The motor buzzes or skips: in wave drive, one of its rows has no field. Wiggle the lead while you measure, with the supply off: a loose crimp shows only then.`,
		See:  []string{"coilwalk leads", "coilwalk faults", "Leads", "Faults", "ohmmeter"},
	},
	{
		Word: "wrong row", Also: []string{"skipped-row", "repeated-row", "rows-exchanged", "reversal", "open-wrap"},
		Text: `A row that does not belong where it stands: one skipped, sent twice, exchanged with its neighbour, or of another order. The motor jolts there, each cycle if the table is wrong, once if a loop or an index slipped. An order that does not close jolts where its end meets its beginning.`,
		See:  []string{"coilwalk check", "coilwalk read", "Table", "Recording", "step table"},
	},
	{
		Word: "number base", Also: []string{"literal-base", "octal", "hex", "binary"},
		Text: `How digits in source text are meant. In C a leading 0 makes a number octal, so 0110 is 72 and no row of four pins. Binary rows begin with 0b where the compiler takes that, else write them in hex.`,
		See:  []string{"coilwalk check", "Table", "step table"},
	},
	{
		Word: "direction command", Also: []string{"direction-unheard", "dir"},
		Text: `What tells the firmware, or a driver module, which way to go: a sign, a line, a button. If it never arrives the motor turns well, but one way only. A motor that rocks seems to ignore it as well, so look first whether it really turns.`,
		See:  []string{"coilwalk trouble", "coilwalk faults", "Faults", "Trouble", "forward"},
	},
	{
		Word: "contradiction", Also: []string{"contradicts"},
		Text: `Readings or answers that can not all be true. One of them is named, as the likeliest to be wrong: measure or ask it again before you trust the rest. Fingers on both probes, a turning shaft, or a lead that was mistaken for another are the usual reasons.`,
		See:  []string{"coilwalk leads", "Leads", "ohmmeter"},
	},
	{
		Word: "caution", Also: []string{"estimate", "estimated", "verdict", "marginal", "finding"},
		Text: `A finding that rests on estimates, so it may be wrong. Figures that your motor file does not give are estimated, and what they were taken as is said. Measure them and the caution becomes a verdict.`,
		See:  []string{"coilwalk rates", "coilwalk power", "inertia"},
	},
}}
