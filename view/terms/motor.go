package terms

var motorTheme = Theme{"the motor", []Entry{
	{
		Word: "stepper motor", Also: []string{"stepping motor", "step motor", "motor"},
		Text: `A motor that turns by a fixed angle for each row of its energising order, and holds there while current flows. Nothing tells it where it is: it goes where the coils pull, or it fails without a word. So the order, the wiring and the rate have to be right, and this program checks each of them.`,
		See:  []string{"coilwalk motors", "Walk", "step angle", "row"},
	},
	{
		Word: "rotor",
		Text: `The part that turns: a magnet, or toothed iron around a magnet, with north and south poles in turn. Coils pull its poles under the teeth that they magnetise. With gears, the rotor turns many times for one turn of the output shaft, so a single step of it may be too small to see there.`,
		See:  []string{"Walk", "stator", "pole pair", "output shaft"}, Draw: drawGap,
	},
	{
		Word: "stator",
		Text: `The part that stands still: iron teeth with coils around them, about the rotor. A coil with current makes north poles of its teeth at one end and south poles at the other. On Walk the air gap shows the stator's teeth above and the rotor's poles below.`,
		See:  []string{"Walk", "tooth", "air gap"}, Draw: drawGap,
	},
	{
		Word: "air gap",
		Text: `The narrow space between stator and rotor, across which they pull. On Walk it is drawn unrolled: teeth in a row above, poles in a row below, so that one sees what lines up with what. A tooth marked N draws the rotor's south poles, one marked S its north poles.`,
		See:  []string{"Walk", "tooth", "pole pair"}, Draw: drawGap,
	},
	{
		Word: "tooth", Also: []string{"teeth", "claw"},
		Text: `A finger of iron that carries a coil's field to the rotor. Count the teeth of an opened motor and you know its step angle. One ring of a can motor has as many teeth as the rotor has pole pairs. Teeth of gears are counted too, for the exact ratio of the train.`,
		See:  []string{"coilwalk shaft", "Shaft", "pole pair", "step angle", "ratio"}, Draw: drawGap,
	},
	{
		Word: "ring",
		Text: `One of the toothed rings of a can motor: there are two to a phase, bent around its coil, and four in all. Rings times teeth gives the full steps to a rotor turn. The word is also used of a rotor that swings about its rest: see overshoot.`,
		See:  []string{"coilwalk shaft", "Shaft", "can motor", "overshoot"},
	},
	{
		Word: "pole pair", Also: []string{"pole", "pole pitch", "pole pairs"},
		Text: `A north pole of the rotor and the south pole beside it. Four full steps carry the rotor on by one pole pair, so the full steps to a rotor turn are four times the pole pairs. After that every tooth looks as before, which is why a rotor that slips always slips by a whole pole pair.`,
		See:  []string{"Walk", "coilwalk motors", "electrical degree", "lost steps"}, Draw: drawGap,
	},
	{
		Word: "can motor", Also: []string{"can-stack motor", "tin-can motor", "permanent-magnet motor"},
		Text: `A cheap stepper whose stator is two sheet-metal cans with claw teeth, around a magnet rotor. Steps are large, often 48 or fewer to a turn, and gears often follow. Its friction and detent are large beside its torque, so it hardly rings.`,
		See:  []string{"coilwalk motors", "hybrid", "ring", "train"},
	},
	{
		Word: "hybrid", Also: []string{"hybrid motor", "hybrid stepper"},
		Text: `A stepper whose rotor is a magnet between two toothed iron cups, shifted by half a tooth. With 50 rotor teeth it makes 200 full steps to a turn. It is strong and fine, but lightly damped: it rings, and resonance can make it fail in a band of rates.`,
		See:  []string{"coilwalk motors", "Rates", "resonance", "can motor"},
	},
	{
		Word: "step angle", Also: []string{"full step angle", "steps per turn", "resolution", "rotor turn"},
		Text: `The angle by which one full step turns the rotor: 360 degrees divided by four times the pole pairs. Data sheets sometimes print the half-step angle instead, so a factor of exactly two is explained before a count is called wrong. Divide by the train's ratio to have it at the output shaft.`,
		See:  []string{"coilwalk shaft", "coilwalk order", "Shaft", "pole pair", "ratio"},
	},
	{
		Word: "output shaft", Also: []string{"shaft"},
		Text: `The shaft that your load hangs on; without gears it is the rotor's own. Forward means that it turns clockwise, seen facing its end. Keep fingers out of a geared shaft: it is slow, but strong enough to pinch.`,
		See:  []string{"coilwalk shaft", "Shaft", "train", "forward"},
	},
	{
		Word: "inertia", Also: []string{"moment of inertia"},
		Text: `How hard a turning thing is to speed up and to stop. More inertia on the shaft lowers the rate at which the motor can start and stop, but not by itself the rate that it follows once it turns. If a data sheet does not give it, it is estimated here and marked so.`,
		See:  []string{"coilwalk rates", "Rates", "start-stop rate", "ramp"},
	},
	{
		Word: "friction", Also: []string{"dry friction", "dead zone"},
		Text: `What holds a thing back merely because it turns or is about to. It lets the rotor come to rest a little beside its true place, anywhere within a dead zone. It also damps swings, so a motor with much friction hardly rings.`,
		See:  []string{"Walk", "coilwalk rates", "load angle", "damping"},
	},
	{
		Word: "load", Also: []string{"load torque"},
		Text: `The torque that the shaft has to work against: a weight, a spring, a flap in the wind. It turns the rotor back from its place by the load angle, and lowers every rate that the motor follows. Support a load that could fall before you switch the coils off: nothing else may hold it.`,
		See:  []string{"coilwalk rates", "Rates", "load angle", "holding torque"},
	},
}}
