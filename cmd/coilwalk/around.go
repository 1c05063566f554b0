package main

// What goes for every command, in the help and in the manual.
const (
	exits = `0 done, or sound; 1 a finding, as a table that is not sound, a
recording with faults, or a rate that is not followed; 2 bad input or usage; 3 a
fault of coilwalk's own; 4 the link to a real motor failed; 128 and the number of
the signal that ended it.`

	environment = `NO_COLOR, set to anything, leaves colours out. COILWALK_CONFIG names the folder of
the settings, else it is coilwalk under XDG_CONFIG_HOME, else where the system
keeps such.`

	keptFiles = `In the folder of the settings: settings.toml, what is wanted each time, as a
theme; keys.toml, other keys (coilwalk keys prints one to start from). Both may be
left out. A motor file (coilwalk motors new) and a stage file lie where you like.`

	leftTerminal = `A terminal is put back after everything but kill -9: then type reset.`

	cautions = `Switch the motor supply off before a motor lead is plugged or unplugged. Windings
and drivers get hot, gears pinch. Keep to your local codes, and leave mains to
licensed people.`

	around = "Exit status: " + exits + "\n\n" + environment + " " + leftTerminal + "\n\n" + cautions
)
