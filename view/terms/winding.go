package terms

var windingTheme = Theme{"leads and coils", []Entry{
	{
		Word: "lead", Also: []string{"wire", "lead wire", "leads"},
		Text: `A wire that comes out of the motor. Colours differ between makers, so a colour alone tells nothing: measure, or ask the shaft. Switch the motor supply off before you move a lead, as breaking a coil's current kicks and can take the driver with it.`,
		See:  []string{"coilwalk leads", "Leads", "coil", "common"},
	},
	{
		Word: "coil", Also: []string{"winding", "coils"},
		Text: `Wire wound round the stator's teeth; current through it makes them magnets. An ohmmeter tells which two leads are one coil: they show its resistance, while leads of different coils show open. A stepper of the kind treated here has two coils, or two pairs of halves.`,
		See:  []string{"coilwalk leads", "Leads", "half-coil", "phase"}, Draw: drawFourLeads,
	},
	{
		Word: "half-coil", Also: []string{"half", "bifilar", "both-ends-on"},
		Text: `One of the two equal halves into which a coil is parted by a tap, or that come out with four leads of their own. Current from the tap through one half makes a north pole where the other half would make a south pole. Both halves on at once cancel: no field, and twice the heat.`,
		See:  []string{"coilwalk leads", "Leads", "centre tap", "unipolar"}, Draw: drawSixLeads,
	},
	{
		Word: "centre tap", Also: []string{"tap", "center tap", "tap-off-supply"},
		Text: `A lead from the middle of a coil. To each end it shows half of the resistance that the two ends show to each other. With a low-side driver it goes to the motor supply, and if it is not there nothing moves. With a bridge it stays open, and is insulated.`,
		See:  []string{"coilwalk leads", "Leads", "half-coil", "common"}, Draw: drawSixLeads,
	},
	{
		Word: "common", Also: []string{"common lead"},
		Text: `The lead at which all half-coils of a 5-lead motor meet. It shows the same, smaller resistance to every other lead, and it goes to the motor supply. That all leads are joined through it is no short.`,
		See:  []string{"coilwalk leads", "Leads", "5-lead motor", "centre tap"}, Draw: drawFiveLeads,
	},
	{
		Word: "coil end", Also: []string{"a+", "b+", "a-", "b-", "end"},
		Text: `One of the four places that a driver switches: A+ and A- are the ends of phase A, B+ and B- those of phase B. A+ alone sets the field at 0 degrees electrical, B+ at 90, A- at 180 and B- at 270. So a forward order goes A+, B+, A-, B-, and leads are named so that it does.`,
		See:  []string{"Walk", "coilwalk order", "phase", "field angle"}, Draw: drawField,
	},
	{
		Word: "phase",
		Text: `One of the two magnetic circuits of the motor, called A and B: a coil, or its two half-coils. They stand a full step apart, and the field turns because they are energised in turn. The leads of one phase can be told from the other by a meter, except on a 5-lead motor, where the shaft has to be asked.`,
		See:  []string{"coilwalk leads", "Leads", "coil end", "row"},
	},
	{
		Word: "4-lead motor", Also: []string{"4-lead", "four leads", "4 wire", "four wire"},
		Text: `Two coils, and nothing in their middle. It needs a driver that can turn the current round: two H-bridges, or a chopper module. A low-side array alone can not drive it.`,
		See:  []string{"coilwalk leads", "bipolar", "H-bridge"}, Draw: drawFourLeads,
	},
	{
		Word: "5-lead motor", Also: []string{"5-lead", "five leads", "5 wire", "five wire"},
		Text: `Four half-coils that meet in one common lead. A low-side array with the common at the supply is what it is made for. Ohms tell the common, but not which two ends are one phase: for that the shaft is asked.`,
		See:  []string{"coilwalk leads", "Leads", "common", "unipolar"}, Draw: drawFiveLeads,
	},
	{
		Word: "6-lead motor", Also: []string{"6-lead", "six leads", "6 wire", "six wire"},
		Text: `Two coils with a centre tap each. With both taps at the supply it runs from a low-side array; with the taps left open it runs from a bridge, over whole coils. Over whole coils each needs less current, but twice the voltage.`,
		See:  []string{"coilwalk leads", "coilwalk power", "centre tap", "series"}, Draw: drawSixLeads,
	},
	{
		Word: "8-lead motor", Also: []string{"8-lead", "eight leads", "8 wire", "eight wire", "half-reversed"},
		Text: `Four half-coils with both leads of each brought out. They can be joined in series, in parallel, or as a motor with taps. A meter can not tell which two halves are one phase, nor which way round they are: join them wrongly and they cancel.`,
		See:  []string{"coilwalk leads", "coilwalk power", "series", "parallel"}, Draw: drawEightLeads,
	},
	{
		Word: "unipolar", Also: []string{"unipolar drive"},
		Text: `Driven through one half of a coil at a time, always with current from the tap to an end. Four simple switches are enough, one for each end. Only half of the copper works at a time, so it holds less than the same motor driven over whole coils at the same heat.`,
		See:  []string{"Walk", "coilwalk power", "low-side switch", "bipolar"}, Draw: drawUnipolar,
	},
	{
		Word: "bipolar", Also: []string{"bipolar drive"},
		Text: `Driven over whole coils, with current that goes either way. Each coil needs an H-bridge. A motor with 4 leads can be driven in no other way; one with taps or eight leads can be driven so too.`,
		See:  []string{"Walk", "coilwalk power", "H-bridge", "unipolar"}, Draw: drawBridge,
	},
	{
		Word: "series",
		Text: `The two halves of a coil joined one after the other, from end to end. Resistance doubles and inductance grows fourfold, so less current does, but it rises more slowly and fast rates suffer. A series resistor, by another use of the word, stands in line with a coil to limit its current.`,
		See:  []string{"coilwalk power", "Power", "parallel", "inductance"},
	},
	{
		Word: "parallel",
		Text: `The two halves of an 8-lead coil joined side by side, equal ends together. Resistance is halved and the current is larger, but it rises quickly, which helps at fast rates. Joined the wrong way round the halves cancel and the driver sees little but a short: let the program tell which leads go together.`,
		See:  []string{"coilwalk power", "coilwalk leads", "series", "8-lead motor"},
	},
	{
		Word: "ohmmeter", Also: []string{"meter", "multimeter", "reading", "open", "resistance"},
		Text: `A meter for resistance; each reading is taken between two leads, with the motor off everything and its shaft at rest. Open, often shown as OL, means that nothing connects the two. Readings tell coils, taps and the common, and a coil that is broken or shorted.`,
		See:  []string{"coilwalk leads", "Leads", "coil"},
	},
	{
		Word: "kick", Also: []string{"kick test", "inductive kick"},
		Text: `The voltage of a coil jumps when its current is broken. That kills a driver without clamp diodes, and stings fingers on bare ends. A kick is also a test that asks the shaft for the leads. One lead is energised and a second is added: the rotor ticks one way, the other, or not at all.`,
		See:  []string{"coilwalk leads", "Leads", "clamp diode", "shaft test"},
	},
	{
		Word: "shaft test", Also: []string{"tests", "run test", "pulse test", "stiff test", "short test", "lamp test", "stiff", "lamp"},
		Text: `What is done with leads and shaft to find out which lead goes where. Kick adds one lead to another, and the rotor ticks one way or the other. Run energises four leads in turn, both ways; pulse touches a cell to one half-coil and a meter to another. Stiff and short turn the shaft by hand while two leads are energised, or joined. Lamp looks which output's lamp a row lights, with no motor plugged in.`,
		See:  []string{"coilwalk leads", "Leads", "kick", "mapping"},
	},
	{
		Word: "mapping", Also: []string{"wiring"},
		Text: `Which lead is on which output of the driver, and so which coil end each output feeds. Of the 24 ways to plug four leads, 4 turn the motor forward, 4 turn it back, and in the other 16 it only rocks. The order of the pins on a board, of the holes in a plug, and of the phases are three different things.`,
		See:  []string{"coilwalk leads", "Leads", "outputs", "swap"},
	},
	{
		Word: "swap", Also: []string{"exchange", "swapped leads", "outputs-permuted", "direction-reversed"},
		Text: `To exchange the leads on two outputs. Of the six exchanges two reverse a motor that turns: those of the two ends of one coil; they never cure one that rocks. The other four make a motor that turns rock; and if it rocks, two of them cure it, one turning it forward and one back. Supply off first.`,
		See:  []string{"Walk", "Faults", "coilwalk faults", "mapping"},
	},
}}
