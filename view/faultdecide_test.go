package view

import "testing"

// Where the trials leave it between a lead that is open and two that are swapped,
// Faults says what decides, and on which screen: the meter, then the shaft.
func TestFaultsSayWhatDecides(t *testing.T) {
	e, _ := explorer(t, "vent-flap", Settings{})
	sized(e, 80, 24)
	pressAndWait(e, "F")
	f := e.screens[e.at].(*faultScreen)
	for f.faults[f.at].I != 1 || f.faults[f.at].K != 2 {
		pressAndWait(e, "down")
	}
	pressAndWait(e, "enter")
	pressAndWait(e, "m")
	shows(t, e, "41 % a lead or its coil open", "27 % two leads swapped", "ohmmeter (Leads: L): an open", "None open: ask the shaft", "which two are swapped (Leads: L, then", "not judged: your own table (coilwalk FILE)")
}

// A table of one's own that is wrong looks like a fault of wiring: the screens that ask
// of faults say that they do not judge it, and where that is done, until one is open.
func TestFaultsSayThatTheTableIsNotJudged(t *testing.T) {
	e, _ := explorer(t, "vent-flap", Settings{})
	sized(e, 80, 24)
	press(e, "U", "s", "jitters", "enter")
	shows(t, e, "as by a wrong row", "in your own table (coilwalk FILE")
	pressAndWait(e, "1")
	shows(t, e, "two leads swapped", "not judged: your own table (coilwalk FILE)")

	e, _ = explorer(t, "vent-flap", Settings{})
	sized(e, 120, 60)
	press(e, "U", "s", "jitters")
	pressAndWait(e, "enter")
	shows(t, e, "Not judged here: a wrong row in your own step table")
}
